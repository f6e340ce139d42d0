package metno

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

// issued is when the invented documents of these tests were published.
var issued = time.Date(2026, 7, 15, 9, 20, 0, 0, time.UTC)

var garden = forecast.Place{Lat: 60.25004, Lon: 10.0123, Elevation: forecast.Known(186.6)}

// tree is a document, or a part of one, that a test may change before it is written.
type tree map[string]any

// in gives the part under the names.
func (d tree) in(names ...string) tree {
	for _, n := range names {
		d = d[n].(tree)
	}
	return d
}

func (d tree) units() tree { return d.in("properties", "meta", "units") }

func (d tree) steps() []tree { return d.in("properties")["timeseries"].([]tree) }

func (d tree) setSteps(s []tree) { d.in("properties")["timeseries"] = s }

// each changes the details of a part ("instant", "next_1_hours", ...) of every step that
// has it.
func (d tree) each(part string, change func(i int, details tree)) {
	for i, s := range d.steps() {
		if p, ok := s.in("data")[part]; ok {
			change(i, p.(tree).in("details"))
		}
	}
}

// drop removes a parameter everywhere.
func (d tree) drop(names ...string) {
	for _, n := range names {
		delete(d.units(), n)
		for _, part := range []string{"instant", "next_1_hours", "next_6_hours"} {
			d.each(part, func(_ int, details tree) { delete(details, n) })
		}
	}
}

func (d tree) bytes(t testing.TB) []byte {
	t.Helper()
	b, err := json.Marshal(d)
	require.NoError(t, err)
	return b
}

// The invented document: this many steps of an hour, then steps of six hours from
// midnight on, laid out as the service does.
const (
	hourlySteps = 63 // from 09:00 to 23:00 two days later
	wideSteps   = 29 // seven days more and the last instant
)

// invented gives an invented document published at a time.
func invented(at time.Time) tree {
	start := at.UTC().Truncate(24 * time.Hour).Add(9 * time.Hour)
	var steps []tree
	add := func(t time.Time, i int, last bool) {
		instant := tree{"air_pressure_at_sea_level": 1015.5, "air_temperature": 15 + float64(t.Hour())/2, "cloud_area_fraction": 25.0,
			"dew_point_temperature": 12.5, "relative_humidity": 60 + t.Hour(), "wind_from_direction": 220.1, "wind_speed": 2.5}
		data := tree{"instant": tree{"details": instant}}
		if i < hourlySteps {
			instant["wind_speed_of_gust"] = 5 + float64(t.Hour())/10
			data["next_1_hours"] = tree{"summary": tree{"symbol_code": "cloudy"}, "details": tree{
				"precipitation_amount": float64(i%5) / 10, "probability_of_precipitation": 20.0, "probability_of_thunder": 1.5}}
		}
		if !last && (i < hourlySteps-5 || i >= hourlySteps) {
			data["next_6_hours"] = tree{"summary": tree{"symbol_code": "rain"}, "details": tree{
				"air_temperature_max": 28.5, "air_temperature_min": 11.5, "precipitation_amount": 1.5, "probability_of_precipitation": 45.0}}
			data["next_12_hours"] = tree{"summary": tree{"symbol_code": "rain"}, "details": tree{"probability_of_precipitation": 70.0}}
		}
		steps = append(steps, tree{"time": t.Format(time.RFC3339), "data": data})
	}
	for i := range hourlySteps {
		add(start.Add(time.Duration(i)*time.Hour), i, false)
	}
	for i := range wideSteps {
		add(start.Add(time.Duration(hourlySteps+6*i)*time.Hour), hourlySteps+i, i == wideSteps-1)
	}
	return tree{"type": "Feature", "geometry": tree{"type": "Point", "coordinates": []any{10.0123, 60.25, 187}},
		"properties": tree{"timeseries": steps, "meta": tree{"updated_at": at.Format(time.RFC3339), "units": tree{
			"air_pressure_at_sea_level": "hPa", "air_temperature": "celsius", "air_temperature_max": "celsius", "air_temperature_min": "celsius",
			"cloud_area_fraction": "%", "dew_point_temperature": "celsius", "precipitation_amount": "mm", "probability_of_precipitation": "%",
			"probability_of_thunder": "%", "relative_humidity": "%", "wind_from_direction": "degrees", "wind_speed": "m/s", "wind_speed_of_gust": "m/s"}}}}
}

// firstWide is the first of the wider steps of the invented document.
var firstWide = time.Date(2026, 7, 18, 0, 0, 0, 0, time.UTC)

func parse(t *testing.T, d tree, now time.Time) *forecast.Series {
	t.Helper()
	s, err := Reader{}.Parse(d.bytes(t), now)
	require.NoError(t, err)
	require.NoError(t, feedtest.Check(s))
	return s
}

func small(t testing.TB) []byte {
	t.Helper()
	b, err := os.ReadFile("testdata/complete_small.json")
	require.NoError(t, err)
	return b
}

// fake is the service on loopback.
type fake struct {
	*feedtest.Service
	t *testing.T
}

func newFake(t *testing.T) *fake { return &fake{feedtest.NewService(t, issued), t} }

func (f *fake) forecast() (feed.Answer, error) {
	return Reader{Base: f.URL}.Forecast(f.t.Context(), f.Client, feed.Request{Place: garden, Now: f.Now})
}
