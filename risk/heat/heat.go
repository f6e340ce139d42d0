// Package heat tells how hot the air feels to a person who works in it, by the
// heat index of the US National Weather Service, and which caution that asks for.
//
// The index is for shade and a light wind; full sun adds up to 15 degF
// [OSHAheat, status quoted]. It knows neither hard work nor acclimatisation: the
// limits of occupational medicine are in wet-bulb globe temperature, which no
// forecast feed carries. What it gives is a caution, never leave to work.
//
// The published chart is the bare regression, rounded; the procedure that the
// service's web page gives adds two adjustments. [Index] is the full procedure.
package heat

import (
	"math"

	"dawnbrush/forecast/unit"
)

// Index gives the heat index (degC) of air of t degC and rh % humidity, the full
// procedure of the National Weather Service.
func Index(t, rh float64) float64 {
	return unit.FtoC(fahrenheit(unit.CtoF(t), rh))
}

// fahrenheit is Index in the unit of the procedure.
func fahrenheit(t, rh float64) float64 {
	simple := 0.5 * (t + 61 + (t-68)*1.2 + rh*0.094) // [NWSheatindex, status read], already the mean with the temperature
	if simple < 80 {
		return simple
	}
	hi := regression(t, rh)
	switch {
	case rh < 13 && t >= 80 && t <= 112:
		hi -= (13 - rh) / 4 * math.Sqrt((17-math.Abs(t-95))/17) // [NWSheatindex, status read]
	case rh > 85 && t >= 80 && t <= 87:
		hi += (rh - 85) / 10 * (87 - t) / 5 // [NWSheatindex, status read]
	}
	return hi
}

// regression is the equation of Rothfusz, degF and %. [NWSheatindex, status read]
func regression(t, r float64) float64 {
	return -42.379 + 2.04901523*t + 10.14333127*r - 0.22475541*t*r - 0.00683783*t*t - 0.05481717*r*r +
		0.00122874*t*t*r + 0.00085282*t*r*r - 0.00000199*t*t*r*r
}

// Band is the caution that a heat index asks for.
type Band uint8

// The bands of the National Weather Service, from 80, 90, 103 and 125 degF.
// Older charts of the service part them at 80, 90, 105 and 130; the later and lower
// edges are taken. [NWSheatindex, status quoted]
const (
	None Band = iota
	Caution
	ExtremeCaution
	Danger
	ExtremeDanger
)

// edges are the lower ends of the bands, degF. [NWSheatindex, status quoted]
var edges = [...]float64{Caution: 80, ExtremeCaution: 90, Danger: 103, ExtremeDanger: 125}

// BandOf gives the band of a heat index in degC.
func BandOf(index float64) Band {
	f := unit.CtoF(index) + 1e-9 // 80 degF is no whole number of degC
	for b := ExtremeDanger; b > None; b-- {
		if f >= edges[b] {
			return b
		}
	}
	return None
}

var words = [...]string{"none", "caution", "extreme caution", "danger", "extreme danger"}

// String gives the service's own word.
func (b Band) String() string { return words[b] }
