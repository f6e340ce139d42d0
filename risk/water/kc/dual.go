package kc

import "math"

// Bare is the coefficient of dry bare soil, 0.15 to 0.20. [FAO56 eq 76]
const Bare = 0.15

// Max gives the most that plants and wet soil can give off together, as a
// coefficient, for plants of h metres. With often the surface is wetted every day
// or two and the soil has no time to store warmth.
func Max(c Climate, h, kcb float64, often bool) float64 {
	top := c.Tall(h)
	if often {
		top -= 0.1 // 1.1 for 1.2 [FAO56 eq 72]
	}
	return max(top, kcb+0.05) // [FAO56 eq 72]
}

// Cover gives the share of ground that plants of h metres shade, 0 to 0.99.
func Cover(kcb, top, h float64) float64 {
	over := max(0.01, kcb-Bare)                                  // [FAO56 p 149]
	return min(0.99, math.Pow(min(1, over/(top-Bare)), 1+0.5*h)) // [FAO56 eq 76]
}

// Exposed gives the share of ground that is both wet and open to sun and wind,
// from the shaded and the wetted share.
func Exposed(cover, wetted float64) float64 {
	return max(0.01, min(1-cover, wetted)) // [FAO56 eq 75]
}

// UnderLeaves gives the wetted share that counts when drip lines lie in the
// shade of the plants.
func UnderLeaves(wetted, cover float64) float64 {
	return wetted * (1 - 2.0/3*cover) // [FAO56 table 20]
}

// Layer is the top of the soil that dries by evaporation.
type Layer struct {
	TEW float64 // most that can evaporate from it, mm
	REW float64 // what evaporates before the drying slows, mm
}

// Surface is the state of the layer's wetted part.
type Surface struct {
	De     float64 // depletion, mm within 0 to TEW
	Wetted float64 // share of the ground that was wetted last
}

// wholeRain is the rain (mm) that wets all of the ground; the paper says 3 to 4.
// [FAO56 p 154]
const wholeRain = 3

// Wet lets the water of a day in at its beginning: rain that has not run off, and
// irrigation over the whole ground (mm) that goes onto a share of it. What is more
// than the layer lacks goes through, mm of the wetted part. On dry days the
// wetted share stays.
func (l Layer) Wet(s Surface, rain, irrigation, share float64) (after Surface, through float64) {
	in := rain
	if irrigation > 0 {
		s.Wetted = share
		in += OnWetted(irrigation, share)
	}
	if rain > wholeRain {
		s.Wetted = 1
	}
	through = max(0, in-s.De) // [FAO56 eq 79]
	s.De = max(0, s.De-in)    // [FAO56 eq 77, eq 78]
	return s, through
}

// Reduction gives how far drying has slowed evaporation: 1 while wet, 0 when the
// layer has nothing left.
func (l Layer) Reduction(de float64) float64 {
	if de <= l.REW {
		return 1
	}
	return max(0, (l.TEW-de)/(l.TEW-l.REW)) // [FAO56 eq 74]
}

// Ke gives the coefficient of evaporation from the soil for a reduction, the
// bound of both coefficients, the basal one and the exposed share.
func Ke(kr, top, kcb, exposed float64) float64 {
	return max(0, min(kr*(top-kcb), exposed*top)) // [FAO56 eq 71]
}

// Dry takes an evaporation of e mm over the whole ground out of the exposed part.
func (l Layer) Dry(s Surface, e, exposed float64) Surface {
	s.De = min(l.TEW, s.De+e/exposed) // [FAO56 eq 77, eq 78]
	return s
}
