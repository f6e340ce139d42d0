package memory

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Two worked examples of textbooks. Jeremy's test: prior N(110, 120), readings of
// variance 80, one of 98 gives N(102.8, 48), five N(99.4, 14.1) (Reding, notes to
// ISyE 6420, unit 4). A job applicant: prior N(100, 15^2), a test of N(x, 7.5^2)
// that gives 123 leaves N(118.4, 45), 95 % within 105.3 to 131.5 (Tijms,
// Understanding Probability, as retold in an interview collection).
func TestNormalAgainstTextbooks(t *testing.T) {
	one := Normal{110, math.Sqrt(120)}.Update(98, math.Sqrt(80))
	assert.InDelta(t, 102.8, one.Mean, 0.05)
	assert.InDelta(t, 48, one.SD*one.SD, 0.5)
	five := Normal{110, math.Sqrt(120)}
	for range 5 {
		five = five.Update(98, math.Sqrt(80))
	}
	assert.InDelta(t, 99.4, five.Mean, 0.05)
	assert.InDelta(t, 14.1, five.SD*five.SD, 0.05)

	job := Normal{100, 15}.Update(123, 7.5)
	assert.InDelta(t, 118.4, job.Mean, 0.05)
	assert.InDelta(t, 45, job.SD*job.SD, 0.5)
	assert.InDelta(t, 105.3, job.Quantile(0.025), 0.06) // the book takes 1.96 and the rounded mean
	assert.InDelta(t, 131.5, job.Quantile(0.975), 0.06)
	assert.InDelta(t, 0.975, job.Under(job.Quantile(0.975)), 1e-12)
}

// Both levels against summing the joint law on a grid of garden and cultivars,
// which knows no formula but the normal density.
func TestLevelsAgainstAGrid(t *testing.T) {
	l := Levels{Mean: 3.6, Garden: 0.1, Cultivar: 0.14}
	seen := []Seen{{"a", 3.5, 0.1}, {"b", 3.8, 0.12}, {"a", 3.45, 0.15}}
	f := l.Learn(seen)

	const steps, wide = 90, 5.0
	at := func(i int) float64 { return wide * (2*float64(i)/steps - 1) }
	log := func(x, mean, sd float64) float64 { z := (x - mean) / sd; return -z * z / 2 }
	var weight, a, aa, b, c, cc, diff, dd float64
	for i := range steps + 1 {
		g := l.Mean + l.Garden*at(i)
		for j := range steps + 1 {
			ta := g + l.Cultivar*at(j)
			for k := range steps + 1 {
				tb := g + l.Cultivar*at(k)
				w := math.Exp(log(at(i), 0, 1) + log(at(j), 0, 1) + log(at(k), 0, 1) + log(3.5, ta, 0.1) + log(3.45, ta, 0.15) + log(3.8, tb, 0.12))
				weight, a, aa, b = weight+w, a+w*ta, aa+w*ta*ta, b+w*tb
				c, cc = c+w*g, cc+w*(g*g+l.Cultivar*l.Cultivar)
				diff, dd = diff+w*(ta-tb), dd+w*(ta-tb)*(ta-tb)
			}
		}
	}
	sd := func(sum, squares float64) float64 {
		return math.Sqrt(squares/weight - sum/weight*sum/weight)
	}
	const fine = 1e-4 // a tenth of a standard deviation is one step of the grid
	assert.InDelta(t, a/weight, f.Of("a").Mean, fine)
	assert.InDelta(t, sd(a, aa), f.Of("a").SD, fine)
	assert.InDelta(t, b/weight, f.Of("b").Mean, fine)
	assert.InDelta(t, c/weight, f.Of("never seen").Mean, fine)
	assert.InDelta(t, sd(c, cc), f.Of("never seen").SD, fine)
	assert.InDelta(t, diff/weight, f.Less("a", "b").Mean, fine)
	assert.InDelta(t, sd(diff, dd), f.Less("a", "b").SD, fine)
}

func TestOtherCultivarsCountLess(t *testing.T) {
	l := Levels{Mean: 0, Garden: 0.1, Cultivar: 0.1}
	own := l.Learn([]Seen{{"a", 0.2, 0.1}}).Of("a").Mean
	other := l.Learn([]Seen{{"b", 0.2, 0.1}}).Of("a").Mean
	assert.Greater(t, own, other)
	assert.Greater(t, other, 0.0)
	// Unnamed ones are each of their own: two of them teach more of the garden
	// than two of one cultivar, and nothing of "" itself.
	unnamed := l.Learn([]Seen{{"", 0.2, 0.1}, {"", 0.2, 0.1}})
	same := l.Learn([]Seen{{"b", 0.2, 0.1}, {"b", 0.2, 0.1}})
	assert.Greater(t, unnamed.Of("a").Mean, same.Of("a").Mean)
	assert.Equal(t, unnamed.Of("a"), unnamed.Of(""))
	assert.Equal(t, Normal{0, math.Hypot(0.1, 0.1)}, l.Learn(nil).Of("a"), "without readings it is the book")
	assert.Zero(t, own-l.Learn([]Seen{{"a", 0.2, 0.1}}).Of("a").Mean)
}

// A slip of the pen moves the cultivar by a bounded step, however wild it is.
func TestOneOddReadingIsBounded(t *testing.T) {
	l := Levels{Mean: 0, Garden: 0.1, Cultivar: 0.1}
	wild, far := l.Learn([]Seen{{"a", 9, 0.1}}).Of("a").Mean, Strayed*math.Sqrt(0.03)
	assert.Equal(t, wild, l.Learn([]Seen{{"a", 0.9, 0.1}}).Of("a").Mean)
	assert.InDelta(t, far*2/3, wild, 1e-12, "two levels of 0.1 against a reading of 0.1")
	mended := l.Learn([]Seen{{"a", 9, 0.1}, {"a", 0, 0.1}, {"a", 0, 0.1}, {"a", 0, 0.1}}).Of("a").Mean
	assert.Less(t, mended, wild/2, "true readings pull it back")
}

// A thousand gardens whose cultivars and readings follow the law: the 90 %
// interval of a cultivar covers the truth in 87 to 93 % of them.
func TestCultivarIntervalsCover(t *testing.T) {
	rng := rand.New(rand.NewPCG(20260720, 3))
	l := Levels{Mean: 3.7, Garden: 0.07, Cultivar: 0.1}
	const gardens, sd = 1000, 0.1
	covered, ordered := 0, 0
	for range gardens {
		garden := l.Mean + l.Garden*rng.NormFloat64()
		truth := [2]float64{garden + l.Cultivar*rng.NormFloat64(), garden + l.Cultivar*rng.NormFloat64()}
		var seen []Seen
		for i := range 1 + rng.IntN(5) {
			k := i % 2
			seen = append(seen, Seen{string(rune('a' + k)), truth[k] + sd*rng.NormFloat64(), sd})
		}
		f := l.Learn(seen)
		if a := f.Of("a"); truth[0] >= a.Quantile(0.05) && truth[0] <= a.Quantile(0.95) {
			covered++
		}
		if d := f.Less("a", "b"); truth[0]-truth[1] >= d.Quantile(0.05) && truth[0]-truth[1] <= d.Quantile(0.95) {
			ordered++
		}
	}
	t.Logf("of %d gardens the 90 %% interval of a cultivar covers %d, that of a difference %d", gardens, covered, ordered)
	assert.True(t, covered >= 870 && covered <= 930, covered)
	assert.True(t, ordered >= 870 && ordered <= 930, ordered)
}
