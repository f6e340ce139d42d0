package crop

import "slices"

// Curve is a line through points, level beyond both ends. The zero Curve is
// empty.
type Curve struct{ points [][2]float64 }

// NewCurve makes a curve of {x, y} points in any order; two points at one x or
// fewer than two points are the caller's fault and leave the later point unused.
func NewCurve(points ...[2]float64) Curve {
	p := slices.Clone(points)
	slices.SortStableFunc(p, func(a, b [2]float64) int {
		switch {
		case a[0] < b[0]:
			return -1
		case a[0] > b[0]:
			return 1
		}
		return 0
	})
	p = slices.CompactFunc(p, func(a, b [2]float64) bool { return a[0] == b[0] })
	return Curve{points: p}
}

// Empty tells whether the crop has no such curve.
func (c Curve) Empty() bool { return len(c.points) == 0 }

// At gives the y at x: linear between points, level beyond them. An empty curve
// gives 1, the factor that changes nothing.
func (c Curve) At(x float64) float64 {
	p := c.points
	if len(p) == 0 {
		return 1
	}
	if x <= p[0][0] {
		return p[0][1]
	}
	for i := 1; i < len(p); i++ {
		if x <= p[i][0] {
			a, b := p[i-1], p[i]
			return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0])
		}
	}
	return p[len(p)-1][1]
}

// Points gives a copy of the points, x rising.
func (c Curve) Points() [][2]float64 { return slices.Clone(c.points) }
