package et0

import (
	"dawnbrush/forecast"
	"dawnbrush/risk/air"
)

// Way says how the reference of a day was reached.
type Way uint8

// The ways, worst first.
const (
	NoWay          Way = iota // unknown: not even the temperatures are there
	ByTemperature             // Hargreaves, from the highest and lowest temperature [FAO56 eq 52]
	ByMeans                   // Penman-Monteith on the day's means; some hours lack a layer [FAO56 eq 6]
	ByHours                   // the sum of the hours, radiation as sent [FAO56 eq 53]
	ByHoursOfCloud            // the same, but some radiation was worked out from cloud cover
)

var wayWords = [...]string{"unknown", "temperature", "means", "hours", "hours-cloud"}

// String gives a word for files.
func (w Way) String() string { return wayWords[w] }

// Day is the reference of a day.
type Day struct {
	MM  forecast.Value // mm; unknown with NoWay
	Way Way
	// The means that a bed needs besides; unknown where the hours do not tell.
	Wind2 forecast.Value // mean wind at 2 m, m/s
	RHMin forecast.Value // lowest humidity, %
}

// leastKnown is the share of a day's hours that must be known before their mean
// stands for the day. [chosen: with a quarter missing the mean temperature of a clear day strays by a degree or two]
const leastKnown = 0.75

// tally gathers a day of hours.
type tally struct {
	n, known               int
	temp, rh, wind         mean
	tmax, tmin, rhmin      float64
	sum, light, ra, raSeen float64
	cloud                  bool
}

type mean struct {
	sum float64
	n   int
}

func (m *mean) add(v forecast.Value) {
	if x, ok := v.Get(); ok {
		m.sum, m.n = m.sum+x, m.n+1
	}
}

func (m *mean) of(n int) (float64, bool) {
	return m.sum / max(1, float64(m.n)), n > 0 && float64(m.n) >= leastKnown*float64(n)
}

// DayOf gives the reference of a day, of 23 to 25 hours in order, by the best way
// that its layers allow. The clock has to come from the hours before. With every
// hour known the hours are added up; with three quarters known their means stand
// for the day; with no more than the temperatures the way is Hargreaves.
func (c *Clock) DayOf(hours []forecast.Hour) Day {
	var t tally
	for i := range hours {
		t.add(&hours[i], c.Next(&hours[i]), c.shelter)
	}
	var out Day
	if w, ok := t.wind.of(t.n); ok {
		out.Wind2 = forecast.Known(w)
	}
	if _, ok := t.rh.of(t.n); ok {
		out.RHMin = forecast.Known(t.rhmin)
	}
	out.MM, out.Way = t.reference(&c.site)
	return out
}

func (t *tally) add(f *forecast.Hour, h Hour, shelter float64) {
	temp, ok := f.Temp.Get()
	if ok {
		if t.temp.n == 0 {
			t.tmax, t.tmin = temp, temp
		}
		t.tmax, t.tmin = max(t.tmax, temp), min(t.tmin, temp)
	}
	t.temp.add(f.Temp)
	if rh, wet := humidity(f, temp); wet && (ok || f.RH.IsKnown()) {
		if t.rh.n == 0 || rh < t.rhmin {
			t.rhmin = rh
		}
		t.rh.add(forecast.Known(rh))
	}
	if u, blown := f.Wind.Get(); blown {
		t.wind.add(forecast.Known(u * shelter * air.WindAt2(10))) // [FAO56 eq 47]
	}
	if w, lit := h.Light.Get(); lit {
		t.light, t.raSeen = t.light+joules*w, t.raSeen+h.Ra
	}
	if mm, all := h.MM.Get(); all {
		t.sum, t.known = t.sum+mm, t.known+1
	}
	t.n, t.ra, t.cloud = t.n+1, t.ra+h.Ra, t.cloud || h.FromCloud
}

func (t *tally) reference(s *Site) (forecast.Value, Way) {
	if t.n > 0 && t.known == t.n {
		if t.cloud {
			return forecast.Known(t.sum), ByHoursOfCloud
		}
		return forecast.Known(t.sum), ByHours
	}
	if _, ok := t.temp.of(t.n); !ok {
		return forecast.Value{}, NoWay
	}
	rh, wet := t.rh.of(t.n)
	wind, blown := t.wind.of(t.n)
	if wet && blown && t.ra > 0 && t.raSeen >= leastKnown*t.ra {
		ea := VapourFromMean(t.tmax, t.tmin, rh)
		return forecast.Known(s.FromMeans(t.tmax, t.tmin, ea, wind, t.light/t.raSeen*t.ra, t.ra)), ByMeans
	}
	return forecast.Known(max(0, Hargreaves(t.tmax, t.tmin, t.ra))), ByTemperature
}

// FromMeans gives the reference of a day (mm) from its highest and lowest
// temperature (degC), vapour pressure (kPa), wind at 2 m (m/s), solar and
// extraterrestrial radiation (MJ m-2).
func (s *Site) FromMeans(tmax, tmin, ea, wind2, rs, ra float64) float64 {
	t := (tmax + tmin) / 2
	clear := ClearRatio(rs, s.clear*ra)                 // [FAO56 eq 37]
	rn := NetShort(rs) - NetLong(tmax, tmin, ea, clear) // [FAO56 eq 40]
	return Daily(Terms{Slope: air.Slope(t), Gamma: s.gamma, T: t, Wind2: max(LeastWind, wind2),
		VPD: MeanSaturation(tmax, tmin) - ea, Net: rn}) // [FAO56 eq 6], soil heat nil by day [FAO56 eq 42]
}
