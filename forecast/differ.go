package forecast

import (
	"math"
	"time"
)

// From these on two forecasts of one stretch of hours are told apart. [chosen, status
// chosen] about what one forecast of the next day errs by in two cases of three, twice
// over: 1.6 K of RMSE in 61,456 pairs of the US service, so 3 K; the others alike
const (
	differTemp  = 3.0 // K, of the means
	differProb  = 0.3 // chance of rain, of the highest
	differRain  = 2.0 // mm, of the sums
	differWind  = 2.5 // m/s, of the means
	differSky   = 0.4 // of the means
	leastShared = 0.5 // share of the hours that both have to know
)

// Stretch is a run of hours that matters for some work.
type Stretch struct {
	Start, End time.Time // End exclusive
}

// Difference is a quantity in which two forecasts of a stretch part.
type Difference struct {
	Stretch
	Layer string // Temp (mean), RainProb (highest), Rain (sum), Wind (mean) or Sky (mean): fields of Hour
	A, B  float64
}

// measure reads one quantity of the hours both series know.
type measure struct {
	layer string
	of    func(*Hour) Value
	least float64
	fold  func(sum, highest float64, n int) float64
}

func meanOf(sum, _ float64, n int) float64        { return sum / float64(n) }
func highestOf(_, highest float64, _ int) float64 { return highest }
func sumOf(sum, _ float64, _ int) float64         { return sum }

// Differ tells in which quantities two forecasts part, stretch by stretch. Hours
// that one of them does not know say nothing; a stretch of which they share less
// than half is passed over.
func Differ(a, b *Series, stretches []Stretch) []Difference {
	var out []Difference
	for _, st := range stretches {
		for _, m := range [...]measure{
			{"Temp", func(h *Hour) Value { return h.Temp }, differTemp, meanOf},
			{"RainProb", func(h *Hour) Value { return h.RainProb }, differProb, highestOf},
			{"Rain", func(h *Hour) Value { return h.Rain }, differRain, sumOf},
			{"Wind", func(h *Hour) Value { return h.Wind }, differWind, meanOf},
			{"Sky", func(h *Hour) Value { return h.Sky }, differSky, meanOf},
		} {
			if x, y, ok := m.compare(a, b, st); ok && math.Abs(x-y) >= m.least {
				out = append(out, Difference{st, m.layer, x, y})
			}
		}
	}
	return out
}

// compare folds the hours of a stretch that both series know.
func (m measure) compare(a, b *Series, st Stretch) (x, y float64, ok bool) {
	lo, hi := a.Slice(st.Start, st.End)
	var sumA, sumB, highA, highB float64
	n := 0
	for i := lo; i < hi; i++ {
		j, in := b.Index(a.Hours[i].Start)
		if !in {
			continue
		}
		va, ok1 := m.of(&a.Hours[i]).Get()
		vb, ok2 := m.of(&b.Hours[j]).Get()
		if !ok1 || !ok2 {
			continue
		}
		n++
		sumA, sumB = sumA+va, sumB+vb
		highA, highB = max(highA, va), max(highB, vb)
	}
	if n == 0 || float64(n) < leastShared*st.End.Sub(st.Start).Hours() {
		return 0, 0, false
	}
	return m.fold(sumA, highA, n), m.fold(sumB, highB, n), true
}
