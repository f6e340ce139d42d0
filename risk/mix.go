package risk

import "math"

// mixture gathers what the worlds of rain bring: the expected number of
// successes a flower gets from bees at the median supply, and what a brush sets.
type mixture struct {
	n      int
	weight [maxWorlds]float64
	x      [maxWorlds]float64 // expected successes at multiplier 1
	hand   [maxWorlds]float64 // share set by the brush; 0 without one
}

// maxWorlds bounds the worlds of one day: two doubts, each dry or at up to
// maxLevels+1 levels of chance with each run.
const maxWorlds = 2 * (1 + (maxLevels+1)*len(runs))

// add adds a world, or its weight to the last one when nothing differs.
func (m *mixture) add(weight, x, hand float64) {
	for i := range m.n {
		if m.x[i] == x && m.hand[i] == hand {
			m.weight[i] += weight
			return
		}
	}
	m.weight[m.n], m.x[m.n], m.hand[m.n] = weight, x, hand
	m.n++
}

// rangeOf gives the range of 1 - exp(-multiplier*x), the chance of at least one
// success when visits are Poisson, over the law of supply and the worlds.
func (m *mixture) rangeOf(s *supply) Range {
	if m.n == 1 {
		x, left := m.x[0], 1-m.hand[0]
		return Range{1 - left*math.Exp(-s.lo*x), 1 - left*math.Exp(-x), 1 - left*math.Exp(-s.hi*x)}
	}
	var value, weight [maxWorlds * supplyNodes]float64
	n := 0
	for i := range m.n {
		for _, k := range s.nodes {
			v, w := 1-(1-m.hand[i])*math.Exp(-k*m.x[i]), m.weight[i]/supplyNodes
			at := n
			for at > 0 && value[at-1] > v {
				value[at], weight[at] = value[at-1], weight[at-1]
				at--
			}
			value[at], weight[at] = v, w
			n++
		}
	}
	return Range{quantile(value[:n], weight[:n], 0.1), quantile(value[:n], weight[:n], 0.5), quantile(value[:n], weight[:n], 0.9)}
}

// quantile reads sorted weighted values at p, each value standing in the middle
// of its weight, linear between.
func quantile(value, weight []float64, p float64) float64 {
	sum, lastAt := 0.0, math.Inf(-1)
	for i, w := range weight {
		at := sum + w/2
		if at >= p {
			if i == 0 {
				return value[0]
			}
			return value[i-1] + (value[i]-value[i-1])*(p-lastAt)/(at-lastAt)
		}
		sum, lastAt = sum+w, at
	}
	return value[len(value)-1]
}
