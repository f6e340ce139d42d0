package et0

import "math"

// LeastWind is the least wind at 2 m (m/s) that the reference reckons with: warm
// air stirs itself. [FAO56 p 63]
const LeastWind = 0.5

// Terms are the parts of Penman-Monteith that a step of any length shares.
type Terms struct {
	Slope float64 // of the saturation vapour pressure curve, kPa/degC
	Gamma float64 // psychrometric constant, kPa/degC
	T     float64 // mean air temperature, degC
	Wind2 float64 // wind at 2 m, m/s
	VPD   float64 // saturation deficit, kPa
	Net   float64 // net radiation less soil heat flux, MJ m-2 per step
}

// Daily gives the reference of a day (mm) from its means.
func Daily(w Terms) float64 {
	return penman(w.Slope, w.Gamma, 900/(w.T+273), w.Wind2, w.VPD, w.Net) // [FAO56 eq 6]
}

// Hourly gives the reference of an hour (mm) from its means; below nought it is
// dew.
func Hourly(w Terms) float64 {
	return penman(w.Slope, w.Gamma, 37/(w.T+273), w.Wind2, w.VPD, w.Net) // [FAO56 eq 53]
}

// Radiation gives the part of the reference (mm) that radiation drives.
func Radiation(w Terms) float64 {
	return penman(w.Slope, w.Gamma, 0, w.Wind2, w.VPD, w.Net)
}

// penman takes its terms one by one: the hour loop is a third faster so. The
// third is the coefficient of the step over the temperature in kelvin.
func penman(slope, gamma, c, wind2, vpd, net float64) float64 {
	return (MMPerMJ*slope*net + gamma*c*wind2*vpd) / (slope + gamma*(1+0.34*wind2)) // [FAO56 eq 6, eq 53]
}

// Hargreaves gives the reference of a day (mm) from its highest and lowest
// temperature (degC) and the extraterrestrial radiation (MJ m-2 day-1). It reads
// high in humid air and low in wind.
func Hargreaves(tmax, tmin, ra float64) float64 {
	return 0.0023 * ((tmax+tmin)/2 + 17.8) * math.Sqrt(max(0, tmax-tmin)) * MMPerMJ * ra // [FAO56 eq 52]
}
