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

// earHeat is the heat on a planting's ears while silks take pollen, which stands for
// anthesis. [chosen, status chosen] Lo is the worst for the kernels.
type earHeat struct {
	degreeDays Range
	lost       Range // the exponent of what it leaves of the kernels
}

// heatOn sums the heat of the silks' days up. A day that is not known has none at best
// and as much as the mean of the known ones at worst.
func (m *Model) heatOn(p *Planting, corn *cornModel) earHeat {
	var sum, lost Range
	known, n := 0, corn.earDays()
	for d := range n {
		date := p.FirstFemale.AddDays(d)
		if x, ok := m.past.degreeDays(m.past.index(date), corn.d.HeatAbove); ok {
			sum.add(Range{x, x, x}, 1)
			lost.add(corn.heatLoss(m.learned.Thirst, p, date), x)
			known++
		}
	}
	if known > 0 {
		more := float64(n-known) / float64(known)
		for _, r := range []*Range{&sum, &lost} {
			r.add(Range{Lo: r.Lo, Mid: r.Mid / 2}, more)
		}
	}
	return earHeat{sum, lost}
}

// heatLoss gives the share of the kernels that a degree day of a date takes. Irrigated and
// other fields stand for soil that wants for nothing and soil with nothing left, straight
// between by Ks; those other fields had some water, so that dry soil may do worse. Without
// an account of the bed's water corn counts as watered, and as dry at worst. [chosen]
func (m *cornModel) heatLoss(t Thirst, p *Planting, date forecast.Date) Range {
	ks, ok := t[ThirstDay{p.Name, date}]
	if !ok {
		ks = Range{0, 1, 1}
	}
	at := func(ks float64) float64 { return m.d.HeatLossDry + (m.d.HeatLoss-m.d.HeatLossDry)*ks }
	return Range{at(ks.Lo), at(ks.Mid), at(ks.Hi)}
}

// heat takes from the kernels what heat on the ears costs beside the pollen it kills:
// ears that got fresh pollen lost kernels too [Cicchino10, status read], and sweet corn
// loses a steady share of its yield for each degree day. [DhaWil22, status read]
// That the shares multiply is the form of a regression on the logarithm of yield.
func (e *Ears) heat(h earHeat) {
	e.Heat = h.degreeDays
	e.HeatLeft = Range{math.Exp(-h.lost.Lo), math.Exp(-h.lost.Mid), math.Exp(-h.lost.Hi)}
	for _, r := range []*Range{&e.Filled, &e.Shaken, &e.Part[Butt], &e.Part[Middle], &e.Part[Tip]} {
		r.Lo, r.Mid, r.Hi = r.Lo*e.HeatLeft.Lo, r.Mid*e.HeatLeft.Mid, r.Hi*e.HeatLeft.Hi
	}
}
