package risk

import (
	"dawnbrush/risk/air"
	"dawnbrush/risk/crop"
)

// hotOutside tells whether the day is too hot for a planting even by the outside's
// air. In a plastic tunnel the highest temperature was 4.2 degC above the outside's
// and the lowest 1.3 degC above it [Savage80, status read]: what heat does outside
// it does inside too. The other way round nothing follows.
func (a *assessor) hotOutside(m *plantingModel) bool {
	switch f := &a.frame; m.p.Crop.Pollination {
	case crop.Self:
		return m.self.tooHot(&a.past, f.past)
	case crop.Insect:
		if f.polar {
			return false
		}
		from, to := m.span(f)
		for i := from; i < to; i++ {
			if h := &f.hours[air.Kind][i]; h.Missing&air.Temp != 0 || h.T < m.p.Crop.Pollen.HeatNil {
				return false
			}
		}
		return from < to
	}
	return false
}

// tooHot tells whether heat alone leaves next to nothing of the set: extreme heat,
// or a mean of the days before, for a crop that warmth only takes from.
func (m *selfModel) tooHot(past *history, k int) bool {
	if m.acute(past, k) {
		return true
	}
	share, known := m.spell(past, k, m.d.MeanFrom, m.d.MeanTo)
	return m.onlyHeat && known && share < hopeless*2
}

// falls tells whether a curve never rises.
func falls(c crop.Curve) bool {
	points := c.Points()
	for i := 1; i < len(points); i++ {
		if points[i][1] > points[i-1][1] {
			return false
		}
	}
	return len(points) > 0
}
