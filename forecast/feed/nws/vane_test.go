package nws

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"dawnbrush/forecast"
)

// Arrows add up: geometry.
func TestVane(t *testing.T) {
	for _, x := range []struct {
		winds [][2]float64 // from, speed
		want  float64      // -1 for not known
	}{
		{[][2]float64{{350, 2}, {10, 2}}, 0}, {[][2]float64{{270, 3}, {180, 3}}, 225}, {[][2]float64{{90, 5}}, 90}, {[][2]float64{{200, 4}, {0, 0}}, 200},
		{[][2]float64{{0, 3}, {180, 3}}, -1}, {[][2]float64{{0, 0}}, -1}, {nil, -1}, {[][2]float64{{90, 3}, {0, 4}}, 36.8699},
	} {
		var v vane
		for _, w := range x.winds {
			v.add(forecast.Known(w[0]), forecast.Known(w[1]))
		}
		v.add(forecast.Value{}, forecast.Known(7))
		got := v.value()
		assert.Equal(t, x.want >= 0, got.IsKnown(), "%v", x.winds)
		if x.want == 0 { // or a hair under the full circle
			assert.True(t, got.Or(180) < 1e-6 || got.Or(180) > 360-1e-6)
			continue
		}
		assert.InDelta(t, x.want, got.Or(-1), 1e-4, "%v", x.winds)
	}
}
