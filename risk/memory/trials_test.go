package memory

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"dawnbrush/forecast"
)

// Bees set 9 of 20 on one planting and 17 of 20 on the other, on the same day.
// The chance that the second sets better, from summing both densities on a grid,
// which knows neither the incomplete beta function nor the finite sum.
func TestVersusAgainstAGrid(t *testing.T) {
	day := forecast.Date{Year: 2026, Month: 7, Day: 10}
	trials := []Trial{
		{"north", day, false, 9, 20}, {"south", day, false, 17, 20},
		{"south", day.AddDays(1), false, 0, 20}, // a bad day on which the other was not counted
		{"north", day, true, 20, 20},            // the brush is another matter
	}
	of, flowers, days := Versus(trials, false, is("north"), is("south"))
	assert.Equal(t, [2]Beta{{10, 12}, {18, 4}}, of)
	assert.Equal(t, [2]float64{20, 20}, flowers)
	assert.Equal(t, 1, days)

	const n = 4000
	density := func(k, m float64) (d [n]float64) {
		sum := 0.0
		for i := range d {
			x := (float64(i) + 0.5) / n
			d[i] = math.Exp(k*math.Log(x) + (m-k)*math.Log1p(-x))
			sum += d[i]
		}
		for i := range d {
			d[i] /= sum
		}
		return d
	}
	north, south := density(9, 20), density(17, 20)
	chance, below := 0.0, 0.0
	for i := range n {
		chance += south[i] * (below + north[i]/2)
		below += north[i]
	}
	assert.InDelta(t, chance, of[1].Beats(of[0]), 1e-6)
	assert.InDelta(t, 1-chance, of[0].Beats(of[1]), 1e-6)
	assert.InDelta(t, 0.5, Beta{3, 3}.Beats(Beta{3, 3}), 1e-12, "alike")
	assert.InDelta(t, 2.0/3, Beta{2, 1}.Beats(Beta{1, 1}), 1e-12, "the mean of the larger of two even draws, against a third")

	apart, all, none := Versus(trials[1:3], false, is("south"), is("nowhere"))
	assert.Equal(t, [2]Beta{{18, 24}, {1, 1}}, apart)
	assert.Equal(t, [2]float64{40, 0}, all)
	assert.Zero(t, none)
}

func is(name string) func(string) bool { return func(s string) bool { return s == name } }
