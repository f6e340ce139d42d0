package kc

import "math"

// Climate is the weather that moves a coefficient away from the table: means over
// a stage of growth, or of a day where no more is known.
type Climate struct {
	Wind2 float64 // wind at 2 m, m/s; used within 1 to 6
	RHMin float64 // lowest humidity of the day, %; used within 20 to 80
}

// Standard is the climate for which the tables are made. [FAO56 eq 62]
func Standard() Climate { return Climate{Wind2: 2, RHMin: 45} }

// shift is what dry air and wind add to a coefficient of plants of h metres.
func (c Climate) shift(h float64) float64 {
	u, rh := max(1, min(6, c.Wind2)), max(20, min(80, c.RHMin)) // [FAO56 eq 62]
	h = max(0.1, min(10, h))
	return (0.04*(u-2) - 0.004*(rh-45)) * math.Pow(h/3, 0.3) // [FAO56 eq 62, eq 65, eq 70, eq 72]
}

// leastMoved is the end value below which the climate moves nothing: the plants
// are drying. [FAO56 eq 65, eq 70]
const leastMoved = 0.45

// Adjust moves the values for mid and end of season to a climate, for plants of h
// metres. The first value is not touched, and the last only from 0.45 up.
func (c Climate) Adjust(t Triple, h float64) Triple {
	t.Mid += c.shift(h) // [FAO56 eq 62, eq 70]
	if t.End >= leastMoved {
		t.End += c.shift(h) // [FAO56 eq 65, eq 70]
	}
	return t
}

// Tall gives the ratio of a full tall cover (alfalfa) of h metres to the grass
// reference; it bounds what any wet surface can give off.
func (c Climate) Tall(h float64) float64 {
	return 1.2 + c.shift(h) // [FAO56 eq 68]
}

// InitialBetween gives the first coefficient for wettings of mm depth, between
// those of light (10 mm) and heavy ones (40 mm).
func InitialBetween(light, heavy, mm float64) float64 {
	return light + (mm-10)/(40-10)*(heavy-light) // [FAO56 eq 59]
}

// InitialPartly gives the first coefficient where a share of the surface is wet.
func InitialPartly(share, full float64) float64 {
	return share * full // [FAO56 eq 60]
}

// OnWetted gives the depth (mm) on the wetted share of the bed of a depth over
// all of it.
func OnWetted(mm, share float64) float64 {
	return mm / share // [FAO56 eq 61]
}
