package nws

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestGeometry(t *testing.T) {
	read := func(s string) geometry {
		var g struct{ G geometry }
		assert.NoError(t, decode([]byte(`{"G":`+s+`}`), &g), s)
		return g.G
	}
	square := ring{{-90, 40}, {-89, 40}, {-89, 41}, {-90, 41}, {-90, 40}}
	// The forms of RFC 7946 sections 3.1.2, 3.1.6 and 3.1.7.
	assert.Equal(t, ring{{-73.8, 42.75}}, read(`{"type":"Point","coordinates":[-73.8,42.75,89]}`).Corners)
	assert.Equal(t, square, read(`{"coordinates":[[[-90,40],[-89,40],[-89,41],[-90,41],[-90,40]],[[0,0],[1,1],[0,1],[0,0]]],"type":"Polygon"}`).Corners)
	assert.Equal(t, square, read(`{"coordinates":[[[[-90,40],[-89,40],[-89,41],[-90,41],[-90,40]]],[[[0,0],[1,1],[0,1],[0,0]]]]}`).Corners)
	for _, s := range []string{`null`, `{}`, `{"coordinates":null}`, `{"coordinates":"x"}`, `{"coordinates":[]}`, `{"coordinates":[[]]}`} {
		assert.Empty(t, read(s).Corners, s)
	}

	g := geometry{square}
	lat, lon := g.centre()
	assert.Equal(t, [2]float64{40.5, -89.5}, [2]float64{lat, lon})
	assert.True(t, g.contains(40.2, -89.1))
	for _, p := range [][2]float64{{39.9, -89.5}, {41.1, -89.5}, {40.5, -90.1}, {40.5, -88.9}} {
		assert.False(t, g.contains(p[0], p[1]), p)
	}
}
