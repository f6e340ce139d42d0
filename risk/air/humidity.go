package air

import "math"

// Pressure gives the mean air pressure (kPa) at an elevation of z m.
func Pressure(z float64) float64 {
	return 101.3 * math.Pow((293-0.0065*z)/293, 5.26) // [FAO56 eq 7]
}

// Psychrometric gives the psychrometric constant (kPa/degC) at an air pressure
// of p kPa.
func Psychrometric(p float64) float64 {
	return 0.665e-3 * p // [FAO56 eq 8]
}

// Slope gives the slope of the saturation vapour pressure curve (kPa/degC) at
// t degC.
func Slope(t float64) float64 {
	return 4098 * SaturationPressure(t) / ((t + 237.3) * (t + 237.3)) // [FAO56 eq 13]
}

// The coefficients of a psychrometer, 1/degC, by how its wet bulb is aired.
// [FAO56 eq 16]
const (
	Ventilated   = 0.000662 // about 5 m/s
	NaturalDraft = 0.0008   // about 1 m/s
	StillAir     = 0.0012   // indoors
)

// Psychrometer gives the vapour pressure (kPa) from a dry and a wet bulb (degC)
// at an air pressure of p kPa; a is the coefficient of the instrument.
func Psychrometer(dry, wet, p, a float64) float64 {
	return SaturationPressure(wet) - a*p*(dry-wet) // [FAO56 eq 15, eq 16]
}

// DewPoint gives the temperature (degC) at which a vapour pressure of ea kPa
// saturates, the inverse of [SaturationPressure]; ea has to be above 0.
func DewPoint(ea float64) float64 {
	l := math.Log(ea)
	return (116.91 + 237.3*l) / (16.78 - l) // [FAO56 annex 3]
}

// RelativeHumidity gives the relative humidity (%) of air of t degC whose dew point is
// dew degC.
func RelativeHumidity(t, dew float64) float64 {
	return 100 * SaturationPressure(dew) / SaturationPressure(t) // [FAO56 eq 10, eq 14]
}

// WindAt2 gives the factor that turns wind read at z metres over short grass
// into wind at 2 m; 0.748 from 10 m. Valid above 0.1 m.
func WindAt2(z float64) float64 {
	return 4.87 / math.Log(67.8*z-5.42) // [FAO56 eq 47]
}
