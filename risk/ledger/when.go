package ledger

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

const (
	// beforeSunrise is how long before sunrise watering may begin.
	beforeSunrise = time.Hour // [chosen: in the light of dawn]
	// midMorning ends the watering of a morning: extension pages have 5 to 10 h. [common-practice]
	midMorning = 10.0
	// evening begins and ends the second best time: the heat is over, and there is
	// light to see by. [chosen: after the day's use, before dark in summer]
	evening, night = 17.0, 21.0
	// leastRun is the shortest stretch of work worth beginning in.
	leastRun = 5 * time.Minute // [chosen: as for the plan's tasks]
)

// when picks the hours: before sunrise to mid-morning, where work allows; in the
// evening as second best, for water at the foot of the plants only, since leaves
// that stay wet overnight fall ill. Overhead water has to be over before flowers
// open.
func (l *ledger) when(a *Advice, k int, t *trial) {
	date, zone := l.first.AddDays(k), l.g.Place.Zone
	from, to := date.At(midMorning-5, zone), date.At(midMorning, zone)
	if rise, _, ok := l.light(date); ok {
		from = rise.Add(-beforeSunrise).Truncate(leastRun)
		if l.overhead() && a.NoLeaves {
			to = earlier(to, l.opening(date, rise))
		}
	}
	if a.From, a.To = l.work(date, from, to, a.Run); !a.From.IsZero() || l.overhead() {
		return
	}
	if a.From, a.To = l.work(date, date.At(evening, zone), date.At(night, zone), a.Run); !a.From.IsZero() && !l.soilless && a.later == 0 {
		l.measure(a, k, t.end.Dr-a.Less) // by then the day has taken its use too
	}
}

func (l *ledger) overhead() bool { return l.ground.bed.Watering == risk.Sprinkler }

// opening gives when the first flower of the bed opens; mid-morning where that is
// not told.
func (l *ledger) opening(date forecast.Date, rise time.Time) time.Time {
	first := date.At(midMorning, l.g.Place.Zone)
	for _, p := range l.bed.Plantings {
		if w := p.Crop.Window; w.Closes > w.Opens {
			first = earlier(first, rise.Add(time.Duration(w.Opens*float64(time.Hour))).Truncate(leastRun))
		}
	}
	return first
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// work cuts hours to those of the garden's work that are still to come: the first
// stretch that holds the watering, else the longest; none gives zero times.
func (l *ledger) work(date forecast.Date, from, to time.Time, need time.Duration) (a, b time.Time) {
	if from.Before(l.now) {
		from = l.now.Add(leastRun - 1).Truncate(leastRun)
	}
	longest := time.Duration(0)
	for _, s := range l.g.Work[date.Weekday()] {
		x, y := date.At(s.From, l.g.Place.Zone), date.At(s.To, l.g.Place.Zone)
		if x.Before(from) {
			x = from
		}
		y = earlier(y, to)
		if n := y.Sub(x); n >= leastRun && n > longest {
			longest, a, b = n, x, y
			if need > 0 && n >= need {
				break
			}
		}
	}
	return a, b
}
