package nws

import (
	"encoding/json"
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
)

func small(t *testing.T) *forecast.Series {
	t.Helper()
	doc, err := os.ReadFile("testdata/reports_small.json")
	require.NoError(t, err)
	require.True(t, Reader{}.Recognise(doc))
	s, err := ParseObservations(doc)
	require.NoError(t, err)
	require.NoError(t, feedtest.Check(s))
	return s
}

func TestReportsBecomeHours(t *testing.T) {
	s := small(t)
	require.Len(t, s.Hours, 3)
	assert.Equal(t, time.Date(2026, 7, 15, 12, 0, 0, 0, time.UTC), s.Start())
	assert.Equal(t, "National Weather Service, station Elm Fork Airfield", s.Source)
	assert.True(t, s.Issued.IsZero())
	assert.InDelta(t, 38.05, s.Point.Lat, 1e-9)

	noon, one, two := s.Hours[0], s.Hours[1], s.Hours[2]
	assert.Equal(t, forecast.OriginObserved, noon.Origin)
	assert.Equal(t, 1.5, noon.Rain.Or(-1))
	assert.Equal(t, 1.0, noon.Sky.Or(-1), "the fullest layer counts")
	assert.InDelta(t, 2.5, noon.Wind.Or(-1), 1e-9)

	assert.Equal(t, 24.0, one.Temp.Or(-1), "mean of three; the failed one is left out")
	assert.Equal(t, 18.0, one.DewPoint.Or(-1), "only the hourly report has a dew point")
	assert.Equal(t, 65.0, one.RH.Or(-1))
	assert.InDelta(t, (10.8+14.4+14.4+10.8)/4/3.6, one.Wind.Or(-1), 1e-9)
	assert.InDelta(t, 6.0, one.Gust.Or(-1), 1e-9)
	assert.Equal(t, 0.75, one.Sky.Or(-1), "broken: 5 to 7 eighths")
	assert.True(t, one.Rain.IsKnown())
	assert.Equal(t, 0.0, one.Rain.Or(-1), "a stated 0 is dry; the special report's amount is not counted twice")

	assert.False(t, two.Rain.IsKnown(), "null is not dry")
	assert.Equal(t, 3.5/8, two.Sky.Or(-1))
}

func TestNoReportIsNoWeather(t *testing.T) {
	for _, doc := range []string{`{"type":"FeatureCollection","features":[]}`, `{"features":null}`, `{`, ``,
		`{"features":[{"properties":{"timestamp":"today"}}]}`} {
		_, err := ParseObservations([]byte(doc))
		var bad *feed.DocumentError
		assert.ErrorAs(t, err, &bad, doc)
	}
}

func TestRecordedReports(t *testing.T) {
	t.Run("five-minute report without dew point", func(t *testing.T) {
		s, err := ParseObservations(feedtest.Recording(t, "nws/restored/wg2026jul_obs_KALB.json"))
		require.NoError(t, err)
		h := s.Hours[len(s.Hours)-1]
		assert.Equal(t, 25.0, h.Temp.Or(-1))
		assert.InDelta(t, 6.17, h.Wind.Or(-1), 1e-9) // 22.212 km/h
		assert.Equal(t, 3.5/8, h.Sky.Or(-1))
		assert.False(t, h.RH.IsKnown())
		assert.False(t, h.DewPoint.IsKnown())
		assert.False(t, h.Rain.IsKnown())
	})
	t.Run("numbers in quotes, old unit names", func(t *testing.T) {
		s, err := ParseObservations(feedtest.Recording(t, "nws/pynws_stations_observations_strings.json"))
		require.NoError(t, err)
		h := s.Hours[len(s.Hours)-1]
		assert.Equal(t, 10.0, h.Temp.Or(-1))
		assert.Equal(t, 10.0, h.Wind.Or(-1), "10 m/s stay 10 m/s")
	})
	t.Run("unsorted, one report impossible", func(t *testing.T) {
		s, err := ParseObservations(feedtest.Recording(t, "nws/pynws_stations_observations_multiple_unsorted.json"))
		require.NoError(t, err)
		h := s.Hours[len(s.Hours)-1]
		assert.Equal(t, 10.0, h.Temp.Or(-1), "-100 degC is left out")
		assert.Equal(t, 10.0, h.Wind.Or(-1), "1000 m/s is left out")
	})
	for _, name := range []string{"nws/wg_testing_obs_PAFA_503_features_null.json", "nws/wg_testing_obs_PPIZ_empty.json"} {
		_, err := ParseObservations(feedtest.Recording(t, name))
		assert.ErrorContains(t, err, "no reports", name)
	}
}

// stationReport is one invented report for the tests of Past.
func stationReport(at time.Time, temp any) map[string]any {
	return map[string]any{"geometry": map[string]any{"type": "Point", "coordinates": []float64{-90, 40}},
		"properties": map[string]any{"station": "https://api.weather.gov/stations/KABC", "timestamp": at.Format(time.RFC3339),
			"temperature": map[string]any{"unitCode": "wmoUnit:degC", "value": temp, "qualityControl": "V"}}}
}

func TestPastAsksTheNearestStationsAndFollowsPages(t *testing.T) {
	f := newFake(t)
	now := issued
	since := now.Truncate(time.Hour).Add(-4 * time.Hour)
	list := []any{}
	for _, st := range []struct {
		id  string
		lon float64
	}{{"KFAR", -90.4}, {"KNEAR", -90.05}, {"KOUT", -95}} {
		list = append(list, map[string]any{"geometry": map[string]any{"type": "Point", "coordinates": []float64{st.lon, 40.01}},
			"properties": map[string]any{"stationIdentifier": st.id, "name": "Station " + st.id}})
	}
	f.json("/gridpoints/XYZ/3,4/stations", map[string]any{"features": list})
	page := func(next string, reports ...any) map[string]any {
		return map[string]any{"features": reports, "pagination": map[string]any{"next": next}}
	}
	f.queue("/stations/KNEAR/observations",
		page("https://api.weather.gov/stations/KNEAR/observations?cursor=abc",
			stationReport(since.Add(3*time.Hour+50*time.Minute), 20), stationReport(since.Add(2*time.Hour+50*time.Minute), 19)),
		page("", stationReport(since.Add(50*time.Minute), 17), stationReport(since.Add(-10*time.Minute), 16)))
	f.queue("/stations/KFAR/observations", page("", stationReport(since.Add(time.Hour+50*time.Minute), 11)))

	s, err := f.reader().Past(t.Context(), f.Client, f.request(), since)
	require.NoError(t, err)
	require.NoError(t, feedtest.Check(s))
	for i, want := range []float64{17, 11, 19, 20} {
		h := feedtest.At(t, s, since.Add(time.Duration(i)*time.Hour))
		assert.Equal(t, want, h.Temp.Or(-99), "hour %d", i)
		assert.Equal(t, forecast.OriginObserved, h.Origin)
	}
	assert.Equal(t, since, s.Start(), "nothing before the time asked for")
	assert.Contains(t, feedtest.NoteOn(s, ""), "hours taken from the station Station KFAR, 33 km away, for want of nearer reports: 1")
	assert.Contains(t, f.Asked, "/stations/KNEAR/observations?cursor=abc", "pages stay on our host")
	assert.Contains(t, f.Asked, fmt.Sprintf("/stations/KNEAR/observations?end=%s&limit=500&start=%s",
		"2026-07-15T09%3A20%3A00Z", "2026-07-15T05%3A00%3A00Z"))
	assert.Len(t, f.Stored(), 2, "the point and the list of stations are kept, the reports are not")
}

func TestPastWithoutStations(t *testing.T) {
	f := newFake(t)
	f.json("/gridpoints/XYZ/3,4/stations", map[string]any{"features": []any{}})
	_, err := f.reader().Past(t.Context(), f.Client, f.request(), issued.Add(-24*time.Hour))
	var none *feed.UnavailableError
	require.ErrorAs(t, err, &none)
	assert.Contains(t, none.Error(), "no station within")
	assert.NotEmpty(t, none.Hint())
}

func TestStationsRecorded(t *testing.T) {
	got, err := parseStations(feedtest.Recording(t, "nws/wg2026jul_stations_ALY_71_67.json"), forecast.Place{Lat: 42.745, Lon: -73.752})
	require.NoError(t, err)
	require.Len(t, got, maxStations)
	assert.Equal(t, "KALB", got[0].id)
	assert.InDelta(t, 3.9, got[0].distance, 0.1)
}

func mustJSON(t testing.TB, v any) []byte {
	t.Helper()
	b, err := json.Marshal(v)
	require.NoError(t, err)
	return b
}
