package air

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/sun"
)

// Allen et al. 1998, FAO Irrigation and Drainage Paper 56: example 3
// (e0(24.5) = 3.075, e0(15) = 1.705 kPa) and example 14 / table 2.9
// (wind at 10 m to 2 m: factor 0.748).
func TestAgainstFAO56(t *testing.T) {
	assert.InDelta(t, 3.075, SaturationPressure(24.5), 5e-4)
	assert.InDelta(t, 1.705, SaturationPressure(15), 5e-4)
	assert.InDelta(t, 0.748, WindProfile(2), 5e-4)
	assert.InDelta(t, 2.4, 3.2*WindProfile(2), 0.05, "example 14: 3.2 m/s at 10 m is 2.4 at 2 m")
}

// Regression against values that two programs, written apart, agreed on.
func TestRegression(t *testing.T) {
	assert.InDelta(t, 2.2913, VPD(30, 46), 5e-5)
	assert.InDelta(t, 0.4677, VPD(20, 80), 5e-5)
	assert.InDelta(t, 0.2338, VPD(20, 90), 5e-5)
	for z, want := range map[float64]float64{0.3: 2.0755, 0.5: 2.5719, 1: 3.1740, 2: 3.7389} {
		assert.InDelta(t, want, 5*WindProfile(z), 2e-3, "wind at %g m", z)
	}
	assert.InDelta(t, 0.1286, FilmEvaporation(20, VPD(20, 80), 200, 1), 5e-5)
	assert.InDelta(t, 0.0020, FilmEvaporation(15, VPD(15, 95), 0, 0.5), 5e-5)
	assert.InDelta(t, 0.2604, FilmEvaporation(22, VPD(22, 70), 400, 1.5), 5e-5)
}

func TestFilm(t *testing.T) {
	var f Film
	dry := Hour{Evaporation: 0.05}
	f.Step(&dry, 5)
	assert.InDelta(t, 0.15, f.Rain, 1e-12, "holds 0.2 mm, however much falls")
	for range 4 {
		f.Step(&dry, 0)
	}
	assert.Zero(t, f.Rain)
	f.Step(&Hour{Dew: true}, 0)
	assert.Equal(t, 0.1, f.All)
	assert.Zero(t, f.Rain, "dew is no rain")
}

func TestSkyMarksWhatIsMissing(t *testing.T) {
	start := time.Date(2026, 7, 15, 0, 0, 0, 0, time.UTC)
	s := forecast.New(start, start.Add(24*time.Hour))
	for i := range s.Hours {
		s.Hours[i].Temp = forecast.Known(20)
		s.Hours[i].RH = forecast.Known(60)
	}
	p := forecast.Place{Lat: 41, Lon: -93, Zone: time.UTC}
	kind, harsh := make([]Hour, 24), make([]Hour, 24)
	Fill(kind, s.Hours, p, 1, Kind, &sun.Track{})
	Fill(harsh, s.Hours, p, 1, Harsh, &sun.Track{})
	for i := range kind {
		require.Equal(t, Wind|Light, kind[i].Missing)
		require.GreaterOrEqual(t, kind[i].Light, harsh[i].Light)
		require.Less(t, kind[i].Wind2, harsh[i].Wind2)
		require.False(t, math.IsNaN(kind[i].VPD))
	}
}
