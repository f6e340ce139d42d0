package ledger

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
	"dawnbrush/risk/water/et0"
)

var june1 = forecast.Date{Year: 2026, Month: 6, Day: 1}

// kept keeps the plot's one bed, today being 20 July, six in the morning.
func kept(t testing.TB, g *risk.Garden, s *forecast.Series, entries ...memory.Entry) *Bed {
	t.Helper()
	b := &Keep(g, s, entries, at(g, july20, 6)).Beds[0]
	require.Equal(t, Reckoned, b.Why)
	return b
}

func today(t testing.TB, b *Bed) *Day {
	t.Helper()
	return day(t, b, july20)
}

func day(t testing.TB, b *Bed, on forecast.Date) *Day {
	t.Helper()
	d, ok := b.Day(on)
	require.True(t, ok)
	return d
}

// regular notes so many litres every so many mornings since planting, up to
// some days before today.
func regular(g *risk.Garden, litres float64, every, until int) (out []memory.Entry) {
	for d := june1; !d.After(july20.AddDays(-until)); d = d.AddDays(every) {
		out = append(out, watered(g, d, 7, litres))
	}
	return out
}

// rainAhead puts rain on a day, to come with a chance between its hours.
func rainAhead(g *risk.Garden, s *forecast.Series, on forecast.Date, from, to float64, mm, chance float64) {
	a, b := on.At(from, g.Place.Zone), on.At(to, g.Place.Zone)
	lo, hi := s.Slice(a, b)
	for i := lo; i < hi; i++ {
		s.Hours[i].Rain, s.Hours[i].RainProb = forecast.Known(mm/float64(hi-lo)), forecast.Known(chance)
	}
	s.Blocks = append(s.Blocks, forecast.RainBlock{Start: a, End: b, Amount: forecast.Known(mm), Prob: forecast.Known(chance)})
}

// A pot of sandy soil in heat is watered twice on one day, and small pots hold one
// or two days of a big tomato's use (memory): 19 litres a quarter of which is
// available against 0.45 m2 of leaves.
func TestPotInHeat(t *testing.T) {
	g := plot(t, func(b *risk.Bed, p *risk.Planting) {
		*b = risk.Bed{Name: "bed 1", Kind: risk.Pots, Pots: 4, PotVolume: 8, Soil: risk.Sand, Watering: risk.Can}
		p.Plants, p.FirstFemale = 4, forecast.Date{Year: 2026, Month: 6, Day: 25}
	})
	b := kept(t, g, sky(g, june1, july20, 3, 34), watered(g, july20.AddDays(-1), 7, 12), watered(g, june1, 7, 1))
	d := today(t, b)
	assert.InDelta(t, 0.25*8/0.45, d.TAW, 1e-9)
	assert.Equal(t, Water, d.Advice.Verdict)
	assert.Equal(t, 2, d.Advice.Times)
	assert.Equal(t, []Cause{CauseDry, CauseSmall, CauseHot, CauseFlower}, d.Advice.Causes[:4])
	assert.InDelta(t, d.Advice.Litres/4, d.Advice.EachPot, 1e-12)
	assert.InDelta(t, d.Advice.MM*0.45/0.8, d.Advice.EachPot, 1e-9, "a can at the foot: 0.80 of it stays with the roots")
	assert.InDelta(t, d.Advice.Litres/10, d.Advice.Cans, 1e-12, "a common can holds 10 l")
	assert.Equal(t, 0, d.Advice.Days)
	assert.Equal(t, Water, day(t, b, july20.AddDays(1)).Advice.Verdict, "and again the next day")
}

// A grower who waters such pots as advised and notes one sum a day keeps them: what a
// pot could not take in the morning is the second watering.
func TestPotsNotedByTheDay(t *testing.T) {
	g := plot(t, func(b *risk.Bed, p *risk.Planting) {
		*b = risk.Bed{Name: "bed 1", Kind: risk.Pots, Pots: 6, PotVolume: 19, Watering: risk.Can}
		p.Plants, p.FirstFemale = 6, forecast.Date{Year: 2026, Month: 6, Day: 25}
	})
	s := sky(g, june1, july20, 2, 28)
	entries := []memory.Entry{watered(g, june1, 7, 1)}
	least := 1.0
	for d := june1.AddDays(1); d.Before(july20); d = d.AddDays(1) {
		b := &Keep(g, s, entries, at(g, d, 6)).Beds[0]
		if a := day(t, b, d).Advice; a.Verdict == Water {
			entries = append(entries, watered(g, d, 7, a.Litres))
		}
	}
	b := kept(t, g, s, entries...)
	for k := range b.Days[:len(b.Days)-3] {
		least = min(least, b.Days[k].Stress.Mid)
	}
	assert.InDelta(t, 1, least, 1e-9)
	balance(t, b)
}

// Rain that may come makes later days less sure, but asks for no look at the soil:
// by then it will have come or not.
func TestDoubtAboutRainToComeAsksForNoLook(t *testing.T) {
	g := plot(t, func(_ *risk.Bed, p *risk.Planting) { p.FirstFemale = forecast.Date{Year: 2026, Month: 7, Day: 1} })
	s := sky(g, june1, july20, 6, 25)
	for k := range 3 {
		rainAhead(g, s, july20.AddDays(k+1), 12, 18, 20, 0.5)
	}
	b := kept(t, g, s, regular(g, 260, 4, 1)...)
	unsure := 0
	for k := range 7 {
		a := day(t, b, july20.AddDays(k)).Advice
		assert.NotEqual(t, LookFirst, a.Verdict, "day %d", k)
		if a.Sure != risk.VerySure {
			unsure++
		}
	}
	assert.Positive(t, unsure)
}

// A bed of clay in a cool week, watered two days ago, wants nothing for days.
func TestClayInACoolWeek(t *testing.T) {
	g := plot(t, func(b *risk.Bed, p *risk.Planting) {
		b.Soil, b.Mulch = risk.Clay, risk.Organic
		p.FirstFemale = forecast.Date{Year: 2026, Month: 7, Day: 1}
	})
	b := kept(t, g, sky(g, june1, july20, 6, 15), regular(g, 300, 3, 1)...)
	for k := range 4 {
		a := day(t, b, july20.AddDays(k)).Advice
		assert.Equal(t, Enough, a.Verdict, "day %d", k)
		assert.Zero(t, a.Litres)
	}
	assert.Contains(t, today(t, b).Advice.Causes, CauseGiven)
	assert.True(t, today(t, b).Advice.Days > 3 || today(t, b).Advice.Days == -1)
}

// The gauge goes before a station, a station before a forecast; only the forecast
// leaves a range, and where that range decides the gauge is asked for.
func TestWhoTellsTheRain(t *testing.T) {
	g := plot(t, func(_ *risk.Bed, p *risk.Planting) { p.FirstFemale = forecast.Date{Year: 2026, Month: 7, Day: 1} })
	tell := func(origin forecast.Origin, mm, chance float64, entries ...memory.Entry) *Bed {
		s := sky(g, june1, july20, 2, 22)
		wet := july20.AddDays(-2)
		lo, hi := s.Slice(wet.At(8, g.Place.Zone), wet.At(14, g.Place.Zone))
		from, to := s.Slice(wet.Start(g.Place.Zone), wet.AddDays(1).Start(g.Place.Zone))
		for i := from; i < to; i++ {
			s.Hours[i].Origin = origin
			if origin == forecast.OriginForecast {
				s.Hours[i].RainProb = forecast.Known(chance)
			}
		}
		for i := lo; i < hi; i++ {
			s.Hours[i].Rain = forecast.Known(mm / 6)
		}
		return kept(t, g, s, append(entries, regular(g, 260, 4, 5)...)...)
	}
	wet := july20.AddDays(-2)
	d := day(t, tell(forecast.OriginObserved, 12, 0), wet)
	assert.Equal(t, RainStation, d.By)
	assert.InDelta(t, 12, d.Rain.Lo, 1e-9)
	assert.InDelta(t, 12, d.Rain.Hi, 1e-9)

	b := tell(forecast.OriginForecast, 12, 0.5)
	d = day(t, b, wet)
	assert.Equal(t, RainForecast, d.By)
	assert.InDelta(t, 0, d.Rain.Lo, 1e-9)
	assert.InDelta(t, 6, d.Rain.Mid, 1e-9, "by its chance")
	assert.Greater(t, d.Rain.Hi, 12.0)
	a := today(t, b).Advice
	assert.True(t, a.Gauge, "%+v", a)
	assert.NotEqual(t, risk.VerySure, a.Sure)

	read := memory.Entry{Kind: memory.Rain, Date: wet, Amount: forecast.Known(9)}
	for _, origin := range []forecast.Origin{forecast.OriginObserved, forecast.OriginForecast} {
		b = tell(origin, 12, 0.5, read)
		d = day(t, b, wet)
		assert.Equal(t, RainGauge, d.By)
		assert.Equal(t, risk.Range{Lo: d.Rain.Mid, Mid: d.Rain.Mid, Hi: d.Rain.Mid}, d.Rain)
		assert.InDelta(t, 9, d.Rain.Mid, 1e-9)
		assert.False(t, today(t, b).Advice.Gauge)
	}
}

// A reading of the gauge is of the time since the one before, over the days in the
// shape of the rain that was measured near by.
func TestGaugeOverDays(t *testing.T) {
	g := plot(t, nil)
	s := sky(g, june1, july20, 1, 25)
	rainAt := func(d forecast.Date, mm float64) {
		i, ok := s.Index(d.At(12, g.Place.Zone))
		require.True(t, ok)
		s.Hours[i].Rain = forecast.Known(mm)
	}
	rainAt(july20.AddDays(-3), 4)
	rainAt(july20.AddDays(-2), 2)
	reading := func(d forecast.Date, mm float64) memory.Entry {
		return memory.Entry{Kind: memory.Rain, Date: d, At: at(g, d, 7), Amount: forecast.Known(mm)}
	}
	b := kept(t, g, s, reading(july20.AddDays(-3), 0), reading(july20.AddDays(-1), 9))
	assert.InDelta(t, 6, day(t, b, july20.AddDays(-3)).Rain.Mid, 1e-9)
	assert.InDelta(t, 3, day(t, b, july20.AddDays(-2)).Rain.Mid, 1e-9)
	assert.Equal(t, RainGauge, day(t, b, july20.AddDays(-2)).By)
}

// The same bed, due today: at no chance of rain and at an even one it is watered, at
// a certain one it waits, told what is left if the rain stays away.
func TestRainAheadByItsChance(t *testing.T) {
	g := plot(t, func(_ *risk.Bed, p *risk.Planting) { p.FirstFemale = forecast.Date{Year: 2026, Month: 7, Day: 1} })
	advice := func(mm, chance float64) (Advice, *Bed) {
		s := sky(g, june1, july20, 3, 22)
		rainAhead(g, s, july20, 12, 18, mm, chance)
		b := kept(t, g, s, regular(g, 260, 4, 5)...)
		return today(t, b).Advice, b
	}
	none, b := advice(25, 0)
	require.Equal(t, Water, none.Verdict, "%+v", today(t, b))
	assert.InDelta(t, 0, today(t, b).Chance.Or(-1), 1e-12)
	even, b := advice(25, 0.5)
	assert.Equal(t, Water, even.Verdict)
	assert.InDelta(t, 12.5, today(t, b).Rain.Mid, 1e-9)
	assert.Equal(t, RainAhead, today(t, b).By)
	sure, b := advice(25, 1)
	assert.Equal(t, WaitForRain, sure.Verdict, "%+v", sure)
	assert.Equal(t, []Cause{CauseRainAhead}, sure.Causes)
	assert.InDelta(t, 1, sure.Chance.Or(0), 1e-12)
	assert.True(t, sure.IfDry > 0.1 && sure.IfDry < today(t, b).Left.Mid, "%g of %g", sure.IfDry, today(t, b).Left.Mid)
	little, _ := advice(3, 1)
	assert.Equal(t, Water, little.Verdict, "three millimetres are not worth waiting for")
}

// Waiting for rain that would cost growth is not advised: the same rain on a bed
// that is already short.
func TestNoWaitingOnAThirstyBed(t *testing.T) {
	g := plot(t, func(_ *risk.Bed, p *risk.Planting) { p.FirstFemale = forecast.Date{Year: 2026, Month: 7, Day: 1} })
	s := sky(g, june1, july20, 3, 30)
	rainAhead(g, s, july20.AddDays(1), 12, 18, 40, 1)
	b := kept(t, g, s, regular(g, 260, 4, 11)...)
	require.Less(t, today(t, b).Stress.Mid, littleCost)
	assert.Equal(t, Water, today(t, b).Advice.Verdict)
}

// Days of which nothing is known widen the account instead of passing for a guess.
func TestGapInThePast(t *testing.T) {
	g := plot(t, nil)
	s := sky(g, june1, july20, 2, 25)
	from := july20.AddDays(-6)
	lo, hi := s.Slice(from.Start(g.Place.Zone), july20.AddDays(-2).Start(g.Place.Zone))
	for i := lo; i < hi; i++ {
		s.Hours[i] = forecast.Hour{Start: s.Hours[i].Start}
	}
	entries := regular(g, 200, 2, 7)
	b := kept(t, g, s, entries...)
	before, first, after := day(t, b, from), day(t, b, from.AddDays(1)), day(t, b, july20.AddDays(-2))
	assert.False(t, before.wide > 0)
	assert.True(t, day(t, b, from).Gap && day(t, b, from.AddDays(3)).Gap)
	assert.False(t, day(t, b, from).ET0.IsKnown())
	assert.Equal(t, RainUnknown, day(t, b, from).By)
	assert.Less(t, first.Lacks.Hi, 1.2*day(t, b, from.AddDays(-1)).ET0.Or(0), "the wet end was rained full and lacks the day's use")
	assert.Greater(t, after.wide, first.wide)
	assert.Equal(t, 0.0, day(t, b, from).Rain.Lo)
	// A good soaking noted since settles it.
	b = kept(t, g, s, append(entries, watered(g, july20.AddDays(-1), 7, 900))...)
	assert.Less(t, today(t, b).wide, 0.02)
	assert.Equal(t, Enough, today(t, b).Advice.Verdict)
}

// A diary without any watering leaves the past open: look first, and no thirst is
// told, until a soaking rain or the first notes.
func TestDiaryWithoutWaterings(t *testing.T) {
	g := plot(t, nil)
	a := Keep(g, sky(g, june1, july20, 2, 25), nil, at(g, july20, 6))
	b := &a.Beds[0]
	d := today(t, b)
	assert.Equal(t, LookFirst, d.Advice.Verdict)
	assert.Equal(t, risk.Unsure, d.Advice.Sure)
	assert.False(t, d.Advice.Gauge, "no gauge tells of waterings")
	assert.InDelta(t, feel, d.Advice.Depth, 0.05)
	assert.Less(t, d.Left.Lo, 0.35)
	assert.Greater(t, d.Left.Hi, 0.6)
	assert.False(t, b.Season.Noted)
	_, ok := a.Thirst(&g.Plantings[0], july20)
	assert.False(t, ok)

	s := sky(g, june1, july20, 2, 25)
	i, _ := s.Index(july20.AddDays(-1).At(12, g.Place.Zone))
	s.Hours[i].Rain = forecast.Known(60)
	a = Keep(g, s, nil, at(g, july20, 6))
	d = today(t, &a.Beds[0])
	assert.Equal(t, Enough, d.Advice.Verdict)
	assert.Equal(t, []Cause{CauseRainCame}, d.Advice.Causes)
	ks, ok := a.Thirst(&g.Plantings[0], july20)
	assert.True(t, ok)
	assert.Equal(t, risk.Range{Lo: 1, Mid: 1, Hi: 1}, ks)
}

// A series that begins after planting begins between dry and full; a soaking rain
// begins the account.
func TestBeginnings(t *testing.T) {
	g := plot(t, nil)
	s := sky(g, july20.AddDays(-10), july20, 1, 25)
	assert.Equal(t, StartUnknown, kept(t, g, s, watered(g, july20.AddDays(-9), 7, 50)).Start)
	i, _ := s.Index(july20.AddDays(-5).At(9, g.Place.Zone))
	s.Hours[i].Rain = forecast.Known(80)
	assert.Equal(t, StartSoaked, kept(t, g, s, watered(g, july20.AddDays(-9), 7, 50)).Start)
	assert.Equal(t, StartSown, kept(t, g, sky(g, june1, july20, 1, 25)).Start)
}

// Without soil nothing is held: the day's use alone, every day, and no store is told.
func TestSoilless(t *testing.T) {
	g := plot(t, func(b *risk.Bed, p *risk.Planting) {
		*b = risk.Bed{Name: "bed 1", Kind: risk.Pots, Pots: 6, PotVolume: 15, Soil: risk.Soilless, Watering: risk.Drip, Flow: 12}
		p.Plants = 6
	})
	b := kept(t, g, sky(g, june1, july20, 3, 30))
	assert.True(t, b.NoStore)
	for k := range 3 {
		d := day(t, b, july20.AddDays(k))
		a := d.Advice
		assert.Equal(t, Water, a.Verdict)
		assert.Equal(t, CauseSoilless, a.Causes[0])
		assert.InDelta(t, d.Flux.ET(), a.MM, 1e-12)
		assert.InDelta(t, a.Litres/12, a.Run.Hours(), 1e-6)
	}
	_, ok := (&Account{Today: july20, Beds: []Bed{*b}}).Thirst(&g.Plantings[0], july20)
	assert.False(t, ok)
}

// An untold soil is taken for a loam, which is said and makes nothing sure.
func TestUnknownSoil(t *testing.T) {
	g := plot(t, func(b *risk.Bed, _ *risk.Planting) { b.Soil = "" })
	b := kept(t, g, sky(g, june1, july20, 1, 25), regular(g, 200, 2, 1)...)
	assert.Equal(t, []string{"loam"}, b.Assumed)
	assert.NotEqual(t, risk.VerySure, today(t, b).Advice.Sure)
	told := kept(t, plot(t, nil), sky(g, june1, july20, 1, 25), regular(g, 200, 2, 1)...)
	assert.Empty(t, told.Assumed)
	assert.InDelta(t, today(t, told).TAW, today(t, b).TAW, 1e-12)
	measured := kept(t, plot(t, func(b *risk.Bed, _ *risk.Planting) {
		b.Soil, b.FieldCapacity, b.WiltingPoint = "", forecast.Known(0.32), forecast.Known(0.12)
	}), sky(g, june1, july20, 1, 25))
	assert.Empty(t, measured.Assumed)
}

// Of two plantings in a bed the account goes by the one that uses most.
func TestTwoPlantingsInABed(t *testing.T) {
	g := plot(t, func(_ *risk.Bed, p *risk.Planting) { p.FirstFemale = forecast.Date{Year: 2026, Month: 7, Day: 1} })
	g.Plantings = append(g.Plantings, risk.Planting{Name: "beans", Crop: cropOf(t, "common-bean"), Bed: "Bed 1", Plants: 40, Sown: july20.AddDays(-5)})
	b := kept(t, g, sky(g, june1, july20, 1, 25), regular(g, 200, 2, 1)...)
	require.Len(t, b.Plantings, 2)
	assert.Equal(t, "tomatoes", b.Lead.Name)
	g.Plantings[0].Finished = july20
	b = kept(t, g, sky(g, june1, july20, 1, 25), regular(g, 200, 2, 1)...)
	assert.Equal(t, "beans", b.Lead.Name)
}

// Days of 23 and 25 hours are days.
func TestClockChanges(t *testing.T) {
	for _, today := range []forecast.Date{{Year: 2026, Month: 3, Day: 10}, {Year: 2026, Month: 11, Day: 3}} {
		g := plot(t, func(_ *risk.Bed, p *risk.Planting) { p.Transplanted = today.AddDays(-20) })
		a := Keep(g, sky(g, today.AddDays(-20), today, 3, 22), nil, at(g, today, 6))
		b := &a.Beds[0]
		require.Equal(t, Reckoned, b.Why)
		require.Len(t, b.Days, 24)
		for k := 1; k < len(b.Days); k++ {
			before, d := &b.Days[k-1], &b.Days[k]
			assert.Equal(t, et0.ByHoursOfCloud, d.Way)
			assert.InDelta(t, before.ET0.Or(0), d.ET0.Or(9), 0.25, "%s: the hour more or less is one of night", d.Date)
		}
		balance(t, b)
	}
}

// With temperatures alone the reference is that of Hargreaves [FAO56 eq 52], which
// is told and lowers the sureness.
func TestFallBackOnTemperatures(t *testing.T) {
	g := plot(t, nil)
	s := sky(g, june1, july20, 2, 25)
	for i := range s.Hours {
		s.Hours[i].RH, s.Hours[i].Wind, s.Hours[i].Sky = forecast.Value{}, forecast.Value{}, forecast.Value{}
	}
	b := kept(t, g, s, regular(g, 200, 2, 1)...)
	d := today(t, b)
	assert.Equal(t, et0.ByTemperature, d.Way)
	// 25 degC, 12 degrees between day and night, 40.1 MJ from the sky: 0.0023 * 42.8 * sqrt(12) * 0.408 * 40.1
	assert.InDelta(t, 0.0023*42.8*3.4641*0.408*40.1, d.ET0.Or(0), 0.15)
	assert.Equal(t, risk.Likely, d.Advice.Sure)
}

// Rain that falls only at night waters the bed as well: it fills what was lacking,
// and the rest drains.
func TestRainAtNightOnly(t *testing.T) {
	g := plot(t, nil)
	s := sky(g, june1, july20, 2, 25)
	eve := july20.AddDays(-1)
	for _, h := range []float64{22, 23} {
		i, _ := s.Index(eve.At(h, g.Place.Zone))
		s.Hours[i].Rain = forecast.Known(20)
	}
	b := kept(t, g, s, regular(g, 60, 3, 5)...)
	d := day(t, b, eve)
	assert.InDelta(t, 40, d.Rain.Mid, 1e-9)
	assert.InDelta(t, 40-d.Lacks.Mid, d.Flux.Drainage, 1e-9)
	assert.InDelta(t, d.Flux.ET(), today(t, b).Lacks.Mid, 1e-9)
	assert.Equal(t, Enough, today(t, b).Advice.Verdict)
	assert.Contains(t, today(t, b).Advice.Causes, CauseRainCame)
}
