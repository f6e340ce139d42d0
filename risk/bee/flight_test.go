package bee

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/risk/air"
)

func hour(t, light, wind, elevation float64) *air.Hour {
	return &air.Hour{T: t, Light: light, ClearLight: light, Wind2: wind, SinSun: math.Sin(elevation * math.Pi / 180)}
}

// Published limits that the curves must meet. Each row names its source; the
// tolerance is the range the source leaves.
func TestPublishedLimits(t *testing.T) {
	for _, c := range []struct {
		name   string
		got    float64
		lo, hi float64
	}{
		{"honey bees hardly search for food below 12 degC (Burrill & Dietz 1981)", Flight(Honey, hour(12, 600, 0, 40), 0, false), 0, 0.05},
		{"flights significantly reduced at 15 mph = 6.7 m/s (UDel 2018)", WindShare(6.7), 0, 0.2},
		{"3.73 of 5.45 flowers per 90 s at 3 m/s (Hennessy 2020)", WindShare(3), 0.6, 0.75},
		{"rain stops flights (Lundie 1925; 0.5 mm/h chosen)", Flight(Honey, hour(25, 600, 0, 40), 0.5, false), 0, 0},
		{"squash bees forage from 10 degC (Willis & Kevan 1995)", Flight(Squash, hour(10, 0, 0, -0.5), 0, false), 0, 1e-9},
		{"squash bees fly before sunrise (Sampson)", Flight(Squash, hour(16, 0, 0, -0.9), 0, false), 0.9, 1},
		{"honey bees do not fly before sunrise", Flight(Honey, hour(20, 0, 0, -1), 0, false), 0, 0},
		{"bumble bees from 10 degC and lower (Holland)", Flight(Bumble, hour(10, 300, 0, 30), 0, false), 0.2, 0.6},
		{"honey bees under 300 W/m2 are at 95 % (Vicens & Bosch 2000)", Flight(Honey, hour(20, 300, 0, 30), 0, false), 0.94, 0.96},
	} {
		assert.GreaterOrEqual(t, c.got, c.lo, c.name)
		assert.LessOrEqual(t, c.got, c.hi, c.name)
	}
}

// Regression against values that two programs, written apart from the same
// equations, agreed on to four digits.
func TestFlightRegression(t *testing.T) {
	for _, c := range []struct {
		name string
		g    Group
		h    *air.Hour
		rain float64
		wet  bool
		want float64
	}{
		{"honey 16 C R150 u2.5", Honey, hour(16, 150, 2.5, 30), 0, false, 0.3820},
		{"honey 25 C R100 calm", Honey, hour(25, 100, 0, 30), 0, false, 0.6321},
		{"honey 25 C R800 u2", Honey, hour(25, 800, 2, 30), 0, false, 0.7897},
		{"honey 25 C R800 u5", Honey, hour(25, 800, 5, 30), 0, false, 0.4109},
		{"honey 25 C R800 0.3 mm", Honey, hour(25, 800, 0, 30), 0.3, false, 0.4998},
		{"honey 38 C R800", Honey, hour(38, 800, 0, 30), 0, false, 0.5998},
		{"bumble 10 C R50 u5 0.5 mm", Bumble, hour(10, 50, 5, 30), 0.5, false, 0.1499},
		{"bumble 15 C dusk", Bumble, hour(15, 0, 0, -3), 0, false, 0.2},
		// 0.65 before the fall was read to begin under 32 degC.
		{"bumble 36 C R800", Bumble, hour(36, 800, 0, 30), 0, false, 0.5333},
		// The two programs had 0.2433, joining dawn in degrees; ours joins the sine of the elevation, which saves an arc sine an hour.
		{"squash bee 12 C u3 dawn", Squash, hour(12, 0, 3, -3), 0, false, 0.2431},
		{"squash bee 25 C 0.3 mm", Squash, hour(25, 500, 0, 30), 0.3, false, 0.6},
		{"squash bee night", Squash, hour(25, 0, 0, -7), 0, false, 0},
	} {
		assert.InDelta(t, c.want, Flight(c.g, c.h, c.rain, c.wet), 5e-5, c.name)
	}
}

func TestGrounds(t *testing.T) {
	windy := hour(22, 500, 7, 30)
	f, ok := Grounds(Honey, windy, 0, false)
	require.True(t, ok)
	assert.Equal(t, Wind, f)
	f, ok = Grounds(Honey, hour(12.5, 500, 1, 30), 0, false)
	require.True(t, ok)
	assert.Equal(t, Cold, f)
	f, ok = Grounds(Honey, hour(22, 500, 1, 30), 1, true)
	require.True(t, ok)
	assert.Equal(t, Rain, f)
	dull := hour(22, 30, 1, 20)
	dull.ClearLight = 320
	f, ok = Grounds(Honey, dull, 0, false)
	require.True(t, ok)
	assert.Equal(t, Light, f)
	_, ok = Grounds(Honey, hour(22, 20, 1, 2), 0, false)
	assert.False(t, ok, "a clear dawn is dark, not dull")
	_, ok = Grounds(Honey, hour(22, 0, 1, -10), 0, false)
	assert.False(t, ok, "night")
	_, ok = Grounds(Honey, hour(22, 600, 1, 40), 0, false)
	assert.False(t, ok, "bees are out")
}

func TestFlightStaysInRange(t *testing.T) {
	for g := range Groups {
		for temp := -20.0; temp < 55; temp += 2.5 {
			for wind := 0.0; wind < 20; wind += 2.5 {
				for rain := 0.0; rain < 2; rain += 0.25 {
					f := Flight(Group(g), hour(temp, 400, wind, 30), rain, rain > 0)
					require.True(t, f >= 0 && f <= 1, "%v %g degC %g m/s %g mm", Group(g), temp, wind, rain)
				}
			}
		}
	}
}
