package risk

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
)

// lab puts the model into the settings of published trials. It only sets up
// weather, flowers and bees: every result comes from the model's own code.
type lab struct {
	t      testing.TB
	set    *crop.Set
	tables map[string]evidence

	changed map[string]*crop.Crop // by key, in place of those of the files; nil for none
	flyers  *bee.Flyers           // nil for the usual ones
	used    map[string]bool       // crops asked for, by key; nil where nobody wants to know
}

func newLab(t testing.TB) *lab {
	t.Helper()
	set, err := crop.Load()
	require.NoError(t, err)
	return &lab{t: t, set: set, tables: tables(t)}
}

func (l *lab) crop(key string) *crop.Crop {
	l.t.Helper()
	c, ok := l.set.Find(key)
	require.True(l.t, ok, key)
	if l.used != nil {
		l.used[c.Key] = true
	}
	if other := l.changed[c.Key]; other != nil {
		return other
	}
	return c
}

// field is where and on which day a flower opens.
type field struct {
	lat, lon float64
	zone     *time.Location
	date     forecast.Date
}

func fieldAt(lat, lon float64, zone int, year int, month time.Month, day int) field {
	return field{lat, lon, time.FixedZone("", zone*3600), forecast.Date{Year: year, Month: month, Day: day}}
}

// Fields of the trials. Their coordinates are from memory, the day of the year
// is a plain one of the season where the paper's was not seen.
var (
	nyField     = fieldAt(40.69, -74.17, -4, 2013, time.July, 15)
	ithaca      = fieldAt(42.45, -76.5, -4, 1996, time.July, 20)
	ohio        = fieldAt(40.0, -83.0, -4, 2012, time.July, 20)
	carolina    = fieldAt(35.7, -78.5, -4, 1986, time.July, 5)
	colorado    = fieldAt(40.6, -105.1, -6, 2000, time.July, 15)
	saoPaulo    = fieldAt(-21.2, -48.3, -3, 2002, time.March, 21)
	nigeria     = fieldAt(4.8, 7.0, 1, 2004, time.June, 15)
	hungary     = fieldAt(46.9, 19.7, 2, 1992, time.July, 15)
	panama      = fieldAt(8.0, -80.4, -5, 2020, time.March, 21)
	cameroon    = fieldAt(10.6, 14.3, 1, 2018, time.March, 21)
	bengaluru   = field{12.97, 77.59, time.FixedZone("", 5*3600+1800), forecast.Date{Year: 2016, Month: time.March, Day: 21}}
	florida     = fieldAt(28.8, -81.9, -5, 1964, time.June, 1)
	delaware    = fieldAt(38.6, -75.5, -4, 2018, time.July, 1)
	laguna      = fieldAt(25.5, -103.4, -6, 2020, time.July, 1)
	tomatoField = fieldAt(35.8, -78.7, -4, 1997, time.July, 15)
)

// weather is a tiny invented course of the air: unless temp says otherwise a
// sine that peaks at 15 h, with steady dew point, wind and cloud.
type weather struct {
	mean, amp, dew, wind, sky float64
	temp                      func(day, hour int) float64 // day 0 is the flower's day
	rain                      func(day, hour int) float64 // mm
	rh                        float64                     // % all day; 0 takes the dew point
}

// clearDay is the clear summer day of the model's regression runs.
var clearDay = weather{mean: 24, amp: 6, dew: 16, wind: 3, sky: 0.25}

// chamber is days and nights of twelve hours at two temperatures (degC).
func chamber(day, night float64) weather {
	return weather{dew: 12, wind: 3, sky: 0.25, temp: func(_, h int) float64 { return dayNight(h, day, night) }}
}

func dayNight(hour int, day, night float64) float64 {
	if hour >= 7 && hour < 19 {
		return day
	}
	return night
}

// series runs from back days before the flower's day to the day after it.
func (w weather) series(at field, back int) *forecast.Series {
	from := at.date.AddDays(-back)
	s := forecast.New(from.Start(at.zone), at.date.AddDays(2).Start(at.zone))
	for i := range s.Hours {
		h := &s.Hours[i]
		day, hour := i/24-back, i%24
		t := w.mean + w.amp*math.Sin(2*math.Pi*(float64(hour)+0.5-9)/24)
		if w.temp != nil {
			t = w.temp(day, hour)
		}
		rain := 0.0
		if w.rain != nil {
			rain = w.rain(day, hour)
		}
		rh := min(100, 100*air.SaturationPressure(w.dew)/air.SaturationPressure(t))
		if w.rh > 0 {
			rh = w.rh
		}
		h.Temp, h.RH = forecast.Known(t), forecast.Known(rh)
		h.Wind, h.Sky = forecast.Known(w.wind), forecast.Known(w.sky)
		h.Rain, h.RainProb = forecast.Known(rain), forecast.Known(0)
		h.Origin = forecast.OriginObserved
	}
	return s
}

// bees are those whose flight is tried.
func (l *lab) bees() *bee.Flyers {
	if l.flyers != nil {
		return l.flyers
	}
	return bee.Usual()
}

func (l *lab) garden(at field, p Planting, b Bees) *Garden {
	p.Name = "trial"
	return &Garden{flyers: l.flyers, Shelter: 1, Place: forecast.Place{Lat: at.lat, Lon: at.lon, Zone: at.zone}, Bees: b, Plantings: []Planting{p}}
}

// judge assesses a planting on the field's day, after back days of the weather.
func (l *lab) judge(at field, w weather, back int, p Planting, b Bees) *PlantingDay {
	l.t.Helper()
	a := Assess(l.garden(at, p, b), w.series(at, back), at.date, 1)
	require.Len(l.t, a.Days, 1)
	return &a.Days[0].Plantings[0]
}

// plain is one planting of a crop on a day of steady weather.
func (l *lab) plain(key string, at field, w weather) *PlantingDay {
	l.t.Helper()
	return l.judge(at, w, 1, Planting{Crop: l.crop(key)}, Bees{})
}

// local is the hour of a flower's hour on the field's clock.
func (at field) local(h *FlowerHour) int { return h.Start.In(at.zone).Hour() }

// hourOf gives a flower's hour by the local clock.
func (l *lab) hourOf(pd *PlantingDay, at field, hour int) FlowerHour {
	for i := range pd.Hours {
		if at.local(&pd.Hours[i]) == hour {
			return pd.Hours[i]
		}
	}
	return FlowerHour{} // the flower is shut
}

// handFrom gives the best that a brush does from a local hour on.
func (l *lab) handFrom(pd *PlantingDay, at field, hour int) (best float64) {
	for i := range pd.Hours {
		if at.local(&pd.Hours[i]) >= hour {
			best = max(best, pd.Hours[i].Hand)
		}
	}
	return best
}

// openHours is how long the flower stays open.
func (l *lab) openFor(key string, at field, w weather) float64 {
	pd := l.plain(key, at, w)
	return pd.Closes.Sub(pd.Opens).Hours()
}

// insect compiles a crop, its groups' grains per visit changed to grains where
// that is above 0.
func (l *lab) insect(key string, grains float64) insectModel {
	c := *l.crop(key)
	if grains > 0 {
		g := *c.Bees.Honey
		g.GrainsPerVisit = grains
		c.Bees.Honey = &g
	}
	var laws []law
	return *newInsectModel(&c, Bees{}, &Learned{}, &laws)
}

// exact is the set after exactly n visits of live, fresh pollen to a receptive
// stigma: the model's chance of one visit, n times, or its share of the need.
func (l *lab) exact(key string, g bee.Group, n float64) float64 {
	return exactVisits(l.insect(key, 0), g, n)
}

func exactVisits(m insectModel, g bee.Group, n float64) float64 {
	if m.rise[0] == straight {
		return min(1, n*m.full[g])
	}
	b := flowerBase{open: 1}
	m.visit(&b, &b.set, 1)
	return 1 - math.Pow(1-b.set[g], n)
}

// grains is the set that a number of grains gives at one visit.
func (l *lab) grains(key string, n float64) float64 {
	return exactVisits(l.insect(key, n), bee.Honey, 1)
}

// kept judges a flower that bees can reach only between two local hours, with
// the supply of all groups times k.
func (l *lab) kept(key string, at field, w weather, b Bees, k, from, to float64) *PlantingDay {
	l.t.Helper()
	g := l.garden(at, Planting{Crop: l.crop(key)}, b)
	s := w.series(at, 1)
	var sk skies
	sk.read(s, g)
	var f frame
	require.True(l.t, f.build(s, &sk, g.Place, at.date, 1))
	for j := range f.worlds {
		for i := range f.n {
			hour := float64(i - f.day)
			part := max(0, min(to, hour+1)-max(from, hour))
			for group := range bee.Groups {
				f.worlds[j].flight[group][i] *= part
			}
		}
	}
	var laws []law
	m := newInsectModel(l.crop(key), b, &Learned{}, &laws)
	for group := range m.bees.rate {
		m.bees.rate[group] *= k
	}
	var out PlantingDay
	m.judge(&f, &scratch{}, &out, make([]FlowerHour, openHours))
	return &out
}

// supplyFor finds what the supply has to be multiplied by for a result that
// rises with it to be as published.
func (l *lab) supplyFor(want float64, got func(k float64) float64) float64 {
	return bisect(0, 100, func(k float64) bool { return got(k) < want })
}

// bisect finds where below turns false between lo and hi.
func bisect(lo, hi float64, below func(float64) bool) float64 {
	for range 60 {
		if mid := (lo + hi) / 2; below(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// beeAir is an hour of air at 30 degrees of sun.
func beeAir(t, light, wind float64) *air.Hour {
	return beeAirAt(t, light, wind, 30)
}

func beeAirAt(t, light, wind, elevation float64) *air.Hour {
	return &air.Hour{T: t, RH: 60, Light: light, ClearLight: light, Wind2: wind, SinSun: math.Sin(elevation * math.Pi / 180)}
}

// findings are all rows held against the model.
func (l *lab) findings() (out []finding) {
	for _, rows := range [][]finding{l.visitFindings(), l.gourdFindings(), l.cucumberFindings(), l.squashFindings(),
		l.melonFindings(), l.watermelonFindings(), l.seedlessFindings(),
		l.cornFindings(), l.tomatoFindings(), l.pepperFindings(), l.beanFindings(), l.wetFindings(), l.beeFindings(), l.loadFindings(),
		l.furtherFindings()} {
		out = append(out, rows...)
	}
	return out
}
