package forecast_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

func flat(start time.Time, n int, set func(i int, h *forecast.Hour)) *forecast.Series {
	s := forecast.New(start, start.Add(time.Duration(n)*time.Hour))
	for i := range s.Hours {
		h := &s.Hours[i]
		h.Temp, h.Wind, h.Sky, h.Rain, h.RainProb = forecast.Known(20), forecast.Known(2), forecast.Known(0.5), forecast.Known(0), forecast.Known(0.1)
		set(i, h)
	}
	return s
}

func TestDiffer(t *testing.T) {
	start := time.Date(2026, 7, 15, 4, 0, 0, 0, time.UTC)
	same := func(int, *forecast.Hour) {}
	morning, noon := forecast.Stretch{Start: start, End: start.Add(6 * time.Hour)}, forecast.Stretch{Start: start.Add(6 * time.Hour), End: start.Add(10 * time.Hour)}
	a := flat(start, 24, same)
	assert.Empty(t, forecast.Differ(a, flat(start, 24, same), []forecast.Stretch{morning, noon}))

	b := flat(start, 24, func(i int, h *forecast.Hour) {
		if i < 6 {
			h.Temp, h.RainProb = forecast.Known(16), forecast.Known([]float64{0.1, 0.2, 0.7, 0.2, 0.1, 0.1}[i])
		}
		h.Rain, h.Wind = forecast.Known(0.5), forecast.Known(4.4)
	})
	got := forecast.Differ(a, b, []forecast.Stretch{morning, noon})
	require.Len(t, got, 4)
	assert.Equal(t, forecast.Difference{Stretch: morning, Layer: "Temp", A: 20, B: 16}, got[0])
	assert.Equal(t, forecast.Difference{Stretch: morning, Layer: "RainProb", A: 0.1, B: 0.7}, got[1])
	assert.Equal(t, forecast.Difference{Stretch: morning, Layer: "Rain", A: 0, B: 3}, got[2], "a sum")
	assert.Equal(t, "Rain", got[3].Layer, "2 mm from noon on; wind differs too little")

	short := flat(start, 2, func(_ int, h *forecast.Hour) { h.Temp = forecast.Known(0) })
	assert.Empty(t, forecast.Differ(a, short, []forecast.Stretch{morning}), "two hours of six say nothing of them")
	blind := flat(start, 24, func(_ int, h *forecast.Hour) { h.RainProb, h.Temp = forecast.Value{}, forecast.Value{} })
	assert.Empty(t, forecast.Differ(a, blind, []forecast.Stretch{morning}), "unknown differs from nothing")
}
