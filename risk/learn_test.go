package risk

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/memory"
)

func learnGarden(t testing.TB) (*Garden, *forecast.Series, forecast.Date) {
	g := seasonGarden(t, "cucumber", "summer-squash")
	g.Place = forecast.Place{Lat: 41, Lon: -93, Zone: time.FixedZone("CDT", -5*3600)}
	date := forecast.Date{Year: 2026, Month: 7, Day: 15}
	s := sine(date.AddDays(-3).Start(g.Place.Zone), 5, 24, 6, 16, 2, 0.2, nil)
	for i := range g.Plantings {
		g.Plantings[i].FirstFemale = date.AddDays(-10)
	}
	return g, s, date
}

func count(at time.Time, zone *time.Location, planting string, minutes, flowers, visits float64) memory.Entry {
	return memory.Entry{Kind: memory.Bees, At: at, Date: forecast.DateOf(at, zone), Planting: planting,
		Minutes: forecast.Known(minutes), Flowers: forecast.Known(flowers), Visits: forecast.Known(visits)}
}

// A count typed at 07:35 changes this morning's verdict, in the stated way: no
// visit where some were expected lowers what bees will fill, many raise it.
func TestACountChangesThisMorning(t *testing.T) {
	g, s, date := learnGarden(t)
	now := date.At(7+35.0/60, g.Place.Zone)
	fill := func(visits float64) Range {
		l := Learn(g, s, []memory.Entry{count(now.Add(-5*time.Minute), g.Place.Zone, "cucumber", 5, 20, visits)}, now)
		require.Equal(t, 1, l.Counts)
		return NewModelWith(g, l).Assess(s, date, 1).Days[0].Plantings[0].Fill
	}
	book := Assess(g, s, date, 1).Days[0].Plantings[0].Fill
	none, usual, many := fill(0), fill(4), fill(15)
	assert.Less(t, none.Mid, book.Mid-0.1)
	assert.Greater(t, many.Mid, book.Mid)
	assert.Less(t, usual.Hi-usual.Lo, book.Hi-book.Lo, "a count narrows the range")
	assert.Less(t, none.Hi, book.Hi)
}

// Gamma-Poisson against numbers worked out apart: prior Gamma(1.5, 1.18299) per
// multiplier (median 1), 6 visits where the book expects 3.2: posterior
// Gamma(7.5, 4.38299), mean 1.711160.
func TestSharpenAgainstHand(t *testing.T) {
	l := Learned{Visits: 6, Expected: 3.2}
	post := l.sharpen(bee.FromMedian(1, 1.5))
	assert.InDelta(t, 7.5, post.Shape, 1e-12)
	assert.InDelta(t, 7.5/(1.1829869421+3.2), post.Mean(), 1e-8)
	// Independently: the density gamma^(a-1) exp(-b gamma) * Poisson likelihood, summed on a grid.
	num, den := 0.0, 0.0
	for i := 1; i < 400000; i++ {
		x := float64(i) * 1e-4
		p := math.Exp(0.5*math.Log(x) - 1.1829869421*x + 6*math.Log(3.2*x) - 3.2*x)
		num, den = num+x*p, den+p
	}
	assert.InDelta(t, num/den, post.Mean(), 1e-6)
}

// A thousand gardens whose true supply is drawn from the book's own law: after
// counts of one morning the 90 % interval covers the truth in 87 to 93 %.
func TestIntervalsCover(t *testing.T) {
	rng := rand.New(rand.NewPCG(20260715, 1))
	prior := bee.FromMedian(1, 1.5)
	const gardens = 1000
	covered := 0
	for range gardens {
		truth := prior.Quantile(rng.Float64())
		l := Learned{}
		for range 1 + rng.IntN(4) {
			expected := 0.3 + 4*rng.Float64()
			l.Expected += expected
			l.Visits += float64(poisson(rng, truth*expected))
		}
		post := l.sharpen(prior)
		if truth >= post.Quantile(0.05) && truth <= post.Quantile(0.95) {
			covered++
		}
	}
	t.Logf("90 %% intervals cover %d of %d", covered, gardens)
	assert.True(t, covered >= 870 && covered <= 930, covered)
}

// poisson draws by counting exponential gaps.
func poisson(rng *rand.Rand, mean float64) (n int) {
	for t := rng.ExpFloat64(); t < mean; t += rng.ExpFloat64() {
		n++
	}
	return n
}

// What a count means hangs on the hour's weather: counts that no weather is known
// for, of crops that bees do not matter to, or in the future teach nothing.
func TestCountsThatTeachNothing(t *testing.T) {
	g, s, date := learnGarden(t)
	now := date.At(12, g.Place.Zone)
	zone := g.Place.Zone
	ok := count(date.At(8, zone), zone, "cucumber", 5, 10, 3)
	far := count(date.AddDays(-40).At(8, zone), zone, "cucumber", 5, 10, 3)
	night := count(date.At(2, zone), zone, "cucumber", 5, 10, 0)
	later := count(date.At(13, zone), zone, "cucumber", 5, 10, 3)
	other := count(date.At(8, zone), zone, "nowhere", 5, 10, 3)
	l := Learn(g, s, []memory.Entry{ok, far, night, later, other}, now)
	assert.Equal(t, 1, l.Counts)
	assert.Equal(t, 3, l.Unused)
	assert.InDelta(t, 3, l.Visits, 0.03)

	older := Learn(g, s, []memory.Entry{count(date.AddDays(-2).At(8, zone), zone, "cucumber", 5, 10, 3)}, now)
	assert.InDelta(t, 3*math.Exp2(-(2+4.0/24)/countHalfLife), older.Visits, 1e-9, "an older count weighs less")
}

// Flowers brushed by hand that did not set lower what the plan promises of a brush.
func TestHandSetTeaches(t *testing.T) {
	g, s, date := learnGarden(t)
	e := memory.Entry{Kind: memory.Set, Date: date, By: memory.ByHand, Planting: "cucumber", Count: forecast.Known(8), Of: forecast.Known(20)}
	l := Learn(g, s, []memory.Entry{e}, date.At(12, g.Place.Zone))
	assert.Equal(t, 20.0, l.HandOf)
	book := Assess(g, s, date, 1).Days[0].Plantings[0]
	learned := NewModelWith(g, l).Assess(s, date, 1).Days[0].Plantings[0]
	assert.Less(t, learned.BestShare, book.BestShare-0.2)
	assert.InDelta(t, (0.93*10+8)/30, l.Hand.Mean(), 1e-12)
}

// The book's law has median 1 whatever was learned, so that ranges stay in terms
// of this garden's middle.
func TestSupplyView(t *testing.T) {
	g, s, date := learnGarden(t)
	a := NewModelWith(g, Learned{Visits: 0, Expected: 5}).Assess(s, date, 1)
	v := a.SupplyOf(&g.Plantings[0])
	assert.Greater(t, v.Book[bee.Honey], 2*v.Garden[bee.Honey])
	assert.Greater(t, v.Hi, 1.0)
	assert.Less(t, v.Lo, 1.0)
}
