package et0

import (
	"math"
	"sync"

	"dawnbrush/risk/air"
)

// Site holds what the hours of one place share. Make it with [NewSite].
type Site struct {
	Lat float64 // degrees, north positive

	sinLat, cosLat float64
	gamma          float64 // psychrometric constant, kPa/degC
	clear          float64 // share of extraterrestrial radiation under a clear sky
	shift          float64 // solar time less clock time without the equation of time, h
	zone           float64 // clock time less UTC, h
}

// NewSite takes a place in degrees (north and east positive), its elevation in m
// and the hours that its standard time is ahead of UTC.
func NewSite(lat, lon, elevation, zone float64) Site {
	sin, cos := math.Sincos(lat * rad) // [FAO56 eq 22]
	return Site{
		Lat: lat, sinLat: sin, cosLat: cos,
		gamma: air.Psychrometric(air.Pressure(elevation)), // [FAO56 eq 7, eq 8]
		clear: ClearShare(elevation),                      // [FAO56 eq 37]
		shift: (lon - 15*zone) / 15,                       // [FAO56 eq 31]
		zone:  zone,
	}
}

// Gamma gives the site's psychrometric constant, kPa/degC.
func (s *Site) Gamma() float64 { return s.gamma }

// Sky is the sun over the 24 hours of one day in standard time. Hour 0 is the
// one from midnight to one.
type Sky struct {
	Ra    [24]float64 // extraterrestrial radiation of the hour, MJ m-2
	Sine  [24]float64 // sine of the sun's elevation at mid-hour
	Share [24]float64 // share of net radiation that does not go into the soil
}

const (
	halfHour = math.Pi / 24
	sinHalf  = 0.13052619222005157 // of halfHour
	cosHalf  = 0.9914448613738104
	// The sun has to stand this high (sine of 0.3 rad) before an hour tells the
	// cloud of the day; below it the ratio of two small numbers tells nothing.
	// [ASCEET05 p 34, status memory]
	highSun = 0.29552020666133955
)

// HourAngle gives the sun's hour angle (rad within -pi to pi) at t hours of
// standard time on day j of the year.
func (s *Site) HourAngle(j int, t float64) float64 {
	return turn(math.Pi / 12 * (t + s.shift + dayOf(j).correction - 12)) // [FAO56 eq 31]
}

func turn(w float64) float64 {
	if w > math.Pi {
		return w - 2*math.Pi
	} else if w < -math.Pi {
		return w + 2*math.Pi
	}
	return w
}

// Sky works out day j of the year (1 to 366) into out.
func (s *Site) Sky(out *Sky, j int) {
	d := dayOf(j)
	ss, cc := s.sinLat*d.sin, s.cosLat*d.cos
	cosSet := max(-1, min(1, -ss/cc)) // [FAO56 eq 25], without the tangents that a pole would not bear
	set, sinSet := math.Acos(cosSet), math.Sqrt(1-cosSet*cosSet)
	k := 12 * 60 / math.Pi * solar * d.distance
	first := math.Pi / 12 * (0.5 + s.shift + d.correction - 12) // [FAO56 eq 31], of the hour 0
	sin0, cos0 := math.Sincos(first)
	full, chord := k*2*halfHour*ss, k*cc*2*sinHalf
	bright, dark := set-halfHour, set+halfHour
	if set >= math.Pi { // the sun does not set
		bright = math.Pi
	}
	for h := range 24 {
		w := turn(first + float64(h)*(math.Pi/12))
		cos := cos0*hourCos[h] - sin0*hourSin[h]
		ra := 0.0
		if off := math.Abs(w); off <= bright {
			ra = full + chord*cos // [FAO56 eq 28], sin w2 - sin w1 = 2 cos w sin(pi/24)
		} else if off < dark { // the hour of sunrise or sunset
			sin := sin0*hourCos[h] + cos0*hourSin[h]
			w1, sin1 := w-halfHour, sin*cosHalf-cos*sinHalf // [FAO56 eq 29]
			w2, sin2 := w+halfHour, sin*cosHalf+cos*sinHalf // [FAO56 eq 30]
			if w1 < -set {
				w1, sin1 = -set, -sinSet
			}
			if w2 > set {
				w2, sin2 = set, sinSet
			}
			ra = k * ((w2-w1)*ss + cc*(sin2-sin1)) // [FAO56 eq 28]
		}
		out.Ra[h], out.Sine[h], out.Share[h] = ra, ss+cc*cos, 1-SoilHeatHour(1, ra > 0)
	}
}

// hourCos and hourSin turn the hour angle of the hour 0 into that of the others.
var hourCos, hourSin = hourTurns()

func hourTurns() (cos, sin [24]float64) {
	for h := range 24 {
		sin[h], cos[h] = math.Sincos(float64(h) * math.Pi / 12)
	}
	return cos, sin
}

// dayTerms are what all places share on one day of the year.
type dayTerms struct {
	sin, cos   float64 // of the declination
	distance   float64 // inverse relative, from earth to sun
	correction float64 // of solar time, h
}

var yearTerms = sync.OnceValue(func() *[367]dayTerms {
	var all [367]dayTerms
	for j := range all {
		sin, cos := math.Sincos(Declination(j))
		all[j] = dayTerms{sin, cos, Distance(j), SeasonalCorrection(j)}
	}
	return &all
})

// dayOf wraps days beyond the year, so that a run may go past New Year.
func dayOf(j int) *dayTerms {
	if j < 0 || j > 366 {
		j = ((j-1)%365+365)%365 + 1
	}
	return &yearTerms()[j]
}

// SeasonalCorrection gives the correction of solar time (h) on day j of the year.
func SeasonalCorrection(j int) float64 {
	b := 2 * math.Pi * (float64(j) - 81) / 364 // [FAO56 eq 33]
	sin, cos := math.Sincos(b)
	return 0.1645*2*sin*cos - 0.1255*cos - 0.025*sin // [FAO56 eq 32], sin 2b = 2 sin b cos b
}

// Weather is hours of one site side by side, all of one length.
type Weather struct {
	Temp      []float64 // air temperature, degC
	RH        []float64 // relative humidity, %
	Wind2     []float64 // wind at 2 m, m/s
	Radiation []float64 // global radiation, mean W/m2
}

// FirstNight is the ratio of radiation to clear-sky radiation for the hours
// before the first high sun: between the 0.4 to 0.6 of humid and the 0.7 to 0.8
// of dry places. [FAO56 eq 39]
const FirstNight = 0.7

// Run writes the hourly reference (mm) of whole days, the first of them day j of
// the year, into out, and gives the ratio of radiation to clear-sky radiation to
// go on with; begin with [FirstNight]. Wind is taken as it is, without
// [LeastWind]. All slices hold 24 values for each day; hours below nought are
// dew. Nothing is allocated.
func (s *Site) Run(out []float64, w Weather, j int, clear float64) float64 {
	var sky Sky
	for from := 0; from+24 <= len(out); from += 24 {
		s.Sky(&sky, j+from/24)
		temp, rh := (*[24]float64)(w.Temp[from:]), (*[24]float64)(w.RH[from:])
		wind, light := (*[24]float64)(w.Wind2[from:]), (*[24]float64)(w.Radiation[from:])
		clear = s.day((*[24]float64)(out[from:]), temp, rh, wind, light, &sky, clear)
	}
	return clear
}

// day goes over its hours three times, each time with few values in hand: what
// the clouds leave, the saturation of the air, the balance. Bound checks, calls
// and divisions cost more here than arithmetic.
func (s *Site) day(out, temp, rh, wind, light *[24]float64, sky *Sky, clear float64) float64 {
	var clouds, es, q, c [24]float64
	for h := range 24 {
		if sky.Sine[h] > highSun {
			clear = ClearRatio(joules*light[h], s.clear*sky.Ra[h]) // [FAO56 eq 37]
		}
		clouds[h] = CloudTerm(clear)
	}
	for h, t := range temp {
		a, b := t+237.3, t+273
		both := 1 / (a * b) // two divisions made as one
		q[h], c[h] = b*both, 37*a*both
		es[h] = 0.6108 * exp(17.27*t*q[h]) // [FAO56 eq 11]
	}
	for h, t := range temp {
		ea := es[h] * rh[h] * 0.01 // [FAO56 eq 54]
		k2 := (t + kelvin) * (t + kelvin)
		rn := NetShort(joules*light[h]) - sigmaHour*k2*k2*HumidityTerm(ea)*clouds[h] // [FAO56 eq 38, eq 39, eq 40]
		slope := 4098 * es[h] * q[h] * q[h]                                          // [FAO56 eq 13]
		out[h] = penman(slope, s.gamma, c[h], wind[h], es[h]-ea, rn*sky.Share[h])    // [FAO56 eq 53]
	}
	return clear
}

const (
	joules    = 0.0036    // MJ m-2 in an hour of 1 W/m2
	sigmaHour = 2.043e-10 // Stefan-Boltzmann constant, MJ K-4 m-2 h-1 [FAO56 ex 19]
)
