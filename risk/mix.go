package risk

import "math"

// mixture gathers what the worlds of rain bring: how much a flower gets from
// bees at the median supply, and what a brush sets.
type mixture struct {
	form   form
	n      int
	weight [maxWorlds]float64
	got    [maxWorlds]float64 // at multiplier 1
	unit   [maxWorlds]float64 // what the law measures got in
	hand   [maxWorlds]float64 // share set by the brush

	alone, brushed sorted // room for ranges
}

// form is how the share of flowers that succeed follows from what they get.
type form uint8

const (
	anyVisit  form = iota // one success or more: atLeastOne
	wholeNeed             // the need or more: enough
	straight              // in proportion, up to the need: inLine
)

// atLeastOne is the chance of one success or more when x are expected and
// visits are Poisson: the law of set.
func atLeastOne(x float64) float64 { return 1 - math.Exp(-x) }

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

// inLine is the mean of min(1, share of the need) when a flower expects got needs
// in portions of unit needs: set that rises in a straight line with visits and
// holds at the need [Walt05]. With N Poisson of mean m and k portions to a need,
// the mean of min(N, k) is m P(N < k-1) + k P(N >= k).
func inLine(got, unit float64) float64 {
	if got <= 0 || unit <= 0 {
		return 0
	}
	if unit >= 0.5 { // two portions are enough, one is worth unit
		m := got / unit
		return 1 - math.Exp(-m)*(1+m*(1-min(1, unit)))
	}
	portion := unit / (1 - unit) // of what one portion leaves of the need
	return min(1, got*(1-enough(got/(1-unit), portion))+enough(got, unit))
}

// share is the share of flowers that succeed by the form.
func (f form) share(got, unit float64) float64 {
	switch f {
	case wholeNeed:
		return enough(got, unit)
	case straight:
		return inLine(got, unit)
	}
	return atLeastOne(got)
}

// maxWorlds bounds the worlds of one day: two doubts, each dry or at up to
// maxLevels+1 levels of chance with each run.
const maxWorlds = 2 * (1 + (maxLevels+1)*len(runs))

// reset empties m for a form.
func (m *mixture) reset(f form) *mixture {
	m.form, m.n = f, 0
	return m
}

// alike is how far apart two worlds may be and still count as one: half of a
// hundredth moves no tenth of a result. [chosen, status chosen]
const alike = 0.005

// add adds a world, or its weight to an earlier one that is alike.
func (m *mixture) add(weight, got, unit, hand float64) {
	for i := range m.n {
		if math.Abs(m.got[i]-got) <= alike*got && math.Abs(m.hand[i]-hand) <= alike {
			w := m.weight[i] + weight
			m.got[i] += (got - m.got[i]) * weight / w
			m.hand[i] += (hand - m.hand[i]) * weight / w
			m.weight[i] = w
			return
		}
	}
	m.weight[m.n], m.got[m.n], m.unit[m.n], m.hand[m.n] = weight, got, unit, hand
	m.n++
}

// shares gives the share of flowers that succeed in world i at each multiplier.
func (m *mixture) shares(i int, multipliers, roots, out []float64) {
	got, k := m.got[i], 0.0
	if m.unit[i] > 0 {
		k = 1 / m.unit[i]
	}
	switch {
	case m.form != wholeNeed || got <= 0 || k <= 1:
		for j, x := range multipliers {
			out[j] = m.form.share(x*got, m.unit[i])
		}
	default: // enough, with what the world shares worked out once
		a, root, least := 3*math.Sqrt(k)/math.Sqrt2, math.Cbrt(got), 1-1/(9*k)
		for j := range multipliers {
			out[j] = 0.5 * math.Erfc(a*(least-roots[j]*root)) // [WilHil31]
		}
	}
}

// ranges gives the range of success by bees alone, and by bees and the brush,
// over the law of supply and the worlds.
func (m *mixture) ranges(s *supply) (bees, both Range) {
	if m.n == 1 {
		var v [3]float64
		m.shares(0, s.marks[:], s.markRoots[:], v[:])
		bees = Range{v[0], v[1], v[2]}
		return bees, bees.with(m.hand[0])
	}
	m.alone.n, m.brushed.n = 0, 0
	same := true // a brush that sets alike in every world shifts the whole range
	for i := 1; i < m.n; i++ {
		same = same && m.hand[i] == m.hand[0]
	}
	var values [supplyNodes]float64
	for i := range m.n {
		m.shares(i, s.nodes[:], s.nodeRoots[:], values[:])
		for j, v := range values {
			w := m.weight[i] * nodeWeight[j]
			m.alone.insert(v, w)
			if !same {
				m.brushed.insert(1-(1-m.hand[i])*(1-v), w)
			}
		}
	}
	bees = m.alone.spread()
	if same {
		return bees, bees.with(m.hand[0])
	}
	return bees, m.brushed.spread()
}

// with gives the range once a brush sets a share of the flowers as well.
func (r Range) with(hand float64) Range {
	left := 1 - hand
	return Range{1 - left*(1-r.Lo), 1 - left*(1-r.Mid), 1 - left*(1-r.Hi)}
}

// sorted holds weighted values in rising order.
type sorted struct {
	n             int
	value, weight [maxWorlds * supplyNodes]float64
}

func (s *sorted) insert(v, w float64) {
	at := s.n
	for at > 0 && s.value[at-1] > v {
		s.value[at], s.weight[at] = s.value[at-1], s.weight[at-1]
		at--
	}
	s.value[at], s.weight[at] = v, w
	s.n++
}

// spread gives the range.
func (s *sorted) spread() Range {
	v, w := s.value[:s.n], s.weight[:s.n]
	return Range{quantile(v, w, 0.1), quantile(v, w, 0.5), quantile(v, w, 0.9)}
}

// quantile reads sorted weighted values at p, each value standing in the middle
// of its weight, linear between.
func quantile(value, weight []float64, p float64) float64 {
	sum, lastAt := 0.0, math.Inf(-1)
	for i, w := range weight {
		at := sum + w/2
		if at >= p-1e-12 {
			if i == 0 {
				return value[0]
			}
			return value[i-1] + (value[i]-value[i-1])*(p-lastAt)/(at-lastAt)
		}
		sum, lastAt = sum+w, at
	}
	return value[len(value)-1]
}
