package nws

import (
	"math"

	"dawnbrush/forecast"
)

// vane adds up winds of one hour as arrows: the mean wind blows from where their sum
// points. A calm has no direction, whatever a report says.
type vane struct{ north, east, run float64 }

func (v *vane) add(from, speed forecast.Value) {
	deg, ok1 := from.Get()
	u, ok2 := speed.Get()
	if !ok1 || !ok2 || u <= 0 {
		return
	}
	sin, cos := math.Sincos(deg * math.Pi / 180)
	v.north, v.east, v.run = v.north+u*cos, v.east+u*sin, v.run+u
}

// leastSteady is the part of the hour's wind that its arrows must leave together for the
// wind to count as from somewhere. [chosen, status chosen]
const leastSteady = 0.5

func (v *vane) value() forecast.Value {
	if v.run == 0 || math.Hypot(v.north, v.east) < leastSteady*v.run {
		return forecast.Value{}
	}
	return forecast.Known(math.Mod(math.Atan2(v.east, v.north)*180/math.Pi+360, 360))
}
