package risk

import (
	"math"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/growth"
)

// history sums up the days of a series, past and to come, for everything that
// looks back: heat on buds, nights, the days and nights before tomato, pepper and bean flower.
type history struct {
	first forecast.Date
	days  []daySum
	s     *forecast.Series
	grown []growth.Day
}

// daySum is one civil day. known is false when fewer than minHours hours have
// a temperature.
type daySum struct {
	known      bool
	max, min   float64 // degC
	mean       float64 // degC, mean of the hours
	nightMin   float64 // degC, 18 h of the evening before to 8 h
	nightKnown bool
	lo, hi     int // series range
	observed   bool
}

// minHours is how many hours of temperature make a day known: 20 of 24 leave
// both extremes in. [chosen, status chosen]
const minHours = 20

func (h *history) read(s *forecast.Series, p forecast.Place) {
	h.s, h.days, h.grown = s, h.days[:0], h.grown[:0]
	if len(s.Hours) == 0 {
		return
	}
	h.first = forecast.DateOf(s.Start(), p.Zone)
	n := forecast.DateOf(s.End().Add(-1), p.Zone).DaysSince(h.first) + 1
	h.days = room(h.days, n)
	lo := 0
	for k := range h.days {
		_, to := h.first.AddDays(k).Span(p.Zone)
		_, hi := s.Slice(to, to)
		h.days[k].lo, h.days[k].hi = lo, hi
		h.sum(&h.days[k])
		lo = hi
	}
}

func (h *history) sum(d *daySum) {
	d.max, d.min, d.nightMin = -999, 999, 999
	sum, n, seen := 0.0, 0, 0
	for i := d.lo; i < d.hi; i++ {
		t, ok := h.s.Hours[i].Temp.Get()
		if !ok {
			continue
		}
		sum, n = sum+t, n+1
		d.max, d.min = max(d.max, t), min(d.min, t)
		if h.s.Hours[i].Origin == forecast.OriginObserved {
			seen++
		}
	}
	for i := max(0, d.lo-6); i < min(d.hi, d.lo+8); i++ {
		if t, ok := h.s.Hours[i].Temp.Get(); ok {
			d.nightMin, d.nightKnown = min(d.nightMin, t), true
		}
	}
	if d.known = n >= minHours; d.known {
		d.mean = sum / float64(n)
	}
	d.observed = seen*2 > n
}

// index gives the position of a civil day among days; it may lie outside.
func (h *history) index(d forecast.Date) int {
	if len(h.days) == 0 {
		return -1
	}
	return d.DaysSince(h.first)
}

// at gives the sum of the day at an index, if it is known.
func (h *history) at(k int) (*daySum, bool) {
	if k < 0 || k >= len(h.days) || !h.days[k].known {
		return nil, false
	}
	return &h.days[k], true
}

// acute tells whether, on the day at k and the days before it, limit (degC) was
// passed for hours on run days in a row.
func (h *history) acute(k int, limit, hours float64, run int) bool {
	for back := range run {
		s, ok := h.at(k - back)
		if !ok || s.max <= limit || float64(h.over(s, limit)) < hours {
			return false
		}
	}
	return run > 0
}

// over counts the hours of a day above a limit (degC).
func (h *history) over(s *daySum, limit float64) (n int) {
	for i := s.lo; i < s.hi; i++ {
		if t, ok := h.s.Hours[i].Temp.Get(); ok && t > limit {
			n++
		}
	}
	return n
}

// budSpell counts how many days in a row up to the one at k harmed buds: hot by
// day and by night, or so hot by day that the night does not matter. Unknown days
// end the spell.
func (h *history) budSpell(k int, b *crop.Buds) (days int) {
	night := b.NightAlone.Or(b.NightTemp) // warm nights do it below the chamber's 27 degC [UDel1583, status read]
	alone := b.DayAlone.Or(math.Inf(1))   // [PSUpump, status read]
	for {
		s, ok := h.at(k - days)
		if !ok || s.max < b.DayTemp || s.max < alone && (!s.nightKnown || s.nightMin < night) {
			return days
		}
		days++
	}
}
