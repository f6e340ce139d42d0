package soil

import "fmt"

// Ground is what roots may use: soil to a depth, or a container.
type Ground struct {
	Soil
	Depth float64 // m to a floor that roots do not pass; 0 for open ground
	store float64 // available water of a container, mm over its surface; 0 for soil
}

// Open gives open ground.
func Open(s Soil) Ground { return Ground{Soil: s} }

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

// Container gives a pot of litres with a surface of area m2 (0.07 for a bucket).
// Its water is reckoned over that surface; all of it is in reach of the roots.
// Error: a volume or an area that is not above 0.
func Container(s Soil, litres, area float64) (Ground, error) {
	if !(litres > 0 && area > 0) {
		return Ground{}, fmt.Errorf("a container of %g litres and %g m2: both have to be above 0", litres, area)
	}
	return Ground{Soil: s, Depth: litres / area / 1000, store: potShare * litres / area}, nil // 1 l on 1 m2 is 1 mm
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
