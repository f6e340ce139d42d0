package assemble

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

func oneHour(elevation float64, temp, dew float64) *forecast.Series {
	at := time.Date(2026, 7, 15, 9, 0, 0, 0, time.UTC)
	s := forecast.New(at, at.Add(time.Hour))
	s.Point.Elevation = forecast.Known(elevation)
	h := &s.Hours[0]
	h.Temp, h.DewPoint, h.Origin = forecast.Known(temp), forecast.Known(dew), forecast.OriginForecast
	h.RH = forecast.Known(humidityFrom(temp, dew))
	s.DayMax = []forecast.Extreme{{Start: at, End: at.Add(time.Hour), Temp: forecast.Known(temp + 1)}}
	return s
}

// The standard atmosphere has 15.0 degC at the sea, 8.5 at 1,000 m and 2.0 at 2,000.
// [ISO2533 table 1, status memory]
func TestAtElevationFollowsTheStandardAtmosphere(t *testing.T) {
	for garden, want := range map[float64]float64{1000: 8.5, 2000: 2.0} {
		s := oneHour(0, 15, -5)
		out := AtElevation(s, forecast.Known(garden))
		assert.InDelta(t, want, out.Hours[0].Temp.Or(-99), 1e-9)
		assert.InDelta(t, want+1, out.DayMax[0].Temp.Or(-99), 1e-9)
		assert.Equal(t, forecast.Known(-5), out.Hours[0].DewPoint, "the air holds what it held")
		assert.InDelta(t, humidityFrom(want, -5), out.Hours[0].RH.Or(-1), 1e-9)
		require.Len(t, out.Notes, 1)
		assert.Equal(t, forecast.Known(15), s.Hours[0].Temp, "the series given stays as it is")
		back := AtElevation(out, forecast.Known(0))
		assert.InDelta(t, 15, back.Hours[0].Temp.Or(-99), 1e-9)
	}
}

func TestAtElevationLimits(t *testing.T) {
	s := oneHour(400, 20, 18)
	assert.Same(t, s, AtElevation(s, forecast.Known(499)), "a little higher is no other place")
	assert.Same(t, s, AtElevation(s, forecast.Value{}))
	s.Point.Elevation = forecast.Value{}
	assert.Same(t, s, AtElevation(s, forecast.Known(900)))
	wet := AtElevation(oneHour(400, 20, 18), forecast.Known(1400)).Hours[0]
	assert.Equal(t, wet.Temp, wet.DewPoint, "air cannot hold more than its fill")
	assert.InDelta(t, 100, wet.RH.Or(-1), 1e-9)
	bare := oneHour(0, 20, 10)
	bare.Hours[0].DewPoint = forecast.Value{}
	assert.False(t, AtElevation(bare, forecast.Known(500)).Hours[0].RH.IsKnown())
}
