// Package dose turns a depth of water into what a grower measures out: litres,
// gallons, watering cans, minutes of a drip line.
package dose

import (
	"fmt"
	"math"
	"time"
)

const (
	// LitresPerGallon is exact: 231 cubic inches. [ISO 80000-3:2019, status memory]
	LitresPerGallon = 3.785411784
	// CanLitres is the size of a common watering can. [common-practice]
	CanLitres = 10
)

// Litres gives the volume of a depth of mm over m2 of bed: 1 mm on 1 m2 is 1 l.
func Litres(mm, m2 float64) float64 { return mm * m2 }

// Gallons converts litres to US gallons.
func Gallons(litres float64) float64 { return litres / LitresPerGallon }

// Cans gives how many cans of a size hold a volume, both litres.
func Cans(litres, size float64) float64 { return litres / size }

// Efficiency is the share of the water that reaches the roots, by the way it is
// given. Tables agree to about 0.05. [memory]
type Efficiency float64

// The usual efficiencies.
const (
	Drip      Efficiency = 0.90 // [FAOTM4 annex I, status quoted]
	Hand      Efficiency = 0.80 // at the foot of the plant [memory]
	Sprinkler Efficiency = 0.70 // [memory]
)

// Gross gives the litres to let out so that net litres reach the roots. Error: an
// efficiency outside 0 to 1.
func Gross(net float64, e Efficiency) (float64, error) {
	if !(e > 0 && e <= 1) {
		return 0, fmt.Errorf("efficiency %g is not between 0 and 1", float64(e))
	}
	return net / float64(e), nil
}

// Drips is a set of equal outlets.
type Drips struct {
	Count int
	Flow  float64 // of each, l/h
}

// Run gives how long outlets have to run for a volume of litres. Error: nothing
// flows.
func (d Drips) Run(litres float64) (time.Duration, error) {
	if !(d.Count > 0 && d.Flow > 0) {
		return 0, fmt.Errorf("%d outlets of %g l/h give no water", d.Count, d.Flow)
	}
	return time.Duration(math.Round(litres / (float64(d.Count) * d.Flow) * float64(time.Hour))), nil
}

// Rate gives the depth (mm/h) that outlets of a flow (l/h) lay down when they stand
// spacing m apart on lines row m apart.
func Rate(flow, spacing, row float64) float64 { return flow / (spacing * row) }
