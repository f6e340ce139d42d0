package openmeteo

import (
	"encoding/json"
	"fmt"
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

var garden = forecast.Place{Lat: 40.01234, Lon: -90.01, Elevation: forecast.Known(187.4)}

// tree is a document that a test may change before it is written.
type tree map[string]any

func (d tree) hourly() map[string]any         { return d["hourly"].(map[string]any) }
func (d tree) units() map[string]any          { return d["hourly_units"].(map[string]any) }
func (d tree) set(name, unit string, v []any) { d.hourly()[name], d.units()[name] = v, unit }

func (d tree) bytes(t testing.TB) []byte {
	t.Helper()
	b, err := json.Marshal(d)
	require.NoError(t, err)
	return b
}

// list makes n values.
func list(n int, f func(i int) any) []any {
	out := make([]any, n)
	for i := range out {
		out[i] = f(i)
	}
	return out
}

func same(n int, v any) []any { return list(n, func(int) any { return v }) }

// invented gives an invented answer to a question at a time: nine days by the hour, from
// midnight before the day it was asked.
func invented(at time.Time) tree {
	start := at.UTC().Truncate(day).AddDate(0, 0, -pastDays)
	const n = (pastDays + futureDays) * 24
	d := tree{"latitude": 40.02, "longitude": -90.0, "generationtime_ms": 0.25, "utc_offset_seconds": 0,
		"timezone": "GMT", "timezone_abbreviation": "GMT", "elevation": 187.0,
		"hourly_units": map[string]any{"time": "unixtime"}, "hourly": map[string]any{
			"time": list(n, func(i int) any { return start.Add(time.Duration(i) * time.Hour).Unix() })}}
	d.set("temperature_2m", "°C", list(n, func(i int) any { return 15 + float64(i%24)/2 }))
	d.set("dew_point_2m", "°C", same(n, 12.5))
	d.set("relative_humidity_2m", "%", list(n, func(i int) any { return 60 + i%24 }))
	d.set("wind_speed_10m", "m/s", same(n, 2.5))
	d.set("wind_gusts_10m", "m/s", list(n, func(i int) any { return 5 + float64(i%24)/10 }))
	d.set("cloud_cover", "%", same(n, 25))
	d.set("shortwave_radiation", "W/m²", list(n, func(i int) any { return 10 * (i % 24) }))
	d.set("precipitation_probability", "%", same(n, 20))
	d.set("precipitation", "mm", list(n, func(i int) any { return float64(i%24%5) / 10 }))
	return d
}

// local rewrites times as the service does for a time zone.
func (d tree) local(zone string, offset time.Duration) tree {
	d["timezone"], d["utc_offset_seconds"] = zone, int(offset.Seconds())
	d.units()["time"] = "iso8601"
	times := d.hourly()["time"].([]any)
	for i, v := range times {
		times[i] = time.Unix(v.(int64), 0).UTC().Add(offset).Format("2006-01-02T15:04")
	}
	return d
}

func parse(t *testing.T, d tree) *forecast.Series {
	t.Helper()
	s, err := Reader{}.Parse(d.bytes(t), time.Time{})
	require.NoError(t, err)
	require.NoError(t, feedtest.Check(s))
	return s
}

func small(t testing.TB) []byte {
	t.Helper()
	b, err := os.ReadFile("testdata/forecast_small.json")
	require.NoError(t, err)
	return b
}

// fake is the service on loopback: all its hosts at one address, under paths of their own.
type fake struct {
	*feedtest.Service
	t *testing.T
}

const (
	forecastPath = "/v1/forecast"
	archivePath  = "/v1/archive"
	previousPath = "/previous/v1/forecast"
)

func newFake(t *testing.T) *fake { return &fake{feedtest.NewService(t, asked), t} }

func (f *fake) reader() Reader {
	return Reader{Base: f.URL, Archive: f.URL + "/", Previous: f.URL + "/previous"}
}

func (f *fake) request() feed.Request { return feed.Request{Place: garden, Now: f.Now} }

func (f *fake) forecast() (feed.Answer, error) {
	return f.reader().Forecast(f.t.Context(), f.Client, f.request())
}

func (f *fake) past(since time.Time) (*forecast.Series, error) {
	return f.reader().Past(f.t.Context(), f.Client, f.request(), since)
}

// days gives the invented document of some days.
func days(first time.Time, n int) tree {
	d := invented(first)
	for name, v := range d.hourly() {
		if name != "time" {
			for len(v.([]any)) < n*24 {
				v = append(v.([]any), v.([]any)[:24]...)
			}
			d.hourly()[name] = v.([]any)[:n*24]
		}
	}
	d.hourly()["time"] = list(n*24, func(i int) any { return first.Add(time.Duration(i) * time.Hour).Unix() })
	return d
}

func refusalBody(reason string) []byte { return fmt.Appendf(nil, `{"error":true,"reason":%q}`, reason) }

func negativeZero() any { return json.RawMessage("-0") }

func mustJSON(t *testing.T, v any) []byte {
	t.Helper()
	b, err := json.Marshal(v)
	require.NoError(t, err)
	return b
}
