package soil

import "fmt"

// Ground is what roots may use: soil to a depth, or a container.
type Ground struct {
	Soil
	Depth float64 // m to a floor that roots do not pass; 0 for open ground
	store float64 // available water of a container, mm over the canopy; 0 for soil
	open  float64 // mouth of a container over its canopy
}

// Field gives open ground.
func Field(s Soil) Ground { return Ground{Soil: s} }

// Raised gives a raised bed of depth metres. On open ground roots go on below, so
// only a bed with a floor (paving, liner, hard pan) has a limit.
func Raised(s Soil, depth float64, floor bool) Ground {
	g := Ground{Soil: s}
	if floor {
		g.Depth = depth
	}
	return g
}

// potShare is the share of a pot's volume that is available water; 0.2 to 0.3 is
// told. [memory]
const potShare = 0.25

// Container gives a pot of litres with a mouth of m2 whose plant shades a canopy
// of m2 when grown (0.4 to 0.5 for a big tomato). Everything is reckoned over the
// canopy, for it is what gives off water; the mouth is what dries by itself and
// catches rain. Error: a size that is not above 0.
func Container(s Soil, litres, mouth, canopy float64) (Ground, error) {
	if !(litres > 0 && mouth > 0 && canopy > 0) {
		return Ground{}, fmt.Errorf("a container of %g litres and %g m2 under %g m2 of leaves: all have to be above 0", litres, mouth, canopy)
	}
	canopy = max(mouth, canopy)
	return Ground{Soil: s, Depth: litres / mouth / 1000, open: mouth / canopy, store: potShare * litres / canopy}, nil // 1 l on 1 m2 is 1 mm
}

// Open gives the share of the planted area that is soil under the sky: 1, and in a
// container the share of its mouth. So much of the rain is caught.
func (g Ground) Open() float64 {
	if g.store > 0 {
		return g.open
	}
	return 1
}

// Roots gives the depth (m) that roots of zr metres have here.
func (g Ground) Roots(zr float64) float64 {
	if g.Depth > 0 {
		return min(zr, g.Depth)
	}
	return zr
}

// Available gives the water (mm) that roots of zr metres can take when the ground
// is at field capacity.
func (g Ground) Available(zr float64) float64 {
	if g.store > 0 {
		return g.store
	}
	return g.TAW(g.Roots(zr)) // [FAO56 eq 82]
}

// shallowest is the root depth of sown or just planted vegetables, m.
// [FAO56 p 174, status memory]
const shallowest = 0.15

// RootsAt gives the depth (m) of roots that have grown a share of their way, 0 to
// 1, to a greatest depth.
func RootsAt(greatest, grown float64) float64 {
	return shallowest + grown*max(0, greatest-shallowest) // [FAO56 p 174, status memory]
}
