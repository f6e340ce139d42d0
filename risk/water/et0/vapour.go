package et0

import "dawnbrush/risk/air"

// MeanSaturation gives the mean saturation vapour pressure (kPa) of a day from
// its highest and lowest temperature (degC). The saturation at the mean
// temperature would be too low.
func MeanSaturation(tmax, tmin float64) float64 {
	return (air.SaturationPressure(tmax) + air.SaturationPressure(tmin)) / 2 // [FAO56 eq 12]
}

// VapourFromRange gives the mean vapour pressure (kPa) of a day from its highest
// and lowest temperature (degC) and humidity (%).
func VapourFromRange(tmax, tmin, rhmax, rhmin float64) float64 {
	return (air.SaturationPressure(tmin)*rhmax + air.SaturationPressure(tmax)*rhmin) / 200 // [FAO56 eq 17]
}

// VapourFromHighest is VapourFromRange where the lowest humidity is not to be
// trusted.
func VapourFromHighest(tmin, rhmax float64) float64 {
	return air.SaturationPressure(tmin) * rhmax / 100 // [FAO56 eq 18]
}

// VapourFromMean gives the vapour pressure (kPa) of a day from its mean humidity
// (%), the least good of the ways.
func VapourFromMean(tmax, tmin, rh float64) float64 {
	return MeanSaturation(tmax, tmin) * rh / 100 // [FAO56 eq 19]
}

// VapourFromLowest gives the vapour pressure (kPa) of a day without any humidity:
// the air is taken to saturate at the lowest temperature (degC). In dry climates
// two degrees less are better.
func VapourFromLowest(tmin float64) float64 {
	return air.SaturationPressure(tmin) // [FAO56 eq 48]
}

// AfternoonHumidity gives the lowest humidity (%) of a day from its highest
// temperature and its dew point, or lowest temperature in its place (degC).
func AfternoonHumidity(tmax, dew float64) float64 {
	return air.RelativeHumidity(tmax, dew) // [FAO56 eq 63, eq 64]
}
