package bee

import "math"

// Supply is what is believed of the visits per flower and hour at full flight:
// a Gamma law. It is the largest unknown of the whole model: gardens differ
// tenfold. [chosen, status chosen] shape; the rates stand in the crop files.
type Supply struct {
	Shape float64 // dimensionless; 1.5 spreads 10-90 % over 0.25 to 2.65 times the median
	Rate  float64 // hours * flowers
}

// FromMedian makes a supply from its median (visits per flower and hour).
func FromMedian(median, shape float64) Supply {
	return Supply{shape, GammaQuantile(0.5, shape) / median}
}

// Mean gives the mean visits per flower and hour.
func (s Supply) Mean() float64 { return s.Shape / s.Rate }

// Quantile gives the visits per flower and hour not exceeded with chance p.
func (s Supply) Quantile(p float64) float64 { return GammaQuantile(p, s.Shape) / s.Rate }

// Update learns from a count: visits seen in an exposure of flowers * hours *
// flight share. Gamma is conjugate to the Poisson count.
func (s Supply) Update(visits int, exposure float64) Supply {
	return Supply{s.Shape + float64(visits), s.Rate + exposure}
}

// Times scales every rate by k.
func (s Supply) Times(k float64) Supply { return Supply{s.Shape, s.Rate / k} }

// GammaQuantile gives the quantile p (0..1) of the Gamma law with unit rate.
// It starts from the cube-root normal form [WilHil31] and polishes it with
// Newton steps on the regularised incomplete gamma function, to about 1e-10.
func GammaQuantile(p, shape float64) float64 {
	switch {
	case !(p > 0) || !(shape > 0):
		return 0
	case p >= 1:
		return math.Inf(1)
	}
	z := math.Sqrt2 * math.Erfinv(2*p-1)
	c := 1 - 1/(9*shape) + z/(3*math.Sqrt(shape)) // [WilHil31]
	x := shape * c * c * c
	lg, _ := math.Lgamma(shape)
	if c < 0.3 { // the far lower tail: P is near x^a/(a Gamma(a))
		x = math.Exp((math.Log(p*shape) + lg) / shape)
	}
	for range 60 {
		d := (GammaCDF(x, shape) - p) / math.Exp((shape-1)*math.Log(x)-x-lg)
		next := x - d
		if next <= 0 {
			next = x / 2
		}
		if math.Abs(next-x) <= 1e-12*x {
			return next
		}
		x = next
	}
	return x
}

// GammaCDF gives the regularised lower incomplete gamma function P(shape, x):
// the series below shape+1 and Lentz's continued fraction above. [AS64 eq 6.5.29, eq 6.5.31]
func GammaCDF(x, shape float64) float64 {
	if !(x > 0) {
		return 0
	}
	lg, _ := math.Lgamma(shape)
	front := math.Exp(shape*math.Log(x) - x - lg)
	if x < shape+1 {
		term := 1 / shape
		sum := term
		for n := 1.0; n < 1000 && term > sum*1e-16; n++ {
			term *= x / (shape + n)
			sum += term
		}
		return front * sum // [AS64 eq 6.5.29]
	}
	const tiny = 1e-300
	b := x + 1 - shape
	c, d := 1/tiny, 1/b
	h := d
	for i := 1.0; i < 1000; i++ {
		an := -i * (i - shape)
		b += 2
		d = 1 / nonZero(an*d+b, tiny)
		c = nonZero(b+an/c, tiny)
		h *= d * c
		if math.Abs(d*c-1) < 1e-15 {
			break
		}
	}
	return 1 - front*h // [AS64 eq 6.5.31]
}

func nonZero(x, tiny float64) float64 {
	if math.Abs(x) < tiny {
		return tiny
	}
	return x
}
