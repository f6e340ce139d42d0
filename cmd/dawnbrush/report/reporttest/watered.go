package reporttest

import (
	"testing"
	"time"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/water"
	"dawnbrush/risk/water/et0"
)

// Watered is Fixed with beds and an account of their water written by hand. Its
// numbers are invented and need not agree with each other.
func Watered(t testing.TB, units risk.Units) *document.Document {
	d := Fixed(t, units)
	d.Garden.Can = 10
	d.Garden.Beds = sampleBeds()
	for i, bed := range []string{"north trellis", "bed 4", "patch", "block 2", "tubs"} {
		d.Garden.Plantings[i].Bed = bed
	}
	d.Water = Account(d.Garden)
	return d
}

func sampleBeds() []risk.Bed {
	return []risk.Bed{
		{Name: "north trellis", Kind: risk.GroundBed, Area: 6, Soil: risk.SandyLoam, Watering: risk.Drip, Flow: 24, Mulch: risk.Organic},
		{Name: "bed 4", Kind: risk.RaisedBed, Area: 3, Soil: risk.Loam, Depth: 0.3, Watering: risk.Can},
		{Name: "patch", Kind: risk.GroundBed, Area: 20, Watering: risk.Sprinkler, Mulch: risk.BareSoil},
		{Name: "block 2", Kind: risk.GroundBed, Area: 12, Soil: risk.Clay, Watering: risk.Soaker, Flow: 120},
		{Name: "tubs", Kind: risk.Pots, Pots: 8, PotVolume: 15, Soil: risk.Soilless, Watering: risk.Can},
		{Name: "tunnel", Kind: risk.GroundBed, Area: 10, Soil: risk.Loam, Watering: risk.Drip},
		{Name: "fallow", Kind: risk.GroundBed, Area: 10, Soil: risk.Loam},
	}
}

// Account is an invented account of the sample's beds: each verdict and each way of
// telling the rain is met in it.
func Account(g *risk.Garden) *ledger.Account {
	a := &ledger.Account{Garden: g, Today: Today}
	crops := []string{"cucumber", "squash, zucchini", "pumpkin, winter squash", "sweet corn", "tomato"}
	for i := range g.Beds {
		b := ledger.Bed{Bed: &g.Beds[i]}
		if i < len(crops) {
			b.Plantings, b.Lead, b.Crop = []*risk.Planting{&g.Plantings[i]}, &g.Plantings[i], crops[i]
			b.Days = sampleDays(g.Place.Zone)
			b.Start = ledger.StartSown
			b.Season = ledger.Season{Days: 40, Given: 300, Rule: 420, Wanted: 280, Noted: true}
			b.Swing = ledger.Swing{Known: true, Share: 0.5}
		}
		a.Beds = append(a.Beds, b)
	}
	a.Beds[5].Why, a.Beds[6].Why = ledger.NoTable, ledger.Nothing
	a.Beds[1].Plantings = append(a.Beds[1].Plantings, &g.Plantings[0])
	a.Beds[1].Swing = ledger.Swing{Known: true, Share: 1.4, Uneven: true}
	a.Beds[2].Assumed, a.Beds[2].Borrowed = []string{"loam"}, "the numbers of the pumpkin stand for it"
	a.Beds[2].Start, a.Beds[2].Season.Noted = ledger.StartUnknown, false
	a.Beds[3].Start, a.Beds[4].NoStore = ledger.StartSoaked, true
	advise(a, g.Place.Zone)
	return a
}

func same(x float64) risk.Range { return risk.Range{Lo: x, Mid: x, Hi: x} }

// sampleDays are nine days gone and four ahead: rain told by each teller, a watering
// and a day without weather.
func sampleDays(zone *time.Location) []ledger.Day {
	var out []ledger.Day
	for k := -9; k < 4; k++ {
		left := 0.9 - 0.06*float64(k+9)
		d := ledger.Day{Date: Today.AddDays(k), Past: k < 0, ET0: forecast.Known(5.2), Way: et0.ByHours, By: ledger.RainStation, TAW: 60, RAW: 30,
			Left: same(left), Night: same(left - 0.06), Lacks: same(60 * (1 - left)), Stress: same(1),
			Flux: water.Flux{Evaporation: 0.6, Transpiration: 4.4, Kcb: 1, P: 0.5, Kr: 0.4, Ke: 0.12, Ks: 1, Exposed: 0.3, Wanted: 5, TAW: 60, RAW: 30}}
		if k >= 0 {
			d.By, d.Chance = ledger.RainAhead, forecast.Known(0.1)
		}
		out = append(out, d)
	}
	out[2].Rain, out[2].By = same(22), ledger.RainGauge
	out[4].Rain, out[4].By = same(6), ledger.RainForecast
	out[5].By, out[5].Way = ledger.RainUnknown, et0.ByTemperature
	out[6].ET0, out[6].Way, out[6].Gap = forecast.Value{}, et0.NoWay, true
	out[7].Given, out[7].Litres = 8, 48
	out[8].Flux.Drainage, out[8].Flux.Intercepted = 3, 0.4
	out[9].Left, out[9].Night = risk.Range{Lo: 0.3, Mid: 0.35, Hi: 0.4}, same(0.26)
	for i := range out {
		out[i].Heeded.Left, out[i].Heeded.Used = out[i].Left, out[i].Flux.ET()
	}
	return out
}

// advise writes what each bed wants today.
func advise(a *ledger.Account, zone *time.Location) {
	from, to := Today.At(5, zone), Today.At(8, zone)
	at := func(bed int) *ledger.Advice { return &a.Beds[bed].Days[9].Advice }
	*at(0) = ledger.Advice{Verdict: ledger.Water, MM: 12.6, Litres: 84, PerPlant: 7, Run: 3*time.Hour + 30*time.Minute, Times: 1, From: from, To: to, Depth: 0.3,
		Causes: []ledger.Cause{ledger.CauseDry, ledger.CauseHot, ledger.CauseFlower}, Days: 0, Sure: risk.VerySure, NoLeaves: true}
	*at(1) = ledger.Advice{Verdict: ledger.LookFirst, MM: 5, Litres: 18, Cans: 1.8, PerPlant: 4.5, Times: 1, From: from, To: to, Depth: 0.1, Sure: risk.Unsure, Gauge: true, Days: 1}
	*at(2) = ledger.Advice{Verdict: ledger.Enough, Causes: []ledger.Cause{ledger.CauseRainCame}, Days: 4, Sure: risk.VerySure}
	*at(3) = ledger.Advice{Verdict: ledger.WaitForRain, Litres: 150, Causes: []ledger.Cause{ledger.CauseRainAhead}, Chance: forecast.Known(0.7), IfDry: 0.26, Days: 1, Sure: risk.Likely}
	*at(4) = ledger.Advice{Verdict: ledger.Water, MM: 5, Litres: 24, EachPot: 3, PerPlant: 1.2, Cans: 2.4, Times: 2, From: from, To: to,
		Causes: []ledger.Cause{ledger.CauseSoilless, ledger.CauseHot}, Days: 0, Sure: risk.Likely}
	for i := range 5 {
		b := &a.Beds[i]
		for k := 10; k < len(b.Days); k++ {
			b.Days[k].Advice = ledger.Advice{Verdict: ledger.Enough, Days: 2, Sure: risk.Likely}
		}
	}
	a.Beds[4].Days[10].Advice = *at(4)
	a.Beds[4].Days[10].Advice.From, a.Beds[4].Days[10].Advice.To = from.AddDate(0, 0, 1), to.AddDate(0, 0, 1)
	a.Beds[1].Start, a.Beds[3].Days[9].Chance = ledger.StartUnknown, forecast.Known(0.7)
	a.Beds[1].Days[9].Left = risk.Range{Lo: 0.1, Mid: 0.5, Hi: 0.9}
}

// Covered is Watered with the first bed under a tunnel.
func Covered(t testing.TB, units risk.Units) *document.Document {
	d := Watered(t, units)
	b := &d.Water.Beds[0]
	b.Cover, b.Share = risk.Tunnel, risk.Range{Lo: 0.65, Mid: 0.72, Hi: 0.82}
	for i := range b.Days {
		day := &b.Days[i]
		day.Rain, day.By, day.Chance = risk.Range{}, ledger.RainNone, forecast.Value{}
		day.ET0, day.Under = forecast.Known(5.04), ledger.Under{Outside: forecast.Known(7), Draws: risk.Range{Lo: 4.55, Mid: 5.04, Hi: 5.74}}
	}
	a := &b.Days[9].Advice
	a.Span, a.Sure = risk.Range{Lo: 70, Mid: 84, Hi: 96}, risk.Likely
	return d
}
