package risk

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/sun"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/pollen"
)

// frameLead is how long before midnight a day's frame begins: water that fell
// on the afternoon before may still lie on a flower at dawn.
const frameLead = 12 * time.Hour

// frameHours bounds a frame: 12 hours before midnight and at most 25 after it.
const frameHours = 37

// frame is one civil day worked out for the whole garden: the hours, the sun,
// and the worlds that the chance of rain leaves open.
type frame struct {
	date    forecast.Date
	past    int // the day's index in the history
	first   int // series index of the frame's hour 0
	n       int // hours in the frame
	day     int // frame index of the first hour of the civil day
	start   time.Time
	starts  []forecast.Hour // the series' hours of the frame
	sunrise float64         // h after start
	sunset  float64
	polar   bool // no sunrise that day: the flower clock has nothing to go by
	hasLast bool // the series covers the whole civil day
	tmax    float64
	missing air.Layers // layers unknown in some hour between sunrise and sunset
	hours   [2][]air.Hour
	flyers  *bee.Flyers
	base    [2][bee.Groups][frameHours]float64 // flight in dry air on dry flowers
	worlds  []world
	issued  bool // some hour of the day is a forecast
}

// world is one course that the rain may take, with its weight.
type world struct {
	weight float64
	doubt  air.Doubt
	rain   [frameHours]float64 // mm
	film   [frameHours]bool    // rain film on the flower at the end of the hour
	wet    [frameHours]bool    // any water film
	dry    [frameHours]float64 // share of pollen the flower takes
	flight [bee.Groups][frameHours]float64
}

// skies holds the series worked out with both doubts. Where nothing is missing
// the two share their hours.
type skies struct {
	hours [2][]air.Hour
	room  [2][]air.Hour
	track sun.Track

	flyers *bee.Flyers
}

func (k *skies) read(s *forecast.Series, g *Garden) {
	n := len(s.Hours)
	if k.flyers = g.flyers; k.flyers == nil {
		k.flyers = bee.Usual()
	}
	k.room[air.Kind] = room(k.room[air.Kind], n)
	air.Fill(k.room[air.Kind], s.Hours, g.Place, g.shelter(), air.Kind, &k.track)
	k.hours = [2][]air.Hour{k.room[air.Kind], k.room[air.Kind]}
	for i := range k.hours[air.Kind] {
		if k.hours[air.Kind][i].Missing != 0 {
			k.room[air.Harsh] = room(k.room[air.Harsh], n)
			air.Fill(k.room[air.Harsh], s.Hours, g.Place, g.shelter(), air.Harsh, &k.track)
			k.hours[air.Harsh] = k.room[air.Harsh]
			break
		}
	}
}

func (g *Garden) shelter() float64 {
	if g.Shelter <= 0 {
		return 1
	}
	return g.Shelter
}

// build fills f for a civil day. ok is false when the series holds no hour of
// the day's light.
func (f *frame) build(s *forecast.Series, sk *skies, p forecast.Place, d forecast.Date, past int) (ok bool) {
	from, to := d.Span(p.Zone)
	lo, hi := s.Slice(from.Add(-frameLead), to)
	dayLo, _ := s.Slice(from, to)
	if hi <= dayLo || hi-lo > frameHours {
		return false
	}
	*f = frame{date: d, past: past, first: lo, n: hi - lo, day: dayLo - lo, start: s.Hours[lo].Start, starts: s.Hours[lo:hi], flyers: sk.flyers, worlds: f.worlds[:0]}
	f.hasLast = !s.End().Before(to) && !s.Start().After(from)
	for x := range f.hours {
		f.hours[x] = sk.hours[x][lo:hi]
	}
	noon := sk.track.Noon(from.Add(to.Sub(from)/2), p.Lon)
	rise, set, state := sk.track.Crossings(noon, p.Lat, p.Lon, sun.RiseElevation)
	if state != sun.Normal {
		f.polar = true
		return true
	}
	f.sunrise = rise.Sub(f.start).Hours()
	f.sunset = set.Sub(f.start).Hours()
	f.scan(s)
	f.baseFlight()
	f.drawWorlds(s)
	return true
}

// noTemp stands for a day's highest temperature where no hour has any.
const noTemp = -999

// scan finds the day's highest temperature and what is missing in its light.
func (f *frame) scan(s *forecast.Series) {
	f.tmax = noTemp
	for i := f.day; i < f.n; i++ {
		h := &f.hours[air.Kind][i]
		if h.Missing&air.Temp == 0 {
			f.tmax = max(f.tmax, h.T)
		}
		if t := float64(i); t+1 > f.sunrise-1 && t < f.sunset {
			f.missing |= h.Missing
		}
		if s.Hours[f.first+i].Origin == forecast.OriginForecast {
			f.issued = true
		}
	}
	for _, x := range s.DayMax {
		mid := x.Start.Add(x.End.Sub(x.Start) / 2)
		if t, ok := x.Temp.Get(); ok && !mid.Before(f.start.Add(time.Duration(f.day)*time.Hour)) &&
			mid.Before(f.start.Add(time.Duration(f.n)*time.Hour)) {
			f.tmax = max(f.tmax, t)
		}
	}
}

// missingIn gives the layers unknown in frame hours from..to; rain is unknown
// for the day or not at all.
func (f *frame) missingIn(from, to int) air.Layers {
	l := f.missing & air.Rain
	for i := from; i < to; i++ {
		l |= f.hours[air.Kind][i].Missing
	}
	return l
}

// baseFlight works out each group's flight in dry air, once for all worlds.
func (f *frame) baseFlight() {
	from, to := f.lightSpan()
	for x := range f.hours {
		if x > 0 && &f.hours[x][0] == &f.hours[0][0] {
			f.base[x] = f.base[0]
			break
		}
		for g := range bee.Groups {
			for i := from; i < to; i++ {
				f.base[x][g][i] = f.flyers.Flight(bee.Group(g), &f.hours[x][i], 0, false)
			}
		}
	}
}

// lightSpan gives the frame hours in which bees may fly or flowers be open.
func (f *frame) lightSpan() (from, to int) {
	return max(f.day, int(f.sunrise)-1), min(f.n, int(f.sunset)+1)
}

// finish works out films, dryness and flight from a world's rain.
func (f *frame) finish(w *world) {
	hours := f.hours[w.doubt]
	var film air.Film
	for i := range hours {
		film.Step(&hours[i], w.rain[i])
		w.film[i], w.wet[i] = film.Rain > 0, film.All > 0
	}
	from, to := f.lightSpan()
	for i := from; i < to; i++ {
		w.dry[i] = pollen.DryShare(w.rain[i], w.film[i])
		for g := range bee.Groups {
			w.flight[g][i] = f.base[w.doubt][g][i] * f.flyers.RainFactor(bee.Group(g), w.rain[i], w.wet[i])
		}
	}
}

// highest gives the day's highest temperature, degC.
func (f *frame) highest() forecast.Value {
	if f.tmax == noTemp {
		return forecast.Value{}
	}
	return forecast.Known(f.tmax)
}

// at gives the instant so many hours after the frame's begin, to the second.
func (f *frame) at(h float64) time.Time {
	return f.start.Add(time.Duration(h * float64(time.Hour))).Round(time.Second)
}
