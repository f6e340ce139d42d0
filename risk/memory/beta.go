package memory

import "math"

// Beta is what is believed of a share: worth A+B flowers, of which A set. The
// zero Beta is not a belief; begin with Prior.
type Beta struct{ A, B float64 }

// Prior makes a belief from a share (0..1) and how many flowers it is worth.
func Prior(share, worth float64) Beta { return Beta{share * worth, (1 - share) * worth} }

// Update learns that k of n flowers set. Beta is conjugate to the binomial count.
func (b Beta) Update(k, n float64) Beta { return Beta{b.A + k, b.B + n - k} }

// Mean gives the expected share.
func (b Beta) Mean() float64 { return b.A / (b.A + b.B) }

// SD gives the standard deviation of the share.
func (b Beta) SD() float64 {
	s := b.A + b.B
	return math.Sqrt(b.A * b.B / (s * s * (s + 1)))
}

// Quantile gives the share not exceeded with chance p, to about 1e-12, by
// halving.
func (b Beta) Quantile(p float64) float64 {
	switch {
	case !(p > 0):
		return 0
	case p >= 1:
		return 1
	}
	lo, hi := 0.0, 1.0
	for range 200 {
		mid := (lo + hi) / 2
		if b.CDF(mid) < p {
			lo = mid
		} else {
			hi = mid
		}
		if hi-lo <= 1e-15*hi {
			break
		}
	}
	return (lo + hi) / 2
}

// CDF gives the chance that the share is at most x: the regularised incomplete
// beta function by its continued fraction. [AS64 eq 26.5.8]
func (b Beta) CDF(x float64) float64 {
	switch {
	case !(x > 0):
		return 0
	case x >= 1:
		return 1
	case x > (b.A+1)/(b.A+b.B+2):
		return 1 - Beta{b.B, b.A}.CDF(1-x) // where the fraction converges fast
	}
	front := math.Exp(b.A*math.Log(x)+b.B*math.Log1p(-x)-logBeta(b.A, b.B)) / b.A
	const tiny = 1e-300
	c, d := 1.0, nonZero(1-(b.A+b.B)*x/(b.A+1), tiny)
	d = 1 / d
	h := d
	for m := 1.0; m < 2000; m++ {
		for _, num := range [2]float64{
			m * (b.B - m) * x / ((b.A + 2*m - 1) * (b.A + 2*m)),
			-(b.A + m) * (b.A + b.B + m) * x / ((b.A + 2*m) * (b.A + 2*m + 1)),
		} {
			d = 1 / nonZero(1+num*d, tiny)
			c = nonZero(1+num/c, tiny)
			h *= d * c
		}
		if math.Abs(d*c-1) < 1e-16 {
			break
		}
	}
	return front * h
}

func nonZero(x, tiny float64) float64 {
	if math.Abs(x) < tiny {
		return tiny
	}
	return x
}

func logBeta(a, b float64) float64 {
	la, _ := math.Lgamma(a)
	lb, _ := math.Lgamma(b)
	lab, _ := math.Lgamma(a + b)
	return la + lb - lab
}

// Next gives the chance that j of the next m flowers set: the beta-binomial law.
func (b Beta) Next(j, m int) float64 {
	if j < 0 || j > m {
		return 0
	}
	lm, _ := math.Lgamma(float64(m + 1))
	lj, _ := math.Lgamma(float64(j + 1))
	lr, _ := math.Lgamma(float64(m - j + 1))
	return math.Exp(lm - lj - lr + logBeta(b.A+float64(j), b.B+float64(m-j)) - logBeta(b.A, b.B))
}

// Beats gives the chance that b's share is larger than o's: the integral of b's
// density times o's distribution over 2,000 quantiles of b, good to 1e-4; exact
// by the finite sum where b.A is a whole number under 1e5.
func (b Beta) Beats(o Beta) float64 {
	if b.A == math.Trunc(b.A) && b.A < 1e5 {
		sum := 0.0
		for i := 0.0; i < b.A; i++ {
			sum += math.Exp(logBeta(o.A+i, o.B+b.B) - math.Log(b.B+i) - logBeta(1+i, b.B) - logBeta(o.A, o.B))
		}
		return min(1, sum) // rounding may carry it over
	}
	const n = 2000
	sum := 0.0
	for i := range n {
		sum += o.CDF(b.Quantile((float64(i) + 0.5) / n))
	}
	return sum / n
}
