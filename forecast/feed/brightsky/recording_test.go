package brightsky

import (
	"encoding/json"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/feedtest"
)

// recorded is an answer of the service: 50 measured hours around the end of summer time.
const recorded = "brightsky/weather_arnstein_2024-10-26_dst.json"

func TestRecordedDocumentPassesTheSuite(t *testing.T) {
	feedtest.Run(t, Reader{}, feedtest.Doc{Name: recorded, Body: feedtest.Recording(t, recorded), NoIssue: true})
}

// recordedRow is what the document holds, read here a second time and without this package.
type recordedRow struct {
	Timestamp time.Time
	Temp      *float64 `json:"temperature"`
	DewPoint  *float64 `json:"dew_point"`
	RH        *float64 `json:"relative_humidity"`
	Sky       *float64 `json:"cloud_cover"`
	Wind      *float64 `json:"wind_speed"`
	WindFrom  *float64 `json:"wind_direction"`
	Gust      *float64 `json:"wind_gust_speed"`
	Rain      *float64 `json:"precipitation"`
	Solar     *float64
}

func TestRecordedHoursEqualTheDocument(t *testing.T) {
	doc := feedtest.Recording(t, recorded)
	var d struct{ Weather []recordedRow }
	require.NoError(t, json.Unmarshal(doc, &d))
	s, err := Reader{}.Parse(doc, time.Time{})
	require.NoError(t, err)
	require.Len(t, d.Weather, 50)
	assert.Len(t, s.Hours, 51, "each record's hour, and the one before the first")
	same := func(want *float64, scale float64, got forecast.Value, what string, when time.Time) {
		t.Helper()
		if want != nil {
			assert.InDelta(t, *want/scale, got.Or(math.NaN()), 1e-9, "%s at %v", what, when)
		} else {
			assert.False(t, got.IsKnown(), "%s at %v", what, when)
		}
	}
	for _, r := range d.Weather {
		h, before := feedtest.At(t, s, r.Timestamp), feedtest.At(t, s, r.Timestamp.Add(-time.Hour))
		same(r.Temp, 1, h.Temp, "temperature", r.Timestamp)
		same(r.DewPoint, 1, h.DewPoint, "dew point", r.Timestamp)
		same(r.RH, 1, h.RH, "humidity", r.Timestamp)
		same(r.Sky, 100, h.Sky, "cloud cover", r.Timestamp)
		same(r.Wind, 3.6, before.Wind, "wind", r.Timestamp)
		same(r.WindFrom, 1, before.WindFrom, "wind direction", r.Timestamp)
		same(r.Gust, 3.6, before.Gust, "gust", r.Timestamp)
		same(r.Rain, 1, before.Rain, "rain", r.Timestamp)
		same(r.Solar, 0.001, before.Radiation, "sunlight", r.Timestamp)
		assert.Equal(t, forecast.OriginObserved, h.Origin)
		assert.False(t, h.RainProb.IsKnown())
	}
	assert.Empty(t, s.Blocks)
}

// The day on which the clocks go back has 25 hours, each once.
func TestRecordedAutumnChangeOfTheClocks(t *testing.T) {
	s, err := Reader{}.Parse(feedtest.Recording(t, recorded), time.Time{})
	require.NoError(t, err)
	berlin, err := time.LoadLocation("Europe/Berlin")
	require.NoError(t, err)
	lo, hi := s.Day(forecast.DateOf(time.Date(2024, 10, 27, 12, 0, 0, 0, berlin), berlin), berlin)
	require.Equal(t, 25, hi-lo)
	for _, h := range s.Hours[lo:hi] {
		assert.True(t, h.Temp.IsKnown() && h.Wind.IsKnown(), "%v", h.Start)
	}
	// 02:00+02:00 and 02:00+01:00 in the document.
	assert.Equal(t, 9.8, feedtest.At(t, s, time.Date(2024, 10, 27, 0, 0, 0, 0, time.UTC)).Temp.Or(0))
	assert.Equal(t, 10.6, feedtest.At(t, s, time.Date(2024, 10, 27, 1, 0, 0, 0, time.UTC)).Temp.Or(0))
	assert.NotContains(t, feedtest.NoteOn(s, ""), "left out")
}

// The station has no wind and no cloud cover: they come from another one, 25.569 km away.
func TestRecordedStations(t *testing.T) {
	s, err := Reader{}.Parse(feedtest.Recording(t, recorded), time.Time{})
	require.NoError(t, err)
	assert.Equal(t, "Deutscher Wetterdienst by Bright Sky, station Arnstein-Müdesheim, 7 km away", s.Source)
	assert.Equal(t, 49.9694, s.Point.Lat)
	assert.Equal(t, 9.9114, s.Point.Lon)
	assert.Equal(t, 216.5, s.Point.Elevation.Or(0))
	assert.Equal(t, "hours with cloud cover, wind, wind direction and gusts from Kissingen, Bad, 26 km away: 50; ", feedtest.NoteOn(s, ""))
	assert.True(t, s.Issued.IsZero())
}
