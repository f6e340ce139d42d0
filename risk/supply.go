package risk

import (
	"math"

	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
)

// levelFactor is how far a level told by the grower moves the book's rate.
// 0.4 and 2.5 are the steps of the sensitivity study; gardens differ tenfold.
// [chosen, status chosen]
func levelFactor(l Level) float64 {
	switch l {
	case None:
		return 0
	case Few:
		return 0.4
	case Many:
		return 2.5
	}
	return 1
}

// toldShape is the Gamma shape once the grower has told a level: the book's
// spread (1.5) narrows a little. [chosen, status chosen]
const toldShape = 2.5

// hiveFactor is what hives within about 500 m make of the honey bee rate: one
// hive doubles it, three or more count as many. [chosen, status chosen]
func hiveFactor(n int) float64 { return min(2.5, 1+float64(n)) }

// supply is the bee supply of one planting: median rates at full flight and one
// common law of what they are multiplied by. The groups share the law, since
// what is not known (how many bees live here) is common to them; that keeps
// the range wide.
type supply struct {
	rate [bee.Groups]float64 // this garden's
	book [bee.Groups]float64 // by the book and what the garden file tells
	law
}

// law is the law of the multiplier, median 1, with its quantiles at hand.
type law struct {
	shape     float64 // of the book
	learned   float64 // median multiplier of the book's rates after the diary's counts
	gamma     bee.Supply
	marks     [3]float64 // multipliers at 10, 50 and 90 %
	markRoots [3]float64 // their cube roots
	nodes     [supplyNodes]float64
	nodeRoots [supplyNodes]float64
}

// supplyNodes is how many multipliers stand for the law when it is mixed with
// rain: quantiles with weights that put each in the middle of its weight, so that
// one world alone reads exactly at 10, 50 and 90 %.
const supplyNodes = 11

var (
	nodeAt     = [supplyNodes]float64{0.03, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.97}
	nodeWeight = [supplyNodes]float64{0.06, 0.08, 0.12, 0.08, 0.12, 0.08, 0.12, 0.08, 0.12, 0.08, 0.06}
)

func newSupply(c *crop.Crop, b Bees, l *Learned, known *[]law) supply {
	var s supply
	groups := [bee.Groups]*crop.Group{c.Bees.Honey, c.Bees.Bumble, c.Bees.Squash}
	levels := [bee.Groups]Level{b.Honey, b.Bumble, b.Squash}
	shape, told := 0.0, !b.closed
	for g, data := range groups {
		if data == nil {
			continue
		}
		if shape == 0 || data.Shape < shape {
			shape = data.Shape
		}
		k := levelFactor(levels[g])
		if bee.Group(g) == bee.Honey && b.Hives > 0 {
			k = max(k, hiveFactor(b.Hives))
		} else if levels[g] == LevelUnknown {
			told = false
		}
		s.rate[g] = k * data.VisitRate
	}
	if groups[bee.Squash] != nil && b.Squash == None && c.Bees.WithoutSquash > 0 {
		s.rate[bee.Honey] *= c.Bees.WithoutSquash
		s.rate[bee.Bumble] *= c.Bees.WithoutSquash
	}
	if told && shape > 0 {
		shape = max(shape, toldShape)
	}
	if shape <= 0 {
		shape = 1 // no bees matter to this crop: the law multiplies nothing
	}
	s.law = lawOf(shape, l, known)
	for g := range s.rate { // what was learned moves the rates; the law keeps median 1
		s.book[g] = s.rate[g]
		s.rate[g] *= s.law.learned
	}
	return s
}

// lawOf works a law out once per shape of the book.
func lawOf(shape float64, learned *Learned, known *[]law) law {
	for _, l := range *known {
		if l.shape == shape {
			return l
		}
	}
	after := learned.sharpen(bee.FromMedian(1, shape))
	l := law{shape: shape, learned: after.Quantile(0.5)}
	l.gamma = after.Times(1 / l.learned)
	for i, p := range [3]float64{0.1, 0.5, 0.9} {
		l.marks[i] = l.gamma.Quantile(p)
		l.markRoots[i] = math.Cbrt(l.marks[i])
	}
	for i := range l.nodes {
		l.nodes[i] = l.gamma.Quantile(nodeAt[i])
		l.nodeRoots[i] = math.Cbrt(l.nodes[i])
	}
	*known = append(*known, l)
	return l
}
