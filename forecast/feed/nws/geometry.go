package nws

// centre gives the mean of the corners, without the last where it repeats the
// first; 0, 0 when there is no outline.
func (g geometry) centre() (lat, lon float64) {
	c := g.Corners
	if n := len(c); n > 1 && c[0] == c[n-1] {
		c = c[:n-1]
	}
	if len(c) == 0 {
		return 0, 0
	}
	for _, p := range c {
		lon += p[0]
		lat += p[1]
	}
	return lat / float64(len(c)), lon / float64(len(c))
}

// contains tells whether a place lies inside the outline, by counting the edges
// east of it. Cells are a few kilometres wide, so a flat map does.
func (g geometry) contains(lat, lon float64) bool {
	in := false
	for i, j := 0, len(g.Corners)-1; i < len(g.Corners); j, i = i, i+1 {
		a, b := g.Corners[i], g.Corners[j]
		if (a[1] > lat) != (b[1] > lat) && lon < (b[0]-a[0])*(lat-a[1])/(b[1]-a[1])+a[0] {
			in = !in
		}
	}
	return in
}
