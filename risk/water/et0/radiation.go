package et0

import "math"

const rad = math.Pi / 180

const (
	solar  = 0.0820   // solar constant, MJ m-2 min-1 [FAO56 eq 21]
	sigma  = 4.903e-9 // Stefan-Boltzmann constant, MJ K-4 m-2 day-1 [FAO56 eq 39]
	kelvin = 273.16   // what eq. 39 adds to degC [FAO56 eq 39]
	lawn   = 0.77     // 1 less the albedo 0.23 of the reference [FAO56 eq 38]

	// MMPerMJ is the depth of water (mm) that one MJ m-2 evaporates. [FAO56 eq 20]
	MMPerMJ = 0.408
)

// The coefficient of temperature range, degC^-0.5. [FAO56 eq 50]
const (
	Inland  = 0.16
	Coastal = 0.19
)

// The least share of clear-sky radiation in eq. 39; the paper has no floor. The
// ASCE-EWRI standard of 2005 sets it at 0.3. [ASCEET05 eq 18, status memory]
const leastClear = 0.3

// Distance gives the inverse relative distance from earth to sun on day j of
// the year (1 to 366).
func Distance(j int) float64 {
	return 1 + 0.033*math.Cos(2*math.Pi*float64(j)/365) // [FAO56 eq 23]
}

// Declination gives the sun's declination (rad) on day j of the year.
func Declination(j int) float64 {
	return 0.409 * math.Sin(2*math.Pi*float64(j)/365-1.39) // [FAO56 eq 24]
}

// SunsetAngle gives the hour angle of sunset (rad) for a latitude and a
// declination (rad): 0 in the polar night, pi in the polar day.
func SunsetAngle(lat, decl float64) float64 {
	return math.Acos(max(-1, min(1, -math.Tan(lat)*math.Tan(decl)))) // [FAO56 eq 25]
}

// Ra gives the extraterrestrial radiation (MJ m-2 day-1) at a latitude (degrees,
// north positive) on day j of the year. Against an ephemeris it is good to 0.7 MJ
// up to 55 degrees and 1 MJ beyond.
func Ra(lat float64, j int) float64 {
	phi := lat * rad // [FAO56 eq 22]
	d := Declination(j)
	ws := SunsetAngle(phi, d)
	return 24 * 60 / math.Pi * solar * Distance(j) *
		(ws*math.Sin(phi)*math.Sin(d) + math.Cos(phi)*math.Cos(d)*math.Sin(ws)) // [FAO56 eq 21]
}

// Daylight gives the greatest possible hours of sun at a latitude (degrees) on
// day j of the year.
func Daylight(lat float64, j int) float64 {
	return 24 / math.Pi * SunsetAngle(lat*rad, Declination(j)) // [FAO56 eq 34]
}

// FromSunshine gives the solar radiation (MJ m-2 day-1) from the share of the
// possible hours in which the sun shone, with the paper's own coefficients.
func FromSunshine(share, ra float64) float64 {
	return (0.25 + 0.50*share) * ra // [FAO56 eq 35]
}

// FromRange gives the solar radiation (MJ m-2 day-1) from the day's highest and
// lowest temperature; k is Inland or Coastal.
func FromRange(k, tmax, tmin, ra float64) float64 {
	return k * math.Sqrt(max(0, tmax-tmin)) * ra // [FAO56 eq 50]
}

// ClearShare gives the share of extraterrestrial radiation that reaches the
// ground under a clear sky at z metres.
func ClearShare(z float64) float64 {
	return 0.75 + 2e-5*z // [FAO56 eq 37]
}

// NetShort gives the net solar radiation of the reference from rs, same unit.
func NetShort(rs float64) float64 {
	return lawn * rs // [FAO56 eq 38]
}

// Emission gives what a black body of t degC sends out, MJ m-2 day-1.
func Emission(t float64) float64 {
	k := t + kelvin
	return sigma * k * k * k * k // [FAO56 eq 39]
}

// EmissionHour gives what a black body of t degC sends out, MJ m-2 h-1.
func EmissionHour(t float64) float64 {
	k := t + kelvin
	return sigmaHour * k * k * k * k // [FAO56 eq 39]
}

// HumidityTerm is the factor of the air's vapour (ea, kPa) in the net longwave
// radiation.
func HumidityTerm(ea float64) float64 {
	return 0.34 - 0.14*math.Sqrt(ea) // [FAO56 eq 39]
}

// CloudTerm is the factor of cloud in the net longwave radiation; clear is the
// ratio of radiation to clear-sky radiation, see [ClearRatio].
func CloudTerm(clear float64) float64 {
	return 1.35*clear - 0.35 // [FAO56 eq 39]
}

// ClearRatio gives the ratio of radiation to clear-sky radiation within the
// bounds that eq. 39 may use, 0.3 to 1.
func ClearRatio(rs, rso float64) float64 {
	return max(leastClear, min(1, rs/rso)) // [FAO56 eq 39]
}

// NetLong gives the net longwave radiation (MJ m-2 day-1) that leaves the
// reference on a day.
func NetLong(tmax, tmin, ea, clear float64) float64 {
	return (Emission(tmax) + Emission(tmin)) / 2 * HumidityTerm(ea) * CloudTerm(clear) // [FAO56 eq 39]
}

// SoilHeatMonth gives the soil heat flux (MJ m-2 day-1) of a month between two
// others from the mean temperatures (degC) of those.
func SoilHeatMonth(before, after float64) float64 {
	return 0.07 * (after - before) // [FAO56 eq 43]
}

// SoilHeatMonthSoFar is SoilHeatMonth where the next month is not known yet.
func SoilHeatMonthSoFar(before, this float64) float64 {
	return 0.14 * (this - before) // [FAO56 eq 44]
}

// SoilHeatHour gives the soil heat flux of an hour from its net radiation, same
// unit.
func SoilHeatHour(rn float64, daylight bool) float64 {
	if daylight {
		return 0.1 * rn // [FAO56 eq 45]
	}
	return 0.5 * rn // [FAO56 eq 46]
}
