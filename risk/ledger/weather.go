package ledger

import (
	"math"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/sun"
	"dawnbrush/risk"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/water/et0"
	"dawnbrush/risk/water/kc"
)

// weather is what all beds of a garden share: the pull of the air and the rain of
// each civil day that the series touches, up to its last whole one.
type weather struct {
	g     *risk.Garden
	s     *forecast.Series // padded to whole days
	first forecast.Date
	days  []air
	rain  []rain
	grown []growth.Day
	// firsts is what first flowers seen in the garden taught; nil for nothing
	firsts risk.Firsts
	now    time.Time
	today  forecast.Date
}

// air is the pull of a day's air.
type air struct {
	et0     forecast.Value
	way     et0.Way
	climate kc.Climate
	use     risk.Range // of the reference by track: Lo the thirsty one; all alike but in a gap
	gap     bool
	outside forecast.Value // et0 outdoors, where this is the air under a cover
	logged  bool           // by a logger in there
	own     bool           // by the share that its logged days had
}

// gapDays is how many days around an unknown one tell the range of its use: a week.
// [chosen: weather lasts for days, and a week holds a spell and its end]
const gapDays = 3

func newWeather(g *risk.Garden, s *forecast.Series, now time.Time) *weather {
	zone := g.Place.Zone
	w := &weather{g: g, now: now, today: forecast.DateOf(now, zone)}
	if len(s.Hours) == 0 {
		w.s, w.first = s, w.today
		return w
	}
	w.first = forecast.DateOf(s.Start(), zone)
	last := forecast.DateOf(s.End().Add(-time.Nanosecond), zone)
	if _, end := last.Span(zone); s.End().Before(end) && last.After(w.today) {
		last = last.AddDays(-1) // not whole; Today alone may lack its evening
	}
	w.s = whole(s, w.first, last, zone)
	n := last.DaysSince(w.first) + 1
	w.days, w.grown = make([]air, n), make([]growth.Day, n)
	shelter := g.Shelter
	if shelter <= 0 {
		shelter = 1
	}
	clock := et0.NewClock(et0.OfPlace(g.Place), shelter)
	for k := range w.days {
		lo, hi := w.s.Day(w.first.AddDays(k), zone)
		w.days[k] = airOf(clock.DayOf(w.s.Hours[lo:hi]))
		w.grown[k] = extremes(w.first.AddDays(k), w.s.Hours[lo:hi])
	}
	w.fillGaps()
	return w
}

// whole pads a series with unknown hours to whole civil days.
func whole(s *forecast.Series, first, last forecast.Date, zone *time.Location) *forecast.Series {
	from, _ := first.Span(zone)
	_, to := last.Span(zone)
	if !s.Start().After(from.Add(time.Hour-time.Nanosecond)) && !s.End().Before(to) {
		return s
	}
	out := *s
	padded := forecast.New(from.Add(time.Hour-time.Nanosecond), to)
	lo, hi := s.Slice(padded.Start(), padded.End())
	if at, ok := padded.Index(s.Hours[min(lo, len(s.Hours)-1)].Start); ok {
		copy(padded.Hours[at:], s.Hours[lo:hi])
	}
	out.Hours = padded.Hours
	return &out
}

func airOf(d et0.Day) air {
	a := air{et0: d.MM, way: d.Way, climate: kc.Standard()}
	a.climate.Wind2 = d.Wind2.Or(a.climate.Wind2) // [FAO56 p 63]
	a.climate.RHMin = d.RHMin.Or(a.climate.RHMin)
	mm, ok := d.MM.Get()
	mm = max(0, mm) // dew
	a.use, a.gap = risk.Range{Lo: mm, Mid: mm, Hi: mm}, !ok
	return a
}

func extremes(date forecast.Date, hours []forecast.Hour) growth.Day {
	d := growth.Day{Date: date}
	lo, hi, n := math.Inf(1), math.Inf(-1), 0
	for i := range hours {
		if t, ok := hours[i].Temp.Get(); ok {
			lo, hi, n = min(lo, t), max(hi, t), n+1
		}
	}
	if n*24 >= 20*len(hours) { // with 20 of 24 both extremes are in [chosen: as for the model's history]
		d.Min, d.Max = forecast.Known(lo), forecast.Known(hi)
	}
	return d
}

// fillGaps gives days of unknown use what the days around them span.
func (w *weather) fillGaps() {
	for k := range w.days {
		if !w.days[k].gap {
			continue
		}
		near := func(reach int) (r risk.Range, n int) {
			r = risk.Range{Lo: 0, Hi: math.Inf(1)} // Lo is the thirsty end
			for j := max(0, k-reach); j <= min(len(w.days)-1, k+reach); j++ {
				if mm, ok := w.days[j].et0.Get(); ok {
					mm = max(0, mm)
					r.Lo, r.Hi, r.Mid, n = max(r.Lo, mm), min(r.Hi, mm), r.Mid+mm, n+1
				}
			}
			return r, n
		}
		r, n := near(gapDays)
		if n == 0 {
			r, n = near(len(w.days))
		}
		if n == 0 {
			r.Hi = 0
		}
		r.Mid /= max(1, float64(n))
		w.days[k].use = r
	}
}

// index gives the position of a date, which may lie outside.
func (w *weather) index(d forecast.Date) int { return d.DaysSince(w.first) }

// known tells whether anything of a day's use is known.
func (w *weather) known(d forecast.Date) bool {
	k := w.index(d)
	return k >= 0 && k < len(w.days) && !w.days[k].gap
}

// light gives sunrise and sunset of a civil day; ok is false in polar day and night.
func (w *weather) light(d forecast.Date) (rise, set time.Time, ok bool) {
	var track sun.Track
	from, to := d.Span(w.g.Place.Zone)
	noon := track.Noon(from.Add(to.Sub(from)/2), w.g.Place.Lon)
	rise, set, state := track.Crossings(noon, w.g.Place.Lat, w.g.Place.Lon, sun.RiseElevation)
	return rise, set, state == sun.Normal
}
