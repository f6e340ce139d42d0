package brightsky

import (
	"encoding/json"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
)

// asked is when the invented documents of these tests were asked for.
var asked = time.Date(2026, 7, 15, 9, 20, 0, 0, time.UTC)

var garden = forecast.Place{Lat: 50.01234, Lon: 10.05}

// The sources of the invented documents.
const (
	station  = 11
	point    = 12
	hill     = 13 // another station, 28 km away
	mountain = 14 // another point of the forecasts
)

type row = map[string]any

// tree is a document that a test may change before it is written.
type tree struct {
	rows    []row
	sources []row
}

func (d *tree) bytes(t testing.TB) []byte {
	t.Helper()
	return mustJSON(t, row{"weather": d.rows, "sources": d.sources})
}

// at gives the record of a time.
func (d *tree) at(when time.Time) row {
	for _, r := range d.rows {
		if r["timestamp"] == when.Format(time.RFC3339) {
			return r
		}
	}
	return nil
}

// set gives a member of all records another value.
func (d *tree) set(name string, v any) {
	for _, r := range d.rows {
		r[name] = v
	}
}

// span gives an invented document of measured records from first to the hour of now, and of
// forecasts from then to last, both in it. Chances of single hours end 36 hours from now.
func span(first, now, last time.Time) *tree {
	d := &tree{sources: []row{
		{"id": station, "observation_type": "current", "station_name": "Musterhausen", "lat": 50.03, "lon": 10.01, "height": 214.0, "distance": 4310.0, "last_record": now.Format(time.RFC3339)},
		{"id": point, "observation_type": "forecast", "station_name": "MUSTERHAUSEN", "lat": 50.03, "lon": 10.02, "height": 212.0, "distance": 4720.0,
			"last_record": now.Truncate(time.Hour).Add(reach).Format(time.RFC3339)},
		{"id": hill, "observation_type": "historical", "station_name": "Beispielberg", "lat": 50.24, "lon": 10.2, "height": 288.0, "distance": 28540.0},
		{"id": mountain, "observation_type": "forecast", "station_name": "GIPFEL", "lat": 50.0, "lon": 10.2, "height": 900.0, "distance": 11000.0}}}
	for at := first; !at.After(last); at = at.Add(time.Hour) {
		h := at.Hour()
		r := row{"timestamp": at.Format(time.RFC3339), "source_id": station, "temperature": 15 + float64(h)/2, "dew_point": 12.5,
			"relative_humidity": 90 - h, "cloud_cover": 25, "wind_speed": 9.0, "wind_gust_speed": 18.0, "solar": 0.01 * float64(h),
			"precipitation": float64(h%5) / 10, "precipitation_probability": nil, "precipitation_probability_6h": nil, "condition": "rain", "icon": "rain"}
		if at.After(now) {
			r["source_id"], r["relative_humidity"] = point, nil
			if at.Sub(now) < 36*time.Hour {
				r["precipitation_probability"] = 20
			}
			if h%6 == 0 {
				r["precipitation_probability_6h"] = 60
			}
		}
		d.rows = append(d.rows, r)
	}
	return d
}

// invented gives an invented answer to the question for a forecast at a time.
func invented(at time.Time) *tree {
	today := at.UTC().Truncate(day)
	return span(today.AddDate(0, 0, -pastDays), at, today.AddDate(0, 0, futureDays+1))
}

func parse(t *testing.T, d *tree) *forecast.Series {
	t.Helper()
	s, err := Reader{}.Parse(d.bytes(t), time.Time{})
	require.NoError(t, err)
	require.NoError(t, feedtest.Check(s))
	return s
}

func small(t testing.TB) []byte {
	t.Helper()
	b, err := os.ReadFile("testdata/hours_small.json")
	require.NoError(t, err)
	return b
}

const path = "/weather"

// fake is the service on loopback.
type fake struct {
	*feedtest.Service
	t *testing.T
}

func newFake(t *testing.T) *fake { return &fake{feedtest.NewService(t, asked), t} }

func (f *fake) reader() Reader { return Reader{Base: f.URL} }

func (f *fake) request() feed.Request { return feed.Request{Place: garden, Now: f.Now} }

func (f *fake) forecast() (feed.Answer, error) {
	return f.reader().Forecast(f.t.Context(), f.Client, f.request())
}

func (f *fake) past(since time.Time) (*forecast.Series, error) {
	return f.reader().Past(f.t.Context(), f.Client, f.request(), since)
}

func mustJSON(t testing.TB, v any) []byte {
	t.Helper()
	b, err := json.Marshal(v)
	require.NoError(t, err)
	return b
}
