package document

import (
	"slices"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/air"
	"dawnbrush/risk/crop"
)

// Gap is something that a task of today or tomorrow needs and that is not known.
type Gap struct {
	Date      forecast.Date
	Plantings []string   // whose flowers need it
	Beds      []string   // the account of whose water needs it
	Layers    air.Layers // what is unknown while the flowers are open, or in hours to come
}

// gapDays is how many days from the first one count: today and tomorrow. What is
// unknown later is shown and not signalled, for it fills in by itself.
const gapDays = 2

// Gaps lists what today's and tomorrow's tasks need and is not known. Plantings
// under other air or with an unknown past are told of in the plan; no forecast
// could fill them, so they are no gaps.
func (d *Document) Gaps() []Gap {
	var out []Gap
	for i := range d.Plans[:min(len(d.Plans), gapDays)] {
		day := d.Plans[i].Day
		if day == nil {
			continue
		}
		for j := range day.Plantings {
			p := &day.Plantings[j]
			if missing := missing(p); missing != 0 && d.needsWeather(p) {
				out = addGap(out, day.Date, p, missing)
			}
		}
	}
	return d.waterGaps(out)
}

// needsWeather tells whether a planting has flowers that are still ahead and that
// weather decides about.
func (d *Document) needsWeather(p *risk.PlantingDay) bool {
	switch p.State {
	case risk.OtherAir, risk.NeedsNoPollen, risk.NoSun:
		return false
	}
	over := !p.Closes.IsZero() && !p.Closes.After(d.Now)
	return p.Bloom != risk.NoBloom && !over
}

// missing gives what is unknown of a planting's air and could have been known: a
// logger without humidity will never tell it.
func missing(p *risk.PlantingDay) air.Layers {
	if p.Inside != nil && !p.Inside.Humidity {
		return p.Missing &^ air.Humidity
	}
	return p.Missing
}

func addGap(gaps []Gap, date forecast.Date, p *risk.PlantingDay, missing air.Layers) []Gap {
	i := slices.IndexFunc(gaps, func(g Gap) bool { return g.Date == date && g.Layers == missing })
	if i < 0 {
		return append(gaps, Gap{Date: date, Plantings: []string{p.Planting.Name}, Layers: missing})
	}
	gaps[i].Plantings = append(gaps[i].Plantings, p.Planting.Name)
	return gaps
}

// PlantsUntold lists plantings in flower today or tomorrow of which nobody told how many
// plants there are, nor how many flowers are open: their flowers are reckoned for one.
// Those that need no bees are left out, for no work hangs on the number.
func (d *Document) PlantsUntold() (names []string) {
	for i := range d.Plans[:min(len(d.Plans), gapDays)] {
		day := d.Plans[i].Day
		if day == nil {
			continue
		}
		for j := range day.Plantings {
			p := day.Plantings[j].Planting
			told := p.Plants > 0 || p.Open > 0 && p.OpenOn == day.Date || p.Buds > 0 && p.BudsOn == day.Date.AddDays(-1)
			asks := p.Crop.Pollination == crop.Insect && day.Plantings[j].State != risk.NeedsNoPollen && day.Plantings[j].Bloom != risk.NoBloom
			if asks && !told && !slices.Contains(names, p.Name) {
				names = append(names, p.Name)
			}
		}
	}
	return names
}

// Complete tells whether nothing that today's and tomorrow's tasks need is stale
// or unknown.
func (d *Document) Complete() bool { return !d.Forecast.Stale && !d.Unlogged && len(d.Gaps()) == 0 }

// Work tells whether the first day of the plan asks for anything to be done.
func (d *Document) Work() bool {
	return len(d.Plans) > 0 && (slices.ContainsFunc(d.Plans[0].Tasks, func(t risk.Task) bool { return t.Kind.Work() }) || len(d.Waterings(d.Plans[0].Date)) > 0)
}

// ChanceOnlyFrom gives the day of the plan from which on rain has a chance but no
// amount; ok is false when the last whole day has both.
func (d *Document) ChanceOnlyFrom() (first forecast.Date, ok bool) {
	for i := len(d.Plans) - 1; i >= 0; i-- {
		day := d.Plans[i].Day
		switch {
		case day == nil || !day.Forecast || !day.Whole:
		case day.Weather.Rain.IsKnown() || !day.Weather.RainProb.IsKnown():
			return first, ok
		default:
			first, ok = day.Date, true
		}
	}
	return first, ok
}
