package memory

import "math"

// Normal is what is believed of a quantity on a scale from minus to plus infinity,
// such as the logarithm of a sum of warmth. The zero Normal knows nothing.
type Normal struct {
	Mean      float64
	Precision float64 // one over the variance; 0 knows nothing
}

// Around makes a belief from a middle and a standard deviation above 0.
func Around(mean, sd float64) Normal { return Normal{mean, 1 / (sd * sd)} }

// Update learns from a reading that errs by a standard deviation above 0. With a
// known error the normal law is conjugate to itself: precisions add up, and the mean
// is that of both weighted by them. [Gelman13 eq 2.10, status memory]
func (n Normal) Update(x, sd float64) Normal {
	p := 1 / (sd * sd)
	return Normal{(n.Mean*n.Precision + x*p) / (n.Precision + p), n.Precision + p}
}

// Known tells whether anything is believed.
func (n Normal) Known() bool { return n.Precision > 0 }

// SD gives the standard deviation, +Inf where nothing is known.
func (n Normal) SD() float64 { return 1 / math.Sqrt(n.Precision) }

// Quantile gives the value not exceeded with chance p, 0 to 1 exclusive.
func (n Normal) Quantile(p float64) float64 {
	return n.Mean + n.SD()*math.Sqrt2*math.Erfinv(2*p-1)
}

// Under gives the chance that n's quantity is smaller than o's, the two being
// independent.
func (n Normal) Under(o Normal) float64 {
	sd := math.Hypot(n.SD(), o.SD())
	return 0.5 * math.Erfc((n.Mean-o.Mean)/(sd*math.Sqrt2))
}
