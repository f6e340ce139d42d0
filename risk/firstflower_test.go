package risk

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

var sunny = time.FixedZone("CDT", -5*3600)

// steadyGarden has two sowings of summer squash under a sky that swings between 14
// and 28 degC on every day: base 10 and limit 32 are never passed, so a day gives its
// mean less 10, which is 11 degC days by any of the methods.
func steadyGarden(t testing.TB) (*Garden, *forecast.Series) {
	g := seasonGarden(t, "summer-squash", "summer-squash")
	g.Place = forecast.Place{Lat: 41, Lon: -93, Zone: sunny}
	a, b := &g.Plantings[0], &g.Plantings[1]
	*a = Planting{Name: "early", Crop: a.Crop, Cultivar: "Sand Yellow", Species: a.Species, Plants: 6, Sown: forecast.Date{Year: 2026, Month: 5, Day: 1}}
	*b = Planting{Name: "late", Crop: b.Crop, Cultivar: "sand  yellow", Species: b.Species, Plants: 6, Sown: forecast.Date{Year: 2026, Month: 6, Day: 1}}
	s := sine(a.Sown.Start(sunny), 90, 21, 7, 14, 2, 0.2, nil)
	return g, s
}

func firstEntry(planting string, on forecast.Date) memory.Entry {
	return memory.Entry{Kind: memory.First, Sex: "female", Planting: planting, Date: on}
}

// A first flower typed for the early sowing moves the late one's flowers at once: 40
// days of 11 degC days are 440, and a second sowing of the cultivar is told to flower
// about 40 days after its own sowing instead of what the book counts.
func TestFirstFlowerTeachesTheNextSowing(t *testing.T) {
	g, s := steadyGarden(t)
	seen := g.Plantings[0].Sown.AddDays(39) // the 40th day
	entries := []memory.Entry{firstEntry("early", seen)}
	now := seen.At(12, sunny)
	g2 := Remember(g, entries, seen)
	l := Learn(g2, s, entries, now)
	require.Len(t, l.First, 1)
	assert.InDelta(t, 440, l.First[0].Sum, 4, "40 days of 11 degC days; hours miss the extremes by a little")

	bloom := func(l Learned, g *Garden) (first, last forecast.Date) {
		from := g.Plantings[1].Sown
		a := NewModelWith(g, l).Assess(s, from, 55)
		for _, d := range a.Days {
			if p := d.Plantings[1]; p.Bloom == MaybeBloom && first.IsZero() {
				first = d.Date
			} else if p.Bloom == InBloom && last.IsZero() {
				last = d.Date
			}
		}
		return first, last
	}
	bookFirst, bookLast := bloom(Learned{}, g)
	first, last := bloom(l, g2)
	assert.NotEqual(t, [2]forecast.Date{bookFirst, bookLast}, [2]forecast.Date{first, last})
	t.Logf("by the book from %v to %v, learned from %v to %v", bookFirst, bookLast, first, last)
	middle := g2.Plantings[1].Sown.AddDays(40)
	assert.True(t, first.Before(middle) && last.After(middle), "from %v to %v around %v", first, last, middle)
	assert.LessOrEqual(t, last.DaysSince(first), 13, "a seventh and the noise of one planting either way")

	a := NewModelWith(g2, l).Assess(s, seen, 1)
	assert.Contains(t, a.Days[0].Plantings[1].BloomBasis, "learned here from one first flower")
	assert.Contains(t, a.Days[0].Plantings[0].BloomBasis, "seen on", "what was seen stays what was seen")
}

// Without its sowing, its temperatures or a day of its own, a first flower teaches
// nothing and says why; a count of open flowers is no first flower.
func TestFirstFlowerThatTeachesNothing(t *testing.T) {
	g, s := steadyGarden(t)
	day := g.Plantings[0].Sown.AddDays(39)
	now := day.At(12, sunny)
	for why, change := range map[string]func(g *Garden, s *forecast.Series){
		"sowing date is not told":       func(g *Garden, _ *forecast.Series) { g.Plantings[0].Sown = forecast.Date{} },
		"sown on the day":               func(g *Garden, _ *forecast.Series) { g.Plantings[0].Sown = day },
		"temperatures are not known up": func(_ *Garden, s *forecast.Series) { s.Hours = s.Hours[:24*30] },
		"too few temperatures are known from its sowing to": func(_ *Garden, s *forecast.Series) {
			for i := range 24 * 12 {
				s.Hours[i].Temp = forecast.Value{}
			}
		},
	} {
		g, s := steadyGarden(t)
		change(g, s)
		g.Plantings[1].FirstFemale = day.AddDays(1) // of the future: not looked at
		entries := []memory.Entry{firstEntry("early", day)}
		l := Learn(Remember(g, entries, day), s, entries, now)
		require.Len(t, l.First, 1, why)
		assert.Contains(t, l.First[0].Why, why)
		assert.False(t, l.sum(&g.Plantings[1], true).Known())
	}
	open := []memory.Entry{{Kind: memory.Opened, Planting: "early", Date: day, Female: forecast.Known(7)}}
	assert.Empty(t, Learn(Remember(g, open, day), s, open, now).First)
	both := append(open, firstEntry("early", day))
	assert.Len(t, Learn(Remember(g, both, day), s, both, now).First, 1)
}

// Another cultivar teaches less than the cultivar itself, and one odd flower does not
// swing a belief that rests on the book.
func TestSumsOfCultivars(t *testing.T) {
	g, _ := steadyGarden(t)
	own, other := &g.Plantings[0], &Planting{Crop: g.Plantings[0].Crop, Cultivar: "Grey Hill", Species: g.Plantings[0].Species}
	seen := func(p *Planting, sum float64) FirstFlower { return FirstFlower{Planting: p, Female: true, Sum: sum} }
	l := Learned{First: []FirstFlower{seen(own, 400), seen(own, 420)}}
	mine, theirs := l.sum(own, true), l.sum(other, true)
	assert.InDelta(t, math.Sqrt(400*420), mine.Middle, 1e-9)
	assert.InDelta(t, mine.Middle, theirs.Middle, 1e-9)
	assert.Greater(t, theirs.High/theirs.Low, mine.High/mine.Low, "another cultivar's is wider")
	l.First = append(l.First, seen(other, 600))
	pulled := l.sum(own, true)
	assert.Greater(t, pulled.Middle, mine.Middle)
	assert.Less(t, pulled.Middle, mine.Middle*1.05, "two of its own outweigh one of another")
	assert.Equal(t, 3, pulled.Plantings)
	assert.False(t, l.sum(own, false).Known(), "female flowers say nothing of male ones")

	book := memory.Around(math.Log(500), sumBook)
	odd := book.Update(math.Log(1000), sumNoise)
	assert.Less(t, math.Exp(odd.Mean), 810.0, "an odd one is not the truth")
}

// A thousand gardens whose cultivar strays from the book as the book says: after a
// few first flowers the range of nine in ten holds the next planting's sum in 87 to 93
// of a hundred.
func TestSumIntervalsCover(t *testing.T) {
	rng := rand.New(rand.NewPCG(20260716, 2))
	const gardens = 1000
	covered := 0
	for range gardens {
		truth := math.Log(500) + sumBook*rng.NormFloat64()
		belief := memory.Around(math.Log(500), sumBook)
		for range 1 + rng.IntN(4) {
			belief = belief.Update(truth+sumNoise*rng.NormFloat64(), sumNoise)
		}
		next := truth + sumNoise*rng.NormFloat64()
		half := 1.6448536270 * math.Hypot(belief.SD(), sumNoise)
		if math.Abs(next-belief.Mean) <= half {
			covered++
		}
	}
	t.Logf("90 %% intervals cover %d of %d", covered, gardens)
	assert.True(t, covered >= 870 && covered <= 930, covered)
}

// Cultivars stand side by side with what is their own alone.
func TestCultivarsSideBySide(t *testing.T) {
	g, _ := steadyGarden(t)
	g.Plantings[1].Cultivar = "Grey Hill"
	set := func(planting, by string, k, n float64) memory.Entry {
		return memory.Entry{Kind: memory.Set, Planting: planting, By: by, Count: forecast.Known(k), Of: forecast.Known(n), Date: g.Plantings[0].Sown.AddDays(60)}
	}
	entries := []memory.Entry{set("early", memory.ByBees, 9, 10), set("early", memory.ByHand, 10, 10), set("late", memory.ByBees, 2, 10)}
	l := Learned{First: []FirstFlower{{Planting: &g.Plantings[0], Female: true, Sum: 440}}}
	got := l.Cultivars(g, entries)
	require.Len(t, got, 2)
	assert.Equal(t, []any{"Sand Yellow", 1, 10.0, 10.0}, []any{got[0].Cultivar, got[0].Seen, got[0].Shares.BeesOf, got[0].Shares.HandOf})
	assert.Equal(t, []any{"Grey Hill", 0, 10.0, 0.0}, []any{got[1].Cultivar, got[1].Seen, got[1].Shares.BeesOf, got[1].Shares.HandOf})
	assert.True(t, got[0].Sum.Known())
	assert.False(t, got[1].Sum.Known())
	assert.Greater(t, got[0].Shares.Bees.Beats(got[1].Shares.Bees), 0.9)
}
