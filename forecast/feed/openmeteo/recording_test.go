package openmeteo

import (
	"encoding/json"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
)

// recorded lists the documents with hours of one forecast.
var recorded = []string{"openmeteo/forecast_hourly_brasilia_2023-10.json", "openmeteo/archive_hourly_brasilia_2022-12.json",
	"openmeteo/magicmirror_munich_unixtime_2026-02.json"}

func TestRecordedDocumentsPassTheSuite(t *testing.T) {
	var docs []feedtest.Doc
	for _, n := range recorded {
		docs = append(docs, feedtest.Doc{Name: n, Body: feedtest.Recording(t, n), NoIssue: true})
	}
	feedtest.Run(t, Reader{}, docs...)
}

// hour is what the documents hold, read here a second time and without this package.
type hours struct {
	Offset int `json:"utc_offset_seconds"`
	Hourly struct {
		Time        []any
		Temperature []*float64 `json:"temperature_2m"`
		Humidity    []*float64 `json:"relativehumidity_2m"`
		Wind        []*float64 `json:"windspeed_10m"`
		WindFrom    []*float64 `json:"winddirection_10m"`
	}
}

func (h hours) at(t *testing.T, i int) time.Time {
	t.Helper()
	switch v := h.Hourly.Time[i].(type) {
	case float64:
		return time.Unix(int64(v), 0)
	case string:
		local, err := time.ParseInLocation("2006-01-02T15:04", v, time.FixedZone("", h.Offset))
		require.NoError(t, err)
		return local
	}
	t.Fatal("no time")
	return time.Time{}
}

func TestRecordedHoursEqualTheDocument(t *testing.T) {
	for _, n := range recorded {
		t.Run(n, func(t *testing.T) {
			doc := feedtest.Recording(t, n)
			var d hours
			require.NoError(t, json.Unmarshal(doc, &d))
			s, err := Reader{}.Parse(doc, time.Time{})
			require.NoError(t, err)
			assert.Len(t, s.Hours, len(d.Hourly.Time), "each hour once")
			same := func(list []*float64, i int, scale float64, got forecast.Value, what string) {
				if i < len(list) && list[i] != nil {
					assert.InDelta(t, *list[i]/scale, got.Or(math.NaN()), 1e-9, "%s at %v", what, d.Hourly.Time[i])
				}
			}
			for i := range d.Hourly.Time {
				h := feedtest.At(t, s, d.at(t, i))
				same(d.Hourly.Temperature, i, 1, h.Temp, "temperature")
				same(d.Hourly.Humidity, i, 1, h.RH, "humidity")
				same(d.Hourly.Wind, i, 3.6, h.Wind, "wind in km/h")
				same(d.Hourly.WindFrom, i, 1, h.WindFrom, "wind direction")
				require.False(t, h.Rain.IsKnown() || h.Radiation.IsKnown(), "not in these documents")
			}
		})
	}
}

// What the list of recordings says of them: place, first hour, what is special.
func TestRecordedPlacesAndTimes(t *testing.T) {
	s, err := Reader{}.Parse(feedtest.Recording(t, recorded[0]), time.Time{})
	require.NoError(t, err)
	assert.Equal(t, time.Date(2023, 10, 25, 3, 0, 0, 0, time.UTC), s.Start(), "midnight in Brasília")
	assert.Equal(t, -15.75, s.Point.Lat)
	assert.Equal(t, -48.0, s.Point.Lon)
	assert.Equal(t, 1134.0, s.Point.Elevation.Or(0))
	assert.Equal(t, "America/Sao_Paulo", s.Point.Zone.String())
	s, err = Reader{}.Parse(feedtest.Recording(t, recorded[2]), time.Time{})
	require.NoError(t, err)
	assert.Equal(t, time.Date(2026, 2, 6, 23, 0, 0, 0, time.UTC), s.Start(), "midnight in Munich: unix times are in UTC")
	assert.Contains(t, feedtest.NoteOn(s, "Rain"), "not in this forecast")
}

func TestRecordedEnsembleIsRefused(t *testing.T) {
	doc := feedtest.Recording(t, "openmeteo/php_ensemble_amsterdam.json")
	assert.False(t, Reader{}.Recognise(doc))
	_, err := Reader{}.Parse(doc, time.Time{})
	assert.ErrorContains(t, err, "an ensemble")
}

// 15. The recorded answer of days outside the range: 200, every value null.
func TestFault15_RecordedAllNull(t *testing.T) {
	doc := feedtest.Recording(t, "openmeteo/forecast_daily_all_null_pacific.json")
	assert.True(t, Reader{}.Recognise(doc))
	_, err := Reader{}.Parse(doc, time.Time{})
	var bad *feed.DocumentError
	require.ErrorAs(t, err, &bad)
	assert.Contains(t, bad.Error(), "days, not hours")
}
