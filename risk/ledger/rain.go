package ledger

import (
	"slices"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// rain is the rain of a civil day.
type rain struct {
	mm     risk.Range     // Lo: one in ten is drier
	fell   float64        // of mm.Mid what has fallen by now
	by     RainBasis      // of the most hours
	chance forecast.Value // of measurable rain in hours still to come
	wet    float64        // mm still to come if it rains
	open   bool           // nobody tells of most of the day: anything may have fallen
}

const (
	// wetAmount is the rain of a wet day whose amount is not told.
	wetAmount = 5.0 // mm [chosen: about the middle of wet summer days; a forecast drops amounts after some days]
	// amountLow and amountHigh bound a forecast amount, where it does rain.
	amountLow  = 0.5 // [chosen: a shower's amount at one place is often half of what was forecast]
	amountHigh = 2.0 // [chosen: or twice as much as was forecast]
	// oneInTen is the chance from which an end of a range counts.
	oneInTen = 0.1
	// leastTold is the share of a day's hours that must be told of for its rain to be.
	leastTold = 0.75 // [chosen: as for the mean of a day's weather]
	// oldReading is how far back a gauge's reading may reach.
	oldReading = 14 // days [chosen: what stood longer has been emptied unread or has dried up]
	// gaugeHours is the stretch of a reading that no other goes before: gauges are read once a day. [common-practice]
	gaugeHours = 24
)

// hourRain is what is told of an hour's rain.
type hourRain struct {
	by     RainBasis
	mm     float64 // that fell, or would fall if it rains
	chance float64 // 1 for what was measured
	told   bool    // mm is told
	blank  bool    // of a forecast, and no chance is told
}

// reading is what a gauge held after a stretch of time.
type reading struct {
	from, to time.Time
	mm       float64
}

// readRain works out the rain of all days. A gauge goes before a station, a station
// before a forecast.
func (w *weather) readRain(entries []memory.Entry) {
	hours := make([]hourRain, len(w.s.Hours))
	for i := range hours {
		hours[i] = w.hourRain(&w.s.Hours[i])
	}
	w.fromBlocks(hours)
	for _, r := range w.readings(entries) {
		w.gauge(hours, r)
	}
	w.rain = make([]rain, len(w.days))
	for k := range w.rain {
		lo, hi := w.s.Day(w.first.AddDays(k), w.g.Place.Zone)
		w.rain[k] = w.dayRain(hours[lo:hi], w.s.Hours[lo:hi])
	}
}

// hourRain reads the hour itself. What a weather model worked out afterwards is not
// measured either.
func (w *weather) hourRain(h *forecast.Hour) hourRain {
	mm, ok := h.Rain.Get()
	p, chance := h.RainProb.Get()
	ahead := !h.Start.Before(w.now)
	switch {
	case !ahead && ok && (h.Origin == forecast.OriginObserved || h.Origin == forecast.OriginLogger):
		return hourRain{by: RainStation, mm: mm, chance: 1, told: true}
	case !ok && !chance:
		return hourRain{by: RainUnknown}
	}
	out := hourRain{by: RainForecast, mm: mm, chance: p, told: ok, blank: !chance}
	switch {
	case ahead:
		out.by = RainAhead
	case h.Origin == forecast.OriginReanalysis: // that it rained is known, but not how much
		out.chance, out.blank = 1, false
	}
	return out
}

// fromBlocks fills hours of which only a block of hours tells.
func (w *weather) fromBlocks(hours []hourRain) {
	for _, b := range w.s.Blocks {
		lo, hi := w.s.Slice(b.Start.Add(time.Nanosecond-time.Hour), b.End)
		n := b.End.Sub(b.Start).Hours()
		amount, ok := b.Amount.Get()
		for i := lo; i < hi; i++ {
			h := &hours[i]
			p, chance := b.Prob.Get()
			if h.by == RainStation || n <= 0 || h.told && !h.blank || !ok && !chance {
				continue
			}
			if !h.told && ok {
				h.mm, h.told = amount/n, true
			}
			h.by, h.chance, h.blank = RainForecast, p, !chance
			if !w.s.Hours[i].Start.Before(w.now) {
				h.by = RainAhead
			}
		}
	}
}

// readings gives the rain gauge's readings in order of time, each with the stretch
// since the one before; one without a clock time is of its civil day, and several
// of a day are added up.
func (w *weather) readings(entries []memory.Entry) []reading {
	var notes []*memory.Entry
	for i := range entries {
		if e := &entries[i]; e.Kind == memory.Rain && e.Planting == "" && e.Amount.IsKnown() && !e.Removed && !e.Date.After(w.today) && !e.At.After(w.now) {
			notes = append(notes, e)
		}
	}
	slices.SortStableFunc(notes, func(a, b *memory.Entry) int { return w.readAt(a).Compare(w.readAt(b)) })
	var out []reading
	var last time.Time
	for _, e := range notes {
		r := reading{to: w.readAt(e), mm: e.Amount.Or(0)}
		if e.At.IsZero() {
			r.from, _ = e.Date.Span(w.g.Place.Zone)
			if n := len(out); n > 0 && out[n-1].from.Equal(r.from) && out[n-1].to.Equal(r.to) {
				out[n-1].mm += r.mm
				continue
			}
		} else if r.from = r.to.Add(-gaugeHours * time.Hour); !last.IsZero() && r.to.Sub(last) <= oldReading*24*time.Hour {
			r.from = last
		}
		if r.from.Before(last) {
			r.from = last
		}
		if r.to.After(r.from) {
			out, last = append(out, r), r.to
		}
	}
	return out
}

// readAt is when a gauge was read: without a clock time at the end of its day, or
// when it was written down within it; of today it tells what fell by now.
func (w *weather) readAt(e *memory.Entry) time.Time {
	if !e.At.IsZero() {
		return e.At
	}
	from, to := e.Date.Span(w.g.Place.Zone)
	if e.Recorded.After(from) && e.Recorded.Before(to) {
		return e.Recorded
	}
	if to.After(w.now) {
		return w.now
	}
	return to
}

// gauge lays a reading over the hours of its stretch, in the shape in which rain
// was measured or forecast there, else evenly. A stretch that begins before the
// series keeps the share of its hours.
func (w *weather) gauge(hours []hourRain, r reading) {
	from, to := r.from.Round(time.Hour), r.to.Round(time.Hour)
	lo, hi := w.s.Slice(from, to)
	if lo == hi {
		return
	}
	all := to.Sub(from).Hours()
	mm := r.mm * float64(hi-lo) / all
	sum := 0.0
	for i := lo; i < hi; i++ {
		sum += hours[i].mm * hours[i].weight()
	}
	for i := lo; i < hi; i++ {
		part := 1 / float64(hi-lo)
		if sum > 0 {
			part = hours[i].mm * hours[i].weight() / sum
		}
		hours[i] = hourRain{by: RainGauge, mm: mm * part, chance: 1, told: true}
	}
}

// weight is the chance of an hour's rain, of one hour like another where none is told.
func (h *hourRain) weight() float64 {
	if h.blank {
		return 1
	}
	return h.chance
}

// settle gives hours without a chance that of all their rain of the day: a drizzle
// of many hours is rain.
func settle(hours []hourRain) {
	sum := 0.0
	for i := range hours {
		if hours[i].blank {
			sum += hours[i].mm
		}
	}
	for i := range hours {
		if h := &hours[i]; h.blank {
			h.chance, h.blank = risk.ChanceOfAmount(sum), false
		}
	}
}

// dayRain sums a day up.
func (w *weather) dayRain(hours []hourRain, at []forecast.Hour) rain {
	var r rain
	var count [RainNone + 1]int
	var measured, doubtful, doubtfulMid, chance, over float64
	settle(hours)
	for i := range hours {
		h := &hours[i]
		count[h.by]++
		switch h.by {
		case RainGauge, RainStation:
			measured += h.mm
			r.fell += h.mm
		case RainForecast, RainAhead:
			mm := h.mm
			if !h.told {
				mm = wetAmount / float64(len(hours))
			}
			doubtful, doubtfulMid = doubtful+mm, doubtfulMid+mm*h.chance
			chance = max(chance, h.chance)
			if h.by == RainForecast {
				r.fell += mm * h.chance
			} else {
				over, r.wet = max(over, h.chance), r.wet+mm
			}
		}
	}
	r.mm = risk.Range{Lo: measured, Mid: measured + doubtfulMid, Hi: measured}
	if chance >= 1-oneInTen {
		r.mm.Lo += amountLow * doubtful
	}
	if chance > oneInTen {
		r.mm.Hi += amountHigh * doubtful
	}
	r.mm.Lo, r.mm.Hi = min(r.mm.Lo, r.mm.Mid), max(r.mm.Hi, r.mm.Mid)
	if count[RainAhead] > 0 {
		r.chance = forecast.Known(over)
	}
	r.by = teller(&count)
	told, all := float64(len(hours)-count[RainUnknown]), float64(len(hours))
	if told >= leastTold*all { // the few hours that nobody tells of may have been like the others
		r.mm.Hi *= all / max(1, told)
		return r
	}
	gone, ahead := w.untold(hours, at)
	if r.by = RainUnknown; gone > (1-leastTold)*all {
		r.open = true
	}
	if ahead > 0 {
		r.chance, r.mm.Hi = forecast.Value{}, max(r.mm.Hi, amountHigh*wetAmount)
	}
	return r
}

// untold counts the hours of a day that nobody tells of, those that are over and
// those to come.
func (w *weather) untold(hours []hourRain, at []forecast.Hour) (over, ahead float64) {
	for i := range hours {
		switch {
		case hours[i].by != RainUnknown:
		case at[i].Start.Before(w.now):
			over++
		default:
			ahead++
		}
	}
	return over, ahead
}

// teller gives who told of the most hours, the better of two that told of as many.
func teller(count *[RainNone + 1]int) RainBasis {
	best := RainUnknown
	for by := RainGauge; by < RainUnknown; by++ {
		if count[by] > 0 && (count[best] < count[by] || best == RainUnknown) {
			best = by
		}
	}
	return best
}
