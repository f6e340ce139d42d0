package bee

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Chi-square table: Gamma(k/2) quantiles times two. Abramowitz & Stegun 1964,
// table 26.8 (values from memory): 5 degrees of freedom 0.05 -> 1.1455,
// 0.50 -> 4.3515, 0.95 -> 11.0705; 3 degrees 0.10 -> 0.5844, 0.90 -> 6.2514.
func TestGammaQuantileAgainstChiSquareTable(t *testing.T) {
	for _, c := range []struct{ df, p, want float64 }{
		{5, 0.05, 1.1455}, {5, 0.50, 4.3515}, {5, 0.95, 11.0705}, {3, 0.10, 0.5844}, {3, 0.90, 6.2514},
		{2, 0.5, 1.3863}, {1, 0.95, 3.8415}, {30, 0.95, 43.773},
	} {
		assert.InDelta(t, c.want, 2*GammaQuantile(c.p, c.df/2), 6e-4, "df %g p %g", c.df, c.p)
	}
}

func TestGammaQuantileInvertsCDF(t *testing.T) {
	for _, shape := range []float64{0.3, 0.8, 1, 1.5, 2.5, 10, 120} {
		for _, p := range []float64{1e-4, 0.01, 0.1, 0.5, 0.9, 0.99, 0.9999} {
			assert.InDelta(t, p, GammaCDF(GammaQuantile(p, shape), shape), 1e-9, "shape %g p %g", shape, p)
		}
	}
	assert.Zero(t, GammaQuantile(0, 1.5))
	assert.Zero(t, GammaCDF(-1, 1.5))
}

// Regression: median 2.0 has mean 2.54; five visits on ten flowers in 15
// minutes at flight 0.8 give a posterior mean of 2.5090.
func TestUpdate(t *testing.T) {
	s := FromMedian(2, 1.5)
	assert.InDelta(t, 2.54, s.Mean(), 0.005)
	assert.InDelta(t, 2, s.Quantile(0.5), 1e-9)
	assert.InDelta(t, 2.5090, s.Update(5, 10*0.25*0.8).Mean(), 2e-3)
	assert.InDelta(t, 0.25, s.Quantile(0.1)/2, 0.01)
	assert.InDelta(t, 2.65, s.Quantile(0.9)/2, 0.02)
	require.InDelta(t, 3*s.Mean(), s.Times(3).Mean(), 1e-12)
}
