package ledger

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// Without a date, with nothing growing or without weather nothing is reckoned, and
// each is told.
func TestWhyNothingIsReckoned(t *testing.T) {
	for want, change := range map[Why]func(*risk.Planting){
		NoDate:  func(p *risk.Planting) { p.Transplanted = forecast.Date{} },
		Nothing: func(p *risk.Planting) { p.Transplanted = july20.AddDays(3) },
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

// What is left where the advice is followed: as it is until something is advised, more
// from the morning after, and never short while nothing hinders.
func TestHeededAdviceKeepsTheBed(t *testing.T) {
	g := plot(t, func(*risk.Bed, *risk.Planting) {})
	b := kept(t, g, sky(g, june1, july20, 8, 30), regular(g, 150, 2, 1)...)
	advised := false
	for i := range b.Days {
		d := &b.Days[i]
		if d.Past || !advised {
			require.Equal(t, d.Left, d.Heeded.Left, d.Date.String())
		} else {
			require.Greater(t, d.Heeded.Left.Mid, d.Left.Mid, d.Date.String())
			require.GreaterOrEqual(t, d.Heeded.Used, d.Flux.ET()-1e-9, d.Date.String())
		}
		advised = advised || d.Advice.Verdict == Water
	}
	require.True(t, advised)
}
