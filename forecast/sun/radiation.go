package sun

import "math"

// ClearSky gives the global radiation (W/m2) under a clear sky for the sine of
// the sun's elevation; 0 below the horizon. Haurwitz 1945 with 0.057 in the
// exponent; a widely used library codes 0.059, which is 0.2 % less at noon and
// 1.2 % at 10 degrees. [Haurwitz45, status quoted]
func ClearSky(sinElevation float64) float64 {
	if sinElevation <= 0 {
		return 0
	}
	return 1098 * sinElevation * math.Exp(-0.057/sinElevation) // [Haurwitz45]
}

// CloudTransmission gives the share of clear-sky radiation that a total cloud
// cover (0..1) lets through: 1 - 0.75 n^3.4. Hamburg data; a single hour can be
// 25 % off. [KasCze80, status quoted]
func CloudTransmission(cover float64) float64 {
	if cover <= 0 {
		return 1
	}
	return 1 - 0.75*math.Exp(3.4*math.Log(min(cover, 1))) // [KasCze80]; Exp of Log is four times faster than Pow
}
