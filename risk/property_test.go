package risk

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// drawValue draws a number, now and then unknown.
func drawValue(r *rapid.T, name string, lo, hi float64) forecast.Value {
	if rapid.IntRange(0, 19).Draw(r, name+" unknown") == 0 {
		return forecast.Value{}
	}
	return forecast.Known(rapid.Float64Range(lo, hi).Draw(r, name))
}

// drawSeries draws wild but possible weather: days of one mood each, with gaps.
func drawSeries(r *rapid.T, start time.Time, days int) *forecast.Series {
	s := forecast.New(start, start.Add(time.Duration(days)*24*time.Hour))
	s.Issued = start
	var mean, amp, rh, wind float64
	for i := range s.Hours {
		if i%24 == 0 {
			mean, amp = rapid.Float64Range(-5, 40).Draw(r, "mean"), rapid.Float64Range(0, 12).Draw(r, "amp")
			rh, wind = rapid.Float64Range(5, 100).Draw(r, "rh"), rapid.Float64Range(0, 20).Draw(r, "wind")
		}
		h := &s.Hours[i]
		h.Origin = forecast.OriginForecast
		if i%37 == 5 && rapid.Bool().Draw(r, "gap") {
			continue
		}
		h.Temp = forecast.Known(mean + amp*math.Sin(2*math.Pi*float64(i%24-9)/24))
		h.RH, h.Wind = forecast.Known(rh), forecast.Known(wind)
		h.Sky = forecast.Known(float64(i%5) / 4)
		h.RainProb = forecast.Known(0.3)
	}
	for range rapid.IntRange(0, 8).Draw(r, "blocks") {
		at := start.Add(time.Duration(rapid.IntRange(0, days*24-1).Draw(r, "block at")) * time.Hour)
		s.Blocks = append(s.Blocks, forecast.RainBlock{Start: at, End: at.Add(time.Duration(rapid.IntRange(1, 12).Draw(r, "block hours")) * time.Hour),
			Amount: drawValue(r, "amount", 0, 40), Prob: drawValue(r, "prob", 0, 1)})
	}
	return s
}

func drawGarden(r *rapid.T, set *crop.Set, first forecast.Date) *Garden {
	zones := []string{"America/Denver", "Asia/Kolkata", "Australia/Adelaide", "Australia/Lord_Howe", "Pacific/Auckland", "Europe/London", "UTC"}
	name := rapid.SampledFrom(zones).Draw(r, "zone")
	zone, err := time.LoadLocation(name)
	if err != nil {
		r.Fatal(err)
	}
	lat := rapid.Float64Range(-66, 66).Draw(r, "lat")
	lon := map[string]float64{"America/Denver": -105, "Asia/Kolkata": 77, "Australia/Adelaide": 138, "Australia/Lord_Howe": 159, "Pacific/Auckland": 175, "Europe/London": 0, "UTC": 10}[name]
	g := &Garden{Place: forecast.Place{Lat: lat, Lon: lon, Zone: zone}, Shelter: rapid.SampledFrom([]float64{0, 0.5, 1.4}).Draw(r, "shelter")}
	level := func(n string) Level {
		return rapid.SampledFrom([]Level{LevelUnknown, None, Few, Normal, Many}).Draw(r, n)
	}
	g.Bees = Bees{Honey: level("honey"), Bumble: level("bumble"), Squash: level("squash"), Hives: rapid.IntRange(0, 4).Draw(r, "hives")}
	for d := range g.Work {
		a := rapid.Float64Range(0, 23).Draw(r, "work from")
		if rapid.IntRange(0, 3).Draw(r, "off") > 0 {
			g.Work[d] = []Span{{a, rapid.Float64Range(a, 24).Draw(r, "work to")}}
		}
	}
	for i := range rapid.IntRange(0, 5).Draw(r, "plantings") {
		c := set.Crops()[rapid.IntRange(0, len(set.Crops())-1).Draw(r, "crop")]
		p := Planting{Name: fmt.Sprint(c.Key, i), Crop: c, Plants: rapid.IntRange(0, 30).Draw(r, "plants"), Rows: rapid.IntRange(0, 6).Draw(r, "rows"),
			Cover:   rapid.SampledFrom([]Cover{"", Open, RowCover, Tunnel, House}).Draw(r, "cover"),
			Setting: rapid.SampledFrom([]Setting{"", crop.Monoecious, crop.Gynoecious, crop.Parthenocarpic, crop.Triploid}).Draw(r, "setting"),
			Sown:    first.AddDays(-rapid.IntRange(0, 90).Draw(r, "sown"))}
		if rapid.Bool().Draw(r, "seen") {
			p.FirstFemale = first.AddDays(rapid.IntRange(-40, 3).Draw(r, "first female"))
		}
		if rapid.IntRange(0, 4).Draw(r, "pulled") == 0 {
			p.Finished = first.AddDays(rapid.IntRange(-3, 5).Draw(r, "finished"))
		}
		p.Growing = drawGrowing(r, first)
		g.Plantings = append(g.Plantings, p)
	}
	return g
}

// Whatever the weather, place and garden: nothing panics, every number is finite
// and nested, and every task stands on its day, in order, ahead of the clock and,
// but for those whose hours the flower sets, within the hours one can work.
func TestPlanHoldsForAnyGarden(t *testing.T) {
	set, err := crop.Load()
	require.NoError(t, err)
	rapid.Check(t, func(r *rapid.T) {
		first := forecast.Date{Year: 2026, Month: time.Month(rapid.IntRange(1, 12).Draw(r, "month")), Day: rapid.IntRange(1, 28).Draw(r, "day")}
		g := drawGarden(r, set, first)
		start := first.Start(g.Place.Zone).Add(time.Duration(rapid.IntRange(-30, 30).Draw(r, "offset")) * time.Hour).UTC().Truncate(time.Hour)
		s := drawSeries(r, start, rapid.IntRange(1, 8).Draw(r, "days"))
		now := first.At(rapid.Float64Range(0, 24).Draw(r, "now"), g.Place.Zone)
		a := Assess(g, s, first.AddDays(-3), 9)
		for i := range a.Days {
			for k := range a.Days[i].Plantings {
				p := &a.Days[i].Plantings[k]
				for _, x := range []Range{p.Set, p.Fill, p.Both, p.BothSet} {
					if !(x.Lo >= 0 && x.Lo <= x.Mid+1e-12 && x.Mid <= x.Hi+1e-12 && x.Hi <= 1+1e-12) {
						r.Fatalf("%v %s %v: range %+v", a.Days[i].Date, p.Planting.Name, p.State, x)
					}
				}
				// To help never harms, whatever the rain.
				if p.State.Known() && (p.Both.Mid < p.Fill.Mid-1e-9 || p.Planting.Crop.Pollination != crop.Insect && p.Both.Mid < p.Set.Mid-1e-9) {
					r.Fatalf("%v %s: with work %+v, without %+v", a.Days[i].Date, p.Planting.Name, p.Both, p.Fill)
				}
				for _, f := range p.Flags {
					if v, ok := f.Value.Get(); ok && v < -90 {
						r.Fatalf("%v %s: flag %v says %g", a.Days[i].Date, p.Planting.Name, f.Kind, v)
					}
				}
				if p.BestHour >= len(p.Hours) || p.BrushSpan[1].Before(p.BrushSpan[0]) {
					r.Fatalf("best hour %d of %d, span %v", p.BestHour, len(p.Hours), p.BrushSpan)
				}
			}
		}
		for _, plan := range Plan(a, first, 7, PlanOptions{Now: now}) {
			checkPlan(r, g, &plan, now)
		}
	})
}

func checkPlan(r *rapid.T, g *Garden, plan *DayPlan, now time.Time) {
	if len(plan.Tasks) > MaxTasks {
		r.Fatalf("%d tasks on %v", len(plan.Tasks), plan.Date)
	}
	looks := slices.ContainsFunc(plan.Tasks, func(t Task) bool { return t.Kind == LookFirst })
	for i := range plan.Rest {
		if t := &plan.Rest[i]; slices.Contains(t.Causes, CauseLookElsewhere) && !looks {
			r.Fatalf("%s on %v waits for a count that nobody makes", t.Planting.Name, plan.Date)
		}
	}
	var last time.Time
	for i := range plan.Tasks {
		t := &plan.Tasks[i]
		if t.To.IsZero() || !t.From.IsZero() && !t.From.Before(t.To) {
			r.Fatalf("%v %s: from %v to %v", t.Kind, t.Planting.Name, t.From, t.To)
		}
		if !t.To.After(now) {
			r.Fatalf("%v %s ends at %v, before now %v", t.Kind, t.Planting.Name, t.To, now)
		}
		from := t.From
		if from.IsZero() {
			from = t.To.Add(-time.Minute)
		}
		if d := forecast.DateOf(from, g.Place.Zone); d != plan.Date {
			r.Fatalf("%v %s of %v stands on %v", t.Kind, t.Planting.Name, d, plan.Date)
		}
		if t.order().Before(last) {
			r.Fatalf("%v %s is out of order", t.Kind, t.Planting.Name)
		}
		last = t.order()
		if t.Kind == LookAtTagged && !t.Tagged.Before(plan.Date) {
			r.Fatalf("%s: look at flowers of %v on %v", t.Planting.Name, t.Tagged, plan.Date)
		}
		if !t.Planting.Finished.IsZero() && !plan.Date.Before(t.Planting.Finished) {
			r.Fatalf("%v %s on %v, finished on %v", t.Kind, t.Planting.Name, plan.Date, t.Planting.Finished)
		}
		if len(g.Work[plan.Date.Weekday()]) == 0 && t.Kind != Shade {
			r.Fatalf("%v %s on %v, a day off", t.Kind, t.Planting.Name, plan.Date)
		}
		if float64(t.Minutes) > t.To.Sub(t.From).Minutes()+5 && t.Fits == 0 && t.Kind == HandPollinate {
			r.Fatalf("%v %s: %d min from %v to %v", t.Kind, t.Planting.Name, t.Minutes, t.From, t.To)
		}
		if k := t.Kind; k == HandPollinate || k == LookFirst || k == ShakeTassels || k == TapTrusses || k == UncoverCrop {
			if !inSpans(g, plan.Date, t.From, t.To) {
				r.Fatalf("%v %s from %v to %v is outside the hours of work", k, t.Planting.Name, t.From, t.To)
			}
		}
		if t.Gain < -1e-9 || math.IsNaN(t.Gain) || t.Flowers < 0 || t.Minutes < 0 {
			r.Fatalf("%v %s: gain %g, %d flowers, %d minutes", t.Kind, t.Planting.Name, t.Gain, t.Flowers, t.Minutes)
		}
	}
}

func inSpans(g *Garden, d forecast.Date, from, to time.Time) bool {
	for _, s := range g.Work[d.Weekday()] {
		if !from.Before(d.At(s.From, g.Place.Zone)) && !to.After(d.At(s.To, g.Place.Zone)) {
			return true
		}
	}
	return false
}
