package station

import (
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
	"dawnbrush/risk/air"
)

// timeColumn names the column that every file has.
const timeColumn = "time"

// Column is a column that a file may have.
type Column struct {
	Name    string // in the header
	Meaning string // for help texts
	what    quantity
	convert func(float64) float64 // to the program's unit
}

// quantity says which value of an hour a column tells, how the rows of an hour
// make one, and what no instrument can have measured.
type quantity struct {
	key    string
	value  func(h *forecast.Hour) *forecast.Value
	lo, hi float64 // in the program's unit
	how    joining
}

type joining uint8

const (
	mean joining = iota
	highest
	sum
)

// The bounds are the world's records, rounded outward: whatever passes them was
// not weather. [chosen: temperature -89 and 57 degC; rain 305 mm in an hour; gust 113 m/s; the sun's own radiation above the air 1361 W/m2, a third more for clouds that mirror it]
var (
	temp      = quantity{"temperature", func(h *forecast.Hour) *forecast.Value { return &h.Temp }, -90, 60, mean}
	dewPoint  = quantity{"dew point", func(h *forecast.Hour) *forecast.Value { return &h.DewPoint }, -90, 40, mean}
	humidity  = quantity{"humidity", func(h *forecast.Hour) *forecast.Value { return &h.RH }, 0, 100, mean}
	wind      = quantity{"wind", func(h *forecast.Hour) *forecast.Value { return &h.Wind }, 0, 113, mean}
	gust      = quantity{"gust", func(h *forecast.Hour) *forecast.Value { return &h.Gust }, 0, 113, highest}
	radiation = quantity{"radiation", func(h *forecast.Hour) *forecast.Value { return &h.Radiation }, 0, 1800, mean}
	rain      = quantity{"rain", func(h *forecast.Hour) *forecast.Value { return &h.Rain }, 0, 305, sum}
)

// Columns lists what a file may tell besides the time.
func Columns() []Column {
	same := func(v float64) float64 { return v }
	low := func(v float64) float64 { return v / air.WindProfile(2) }
	lowMph := func(v float64) float64 { return low(unit.MphToMs(v)) }
	return []Column{
		{"temp_c", "air temperature, C", temp, same},
		{"temp_f", "air temperature, F", temp, unit.FtoC},
		{"dew_point_c", "dew point, C", dewPoint, same},
		{"dew_point_f", "dew point, F", dewPoint, unit.FtoC},
		{"rh", "relative humidity, %", humidity, same},
		{"wind_ms", "mean wind 10 m up, m/s", wind, same},
		{"wind_kmh", "mean wind 10 m up, km/h", wind, unit.KmhToMs},
		{"wind_mph", "mean wind 10 m up, mph", wind, unit.MphToMs},
		{"wind_2m_ms", "mean wind 2 m up, m/s; taken to 10 m", wind, low},
		{"wind_2m_mph", "mean wind 2 m up, mph; taken to 10 m", wind, lowMph},
		{"gust_ms", "strongest gust, m/s", gust, same},
		{"gust_mph", "strongest gust, mph", gust, unit.MphToMs},
		{"radiation_wm2", "sun on the flat, W/m2", radiation, same},
		{"rain_mm", "rain since the row before, mm", rain, same},
		{"rain_in", "rain since the row before, inches", rain, unit.InToMm},
	}
}

func columnNamed(name string) (Column, bool) {
	for _, c := range Columns() {
		if c.Name == name {
			return c, true
		}
	}
	return Column{}, false
}

func columnNames() string {
	names := []string{timeColumn}
	for _, c := range Columns() {
		names = append(names, c.Name)
	}
	return strings.Join(names, ", ")
}
