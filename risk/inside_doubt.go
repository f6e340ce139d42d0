package risk

import (
	"math"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
)

// doubt looks for a logger that cannot be believed: degrees Fahrenheit under a
// heading for Celsius, or a clock set wrong.
func (d *Difference) doubt(log, s *forecast.Series, sky []air.Hour, list []pair) {
	var m mean
	for i := range list {
		m.add(list[i].dt)
	}
	d.MeanDifference = m.value()
	if m.n >= leastPairs && math.Abs(m.value()) > wildDifference {
		d.Fault = "fahrenheit"
		return
	}
	if len(list) < leastPairs*LeastLearn {
		return
	}
	best, at := -1.0, 0
	for lag := -12; lag < 12; lag++ {
		if r := follows(log, s, sky, lag); r > best {
			best, at = r, lag
		}
	}
	if best < leastFollow || at >= mostLead && at <= mostLag {
		return
	}
	d.Fault = "clock"
	d.ClockBy = at - usualLag
}

// usualLag is how long a tunnel's warmth lags behind the sun's height, h.
const usualLag = 2 // [chosen, status chosen]

// follows gives the correlation of the logger's temperature with the clear sun's
// light so many hours before.
func follows(log, s *forecast.Series, sky []air.Hour, lag int) float64 {
	var n, x, y, xx, yy, xy float64
	for i := range log.Hours {
		t, ok := log.Hours[i].Temp.Get()
		k, in := s.Index(log.Hours[i].Start)
		if k -= lag; !ok || !in || k < 0 || k >= len(sky) {
			continue
		}
		l := sky[k].ClearLight
		n, x, y, xx, yy, xy = n+1, x+l, y+t, xx+l*l, yy+t*t, xy+l*t
	}
	if v := (n*xx - x*x) * (n*yy - y*y); v > 0 {
		return (n*xy - x*y) / math.Sqrt(v)
	}
	return 0
}

// solve gives z of the symmetric positive system a z = b by Cholesky's
// decomposition; the shrinkage on the diagonal keeps it positive.
func solve(a [mostTerms][mostTerms]float64, b [mostTerms]float64) (z [mostTerms]float64) {
	for j := range a {
		for k := range j {
			a[j][j] -= a[j][k] * a[j][k]
		}
		a[j][j] = math.Sqrt(a[j][j])
		for i := j + 1; i < mostTerms; i++ {
			for k := range j {
				a[i][j] -= a[i][k] * a[j][k]
			}
			a[i][j] /= a[j][j]
		}
	}
	for i := range b {
		z[i] = b[i]
		for k := range i {
			z[i] -= a[i][k] * z[k]
		}
		z[i] /= a[i][i]
	}
	for i := mostTerms - 1; i >= 0; i-- {
		for k := i + 1; k < mostTerms; k++ {
			z[i] -= a[k][i] * z[k]
		}
		z[i] /= a[i][i]
	}
	return z
}
