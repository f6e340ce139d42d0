package ledger

import (
	"testing"
	"time"

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
	assert.InDelta(t, 0, none.Chance.Or(-1), 1e-12)
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

// In a tunnel neither wind nor light is known and no rain falls; without a date, or
// with nothing growing, nothing is reckoned either, and each is told.
func TestWhyNothingIsReckoned(t *testing.T) {
	for want, change := range map[Why]func(*risk.Planting){
		OtherAir: func(p *risk.Planting) { p.Cover = risk.Tunnel },
		NoDate:   func(p *risk.Planting) { p.Transplanted = forecast.Date{} },
		Nothing:  func(p *risk.Planting) { p.Transplanted = july20.AddDays(3) },
	} {
		g := plot(t, func(_ *risk.Bed, p *risk.Planting) { change(p) })
		assert.Equal(t, want, Keep(g, sky(g, june1, july20, 1, 25), nil, at(g, july20, 6)).Beds[0].Why)
	}
	g := plot(t, nil)
	s := sky(g, june1, july20, 1, 25)
	lo, hi := s.Day(july20, g.Place.Zone)
	for i := lo; i < hi; i++ {
		s.Hours[i].Temp = forecast.Value{}
	}
	assert.Equal(t, NoWeather, Keep(g, s, nil, at(g, july20, 6)).Beds[0].Why)
	assert.Equal(t, NoWeather, Keep(g, &forecast.Series{}, nil, at(g, july20, 6)).Beds[0].Why)
}

// Litres of the whole garden are shared by area, those of a planting go to its bed,
// minutes need the flow of the bed.
func TestWhereWaterGoes(t *testing.T) {
	g := plot(t, nil)
	g.Beds = append(g.Beds, risk.Bed{Name: "bed 2", Kind: risk.GroundBed, Area: 30, Soil: risk.Loam, Watering: risk.Can})
	p := g.Plantings[0]
	p.Name, p.Bed = "late tomatoes", "bed 2"
	g.Plantings = append(g.Plantings, p)
	on := july20.AddDays(-3)
	note := func(change func(*memory.Entry)) [2]*Day {
		e := memory.Entry{Kind: memory.Water, Date: on}
		change(&e)
		a := Keep(g, sky(g, june1, july20, 1, 25), []memory.Entry{e}, at(g, july20, 6))
		return [2]*Day{day(t, &a.Beds[0], on), day(t, &a.Beds[1], on)}
	}
	d := note(func(e *memory.Entry) { e.Amount = forecast.Known(80) })
	assert.InDelta(t, 20, d[0].Litres, 1e-9)
	assert.InDelta(t, 60, d[1].Litres, 1e-9)
	assert.InDelta(t, 2*0.9, d[0].Given, 1e-9, "a drip line loses a tenth")
	assert.InDelta(t, 2*0.8, d[1].Given, 1e-9, "a can a fifth")
	d = note(func(e *memory.Entry) { e.Amount, e.Planting = forecast.Known(80), "Late Tomatoes" })
	assert.Zero(t, d[0].Litres)
	assert.InDelta(t, 80, d[1].Litres, 1e-9)
	d = note(func(e *memory.Entry) { e.Amount, e.Planting = forecast.Known(80), "bed 1" })
	assert.InDelta(t, 80, d[0].Litres, 1e-9)
	d = note(func(e *memory.Entry) { e.Minutes = forecast.Known(30) })
	assert.InDelta(t, 20, d[0].Litres, 1e-9, "half an hour of 40 l/h")
	assert.Zero(t, d[1].Litres)
	assert.Greater(t, d[1].Taken, 0.0, "no flow is told: something between nothing and all")
	d = note(func(e *memory.Entry) { e.Amount, e.At = forecast.Known(80), at(g, on, 19) })
	assert.Zero(t, d[0].Given, "of an evening it counts for the next morning")
}

// Base watering before sunrise to mid-morning in the hours of work; in the evening
// where no morning is worked, but never overhead; overhead ends before flowers open.
func TestHours(t *testing.T) {
	advice := func(way risk.Watering, work []risk.Span, hour float64) Advice {
		g := plot(t, func(b *risk.Bed, p *risk.Planting) {
			b.Watering = way
			*p = risk.Planting{Name: "squash", Crop: cropOf(t, "summer-squash"), Bed: "bed 1", Plants: 8, Sown: june1, FirstFemale: july20.AddDays(-5)}
		})
		for d := range g.Work {
			g.Work[d] = work
		}
		b := &Keep(g, sky(g, june1, july20, 1, 28), regular(g, 200, 3, 9), at(g, july20, hour)).Beds[0]
		require.Equal(t, Water, today(t, b).Advice.Verdict)
		return today(t, b).Advice
	}
	clock := func(x time.Time) float64 {
		if x.IsZero() {
			return -1
		}
		local := x.In(plot(t, nil).Place.Zone)
		return float64(local.Hour()) + float64(local.Minute())/60
	}
	all := []risk.Span{{From: 0, To: 24}}
	a := advice(risk.Drip, all, 3)
	// Sunrise at Greensboro on 20 July: 6:18 (sun tables of the US Naval Observatory, memory).
	assert.InDelta(t, 6.3-1, clock(a.From), 0.1)
	assert.InDelta(t, 10, clock(a.To), 1e-9)
	assert.True(t, a.NoLeaves)
	a = advice(risk.Drip, []risk.Span{{From: 8, To: 9}, {From: 18, To: 20}}, 3)
	assert.InDelta(t, 8, clock(a.From), 1e-9)
	assert.InDelta(t, 9, clock(a.To), 1e-9)
	morning := a.MM
	a = advice(risk.Drip, []risk.Span{{From: 18, To: 20}}, 3)
	assert.InDelta(t, 18, clock(a.From), 1e-9)
	assert.Greater(t, a.MM, morning, "by then the day has taken its use")
	a = advice(risk.Drip, all, 13)
	assert.InDelta(t, 17, clock(a.From), 1e-9)
	a = advice(risk.Sprinkler, []risk.Span{{From: 18, To: 20}}, 3)
	assert.True(t, a.From.IsZero(), "leaves would stay wet overnight")
	a = advice(risk.Sprinkler, all, 3)
	assert.Less(t, clock(a.To), 7.0, "over before the flowers open")
	assert.True(t, advice(risk.Drip, nil, 3).From.IsZero())
}

// A week that swings from full to far beyond what plants may lose counts as uneven.
func TestEvenness(t *testing.T) {
	g := plot(t, func(_ *risk.Bed, p *risk.Planting) { p.FirstFemale = forecast.Date{Year: 2026, Month: 7, Day: 1} })
	s := sky(g, june1, july20, 1, 28)
	even := kept(t, g, s, regular(g, 75, 1, 1)...)
	assert.True(t, even.Swing.Known && !even.Swing.Uneven, "%+v", even.Swing)
	rough := kept(t, g, s, regular(g, 700, 10, 1)...)
	assert.True(t, rough.Swing.Known && rough.Swing.Uneven, "%+v", rough.Swing)
	assert.False(t, kept(t, g, s).Swing.Known, "what nobody noted is not known to be uneven")
}
