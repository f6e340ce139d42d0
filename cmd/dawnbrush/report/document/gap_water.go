package document

import (
	"slices"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/water/et0"
)

// waterGaps adds what the account of water needs of today's and tomorrow's hours that
// are still to come and that is not known. Hours that are over no forecast can fill:
// they widen the doubt and are told of with it.
func (d *Document) waterGaps(gaps []Gap) []Gap {
	if d.Water == nil || d.Assessment == nil {
		return gaps
	}
	for i := range d.Plans[:min(len(d.Plans), gapDays)] {
		date := d.Plans[i].Date
		ahead := d.unknownAhead(date)
		if ahead == 0 {
			continue
		}
		for j := range d.Water.Beds {
			b := &d.Water.Beds[j]
			if missing := ahead & needs(b, date); missing != 0 {
				gaps = addBed(gaps, date, b.Bed.Name, missing)
			}
		}
	}
	return gaps
}

// needs gives the layers whose want shows in a bed's account of a day.
func needs(b *ledger.Bed, date forecast.Date) (l air.Layers) {
	const pull = air.Temp | air.Humidity | air.Wind | air.Light
	if b.Why == ledger.NoWeather {
		return pull
	}
	day, ok := b.Day(date)
	if !ok || b.Why != ledger.Reckoned {
		return 0
	}
	if day.Gap || day.Way <= et0.ByTemperature {
		l |= pull
	}
	if day.By == ledger.RainUnknown || day.By == ledger.RainAhead && !day.Chance.IsKnown() {
		l |= air.Rain
	}
	return l
}

// unknownAhead gives the layers that some hour of a day lacks that is still to come.
// Light is told by cloud cover too, and rain by a block of hours.
func (d *Document) unknownAhead(date forecast.Date) (l air.Layers) {
	s := d.Assessment.Series
	if s == nil {
		return 0
	}
	lo, hi := s.Day(date, d.Zone())
	for i := lo; i < hi; i++ {
		h := &s.Hours[i]
		if h.Start.Before(d.Now) {
			continue
		}
		for _, x := range []struct {
			layer air.Layers
			known bool
		}{{air.Temp, h.Temp.IsKnown()}, {air.Humidity, h.RH.IsKnown() || h.DewPoint.IsKnown()}, {air.Wind, h.Wind.IsKnown()},
			{air.Light, h.Radiation.IsKnown() || h.Sky.IsKnown()}, {air.Rain, h.Rain.IsKnown() || h.RainProb.IsKnown() || blocked(s, h.Start)}} {
			if !x.known {
				l |= x.layer
			}
		}
	}
	return l
}

// blocked tells whether a block of hours tells the rain of an hour.
func blocked(s *forecast.Series, start time.Time) bool {
	return slices.ContainsFunc(s.Blocks, func(b forecast.RainBlock) bool {
		return !start.Before(b.Start) && start.Before(b.End) && (b.Amount.IsKnown() || b.Prob.IsKnown())
	})
}

func addBed(gaps []Gap, date forecast.Date, bed string, missing air.Layers) []Gap {
	i := slices.IndexFunc(gaps, func(g Gap) bool { return g.Date == date && g.Layers == missing })
	if i < 0 {
		return append(gaps, Gap{Date: date, Beds: []string{bed}, Layers: missing})
	}
	gaps[i].Beds = append(gaps[i].Beds, bed)
	return gaps
}
