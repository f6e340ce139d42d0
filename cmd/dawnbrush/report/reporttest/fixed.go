package reporttest

import (
	"testing"
	"time"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
)

// Fixed is a document written by hand, so that what a report prints of it does
// not change when the model does. Its numbers are invented and need not agree
// with each other.
func Fixed(t testing.TB, units risk.Units) *document.Document {
	g := Garden(t)
	g.Units = units
	zone := g.Place.Zone
	s := fixedSeries(zone)
	a := &risk.Assessment{Garden: g, Series: s}
	for k := range 3 {
		a.Days = append(a.Days, fixedDay(g, Today.AddDays(k), zone))
	}
	hot, calm := &a.Days[0], &a.Days[1]
	fillHot(hot, zone)
	calm.Missing = air.Wind
	calm.Plantings[0].Missing = air.Wind
	a.Days[2].Weather.Rain = forecast.Value{}
	plans := []risk.DayPlan{fixedPlan(hot, zone), {Date: calm.Date, Day: calm, Rest: []risk.Task{leave(calm, 0, risk.Unsure)}}, {Date: a.Days[2].Date, Day: &a.Days[2]}}
	return &document.Document{Garden: g, Assessment: a, Plans: plans, Now: Today.At(5, zone), Units: units,
		Forecast: document.Provenance{Feed: "sample", Source: "an invented station", Attribution: "Invented weather.", Issued: s.Issued},
		Second:   fixedSecond(g, plans, zone),
		Notes:    []string{"the station has no gauge"}, Crops: Crops(t)}
}

// fixedSecond parts from the plan in its first night and has nothing to do today.
func fixedSecond(g *risk.Garden, plans []risk.DayPlan, zone *time.Location) *document.Second {
	night := forecast.Stretch{Start: Today.At(20, zone), End: Today.AddDays(1).At(5, zone)}
	morning := forecast.Stretch{Start: Today.AddDays(1).At(5, zone), End: Today.AddDays(1).At(12, zone)}
	today := plans[0]
	today.Tasks = nil
	return &document.Second{
		Forecast: document.Provenance{Feed: "other", Source: "another invented station", Attribution: "More invented weather.", Issued: Today.At(3, zone)},
		Differences: []forecast.Difference{{Stretch: night, Layer: "Temp", A: 19.4, B: 14.8}, {Stretch: night, Layer: "Rain", A: 0, B: 6},
			{Stretch: morning, Layer: "RainProb", A: 0.1, B: 0.7}, {Stretch: morning, Layer: "Wind", A: 2, B: 5.5}, {Stretch: morning, Layer: "Sky", A: 0.2, B: 1}},
		Plans: []risk.DayPlan{today, plans[1]},
	}
}

func fixedSeries(zone *time.Location) *forecast.Series {
	s := forecast.New(Today.Start(zone), Today.AddDays(3).Start(zone))
	s.Feed, s.Source, s.Issued = "sample", "an invented station", Today.At(4, zone).Add(20*time.Minute)
	for i := range s.Hours {
		h := &s.Hours[i]
		h.Origin, h.Temp, h.RH, h.Wind = forecast.OriginForecast, forecast.Known(25), forecast.Known(60), forecast.Known(2)
		switch h.Start.In(zone).Hour() {
		case 9:
			h.RainProb = forecast.Known(0.35)
		case 10:
			h.RainProb = forecast.Known(0.8)
		case 11: // not known
		default:
			h.RainProb = forecast.Known(0)
		}
	}
	s.Hours[15].Thunder = forecast.Known(0.2)
	s.Blocks = []forecast.RainBlock{{Start: s.Hours[8].Start, End: s.Hours[14].Start, Amount: forecast.Known(6), Prob: forecast.Known(0.8)}}
	return s
}

func fixedDay(g *risk.Garden, d forecast.Date, zone *time.Location) risk.Day {
	day := risk.Day{Date: d, Sunrise: d.At(5.65, zone), Sunset: d.At(20.45, zone), Forecast: true, Whole: true,
		Weather: risk.Weather{Max: forecast.Known(29), Min: forecast.Known(18), Wind: forecast.Known(3), RainProb: forecast.Known(0.1), Rain: forecast.Known(0),
			BeeHours: [bee.Groups]float64{3.2, 4.6, 2}, MorningHours: 6.35}}
	for i := range g.Plantings {
		day.Plantings = append(day.Plantings, risk.PlantingDay{Planting: &g.Plantings[i], Bloom: risk.InBloom, BestHour: -1})
	}
	day.Plantings[3].Bloom, day.Plantings[3].BloomBasis = risk.NoBloom, "60 to 70 days after sowing"
	return day
}

// fillHot makes the first day a hot and windy one.
func fillHot(day *risk.Day, zone *time.Location) {
	d := day.Date
	w := &day.Weather
	w.Max, w.Over105, w.Wind, w.RainProb, w.RainFrom, w.Rain = forecast.Known(41), true, forecast.Known(9), forecast.Known(0.8), d.At(9, zone), forecast.Known(6)
	day.Flags = []risk.Flag{{Kind: risk.Hot105, From: d.At(14, zone), To: d.At(18, zone), Value: w.Max, Limit: forecast.Known(risk.Limit105), Param: "risk.limit_105"}}
	p := &day.Plantings[0]
	p.Opens, p.Closes = d.At(6.15, zone), d.At(12, zone)
	for h := range 6 {
		open := risk.FlowerHour{Start: d.At(6+float64(h), zone), Open: 1, Receptive: 1, Alive: 1 - 0.17*float64(h), Heat: 1, Tube: 1, Offer: 1, Dry: 1,
			Flight: [bee.Groups]float64{0.9 - 0.2*float64(h), 0.8 - 0.2*float64(h), 0}, Air: &air.Hour{T: 25, RH: 60, VPD: 1.3, Wind2: 3, Light: 300, ClearLight: 400, SinSun: 0.4}}
		open.Hand = open.Alive
		p.Hours = append(p.Hours, open)
	}
	p.BestHour, p.BestShare, p.BrushSpan = 0, 0.95, [2]time.Time{p.Opens, d.At(8, zone)}
	p.Fill, p.Both = risk.Range{Lo: 0.2, Mid: 0.3, Hi: 0.5}, risk.Range{Lo: 0.9, Mid: 0.92, Hi: 0.94}
	p.Set, p.BothSet = risk.Range{Lo: 0.5, Mid: 0.7, Hi: 0.9}, risk.Range{Lo: 0.95, Mid: 0.97, Hi: 0.99}
	p.Flags = []risk.Flag{
		{Kind: risk.BeesIn, Factor: bee.Wind, Group: bee.Honey, From: d.At(8, zone), To: d.At(12, zone), Value: forecast.Known(6), Param: "bee.wind"},
		{Kind: risk.HotPollen, From: d.At(11, zone), To: d.At(12, zone), Value: forecast.Known(38), Limit: forecast.Known(32), Param: "pollen.heat_full"}}
}

func fixedPlan(day *risk.Day, zone *time.Location) risk.DayPlan {
	d := day.Date
	p := day.Plantings
	causes := []risk.Cause{risk.CauseBeesWind, risk.CauseHotPollen}
	tasks := []risk.Task{
		{Kind: risk.HandPollinate, Planting: p[0].Planting, Day: &p[0], From: p[0].BrushSpan[0], To: d.At(8, zone), Causes: causes, Flowers: 14, Counted: true,
			Minutes: 15, Bees: p[0].Fill, Hand: p[0].Both, Gain: 8.7, Sure: risk.VerySure},
		{Kind: risk.LookFirst, Planting: p[1].Planting, Day: &p[1], From: d.At(7, zone), To: d.At(8, zone), Causes: []risk.Cause{risk.CauseFewBees}, Flowers: 2,
			Minutes: 5, Bees: risk.Range{Lo: 0.1, Mid: 0.6, Hi: 1}, Hand: p[0].Both, Gain: 0.6, Sure: risk.Likely,
			Look: risk.Look{At: d.At(7, zone), Minutes: 5, Flowers: 10, Fewer: 4, Groups: [bee.Groups]bool{true, true, true}}},
		{Kind: risk.SavePollen, Planting: p[2].Planting, Day: &p[2], To: d.At(21, zone), Causes: []risk.Cause{risk.CauseRainAhead}, Flowers: 2, Minutes: 10,
			Bees: risk.Range{Lo: 0, Mid: 0.1, Hi: 0.3}, Hand: risk.Range{Lo: 0.2, Mid: 0.5, Hi: 0.8}, Sure: risk.Likely, Rain: forecast.Known(0.8), StoreFor: 8},
	}
	gain := risk.Task{Kind: risk.NothingToGain, Planting: p[4].Planting, Day: &p[4], Causes: []risk.Cause{risk.CauseHotDays}, Sure: risk.Likely}
	return risk.DayPlan{Date: d, Day: day, Tasks: tasks, Rest: []risk.Task{gain}}
}

func leave(day *risk.Day, i int, sure risk.Sureness) risk.Task {
	return risk.Task{Kind: risk.LeaveToBees, Planting: day.Plantings[i].Planting, Day: &day.Plantings[i], Bees: risk.Range{Lo: 0.7, Mid: 0.9, Hi: 1},
		Hand: risk.Range{Lo: 1, Mid: 1, Hi: 1}, Sure: sure}
}
