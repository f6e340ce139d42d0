package memory

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Posterior means, deviations and intervals: the first row is published (437
// girls of 980 births, flat prior; Gelman et al., Bayesian Data Analysis), all
// were computed by standard-library Python and cross-checked with R.
func TestBetaAgainstPublishedAndR(t *testing.T) {
	for _, c := range []struct {
		b                                Beta
		mean, sd, lo95, hi95, lo90, hi90 float64
	}{
		{Beta{1, 1}.Update(437, 980), 0.44602851, 0.01585434, 0.41506549, 0.47719977, 0.42001117, 0.47217091},
		{Prior(0.6, 10), 0.6, 0.14770979, 0.29929506, 0.86300434, 0.34494137, 0.83124950},
		{Prior(0.6, 10).Update(9, 20), 0.5, 0.08980265, 0.32531500, 0.67468500, 0.35200463, 0.64799537},
		{Prior(0.6, 10).Update(17, 20), 0.76666667, 0.07596453, 0.60275305, 0.89701645, 0.63200441, 0.88083060},
		{Beta{0.5, 0.5}.Update(0, 8), 0.05555556, 0.07243558, 0.00005949, 0.26221725, 0.00023817, 0.20750804},
		{Beta{0.5, 0.5}.Update(9, 20), 0.45238095, 0.10611581, 0.25102344, 0.66233504, 0.28009123, 0.62995334},
	} {
		const printed = 6e-9 // the table prints eight digits
		assert.InDelta(t, c.mean, c.b.Mean(), printed)
		assert.InDelta(t, c.sd, c.b.SD(), printed)
		assert.InDelta(t, c.lo95, c.b.Quantile(0.025), printed, "%v", c.b)
		assert.InDelta(t, c.hi95, c.b.Quantile(0.975), printed, "%v", c.b)
		assert.InDelta(t, c.lo90, c.b.Quantile(0.05), printed, "%v", c.b)
		assert.InDelta(t, c.hi90, c.b.Quantile(0.95), printed, "%v", c.b)
	}
}

// The next ten flowers under Beta(15, 15), and hand against open: the same
// independent computation (R integrate: 0.9861581146).
func TestNextAndBeats(t *testing.T) {
	b := Beta{15, 15}
	want := []float64{.00308497, .01928107, .06035812, .12437432, .18656148, .21268008}
	sum, six := 0.0, 0.0
	for j := range 11 {
		p := b.Next(j, 10)
		assert.InDelta(t, want[min(j, 10-j)], p, 6e-9, "%d of 10", j)
		sum += p
		if j >= 6 {
			six += p
		}
	}
	assert.InDelta(t, 1, sum, 1e-12)
	assert.InDelta(t, 0.39365996, six, 6e-9)
	assert.InDelta(t, 0.98615811, Beta{23, 7}.Beats(Beta{15, 15}), 6e-9)
	assert.InDelta(t, 0.98615811, Beta{23.0000001, 7}.Beats(Beta{15, 15}), 1e-4, "the integral for shares that are no whole numbers")
}

func TestBetaProperties(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := Beta{rapid.Float64Range(0.5, 500).Draw(r, "a"), rapid.Float64Range(0.5, 500).Draw(r, "b")}
		p := rapid.Float64Range(0.001, 0.999).Draw(r, "p")
		if x := b.CDF(b.Quantile(p)); x < p-1e-6 || x > p+1e-6 {
			r.Fatalf("CDF of the quantile %g is %g", p, x)
		}
		o := Beta{b.B, b.A}
		if s := b.CDF(0.3) + o.CDF(0.7); s < 1-1e-9 || s > 1+1e-9 {
			r.Fatalf("mirror: %g", s)
		}
	})
	assert.Zero(t, Beta{2, 3}.CDF(-1))
	assert.Equal(t, 1.0, Beta{2, 3}.CDF(2))
	assert.Zero(t, Beta{2, 3}.Next(5, 4))
}
