package metno

import (
	"fmt"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/assemble"
)

// The types here mirror the schema METJSONForecast of
// https://api.met.no/weatherapi/locationforecast/2.0/swagger; only what is used is
// named, everything else is skipped while reading.

// document is the answer of /complete and /compact.
type document struct {
	Geometry struct {
		Coordinates []forecast.Value `json:"coordinates"` // longitude, latitude, height in m
	} `json:"geometry"`
	Properties struct {
		Meta struct {
			UpdatedAt string             `json:"updated_at"`
			Units     parameters[string] `json:"units"`
			Radar     jsontext.Value     `json:"radar_coverage"` // only the nowcast has it
		} `json:"meta"`
		TimeSeries []timeStep `json:"timeseries"`
	} `json:"properties"`
	Former jsontext.Value `json:"weatherdata"` // only product 1.9 has it
}

// timeStep tells of an instant and of the hours after it.
type timeStep struct {
	Time string `json:"time"`
	Data struct {
		Instant  period `json:"instant"`
		NextHour period `json:"next_1_hours"` // where the next step is an hour away
		NextSix  period `json:"next_6_hours"`
	} `json:"data"`
}

type period struct {
	Details parameters[forecast.Value] `json:"details"`
}

// parameters holds something for each quantity: its value, or its unit.
type parameters[T any] struct {
	Temp     T `json:"air_temperature"`
	TempMax  T `json:"air_temperature_max"`
	DewPoint T `json:"dew_point_temperature"`
	RH       T `json:"relative_humidity"`
	Wind     T `json:"wind_speed"` // mean of 10 minutes
	WindFrom T `json:"wind_from_direction"`
	Gust     T `json:"wind_speed_of_gust"`
	Sky      T `json:"cloud_area_fraction"`
	Rain     T `json:"precipitation_amount"` // sum of a period
	RainProb T `json:"probability_of_precipitation"`
	Thunder  T `json:"probability_of_thunder"`
}

// of gives what is held for a field.
func (p *parameters[T]) of(f assemble.Field) T {
	switch f {
	case assemble.Temp:
		return p.Temp
	case assemble.DewPoint:
		return p.DewPoint
	case assemble.RH:
		return p.RH
	case assemble.Wind:
		return p.Wind
	case assemble.WindFrom:
		return p.WindFrom
	case assemble.Gust:
		return p.Gust
	case assemble.Sky:
		return p.Sky
	case assemble.Rain:
		return p.Rain
	case assemble.RainProb:
		return p.RainProb
	case assemble.Thunder:
		return p.Thunder
	}
	var none T // sunlight, which this service does not have
	return none
}

// options read numbers as values that may be unknown. Text in a wrong encoding harms
// nothing that is used.
var options = json.JoinOptions(jsontext.AllowInvalidUTF8(true), json.WithUnmarshalers(json.UnmarshalFromFunc(readValue)))

// readValue reads a number or null.
func readValue(dec *jsontext.Decoder, v *forecast.Value) error {
	tok, err := dec.ReadToken()
	if err != nil {
		return err
	}
	switch tok.Kind() {
	case 'n':
		*v = forecast.Value{}
		return nil
	case '0':
		x, err := tok.Float()
		*v = forecast.Known(x)
		return err
	}
	return fmt.Errorf("%s stands where a number should be", tok.Kind())
}
