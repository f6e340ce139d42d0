// Package reporttest makes an invented garden and invented weather for the tests
// of the reports. No number here stands for a real place or day.
package reporttest

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// Today is the first day of the sample's plan.
var Today = forecast.Date{Year: 2026, Month: time.July, Day: 16}

// Zone is the sample's zone.
func Zone(t testing.TB) *time.Location {
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	return zone
}

// Crops loads the crops.
func Crops(t testing.TB) *crop.Set {
	set, err := crop.Load()
	require.NoError(t, err)
	return set
}

// Garden is a kitchen garden of five plantings in flower.
func Garden(t testing.TB) *risk.Garden {
	set := Crops(t)
	find := func(word string) *crop.Crop {
		c, ok := set.Find(word)
		require.True(t, ok, word)
		return c
	}
	g := &risk.Garden{Name: "Cottonwood Bend", Units: risk.Metric, Shelter: 1,
		Place: forecast.Place{Lat: 40.9, Lon: -74.3, Zone: Zone(t)},
		Bees:  risk.Bees{Honey: risk.Normal, Bumble: risk.Few}}
	for day := range g.Work {
		g.Work[day] = []risk.Span{{From: 5.5, To: 8}, {From: 18, To: 21}}
	}
	seen := Today.AddDays(-12)
	g.Plantings = []risk.Planting{
		{Name: "cucumbers, north trellis", Crop: find("cucumber"), Setting: crop.Monoecious, Plants: 12, Support: risk.OnTrellis,
			FirstMale: seen.AddDays(-6), FirstFemale: seen, Buds: 14, BudsOn: Today.AddDays(-1)},
		{Name: "zucchini", Crop: find("summer-squash"), Species: "pepo", Setting: crop.Monoecious, Bed: "bed 4", Plants: 4, FirstMale: seen, FirstFemale: seen},
		{Name: "butternut", Crop: find("pumpkin-winter-squash"), Species: "moschata", Setting: crop.Monoecious, Plants: 6, FirstMale: seen, FirstFemale: seen},
		{Name: "sweet corn, block 2", Crop: find("sweet-corn"), Rows: 3, RowLength: 6, FirstMale: Today.AddDays(-3), FirstFemale: Today.AddDays(-1)},
		{Name: "tomatoes", Crop: find("tomato"), Plants: 20, FirstFemale: seen},
	}
	return g
}

// Series is three weeks of observed hours and seven days of forecast: heat that
// peaks on the second day, wind on the third, rain on the fourth, amounts of rain
// that end with the fourth day.
func Series(t testing.TB) *forecast.Series {
	zone := Zone(t)
	from, now := Today.AddDays(-21).Start(zone), Today.At(4, zone).Add(20*time.Minute)
	to := Today.AddDays(7).Start(zone)
	s := forecast.New(from, to)
	s.Feed, s.Source, s.Issued = "sample", "an invented station", now
	s.Attribution = "Invented weather."
	for i := range s.Hours {
		h := &s.Hours[i]
		local := h.Start.In(zone)
		k := forecast.DateOf(h.Start, zone).DaysSince(Today)
		fill(h, k, float64(local.Hour())+0.5)
		h.Origin = forecast.OriginForecast
		if h.Start.Before(now.Truncate(time.Hour)) {
			h.Origin, h.RainProb = forecast.OriginObserved, forecast.Value{}
		} else if k > 3 {
			h.Rain = forecast.Value{}
		}
	}
	for k := range 28 {
		b := forecast.RainBlock{Start: now.Truncate(time.Hour).Add(time.Duration(6*k) * time.Hour)}
		b.End = b.Start.Add(6 * time.Hour)
		i, ok := s.Index(b.Start)
		if !ok {
			break
		}
		b.Prob = s.Hours[i].RainProb
		if s.Hours[i].Rain.IsKnown() {
			b.Amount = forecast.Known(6 * s.Hours[i].Rain.Or(0))
		}
		s.Blocks = append(s.Blocks, b)
	}
	return s
}

// Days of the sample from Today on: mean temperature, swing, wind, sky, chance of
// rain, mm per hour.
var days = [...][6]float64{
	{27, 7, 3, 0.2, 0.1, 0}, {33, 8.5, 3, 0, 0, 0}, {24, 5, 9, 0.4, 0.1, 0}, {20, 3, 3, 1, 0.8, 1},
	{22, 6, 2, 0.3, 0.4, 0}, {15, 4, 3, 0.9, 0.3, 0}, {24, 6, 2, 0.2, 0.1, 0},
}

func fill(h *forecast.Hour, k int, clock float64) {
	d := [6]float64{25, 6, 2, 0.3, 0, 0}
	if k >= 0 && k < len(days) {
		d = days[k]
	}
	temp := d[0] + d[1]*math.Sin(2*math.Pi*(clock-9)/24)
	e0 := func(t float64) float64 { return 0.6108 * math.Exp(17.27*t/(t+237.3)) }
	h.Temp, h.DewPoint = forecast.Known(temp), forecast.Known(14)
	h.RH = forecast.Known(math.Min(100, 100*e0(14)/e0(temp)))
	h.Wind, h.Gust = forecast.Known(d[2]), forecast.Known(1.6*d[2])
	h.Sky, h.RainProb, h.Rain = forecast.Known(d[3]), forecast.Known(d[4]), forecast.Known(d[5])
	h.Thunder = forecast.Known(d[4] / 2)
}

// Document plans the sample for seven days.
func Document(t testing.TB, units risk.Units) *document.Document {
	return Plan(t, Garden(t), Series(t), units)
}

// Plan plans a garden for seven days of a series from Today on.
func Plan(t testing.TB, g *risk.Garden, s *forecast.Series, units risk.Units) *document.Document {
	g.Units = units
	now := Today.At(5, g.Place.Zone)
	a := risk.Assess(g, s, Today.AddDays(-10), 18)
	return &document.Document{Garden: g, Assessment: a, Plans: risk.Plan(a, Today, 7, risk.PlanOptions{Now: now}), Now: now, Units: units,
		Forecast: document.Provenance{Feed: s.Feed, Source: s.Source, Attribution: s.Attribution, Issued: s.Issued}, Crops: Crops(t)}
}
