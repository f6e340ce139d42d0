package risk

import (
	"math"

	"dawnbrush/forecast"
)

// degreeDays gives the degree days of the day at k above a limit (degC): the mean of what
// its hours lie above it. known is false where too few hours have a temperature.
func (h *history) degreeDays(k int, limit float64) (sum float64, known bool) {
	s, ok := h.at(k)
	if !ok {
		return 0, false
	}
	n := 0
	for i := s.lo; i < s.hi; i++ {
		if t, ok := h.s.Hours[i].Temp.Get(); ok {
			sum, n = sum+max(0, t-limit), n+1
		}
	}
	return sum / float64(n), true
}

// earHeat gives the degree days of heat on the ears from the first silk on, as long as
// silks take pollen: the days that stand for anthesis. [chosen, status chosen]
// A day that is not known has none at best and as many as the mean of the known ones at
// worst. The ends are those of the kernels: most heat is Lo.
func (m *cornModel) earHeat(past *history, first forecast.Date) Range {
	sum, known, n := 0.0, 0, m.earDays()
	for d := range n {
		if x, ok := past.degreeDays(past.index(first.AddDays(d)), m.d.HeatAbove); ok {
			sum, known = sum+x, known+1
		}
	}
	more := 0.0
	if known > 0 {
		more = sum / float64(known) * float64(n-known)
	}
	return Range{sum + more, sum + more/2, sum}
}

// heat takes from the kernels what heat on the ears costs beside the pollen it kills:
// ears that got fresh pollen lost kernels too [Cicchino10, status read], and sweet corn
// loses a steady share of its yield for each degree day. [DhaWil22, status read]
// That the shares multiply is the form of a regression on the logarithm of yield.
func (e *Ears) heat(degreeDays Range, loss float64) {
	e.Heat = degreeDays
	e.HeatLeft = Range{math.Exp(-loss * degreeDays.Lo), math.Exp(-loss * degreeDays.Mid), math.Exp(-loss * degreeDays.Hi)}
	for _, r := range []*Range{&e.Filled, &e.Shaken, &e.Part[Butt], &e.Part[Middle], &e.Part[Tip]} {
		r.Lo, r.Mid, r.Hi = r.Lo*e.HeatLeft.Lo, r.Mid*e.HeatLeft.Mid, r.Hi*e.HeatLeft.Hi
	}
}
