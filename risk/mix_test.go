package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The mean of min(1, share of the need) over Poisson visits, summed out term by
// term, is the closed form's, within the 0.006 of the normal form of the gamma law.
func TestInLineAgainstTheSum(t *testing.T) {
	for _, unit := range []float64{0.01, 1 / 24.0, 0.05, 0.0625, 0.1, 0.2, 0.202, 0.34, 0.49, 0.5, 0.7, 1, 2} {
		for _, got := range []float64{0, 0.01, 0.1, 0.3, 0.6, 0.9, 1, 1.1, 1.5, 2, 4} {
			mean, sum := got/unit, 0.0
			p := math.Exp(-mean) // of n visits
			for n := 0; n < 2000; n++ {
				sum += p * min(1, float64(n)*unit)
				p *= mean / float64(n+1)
			}
			// Between whole numbers of portions the last one counts in part.
			slack := 0.006
			if k := 1 / unit; math.Abs(k-math.Round(k)) > 1e-9 && unit < 0.5 {
				slack = 0.02
			}
			assert.InDelta(t, sum, straight.share(got, unit), slack, "got %g in portions of %g", got, unit)
		}
	}
}

// Set in a straight line: twice the visits set twice as much, up to the need.
func TestInLineIsStraight(t *testing.T) {
	const unit = 1 / 20.0
	assert.InDelta(t, 2*inLine(0.2, unit), inLine(0.4, unit), 1e-3)
	assert.InDelta(t, 0.4, inLine(0.4, unit), 1e-3)
	assert.Less(t, inLine(1, unit), 1.0, "visits fall unevenly: some flowers get too few")
	assert.Greater(t, inLine(2, unit), 0.99)
	last := 0.0
	for got := 0.0; got < 4; got += 0.01 {
		for _, x := range []float64{inLine(got, unit), inLine(got, 0.2), inLine(got, 0.6)} {
			assert.True(t, x >= 0 && x <= 1 && !math.IsNaN(x), x)
		}
		assert.GreaterOrEqual(t, inLine(got, unit), last-1e-9)
		last = inLine(got, unit)
	}
}
