package memory

import (
	"cmp"
	"math"
	"slices"
)

// Normal is what is believed of a number: a normal law. The zero Normal is
// certain of 0.
type Normal struct{ Mean, SD float64 }

// Update learns from a reading y whose own spread is sd: precisions add up, means
// are weighted by them.
func (n Normal) Update(y, sd float64) Normal {
	a, b := n.SD*n.SD, sd*sd
	if a+b == 0 {
		return n
	}
	return Normal{(b*n.Mean + a*y) / (a + b), math.Sqrt(a * b / (a + b))} // [Reding6420, status read]
}

// Plus gives the law of the sum with an independent number.
func (n Normal) Plus(o Normal) Normal { return Normal{n.Mean + o.Mean, math.Hypot(n.SD, o.SD)} }

// Under gives the chance that the number is less than x.
func (n Normal) Under(x float64) float64 {
	if n.SD == 0 {
		switch {
		case n.Mean < x:
			return 1
		case n.Mean > x:
			return 0
		}
		return 0.5
	}
	return math.Erfc((n.Mean-x)/(n.SD*math.Sqrt2)) / 2
}

// Quantile gives the number not exceeded with chance p, 0 < p < 1.
func (n Normal) Quantile(p float64) float64 {
	return n.Mean - n.SD*math.Sqrt2*math.Erfcinv(2*p)
}

// Levels is what a book knows of a number that differs from garden to garden and,
// within a garden, from cultivar to cultivar: its mean and the standard deviation
// of either difference.
type Levels struct{ Mean, Garden, Cultivar float64 }

// Seen is one reading of the number on a cultivar. Readings without a cultivar's
// name are each of a cultivar of their own: what is not told is not the same.
type Seen struct {
	Cultivar string
	Value    float64
	SD       float64 // how far one reading strays from its cultivar, > 0
}

// Fit is what readings teach of the garden and its cultivars.
type Fit struct {
	levels    Levels
	garden    Normal // mean of the cultivars of this garden
	cultivars map[string]Normal
}

// Strayed bounds how far one reading counts, in standard deviations of what the
// book lets one expect of it; what lies beyond counts as lying there. One slip of
// the pen then moves a cultivar by a bounded step, and what is true shows again.
// [chosen: one true reading in eighty is touched]
const Strayed = 2.5

// Learn works out the garden and its cultivars from readings: normal laws on both
// levels, so that the result is exact but for readings that strayed.
func (l Levels) Learn(seen []Seen) *Fit {
	f := &Fit{levels: l, garden: Normal{l.Mean, l.Garden}, cultivars: map[string]Normal{}}
	sorted := slices.Clone(seen)
	slices.SortStableFunc(sorted, func(a, b Seen) int { return cmp.Compare(a.Cultivar, b.Cultivar) })
	for i := 0; i < len(sorted); {
		name, weight, sum := sorted[i].Cultivar, 0.0, 0.0
		for first := i; i < len(sorted) && sorted[i].Cultivar == name && (name != "" || i == first); i++ {
			w := 1 / (sorted[i].SD * sorted[i].SD)
			weight, sum = weight+w, sum+w*l.within(sorted[i])
		}
		own := Normal{sum / weight, 1 / math.Sqrt(weight)}
		f.garden = f.garden.Update(own.Mean, math.Hypot(own.SD, l.Cultivar))
		if name != "" {
			f.cultivars[name] = own
		}
	}
	return f
}

// within takes a reading that strayed back to where it still counts.
func (l Levels) within(s Seen) float64 {
	far := Strayed * math.Hypot(math.Hypot(l.Garden, l.Cultivar), s.SD)
	return min(max(s.Value, l.Mean-far), l.Mean+far)
}

// Of gives what is believed of a cultivar; of one never seen, and of "", what the
// others teach.
func (f *Fit) Of(cultivar string) Normal {
	rest, own, sd := f.part(cultivar)
	return Normal{own + rest*f.garden.Mean, math.Hypot(sd, rest*f.garden.SD)}
}

// Less gives the law of cultivar a's number less b's. Both lean on the same
// garden, which therefore nearly cancels.
func (f *Fit) Less(a, b string) Normal {
	restA, ownA, sdA := f.part(a)
	restB, ownB, sdB := f.part(b)
	rest := restA - restB
	return Normal{ownA - ownB + rest*f.garden.Mean, math.Hypot(math.Hypot(sdA, sdB), rest*f.garden.SD)}
}

// part splits a cultivar's number: the share of it that follows the garden's
// mean, what its own readings put in the place of the rest, and the spread that
// is left when the garden's mean is known.
func (f *Fit) part(cultivar string) (rest, own, sd float64) {
	u := f.levels.Cultivar
	read, ok := f.cultivars[cultivar]
	if !ok || cultivar == "" {
		return 1, 0, u
	}
	w := u * u / (u*u + read.SD*read.SD)
	return 1 - w, w * read.Mean, u * math.Sqrt(1-w)
}
