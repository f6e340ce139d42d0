package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/memory"
)

// twoSowings is a garden with two sowings of one cucumber and a third of another,
// none seen in flower, under a season of steady warmth that ends in a week.
func twoSowings(t testing.TB) (*Garden, *forecast.Series, forecast.Date) {
	g := seasonGarden(t, "cucumber", "cucumber", "cucumber")
	g.Place = forecast.Place{Lat: 41, Lon: -93, Zone: time.FixedZone("CDT", -5*3600)}
	today := forecast.Date{Year: 2026, Month: 7, Day: 15}
	s := sine(today.AddDays(-70).Start(g.Place.Zone), 78, 24, 6, 16, 2, 0.2, nil)
	for i, name := range []string{"first", "second", "other"} {
		g.Plantings[i].Name, g.Plantings[i].Cultivar, g.Plantings[i].FirstFemale = name, "Gatepost Green", forecast.Date{}
	}
	g.Plantings[0].Sown = today.AddDays(-60)
	g.Plantings[1].Sown, g.Plantings[2].Sown = today.AddDays(-25), today.AddDays(-25)
	g.Plantings[2].Cultivar = "Little Lantern"
	return g, s, today
}

func first(planting, sex string, d forecast.Date) memory.Entry {
	return memory.Entry{Kind: memory.First, Planting: planting, Sex: sex, Date: d}
}

// An early first flower typed for the first sowing brings the second one forward
// at once, another cultivar's less; the first itself goes by its own date alone.
func TestAFirstFlowerMovesTheNextSowing(t *testing.T) {
	g, s, today := twoSowings(t)
	zone := g.Place.Zone
	dates := func(planting int, entries ...memory.Entry) growth.Dates {
		l := Learn(g, s, entries, today.At(9, zone))
		m := NewModelWith(Remember(g, entries, today), l)
		m.Assess(s, today, 1)
		b := m.models[planting].dates
		require.True(t, b.known)
		return b.est.Female
	}
	start := func(planting int, entries ...memory.Entry) int {
		return dates(planting, entries...).From.DaysSince(g.Plantings[planting].Sown)
	}
	seen := first("first", "female", g.Plantings[0].Sown.AddDays(34))
	book := start(1)
	assert.Equal(t, 33, book, "by the book from 33 days on")
	own, other := dates(1, seen), dates(2, seen)
	assert.Less(t, start(1, seen), book, "34 days where 43 are the book's middle")
	assert.True(t, own.To.Before(other.To), "another cultivar is moved less")
	assert.True(t, other.To.Before(g.Plantings[2].Sown.AddDays(55)), "but it is moved")
	assert.Less(t, own.To.DaysSince(own.From), other.To.DaysSince(other.From), "and less sure")
	assert.Equal(t, 34, start(0, seen), "the planting itself goes by what was seen")
	assert.Equal(t, start(1, seen), start(1, seen, first("first", "male", g.Plantings[0].Sown.AddDays(30))), "males teach nothing of females")
	tomorrow := first("first", "female", today.AddDays(1))
	assert.Equal(t, book, start(1, tomorrow), "what has not come yet teaches nothing")
	mine := first("second", "female", today.AddDays(-1))
	assert.Equal(t, 24, start(1, seen, mine), "its own date wins")

	// The plan of the day differs with and without the entry: the second sowing may
	// be in flower.
	bloom := func(entries ...memory.Entry) Bloom {
		later := today.AddDays(6)
		l := Learn(g, s, entries, today.At(9, zone))
		return NewModelWith(Remember(g, entries, today), l).Assess(s, later, 1).Days[0].Plantings[1].Bloom
	}
	assert.NotEqual(t, MaybeBloom, bloom())
	assert.Equal(t, MaybeBloom, bloom(seen))
}

func TestSightingsOfTheGarden(t *testing.T) {
	g, s, today := twoSowings(t)
	p := g.Plantings
	p[1].Cover = Tunnel
	p[2].Finished = today.AddDays(-1)
	p[0].FirstMale = p[0].Sown.AddDays(30)
	entries := []memory.Entry{
		first("first", "male", p[0].Sown.AddDays(28)), first("first", "female", p[0].Sown.AddDays(36)), first("first", "female", p[0].Sown.AddDays(-300)),
		first("second", "female", today), first("other", "female", today.AddDays(-2)), first("nowhere", "female", today),
		{Kind: memory.Opened, Planting: "first", Date: p[0].Sown.AddDays(33), Female: forecast.Known(3)},
	}
	f := LearnFirsts(g, s, entries, today)["cucumber"]
	require.Len(t, f, 4)
	assert.Equal(t, 28.0, f[0].Days, "the earlier of file and diary")
	assert.Equal(t, 36.0, f[1].Days, "an earlier year's entry of the name is passed over, flowers counted are not the first ones")
	assert.Equal(t, growth.Whole, f[1].Fault)
	assert.Equal(t, growth.UnderCover, f[2].Fault)
	assert.Equal(t, 23.0, f[3].Days, "a finished planting teaches")
	assert.Nil(t, LearnFirsts(g, nil, nil, p[0].Sown), "nothing seen, nothing learned, no weather read")

	from, to := FirstsSpan(g, entries, today)
	assert.Equal(t, p[0].Sown, from)
	assert.Equal(t, today, to)
	p[0].FirstMale = forecast.Date{}
	from, _ = FirstsSpan(g, nil, today)
	assert.True(t, from.IsZero())

	view := (&Assessment{Garden: g, Learned: Learned{Firsts: Firsts{"cucumber": f}}}).FirstFlowersOf(&p[0])
	require.Len(t, view, 2)
	assert.Equal(t, 1, view[1].Unused)
	assert.Equal(t, 2, view[1].Norms.Days.N)
}

// Two cultivars, each sown and counted: the likelier is told only where nine in
// ten speak for it, and only days on which both were counted are held together.
func TestCultivarsCompared(t *testing.T) {
	g, s, today := twoSowings(t)
	p := g.Plantings
	p[2].Sown = p[0].Sown
	set := func(planting string, day int, count, of float64) memory.Entry {
		return memory.Entry{Kind: memory.Set, By: memory.ByBees, Planting: planting, Date: today.AddDays(day), Count: forecast.Known(count), Of: forecast.Known(of)}
	}
	entries := []memory.Entry{first("first", "female", p[0].Sown.AddDays(34)), first("other", "female", p[2].Sown.AddDays(58)),
		set("first", -3, 18, 20), set("other", -3, 9, 20), set("other", -9, 20, 20)}
	teach := func() Kind {
		l := Learn(g, s, entries, today.At(20, g.Place.Zone))
		kinds := Teach(g, l, entries).Kinds
		require.Len(t, kinds, 1)
		return kinds[0]
	}
	k := teach()
	require.Len(t, k.Cultivars, 2)
	require.Len(t, k.Verdicts, 2)
	v := k.Verdicts[0]
	assert.Equal(t, FirstFemaleEarlier, v.Topic)
	assert.Equal(t, "Gatepost Green", v.Better)
	assert.Greater(t, v.Sum, 20.0, "degree days, for the warmth of both is known")
	assert.Zero(t, v.Days)
	v = k.Verdicts[1]
	assert.Equal(t, Verdict{Topic: SetByBees, Better: "Gatepost Green", Other: "Little Lantern", Chance: v.Chance, N: [2]int{20, 20}, Paired: 1}, v)
	assert.True(t, v.Told())
	assert.InDelta(t, memory.Beta{A: 19, B: 3}.Beats(memory.Beta{A: 10, B: 12}), v.Chance, 1e-12)
	assert.Equal(t, 29.0, k.Cultivars[1].Bees.A-1, "alone, all its counts count")

	// Alike but for a day: nothing can be told.
	entries = []memory.Entry{first("first", "female", p[0].Sown.AddDays(40)), first("other", "female", p[2].Sown.AddDays(41)), set("first", -3, 3, 4), set("other", -2, 2, 4)}
	k = teach()
	require.Len(t, k.Verdicts, 2)
	for _, v := range k.Verdicts {
		assert.False(t, v.Told(), "%+v", v)
		assert.GreaterOrEqual(t, v.Chance, 0.5)
	}
	assert.Zero(t, k.Verdicts[1].Paired, "counted on different days")

	// Counted on different days, or in a tunnel, nothing is told however far apart.
	entries = []memory.Entry{set("first", -3, 20, 20), set("other", -2, 1, 20)}
	v = teach().Verdicts[0]
	assert.Greater(t, v.Chance, 0.99)
	assert.False(t, v.Told())
	entries[1].Date = entries[0].Date
	assert.True(t, func() bool { v := teach().Verdicts[0]; return v.Told() }())
	p[2].Cover = Tunnel
	assert.Empty(t, teach().Verdicts)
}
