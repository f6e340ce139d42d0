package assemble

import (
	"math"

	"dawnbrush/forecast"
)

const (
	fullCircle = 360 // degrees

	// mostTurn is the widest turn of the wind between two readings through which its
	// direction is worked out; past it either way round may be the true one.
	// [chosen, status chosen]
	mostTurn = 135 // degrees
)

// Between gives what a field is at a share of the way from reading a to reading b, both
// in one unit: on a straight line; a direction on the shorter way round, unknown
// where that is hardly the shorter.
func (f Field) Between(a, b, share float64) forecast.Value {
	if f != WindFrom {
		return forecast.Known(a + (b-a)*share)
	}
	turn := math.Remainder(b-a, fullCircle)
	if math.Abs(turn) > mostTurn {
		return forecast.Value{}
	}
	return forecast.Known(math.Mod(a+turn*share+fullCircle, fullCircle))
}
