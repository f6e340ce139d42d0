package et0

import (
	"math"

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
	Angle [24]float64 // hour angle at mid-hour, rad within -pi to pi
}

const (
	halfHour = math.Pi / 24
	// The sun has to stand this high (sine of 0.3 rad) before an hour tells the
	// cloud of the day; below it the ratio of two small numbers tells nothing.
	// [ASCEET05 p 34, status memory]
	highSun = 0.29552020666133955
)

// SeasonalCorrection gives the correction of solar time (h) on day j of the year.
func SeasonalCorrection(j int) float64 {
	b := 2 * math.Pi * (float64(j) - 81) / 364 // [FAO56 eq 33]
	sin, cos := math.Sincos(b)
	return 0.1645*2*sin*cos - 0.1255*cos - 0.025*sin // [FAO56 eq 32], sin 2b = 2 sin b cos b
}

// Sky works out day j of the year (1 to 366) into out.
func (s *Site) Sky(out *Sky, j int) {
	decl := Declination(j)
	sinDecl, cosDecl := math.Sincos(decl)
	ss, cc := s.sinLat*sinDecl, s.cosLat*cosDecl
	// The sunset angle, without the tangents that a pole would not bear.
	ws := math.Acos(max(-1, min(1, -ss/cc))) // [FAO56 eq 25]
	k := 12 * 60 / math.Pi * solar * Distance(j)
	first := math.Pi / 12 * (0.5 + s.shift + SeasonalCorrection(j) - 12) // [FAO56 eq 31], of the hour 0
	sin0, cos0 := math.Sincos(first)
	full, chord := k*2*halfHour*ss, k*cc*2*math.Sin(halfHour)
	for h := range 24 {
		w := first + float64(h)*(math.Pi/12)
		if w > math.Pi {
			w -= 2 * math.Pi
		} else if w < -math.Pi {
			w += 2 * math.Pi
		}
		cos := cos0*hourCos[h] - sin0*hourSin[h]
		out.Angle[h], out.Sine[h] = w, ss+cc*cos
		w1, w2 := w-halfHour, w+halfHour // [FAO56 eq 29, eq 30]
		switch {
		case ws >= math.Pi || w1 >= -ws && w2 <= ws:
			// sin w2 - sin w1 = 2 cos w sin(pi/24)
			out.Ra[h] = full + chord*cos // [FAO56 eq 28]
		case w2 <= -ws || w1 >= ws:
			out.Ra[h] = 0
		default: // the hour of sunrise or sunset
			w1, w2 = max(w1, -ws), min(w2, ws)
			out.Ra[h] = k * ((w2-w1)*ss + cc*(math.Sin(w2)-math.Sin(w1))) // [FAO56 eq 28]
		}
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

// Weather is hours of one site side by side, all of one length.
type Weather struct {
	Temp      []float64 // air temperature, degC
	RH        []float64 // relative humidity, %
	Wind2     []float64 // wind at 2 m, m/s
	Radiation []float64 // global radiation, mean W/m2
}

// FirstNight is the ratio of radiation to clear-sky radiation for the hours
// before the first high sun: between the 0.4 to 0.6 of humid and the 0.7 to 0.8
// of dry places. [FAO56 p 75]
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

func (s *Site) day(out, temp, rh, wind, light *[24]float64, sky *Sky, clear float64) float64 {
	var clouds [24]float64
	for h := range 24 {
		if sky.Sine[h] > highSun {
			clear = ClearRatio(joules*light[h], s.clear*sky.Ra[h]) // [FAO56 eq 37]
		}
		clouds[h] = CloudTerm(clear)
	}
	for h := range 24 {
		out[h] = s.hour(temp[h], rh[h], wind[h], light[h], clouds[h], sky.Ra[h] > 0)
	}
	return clear
}

const (
	joules    = 0.0036    // MJ m-2 in an hour of 1 W/m2
	sigmaHour = 2.043e-10 // Stefan-Boltzmann constant, MJ K-4 m-2 h-1 [FAO56 p 74]
)

// hour gives the reference of one hour: degC, %, m/s, W/m2.
func (s *Site) hour(t, rh, u2, light, cloud float64, daylight bool) float64 {
	q := 1 / (t + 237.3)
	es := 0.6108 * math.Exp(17.27*t*q) // [FAO56 eq 11]
	ea := es * rh * 0.01               // [FAO56 eq 54]
	k2 := (t + kelvin) * (t + kelvin)
	rn := NetShort(joules*light) - sigmaHour*k2*k2*HumidityTerm(ea)*cloud // [FAO56 eq 38, eq 39, eq 40]
	return Hourly(Terms{Slope: 4098 * es * q * q, Gamma: s.gamma, T: t, Wind2: u2, VPD: es - ea,
		Net: rn - SoilHeatHour(rn, daylight)}) // [FAO56 eq 13, eq 45, eq 46, eq 53]
}
