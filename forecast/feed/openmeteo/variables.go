package openmeteo

import (
	"strings"

	"dawnbrush/forecast/feed/assemble"
)

// host is one of the service's addresses; each has variables of its own.
type host uint8

const (
	onForecast host = 1 << iota
	onArchive
	onPrevious
	everywhere = onForecast | onArchive | onPrevious
)

// variable is a list of the hourly block.
type variable struct {
	field  assemble.Field
	name   string
	old    string // its name before October 2023, "" for the same
	behind bool   // its values are sums, means or maxima of the hour before their time
	hosts  host
}

// temperature is the variable that a series cannot do without.
const temperature = "temperature_2m"

// variables lists what is read. Temperature, humidity, wind and cloud cover are those of
// the instant; rain, sunlight, gusts and the chance of rain are those of the preceding
// hour. The chance is that of more than 0.1 mm. [OpenMeteo]
var variables = [...]variable{
	{assemble.Temp, temperature, "", false, everywhere},
	{assemble.DewPoint, "dew_point_2m", "dewpoint_2m", false, everywhere},
	{assemble.RH, "relative_humidity_2m", "relativehumidity_2m", false, everywhere},
	{assemble.Wind, "wind_speed_10m", "windspeed_10m", false, everywhere},
	{assemble.WindFrom, "wind_direction_10m", "winddirection_10m", false, onForecast | onArchive},
	{assemble.Gust, "wind_gusts_10m", "windgusts_10m", true, onForecast | onArchive},
	{assemble.Sky, "cloud_cover", "cloudcover", false, everywhere},
	{assemble.Radiation, "shortwave_radiation", "", true, everywhere},
	{assemble.RainProb, "precipitation_probability", "", true, onForecast},
	{assemble.Rain, "precipitation", "", true, everywhere},
}

// known tells whether a variable is read.
func known(name string) bool {
	for i := range variables {
		if name == variables[i].name || name == variables[i].old {
			return name != ""
		}
	}
	return false
}

// Earlier runs are told by the end of a variable's name: "temperature_2m_previous_day3" was
// forecast three days before. [OpenMeteo]
const (
	leadMark = "_previous_day"
	maxLead  = 7
)

// splitLead divides a name into the variable and the days its values were forecast ahead;
// 0 for the newest run.
func splitLead(name string) (base string, days int) {
	base, digit, ok := strings.Cut(name, leadMark)
	if !ok || len(digit) != 1 || digit[0] < '1' || digit[0] > '0'+maxLead {
		return name, 0
	}
	return base, int(digit[0] - '0')
}

// names lists the variables of a host as a question asks for them, for each lead.
func names(h host, leads ...string) string {
	var out []string
	for _, lead := range leads {
		for _, v := range variables {
			if v.hosts&h != 0 {
				out = append(out, v.name+lead)
			}
		}
	}
	return strings.Join(out, ",")
}
