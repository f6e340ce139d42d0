package ledger

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// drawBed draws a bed of any kind.
func drawBed(r *rapid.T, i int) risk.Bed {
	b := risk.Bed{Name: fmt.Sprint("bed ", i), Kind: rapid.SampledFrom([]risk.BedKind{risk.GroundBed, risk.RaisedBed, risk.Pots}).Draw(r, "kind"),
		Area: rapid.Float64Range(0.1, 100).Draw(r, "area"), Depth: rapid.SampledFrom([]float64{0, 0.05, 0.3, 1}).Draw(r, "depth"),
		Soil:     rapid.SampledFrom([]risk.Soil{"", risk.Sand, risk.Loam, risk.SiltClayLoam, risk.Clay}).Draw(r, "soil"),
		Watering: rapid.SampledFrom([]risk.Watering{"", risk.Drip, risk.Can, risk.Sprinkler, risk.Furrow, risk.Flood}).Draw(r, "watering"),
		Flow:     rapid.SampledFrom([]float64{0, 20}).Draw(r, "flow"), Mulch: rapid.SampledFrom([]risk.Mulch{risk.BareSoil, risk.Organic, risk.Plastic}).Draw(r, "mulch")}
	if b.Kind == risk.Pots {
		b.Pots, b.PotVolume = rapid.IntRange(1, 20).Draw(r, "pots"), rapid.Float64Range(0.2, 200).Draw(r, "volume")
		b.Soil = rapid.SampledFrom([]risk.Soil{"", risk.PottingSoil, risk.Soilless, risk.Sand}).Draw(r, "potting")
	}
	if rapid.IntRange(0, 4).Draw(r, "measured") == 0 {
		dry := rapid.Float64Range(0.02, 0.3).Draw(r, "dry")
		b.WiltingPoint, b.FieldCapacity = forecast.Known(dry), forecast.Known(dry+rapid.Float64Range(0.01, 0.3).Draw(r, "more"))
	}
	return b
}

// drawCase draws a garden, a wild series with gaps and a diary.
func drawCase(r *rapid.T, t testing.TB) (*risk.Garden, *forecast.Series, []memory.Entry, time.Time) {
	zones := []string{"America/New_York", "Asia/Kolkata", "Australia/Lord_Howe", "Europe/London"}
	zone, err := time.LoadLocation(rapid.SampledFrom(zones).Draw(r, "zone"))
	require.NoError(t, err)
	g := &risk.Garden{Shelter: 1, Place: forecast.Place{Lat: rapid.Float64Range(-60, 60).Draw(r, "lat"), Lon: 10, Zone: zone}}
	today := forecast.Date{Year: 2026, Month: 1, Day: 1}.AddDays(rapid.IntRange(0, 364).Draw(r, "today"))
	back, ahead := rapid.IntRange(0, 40).Draw(r, "back"), rapid.IntRange(0, 8).Draw(r, "ahead")
	set := crops(t).Crops()
	for i := range rapid.IntRange(1, 3).Draw(r, "beds") {
		g.Beds = append(g.Beds, drawBed(r, i))
		for j := range rapid.IntRange(0, 2).Draw(r, "plantings") {
			p := risk.Planting{Name: fmt.Sprint("planting ", i, j), Bed: g.Beds[i].Name, Crop: set[rapid.IntRange(0, len(set)-1).Draw(r, "crop")],
				Plants: rapid.IntRange(0, 30).Draw(r, "plants"), Sown: today.AddDays(-rapid.IntRange(0, 120).Draw(r, "sown"))}
			if rapid.Bool().Draw(r, "seen") {
				p.FirstFemale = today.AddDays(-rapid.IntRange(0, 50).Draw(r, "bloom"))
			}
			if rapid.IntRange(0, 5).Draw(r, "dateless") == 0 {
				p.Sown = forecast.Date{}
			}
			g.Plantings = append(g.Plantings, p)
		}
	}
	for d := range g.Work {
		g.Work[d] = []risk.Span{{From: 5, To: 9}, {From: 18, To: 21}}
	}
	_, end := today.AddDays(ahead).Span(zone)
	s := forecast.New(today.AddDays(-back).Start(zone).Add(time.Duration(rapid.IntRange(0, 30).Draw(r, "late"))*time.Hour), end)
	now := today.At(rapid.Float64Range(0, 24).Draw(r, "hour"), zone)
	var mean, rh, wind, mm float64
	luck := rand.New(rand.NewPCG(rapid.Uint64().Draw(r, "hours"), 56))
	for i := range s.Hours {
		if i%24 == 0 {
			mean, rh = -10+48*luck.Float64(), 5+95*luck.Float64()
			wind, mm = 20*luck.Float64(), []float64{0, 0, 0.1, 1, 8}[luck.IntN(5)]
		}
		h := &s.Hours[i]
		if luck.IntN(31) == 0 || mean > 36 {
			continue
		}
		h.Temp, h.RH = forecast.Known(mean+8*math.Sin(float64(i%24-9)/24*2*math.Pi)), forecast.Known(rh)
		if luck.IntN(31) > 0 {
			h.Wind = forecast.Known(wind)
		}
		h.Sky = forecast.Known(float64(i%5) / 4)
		h.Origin = []forecast.Origin{forecast.OriginObserved, forecast.OriginObserved, forecast.OriginForecast}[luck.IntN(3)]
		if i%24 > 18 {
			h.Rain = forecast.Known(mm)
		} else {
			h.Rain = forecast.Known(0)
		}
		if h.Origin == forecast.OriginForecast {
			h.RainProb = forecast.Known(luck.Float64())
		}
	}
	return g, s, drawDiary(r, g, today), now
}

func drawDiary(r *rapid.T, g *risk.Garden, today forecast.Date) (out []memory.Entry) {
	for range rapid.IntRange(0, 6).Draw(r, "notes") {
		e := memory.Entry{Kind: memory.Water, Date: today.AddDays(-rapid.IntRange(0, 40).Draw(r, "on"))}
		switch rapid.IntRange(0, 2).Draw(r, "what") {
		case 0:
			e.Amount = forecast.Known(rapid.Float64Range(0.1, 2000).Draw(r, "litres"))
		case 1:
			e.Minutes = forecast.Known(rapid.Float64Range(1, 600).Draw(r, "minutes"))
		case 2:
			e.Kind, e.Amount = memory.Rain, forecast.Known(rapid.Float64Range(0, 60).Draw(r, "gauge"))
		}
		if e.Kind == memory.Water && rapid.Bool().Draw(r, "named") {
			e.Planting = g.Beds[0].Name
		}
		if rapid.Bool().Draw(r, "clock") {
			e.At = e.Date.At(rapid.Float64Range(0, 23.9).Draw(r, "at"), g.Place.Zone)
		}
		out = append(out, e)
	}
	return out
}

// balance checks a bed's days against each other: rain caught and water given, less
// what went into the air and drained, is the change of what is stored, to 1e-9 mm.
// What the store loses when roots become shallower is told as cut.
func balance(t require.TestingT, b *Bed) (worst float64) {
	for k := range b.Days {
		d := &b.Days[k]
		in := d.Caught + d.Given + d.Taken
		end := (1 - d.Night.Mid) * d.TAW
		left := in - d.Flux.ET() - d.Flux.Drainage - (d.Lacks.Mid - end)
		require.InDelta(t, 0, left, 1e-9, "%s: %+v", d.Date, d)
		worst = max(worst, math.Abs(left))
		if k+1 < len(b.Days) { // what the day ended with is what the next begins with
			next := &b.Days[k+1]
			require.InDelta(t, min(end, next.TAW), next.Lacks.Mid, 1e-9, "%s", d.Date)
			require.Equal(t, d.Date.AddDays(1), next.Date)
		}
	}
	return worst
}

// On any weather, diary and bed the account closes, every number is finite and
// within its bounds, and ranges rise from the dry end to the wet one.
func TestBalanceCloses(t *testing.T) {
	worst, days, reckoned := 0.0, 0, 0
	rapid.Check(t, func(r *rapid.T) {
		g, s, entries, now := drawCase(r, t)
		a := Keep(g, s, entries, now)
		require.Len(r, a.Beds, len(g.Beds))
		for i := range a.Beds {
			b := &a.Beds[i]
			require.Equal(r, b.Why == Reckoned, len(b.Days) > 0)
			if b.Why != Reckoned {
				continue
			}
			reckoned++
			days += len(b.Days)
			if !b.NoStore {
				worst = max(worst, balance(r, b))
			}
			for k := range b.Days {
				sound(r, b, &b.Days[k])
			}
		}
	})
	t.Logf("%d beds, %d days, worst %.2g mm", reckoned, days, worst)
	require.Greater(t, reckoned, 20)
}

func sound(t require.TestingT, b *Bed, d *Day) {
	for name, x := range map[string]risk.Range{"left": d.Left, "night": d.Night, "stress": d.Stress} {
		require.True(t, x.Lo >= 0 && x.Lo <= x.Mid && x.Mid <= x.Hi && x.Hi <= 1, "%s %s: %+v", d.Date, name, x)
	}
	require.True(t, d.Lacks.Lo >= d.Lacks.Mid && d.Lacks.Mid >= d.Lacks.Hi && d.Lacks.Hi >= 0, "%+v", d.Lacks)
	require.True(t, d.Rain.Lo <= d.Rain.Mid && d.Rain.Mid <= d.Rain.Hi && d.Rain.Lo >= 0, "%s: %+v", d.Date, d.Rain)
	a := &d.Advice
	require.Equal(t, d.Past, a.Verdict == NoVerdict, "%s", d.Date)
	for _, x := range []float64{d.TAW, d.RAW, d.Given, d.Litres, d.Taken, a.MM, a.Litres, a.EachPot, a.PerPlant, a.Cans, a.Depth, a.IfDry, b.Season.Wanted, b.Season.Rule, b.Season.Given} {
		require.True(t, x >= 0 && !math.IsInf(x, 0), "%s: %+v", d.Date, d)
	}
	require.False(t, a.To.Before(a.From))
	switch a.Verdict {
	case Enough:
		require.NotZero(t, a.Days, "%s", d.Date)
	case Water:
		require.Zero(t, a.Days, "%s", d.Date)
		require.Positive(t, a.Litres)
		require.NotEmpty(t, a.Causes)
	}
}
