package assemble

import (
	"math"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
)

// Field is a quantity of an hour.
type Field uint8

// The quantities that documents hold.
const (
	Temp Field = iota
	DewPoint
	RH
	Wind
	WindFrom
	Gust
	Sky
	Radiation
	RainProb
	Thunder
	Rain // sums over a stretch of time; all others hold in every hour of it
)

// Bounds of what air near the ground can be; values outside are instrument or
// conversion faults. The records of the WMO archive of weather extremes lie
// just inside or, for places no garden is in, outside. [chosen]
const (
	minTemp, maxTemp = -60, 60 // degC
	minRH, maxRH     = 1, 100  // %; a humidity of 0 is a gap in disguise, seen at the end of a layer
	maxWind          = 75      // m/s
	maxRain          = 300     // mm in one block of 1 to 12 hours
	maxRadiation     = 1400    // W/m2, a little over the solar constant, for sun between bright clouds

	// nightLight is how far below nil radiation may lie by the rounding of models and
	// the cooling of instruments; it counts as nil. [chosen: models were seen to send -0.2 W/m2]
	nightLight = -10 // W/m2
)

// The lowest shore and the highest summit, rounded outwards, in m. [memory]
const minElevation, maxElevation = -500, 9000

// fieldSpec says how a field is named, measured and bounded.
type fieldSpec struct {
	name     string // of the Hour field, for notes
	words    string
	quantity unit.Quantity
	lo, hi   float64
	scale    float64 // from the program's unit to the field's
}

var specs = [...]fieldSpec{
	Temp:      {"Temp", "temperature", unit.Temperature, minTemp, maxTemp, 1},
	DewPoint:  {"DewPoint", "dew point", unit.Temperature, minTemp, maxTemp, 1},
	RH:        {"RH", "humidity", unit.Share, minRH, maxRH, 100},
	Wind:      {"Wind", "wind", unit.Speed, 0, maxWind, 1},
	WindFrom:  {"WindFrom", "wind direction", unit.Bearing, 0, fullCircle, 1},
	Gust:      {"Gust", "gust speed", unit.Speed, 0, maxWind, 1},
	Sky:       {"Sky", "cloud cover", unit.Share, 0, 1, 1},
	Radiation: {"Radiation", "sunlight", unit.Irradiance, nightLight, maxRadiation, 1},
	RainProb:  {"RainProb", "chance of rain", unit.Share, 0, 1, 1},
	Thunder:   {"Thunder", "chance of thunder", unit.Share, 0, 1, 1},
	Rain:      {"Rain", "rain amount", unit.Depth, 0, maxRain, 1},
}

// of gives the place of the field in an hour.
func (f Field) of(h *forecast.Hour) *forecast.Value {
	switch f {
	case Temp:
		return &h.Temp
	case DewPoint:
		return &h.DewPoint
	case RH:
		return &h.RH
	case Wind:
		return &h.Wind
	case WindFrom:
		return &h.WindFrom
	case Gust:
		return &h.Gust
	case Sky:
		return &h.Sky
	case Radiation:
		return &h.Radiation
	case RainProb:
		return &h.RainProb
	case Thunder:
		return &h.Thunder
	}
	return &h.Rain
}

// Converter gives the function that turns a document's number into the field's
// unit; impossible numbers become unknown. An unknown unit is an error.
func (f Field) Converter(code string) (func(float64) forecast.Value, error) {
	s := &specs[f]
	conv, err := unit.Converter(s.quantity, code)
	if err != nil {
		return nil, err
	}
	return func(v float64) forecast.Value {
		out := forecast.Within(scaled(conv(v), s.scale), s.lo, s.hi)
		if f == Radiation && out.IsKnown() {
			return forecast.Known(max(0, out.Or(0)))
		}
		return out
	}, nil
}

// Elevation gives an elevation in m; unknown for what no garden can have.
func Elevation(m float64) forecast.Value { return forecast.Within(m, minElevation, maxElevation) }

// scaled multiplies without leaving a trail like 56.00000000000001 %.
func scaled(v, scale float64) float64 {
	if scale == 1 {
		return v
	}
	return math.Round(v*scale*1e9) / 1e9
}
