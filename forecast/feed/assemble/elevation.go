package assemble

import (
	"fmt"
	"math"
	"slices"

	"dawnbrush/forecast"
)

const (
	// lapse is how much colder the air of the standard atmosphere is a metre higher.
	// [ISO2533, status memory]
	lapse = 0.0065 // K/m

	// leastRise is the difference in height below which nothing is moved: 0.65 K, less
	// than forecasts err by. [chosen, status chosen]
	leastRise = 100 // m
)

// AtElevation gives a series for a garden whose height above the sea differs from
// that of the data's point: temperatures move by 6.5 K a kilometre, the dew point
// stays as far as the air can hold it, and the humidity follows from both. Heights
// that are unknown, or less than 100 m apart, change nothing; then s itself comes
// back. The rule is that of the standard atmosphere: in calm clear nights a hollow
// is colder and a slope warmer than it says.
func AtElevation(s *forecast.Series, m forecast.Value) *forecast.Series {
	garden, ok1 := m.Get()
	point, ok2 := s.Point.Elevation.Get()
	if !ok1 || !ok2 || math.Abs(garden-point) < leastRise {
		return s
	}
	shift := -lapse * (garden - point)
	out := *s
	out.Point.Elevation = m
	out.Hours = slices.Clone(s.Hours)
	for i := range out.Hours {
		moveTemp(&out.Hours[i], shift)
	}
	out.DayMax = slices.Clone(s.DayMax)
	for i := range out.DayMax {
		if v, ok := out.DayMax[i].Temp.Get(); ok {
			out.DayMax[i].Temp = forecast.Known(v + shift)
		}
	}
	words, moved := "higher", "lowered"
	if garden < point {
		words, moved = "lower", "raised"
	}
	out.Notes = append(slices.Clone(s.Notes), forecast.Note{Layer: "Temp",
		Text: fmt.Sprintf("the garden lies %.0f m %s than the point of its weather: temperatures are %s by %.1f degC (%.1f degF)",
			math.Abs(garden-point), words, moved, math.Abs(shift), math.Abs(shift)*1.8)})
	return &out
}

// moveTemp moves an hour's temperature and what hangs on it.
func moveTemp(h *forecast.Hour, shift float64) {
	t, ok := h.Temp.Get()
	if !ok {
		return
	}
	h.Temp = forecast.Known(t + shift)
	dew, ok := h.DewPoint.Get()
	if !ok {
		h.RH = forecast.Value{} // without a dew point nothing tells what the air holds
		return
	}
	dew = min(dew, t+shift)
	h.DewPoint = forecast.Known(dew)
	h.RH = forecast.Known(humidityFrom(t+shift, dew))
}
