package risk

import "math"

// mixture gathers what the worlds of rain bring: how much a flower gets from
// bees at the median supply, and what a brush sets.
type mixture struct {
	law    func(got, unit float64) float64 // share of flowers that got enough
	n      int
	weight [maxWorlds]float64
	got    [maxWorlds]float64 // at multiplier 1
	unit   [maxWorlds]float64 // what the law measures got in
	hand   [maxWorlds]float64 // share set by the brush; 0 without one
}

// atLeastOne is the chance of one success or more when x are expected and
// visits are Poisson: the law of set. unit is not used.
func atLeastOne(x, _ float64) float64 { return 1 - math.Exp(-x) }

// enough is the chance that a flower gets at least the need when it expects got
// needs in portions of unit needs (the size of a typical visit): the chance
// that a Poisson number with mean got/unit reaches 1/unit, in the cube-root
// normal form of its gamma identity, within 0.006. [WilHil31]
func enough(got, unit float64) float64 {
	if got <= 0 || unit <= 0 {
		return 0
	}
	k := 1 / unit
	if k <= 1 { // one visit is enough
		return 1 - math.Exp(-got/unit)
	}
	z := 3 * math.Sqrt(k) * (math.Cbrt(got) - 1 + 1/(9*k))
	return 0.5 * math.Erfc(-z/math.Sqrt2)
}

// maxWorlds bounds the worlds of one day: two doubts, each dry or at up to
// maxLevels+1 levels of chance with each run.
const maxWorlds = 2 * (1 + (maxLevels+1)*len(runs))

// reset empties m for a law.
func (m *mixture) reset(law func(got, unit float64) float64) *mixture {
	m.law, m.n = law, 0
	return m
}

// add adds a world, or its weight to an earlier one when nothing differs.
func (m *mixture) add(weight, got, unit, hand float64) {
	for i := range m.n {
		if m.got[i] == got && m.hand[i] == hand {
			m.weight[i] += weight
			return
		}
	}
	m.weight[m.n], m.got[m.n], m.unit[m.n], m.hand[m.n] = weight, got, unit, hand
	m.n++
}

// value gives the share of flowers that succeed in world i at a multiplier of
// the supply: by bees or by the brush.
func (m *mixture) value(i int, k float64) float64 {
	return 1 - (1-m.hand[i])*(1-m.law(k*m.got[i], m.unit[i]))
}

// rangeOf gives the range over the law of supply and the worlds.
func (m *mixture) rangeOf(s *supply) Range {
	if m.n == 1 {
		return Range{m.value(0, s.lo), m.value(0, 1), m.value(0, s.hi)}
	}
	var value, weight [maxWorlds * supplyNodes]float64
	n := 0
	for i := range m.n {
		for _, k := range s.nodes {
			v, w := m.value(i, k), m.weight[i]/supplyNodes
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
