package ledger

import (
	"slices"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	weatherair "dawnbrush/risk/air"
	"dawnbrush/risk/water/et0"
	"dawnbrush/risk/water/kc"
)

// What the air under a cover draws, as a share of what it draws outdoors at the same
// time. Papers differ by cover, vents and place, so each share is a range, and the
// tracks of doubt lie apart by it. The reason is light: what a house evaporates goes
// in a line with the sun's energy that gets in, much as in the field [AcHort35, status
// read], and plastic keeps 20 to 40 % of it out [PurdLight, status read]; still air
// does the rest.
const (
	tunnelLeast = 0.65 // agrotextile over a vineyard, June and July, Penman-Monteith [DePalma22, status read]
	tunnelMid   = 0.72 // mean of 0.65, 0.69 (film over the same vineyard) and 0.82 [DePalma22, status derived; UCtunnel, status derived]
	tunnelMost  = 0.82 // pan in tunnels of raspberries over a season [UCtunnel, status quoted]
	houseLeast  = 0.54 // pans in and outside a greenhouse [Sujitha21, status read]
	houseMid    = 0.64 // pans in and outside a glasshouse [Amiri18, status read]
	houseMost   = 0.74 // 20.3 of 27.6 mm a week: a small pan in there against a great one outside [Amiri18, status derived]
)

// With a logger's temperature and humidity the air in there is reckoned by the
// reference's own equation, with the resistance of still air, which did best
// against a lawn on lysimeters in a plastic greenhouse.
const (
	stillAir = 150.0            // s/m [Fernandez10, status read]
	stillRun = 208.0 / stillAir // wind at 2 m, m/s, of that resistance [FAO56 box 4, status memory]
	lightMin = 0.60             // share of the light that gets in: plastic of six years [PurdLight, status derived]
	lightMax = 0.80             // newer plastic [PurdLight, status derived]
	lightMid = (lightMin + lightMax) / 2
)

// shareUnder gives the share that a cover leaves, from the least to the greatest; ok
// is false under the open sky and under row covers, which are off for most of a season.
func shareUnder(c risk.Cover) (r risk.Range, ok bool) {
	switch c {
	case risk.Tunnel:
		return risk.Range{Lo: tunnelLeast, Mid: tunnelMid, Hi: tunnelMost}, true
	case risk.House:
		return risk.Range{Lo: houseLeast, Mid: houseMid, Hi: houseMost}, true
	}
	return risk.Range{}, false
}

// leastLogged is how many days a logger must have told before the share that they had
// stands for the days that it does not tell.
const leastLogged = risk.LeastLearn // [chosen: a week holds dull days and clear ones]

// under gives the weather in the tunnel or house of a planting: no rain, and of the
// outside's pull a share, or what its logger tells. The coefficients keep the printed
// climate, for the wind outside is not theirs.
func (w *weather) under(p *risk.Planting) *weather {
	share, ok := shareUnder(p.Cover)
	if !ok {
		return w
	}
	in := *w
	in.days, in.rain = slices.Clone(w.days), make([]rain, len(w.rain))
	for k := range in.days {
		in.rain[k].by = RainNone
		a := &in.days[k]
		a.outside, a.climate = a.et0, kc.Standard()
		if mm, known := a.et0.Get(); known {
			a.et0 = forecast.Known(share.Mid * mm)
		}
		a.use = risk.Range{Lo: share.Hi * a.use.Lo, Mid: share.Mid * a.use.Mid, Hi: share.Lo * a.use.Hi}
	}
	if log := w.g.Inside[p.Logger]; p.Logger != "" && log != nil && risk.LearnDifference(log, w.s, w.g.Place).Fault == "" {
		in.logged(log) // a clock set wrong or degrees of the wrong scale tell nothing
	}
	return &in
}

// logged puts what a logger tells in the place of the share, on days of which it
// measured enough. Under a cover the sky's share of clear light is taken for less
// than it is, which lowers the loss of warmth to the sky, as covers do.
func (w *weather) logged(log *forecast.Series) {
	site := et0.OfPlace(w.g.Place)
	outside := et0.NewClock(site, 1)
	lights := [tracks]float64{dry: lightMax, mid: lightMid, wet: lightMin}
	var clocks [tracks]*et0.Clock
	for t := range clocks {
		clocks[t] = et0.NewClock(site, 1)
	}
	told, outdoors, inside := 0, 0.0, [tracks]float64{}
	for k := range w.days {
		lo, hi := w.s.Day(w.first.AddDays(k), w.g.Place.Zone)
		hours := make([]forecast.Hour, hi-lo)
		var sun [48]forecast.Value
		for i := range hours {
			hours[i] = insideHour(&w.s.Hours[lo+i], log)
			sun[i%len(sun)] = outside.Next(&w.s.Hours[lo+i]).Light
		}
		var days [tracks]et0.Day
		for t := range clocks {
			for i := range hours {
				hours[i].Radiation = forecast.Value{}
				if light, ok := sun[i%len(sun)].Get(); ok {
					hours[i].Radiation = forecast.Known(lights[t] * light)
				}
			}
			days[t] = clocks[t].DayOf(hours)
		}
		if days[mid].Way < et0.ByMeans {
			continue
		}
		a := &w.days[k]
		if mm, known := a.outside.Get(); known && !a.gap {
			told, outdoors = told+1, outdoors+max(0, mm)
			for t := range inside {
				inside[t] += max(0, days[t].MM.Or(0))
			}
		}
		climate := airOf(days[mid]).climate
		a.et0, a.climate, a.logged, a.gap = days[mid].MM, climate, true, false
		for t, to := range [tracks]*float64{dry: &a.use.Lo, mid: &a.use.Mid, wet: &a.use.Hi} {
			*to = max(0, days[t].MM.Or(0))
		}
	}
	if told >= leastLogged && outdoors > 0 {
		w.ownShare(risk.Range{Lo: inside[wet] / outdoors, Mid: inside[mid] / outdoors, Hi: inside[dry] / outdoors})
	}
}

// ownShare puts the share that a tunnel's or house's logged days had in the place of
// that of the papers, on days that the logger does not tell: shade, whitening, mist and
// vents are this one's own.
func (w *weather) ownShare(share risk.Range) {
	for k := range w.days {
		a := &w.days[k]
		mm, known := a.outside.Get()
		if a.logged || a.gap || !known {
			continue
		}
		mm = max(0, mm)
		a.et0, a.own = forecast.Known(share.Mid*mm), true
		a.use = risk.Range{Lo: share.Hi * mm, Mid: share.Mid * mm, Hi: share.Lo * mm}
	}
}

// insideHour gives an hour as the logger measured it, in still air; without the
// logger's temperature and humidity nothing of it is known.
func insideHour(out *forecast.Hour, log *forecast.Series) forecast.Hour {
	h := forecast.Hour{Start: out.Start}
	k, ok := log.Index(out.Start)
	if !ok {
		return h
	}
	in := &log.Hours[k]
	if in.Temp.IsKnown() && (in.RH.IsKnown() || in.DewPoint.IsKnown()) {
		h.Temp, h.RH, h.DewPoint = in.Temp, in.RH, in.DewPoint
		h.Wind, h.Origin = forecast.Known(stillRun/weatherair.WindAt2(10)), forecast.OriginLogger
	}
	return h
}

// span gives the litres for a net depth of mm on a day, from the least to the greatest
// that the doubt about the air in there leaves: what lacks in the morning by the
// tracks, and what is for the day's own use by the ends of that use.
func (l *ledger) span(k int, mm float64) risk.Range {
	lacks, use := l.plan, l.days[k].use
	if l.soilless { // nothing is carried from day to day
		lacks = tracksOf{}
	}
	own := max(0, mm-lacks[mid].Dr) / max(use.Mid, 1e-9)
	return risk.Range{
		Lo:  l.gross(min(mm, lacks[wet].Dr+own*use.Hi)),
		Mid: l.gross(mm),
		Hi:  l.gross(max(mm, lacks[dry].Dr+own*use.Lo)),
	}
}
