package risk

import (
	"math"
	"slices"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
)

// Limits of learning the difference.
const (
	leastPairs = 20  // hours of a day with both measured that make it count [chosen, status chosen] as for a known day
	LeastLearn = 7   // days that must count before the inside is foretold [chosen, status chosen] a week holds dull days and clear ones
	mostLearn  = 45  // days learned from, the last ones [chosen, status chosen] vents, shade and the sun change with the season
	mostTerms  = 5   // of the regression
	shrink     = 0.5 // hours' worth of "no effect" put to each term [chosen, status chosen] so that few days make no wild slope
	nightLight = 20  // W/m2 of clear-sky light under which it counts as night [chosen, status chosen]

	// A tunnel's air follows the sun: its warmth may lead the sun's height by an hour
	// at most, or lag behind it by five. Anything else is a clock set wrong. [chosen, status chosen]
	mostLead, mostLag = -1, 5
	// leastFollow is the correlation with the sun's height under which nothing is said of the clock.
	leastFollow = 0.5 // [chosen, status chosen]
	// wildDifference is the mean difference, degC, from which it is no tunnel's: degrees
	// Fahrenheit read as Celsius. Tunnels differ by 1 to 4 in the mean of day and night
	// extremes [Savage80, status read]; this limit is chosen.
	wildDifference = 20.0 // [chosen, status chosen]
)

// Way is how the inside's temperature is foretold.
type Way uint8

// The ways, simplest first.
const (
	SameAsOutside Way = iota
	ByHour            // outside plus the mean difference of the hour
	BySun             // the same, plus a regression on what sun and warmth differ from the hour's mean
	Ways
)

var wayNames = [...]string{"same as outside", "mean difference by hour", "regression on sun and hour"}

// String gives the word used in JSON.
func (w Way) String() string { return wayNames[w] }

// MarshalText gives the word used in JSON.
func (w Way) MarshalText() ([]byte, error) { return []byte(w.String()), nil }

// Difference is inside against outside, learned from hours in which both were
// measured. It is not known when fewer than a week of such days are there.
type Difference struct {
	Known          bool
	Days           int              // days that count
	Hours          int              // hours in which both were measured
	Way            Way              // the one with the least error
	Errors         [Ways]float64    // degC, root of the mean squared error of days left out in turn; 0 where a way could not be tried
	Spread         [Ways][2]float64 // the same by night and by day
	Fault          string           // why the logger cannot be believed: "clock" or "fahrenheit"; "" for nothing
	ClockBy        int              // hours that the logger's clock seems to be fast
	MeanDifference float64          // inside less outside, degC, over all hours in which both were measured
	byHour         [24]mean
	vapour         [24]mean // kPa
	terms          [mostTerms]float64
	usual          [24][mostTerms]mean // of the terms, by hour
}

// mean is a running mean.
type mean struct{ sum, n float64 }

func (m *mean) add(x float64) { m.sum, m.n = m.sum+x, m.n+1 }

func (m mean) value() float64 {
	if m.n <= 0 {
		return 0
	}
	return m.sum / m.n
}

// pair is an hour with both measured.
type pair struct {
	day     int // index of the civil day
	hour    int // of the sun's day
	class   int // 0 by night, 1 by day
	dt      float64
	lit     bool // light is known
	x       [mostTerms]float64
	dv      float64
	vapours bool
}

// solarHour gives the hour of the sun's day, 0..24, by longitude alone: the error,
// a quarter of an hour at most, is common to all.
func solarHour(t time.Time, lon float64) float64 {
	t = t.UTC()
	return math.Mod(float64(t.Hour())+float64(t.Minute())/60+0.5+lon/15+48, 24)
}

// termsOf gives what the regression hangs on in an hour: the sun now and an hour ago
// (soil and plants hold warmth), its square and its product with the outside's
// warmth (vents are opened), and that warmth.
func termsOf(sky []air.Hour, i int) (x [mostTerms]float64, ok bool) {
	h := &sky[i]
	if h.Missing&(air.Temp|air.Light) != 0 {
		return x, false
	}
	now, before := h.Light/1000, h.Light/1000
	if i > 0 && sky[i-1].Missing&air.Light == 0 {
		before = sky[i-1].Light / 1000
	}
	warm := (h.T - 15) / 10
	return [mostTerms]float64{now, before, now * now, now * warm, warm}, true
}

// pairs gathers the hours in which both were measured.
func pairs(log, s *forecast.Series, sky []air.Hour, p forecast.Place) (out []pair, days int) {
	last, n := forecast.Date{}, 0
	begun := 0
	end := func() {
		if n < leastPairs {
			out = out[:begun]
		} else {
			days++
		}
		begun, n = len(out), 0
	}
	for i := range s.Hours {
		h := &s.Hours[i]
		k, ok := log.Index(h.Start)
		if !ok || h.Origin == forecast.OriginForecast || h.Origin == forecast.OriginNone {
			continue
		}
		in, ok1 := log.Hours[k].Temp.Get()
		t, ok2 := h.Temp.Get()
		if !ok1 || !ok2 {
			continue
		}
		if d := forecast.DateOf(h.Start, p.Zone); d != last {
			end()
			last = d
		}
		q := pair{day: days, hour: int(solarHour(h.Start, p.Lon)), class: classOf(&sky[i]), dt: in - t}
		q.x, q.lit = termsOf(sky, i)
		inside := log.Hours[k]
		a, ok1 := vapour(&inside)
		b, ok2 := vapour(h)
		q.dv, q.vapours = a-b, ok1 && ok2
		out, n = append(out, q), n+1
	}
	end()
	if early := days - mostLearn; early > 0 {
		k := slices.IndexFunc(out, func(q pair) bool { return q.day >= early })
		out, days = out[k:], mostLearn
		for i := range out {
			out[i].day -= early
		}
	}
	return out, days
}

func classOf(h *air.Hour) int {
	if h.ClearLight < nightLight {
		return 0
	}
	return 1
}

// learnDifference learns from the hours in which both were measured.
func learnDifference(log, s *forecast.Series, sky []air.Hour, p forecast.Place) Difference {
	list, days := pairs(log, s, sky, p)
	d := Difference{Days: days, Hours: len(list)}
	d.doubt(log, s, sky, list)
	if d.Fault != "" || days < LeastLearn {
		return d
	}
	d.Known = true
	d.choose(list)
	d.fit(list, -1)
	return d
}

// fit learns from all days but one: the hours' means, then the regression of what
// is left on how far the terms lie from their own means of the hour.
func (d *Difference) fit(list []pair, without int) {
	d.byHour, d.vapour, d.usual = [24]mean{}, [24]mean{}, [24][mostTerms]mean{}
	for i := range list {
		q := &list[i]
		if q.day == without {
			continue
		}
		d.byHour[q.hour].add(q.dt)
		if q.vapours {
			d.vapour[q.hour].add(q.dv)
		}
		if q.lit {
			for r := range q.x {
				d.usual[q.hour][r].add(q.x[r])
			}
		}
	}
	var a [mostTerms][mostTerms]float64
	var b [mostTerms]float64
	for i := range list {
		q := &list[i]
		if q.day == without || !q.lit {
			continue
		}
		x, left := d.apart(q), q.dt-d.byHour[q.hour].value()
		for r := range a {
			b[r] += x[r] * left
			for c := range a {
				a[r][c] += x[r] * x[c]
			}
		}
	}
	for r := range a {
		a[r][r] += shrink
	}
	d.terms = solve(a, b)
}

// apart gives how far the terms of an hour lie from their means.
func (d *Difference) apart(q *pair) (x [mostTerms]float64) {
	for r := range x {
		x[r] = q.x[r] - d.usual[q.hour][r].value()
	}
	return x
}

// guess gives what a way makes of a pair; ok is false where it cannot.
func (d *Difference) guess(w Way, q *pair) (dt float64, ok bool) {
	if w == SameAsOutside {
		return 0, true
	}
	dt, ok = d.byHour[q.hour].value(), d.byHour[q.hour].n > 0
	if w == BySun {
		ok = ok && q.lit && d.usual[q.hour][0].n > 0
		for r, x := range d.apart(q) {
			dt += d.terms[r] * x
		}
	}
	return dt, ok
}

// choose leaves each day out in turn, foretells it from the others, and takes the
// way with the least error. A way must serve every hour that counts for light to be
// compared: where light is not known for a tenth of them the regression is left out.
func (d *Difference) choose(list []pair) {
	var square [Ways][2]mean
	for day := range d.Days {
		d.fit(list, day)
		for i := range list {
			q := &list[i]
			if q.day != day {
				continue
			}
			for w := range Ways {
				if dt, ok := d.guess(w, q); ok {
					square[w][q.class].add((q.dt - dt) * (q.dt - dt))
				}
			}
		}
	}
	all := func(w Way) mean {
		return mean{square[w][0].sum + square[w][1].sum, square[w][0].n + square[w][1].n}
	}
	for w := range Ways {
		m := all(w)
		if m.n < 0.9*float64(len(list)) { // [chosen, status chosen]
			continue
		}
		d.Errors[w] = math.Sqrt(m.value())
		if w == SameAsOutside || d.Errors[w] < d.Errors[d.Way] {
			d.Way = w
		}
	}
	for w := range Ways {
		for c := range d.Spread[w] {
			d.Spread[w][c] = math.Sqrt(square[w][c].value())
		}
	}
}

// foretell fills hour h of the inside from hour i of the outside and gives how far
// its temperature may lie off, degC. What the outside does not tell stays unknown.
func (d *Difference) foretell(h, out *forecast.Hour, sky []air.Hour, i int, p forecast.Place) (spread float64) {
	t, ok := out.Temp.Get()
	if !ok || !d.Known {
		return 0
	}
	q, way := pair{hour: int(solarHour(out.Start, p.Lon))}, d.Way
	q.x, q.lit = termsOf(sky, i)
	dt, ok := d.guess(way, &q)
	if !ok {
		way = ByHour
		if dt, ok = d.guess(way, &q); !ok {
			return 0
		}
	}
	h.Temp, h.Origin = forecast.Known(t+dt), forecast.OriginForecast
	v, ok := vapour(out)
	if m := d.vapour[q.hour]; ok && m.n > 0 {
		h.RH = forecast.Known(min(100, max(leastRH, 100*(v+m.value())/air.SaturationPressure(t+dt)))) // [FAO56 eq 10]
	}
	return d.Spread[way][classOf(&sky[i])]
}

// leastRH bounds a foretold humidity, %. [chosen, status chosen] air among leaves is never drier
const leastRH = 5.0
