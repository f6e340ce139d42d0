// Package unit converts the quantities that feeds send and growers read.
// Inside the program temperatures are degC, wind m/s, rain mm, lengths m,
// radiation W/m2, shares 0..1.
package unit

import (
	"fmt"
	"strings"
)

// Exact by definition: the inch (25.4 mm), the foot, the mile, the nautical mile.
// [ISO 80000-3:2019, status memory]
const (
	mmPerInch = 25.4
	mPerFoot  = 0.3048
	msPerMph  = 1609.344 / 3600
	msPerKmh  = 1.0 / 3.6
	msPerKnot = 1852.0 / 3600
	zeroC     = 273.15
)

// FtoC converts degrees Fahrenheit to Celsius.
func FtoC(f float64) float64 { return (f - 32) / 1.8 }

// CtoF converts degrees Celsius to Fahrenheit.
func CtoF(c float64) float64 { return c*1.8 + 32 }

// MphToMs converts miles per hour to m/s.
func MphToMs(v float64) float64 { return v * msPerMph }

// MsToMph converts m/s to miles per hour.
func MsToMph(v float64) float64 { return v / msPerMph }

// KmhToMs converts km/h to m/s.
func KmhToMs(v float64) float64 { return v * msPerKmh }

// MsToKmh converts m/s to km/h.
func MsToKmh(v float64) float64 { return v / msPerKmh }

// InToMm converts inches to mm.
func InToMm(v float64) float64 { return v * mmPerInch }

// MmToIn converts mm to inches.
func MmToIn(v float64) float64 { return v / mmPerInch }

// MToFt converts metres to feet.
func MToFt(v float64) float64 { return v / mPerFoot }

// FtToM converts feet to metres.
func FtToM(v float64) float64 { return v * mPerFoot }

// Quantity is what a feed's unit code measures.
type Quantity uint8

// The quantities that feeds send.
const (
	Temperature Quantity = iota // to degC
	Speed                       // to m/s
	Depth                       // to mm
	Length                      // to m
	Share                       // to 0..1
	Irradiance                  // to W/m2
	Bearing                     // to degrees
)

// factor and offset turn a value into the program's unit: v*factor + offset.
type conversion struct{ factor, offset float64 }

// codes are those of the WMO unit register; those in the second line of a quantity
// are the spellings of services outside it.
var codes = map[Quantity]map[string]conversion{
	Temperature: {"degC": {1, 0}, "degF": {1 / 1.8, -32 / 1.8}, "K": {1, -zeroC},
		"celsius": {1, 0}, "°C": {1, 0}, "°F": {1 / 1.8, -32 / 1.8}},
	Speed: {"km_h-1": {msPerKmh, 0}, "m_s-1": {1, 0}, "kt": {msPerKnot, 0}, "kn": {msPerKnot, 0}, "mi_h-1": {msPerMph, 0},
		"km/h": {msPerKmh, 0}, "m/s": {1, 0}, "mph": {msPerMph, 0}, "mp/h": {msPerMph, 0}},
	Depth: {"mm": {1, 0}, "cm": {10, 0}, "m": {1000, 0}, "in": {mmPerInch, 0}, "kg_m-2": {1, 0},
		"inch": {mmPerInch, 0}},
	Length:     {"m": {1, 0}, "ft": {mPerFoot, 0}, "km": {1000, 0}},
	Share:      {"percent": {0.01, 0}, "1": {1, 0}, "%": {0.01, 0}},
	Irradiance: {"W_m-2": {1, 0}, "W/m²": {1, 0}},
	Bearing: {"degree_(angle)": {1, 0},
		"degrees": {1, 0}, "°": {1, 0}},
}

// Converter gives the function that turns a feed's value into the program's
// unit. A prefix of the code up to the colon ("wmoUnit:", "unit:", "wmo:") is
// ignored. An unknown code is an error: a wind
// of 10 m/s must never pass for 10 km/h.
func Converter(q Quantity, code string) (func(float64) float64, error) {
	short := code
	if i := strings.LastIndexByte(short, ':'); i >= 0 {
		short = short[i+1:]
	}
	c, ok := codes[q][short]
	if !ok {
		return nil, fmt.Errorf("unit %q is not known here", code)
	}
	return func(v float64) float64 { return v*c.factor + c.offset }, nil
}

// CdToFd turns degree days on the Celsius scale into those on the Fahrenheit
// scale: differences of temperature, so the scales' zeros do not matter.
func CdToFd(c float64) float64 { return c * 1.8 }
