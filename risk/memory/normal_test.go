package memory

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The conjugate law against the density itself, prior times likelihood, summed on a
// grid.
func TestNormalAgainstTheDensity(t *testing.T) {
	const mean, sd, noise = 6.2, 0.1, 0.07
	readings := []float64{6.41, 6.29, 6.35}
	n := Around(mean, sd)
	for _, x := range readings {
		n = n.Update(x, noise)
	}
	var sum, first, second float64
	for i := range 200_001 {
		v := 5 + float64(i)*1e-5*2
		density := math.Exp(-(v - mean) * (v - mean) / (2 * sd * sd))
		for _, x := range readings {
			density *= math.Exp(-(x - v) * (x - v) / (2 * noise * noise))
		}
		sum, first, second = sum+density, first+v*density, second+v*v*density
	}
	assert.InDelta(t, first/sum, n.Mean, 1e-8)
	assert.InDelta(t, math.Sqrt(second/sum-first/sum*first/sum), n.SD(), 1e-6)
}

func TestNormalLimits(t *testing.T) {
	var none Normal
	assert.False(t, none.Known())
	assert.True(t, math.IsInf(none.SD(), 1))
	assert.Equal(t, Normal{3, 1}, none.Update(3, 1), "one reading is all that is known")
	many := none
	for range 10_000 {
		many = many.Update(3, 1)
	}
	assert.InDelta(t, 0.01, many.SD(), 1e-12, "the error of a mean falls with the root of the count")
	// Quantiles of the normal law. [AS64 table 26.5, status memory]
	for p, z := range map[float64]float64{0.5: 0, 0.9: 1.2815515655, 0.95: 1.6448536270, 0.025: -1.9599639845} {
		assert.InDelta(t, 10+2*z, Around(10, 2).Quantile(p), 1e-8)
	}
	assert.InDelta(t, 0.5, Around(1, 1).Under(Around(1, 3)), 1e-15)
	// P(Z < 1.25), of a difference of 5 with standard deviations of 3 and sqrt(7).
	assert.InDelta(t, 0.8943502263, Around(0, 3).Under(Around(5, math.Sqrt(7))), 1e-9)
}
