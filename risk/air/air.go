// Package air turns the hours of a series into what flowers and bees feel:
// dryness, wind near the ground, light, and the water film on a flower. Each
// quantity is worked out once per hour for the whole garden, so that the loops
// over plantings only read.
package air

import "math"

// SaturationPressure gives the saturation vapour pressure (kPa) at t degC.
func SaturationPressure(t float64) float64 {
	return 0.6108 * math.Exp(17.27*t/(t+237.3)) // [FAO56 eq 11]
}

// VPD gives the vapour pressure deficit (kPa) at t degC and rh %.
func VPD(t, rh float64) float64 {
	return SaturationPressure(t) * (1 - rh/100) // [FAO56 eq 11, eq 54]
}

// Heights at which wind is read, m.
const (
	FilmHeight  = 0.5 // flower height where the water film dries [chosen, status chosen]
	BeeHeight   = 2.0 // bees fly in above the crop; growers' wind rules speak of station wind [chosen, status chosen]
	sourceHeigh = 10.0
)

// WindProfile gives the ratio of wind at z metres to wind at 10 m over short
// grass; 0.748 at 2 m. Valid above 0.1 m.
func WindProfile(z float64) float64 {
	// eq. 47 down to 2 m, and its inverse down to z. [FAO56 eq 47]
	return math.Log(67.8*z-5.42) / math.Log(67.8*sourceHeigh-5.42)
}

// Film constants.
const (
	filmMax     = 0.2   // mm of water a leaf or flower holds [chosen, status chosen]
	dewFilm     = 0.1   // mm laid down by a night of dew [chosen, status chosen]
	dewRH       = 92.0  // % from which dew is taken to form [chosen, status chosen]
	dewLight    = 20.0  // W/m2 below which it is night enough for dew [chosen, status chosen]
	dewWind     = 1.5   // m/s at 0.5 m above which air is stirred too much for dew [chosen, status chosen]
	netShare    = 0.616 // net radiation as a share of global, for a film [chosen, status chosen]
	psychro     = 0.067 // kPa/degC, psychrometric constant near sea level [FAO56 eq 8]
	minFilmWind = 0.5   // m/s floor of the aerodynamic term [FAO56 p 63]
)

// FilmEvaporation gives how fast a water film dries, mm/h, at t degC, vpd kPa,
// radiation r W/m2 and wind u m/s at 0.5 m: the hourly reference form with net
// radiation taken as a fixed share of global.
func FilmEvaporation(t, vpd, r, u float64) float64 {
	return filmEvaporation(t, SaturationPressure(t), vpd, r, u)
}

func filmEvaporation(t, es, vpd, r, u float64) float64 {
	d := 4098 * es / ((t + 237.3) * (t + 237.3)) // [FAO56 eq 13]
	u = max(minFilmWind, u)
	return (0.408*d*netShare*r*0.0036 + psychro*37/(t+273)*u*vpd) / (d + psychro*(1+0.34*u)) // [FAO56 eq 53]
}

// Film is the water on a flower, mm. All holds rain and dew; Rain holds rain
// alone, for cucurbit flowers are shut when the dew falls.
type Film struct{ All, Rain float64 }

// Step adds an hour of rain (mm) and dew and lets the film dry.
func (f *Film) Step(h *Hour, rain float64) {
	if h.Dew {
		f.All = max(f.All, dewFilm)
	}
	f.All = max(0, min(filmMax, f.All+rain)-h.Evaporation)
	f.Rain = max(0, min(filmMax, f.Rain+rain)-h.Evaporation)
}
