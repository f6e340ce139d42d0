package assemble

import (
	"math"

	"dawnbrush/forecast"
)

// Magnus form of the saturation pressure over water with the constants of
// Alduchov and Eskridge, for dew point and relative humidity where a document
// has only one of the two. Their stated accuracy of the dew point is 0.35 degC
// from -40 to 60 degC. [AldEsk96 p 601, status quoted]
const (
	magnusA = 17.625 // [AldEsk96, status quoted]
	magnusB = 243.04 // degC [AldEsk96, status quoted]
)

func magnus(t float64) float64 { return magnusA * t / (magnusB + t) }

// humidityFrom gives the relative humidity in %, at most 100, from air
// temperature and dew point in degC.
func humidityFrom(temp, dew float64) float64 {
	return math.Min(100, 100*math.Exp(magnus(dew)-magnus(temp))) // [AldEsk96, status quoted]
}

// dewPointFrom gives the dew point in degC from air temperature in degC and
// relative humidity in %, 0 exclusive to 100.
func dewPointFrom(temp, rh float64) float64 {
	g := math.Log(rh/100) + magnus(temp) // [AldEsk96, status quoted]
	return magnusB * g / (magnusA - g)
}

// FillHumidity works out whichever of dew point and humidity an hour lacks and
// tells whether it did.
func FillHumidity(h *forecast.Hour) (rh, dew bool) {
	t, ok := h.Temp.Get()
	if !ok {
		return false, false
	}
	d, hasDew := h.DewPoint.Get()
	r, hasRH := h.RH.Get()
	switch {
	case hasDew && !hasRH:
		h.RH = forecast.Within(humidityFrom(t, d), minRH, maxRH)
		return h.RH.IsKnown(), false
	case hasRH && !hasDew && r > 0:
		h.DewPoint = forecast.Within(dewPointFrom(t, r), minTemp, maxTemp)
		return false, h.DewPoint.IsKnown()
	}
	return false, false
}
