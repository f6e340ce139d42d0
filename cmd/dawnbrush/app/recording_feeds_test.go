package app

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast/feed/feedtest"
)

// reading is a temperature as a document tells it.
type reading struct {
	at   time.Time
	temp float64
}

// readings decodes the temperatures of a document apart from the readers.
func readings(t *testing.T, doc []byte) (out []reading) {
	t.Helper()
	var d struct {
		Properties struct {
			TimeSeries []struct {
				Time time.Time
				Data struct {
					Instant struct{ Details map[string]float64 }
				}
			}
		}
		Offset int64 `json:"utc_offset_seconds"`
		Hourly struct {
			Time []any
			Temp []*float64 `json:"temperature_2m"`
		}
		Weather []struct {
			Timestamp   time.Time
			Temperature *float64
		}
	}
	require.NoError(t, json.Unmarshal(doc, &d))
	for _, s := range d.Properties.TimeSeries {
		out = append(out, reading{s.Time, s.Data.Instant.Details["air_temperature"]})
	}
	for i, x := range d.Hourly.Time {
		if d.Hourly.Temp[i] == nil {
			continue
		}
		at := time.Time{}
		switch x := x.(type) {
		case float64:
			at = time.Unix(int64(x), 0)
		case string:
			local, err := time.Parse("2006-01-02T15:04", x)
			require.NoError(t, err)
			at = local.Add(-time.Duration(d.Offset) * time.Second)
		}
		out = append(out, reading{at, *d.Hourly.Temp[i]})
	}
	for _, w := range d.Weather {
		if w.Temperature != nil {
			out = append(out, reading{w.Timestamp, *w.Temperature})
		}
	}
	return out
}

// places are gardens in the zones of the recordings, degrees north and east.
var places = map[string][2]float64{"Europe/Berlin": {50.5, 11}, "Europe/London": {51.5, -0.1}, "Europe/Stockholm": {57.7, 11.97}, "America/Sao_Paulo": {-15.75, -48}}

// Where a document lies elsewhere than its zone's garden, and one whose two were swapped
// by who kept it: the standard has longitude first. [RFC 7946 sec. 3.1.1, status memory]
const (
	berlin  = "metno/complete_berlin_53.5_13_2022-08-02.json"
	swapped = "metno/compact_gothenburg_2021-10-12.json"
)

var unswap = regexp.MustCompile(`(57\.6984)(,\s*)(11\.9659)`)

// The week is made from a recording of every service, and its highs are those that
// stand in the document for the garden's civil day, also on one of 25 hours.
func TestRecordingsOfEveryFeed(t *testing.T) {
	for _, r := range []struct {
		name, feed, zone, date string
		high                   float64 // where the recordings' own list tells it; else 0
	}{
		{berlin, "metno", "Europe/Berlin", "2022-08-04", 35.3},
		{"metno/complete_london_51.5_-0.1.json", "metno", "Europe/London", "2020-07-21", 0},
		{swapped, "metno", "Europe/Stockholm", "2021-10-13", 0},
		{"openmeteo/forecast_hourly_brasilia_2023-10.json", "openmeteo", "America/Sao_Paulo", "2023-10-27", 0},
		{"openmeteo/archive_hourly_brasilia_2022-12.json", "openmeteo", "America/Sao_Paulo", "2022-12-29", 0},
		{"openmeteo/magicmirror_munich_unixtime_2026-02.json", "openmeteo", "Europe/Berlin", "2026-02-08", 0},
		{"brightsky/weather_arnstein_2024-10-26_dst.json", "brightsky", "Europe/Berlin", "2024-10-27", 0},
	} {
		t.Run(r.name, func(t *testing.T) {
			doc := feedtest.Recording(t, r.name)
			var wrapped struct{ Data json.RawMessage }
			if json.Unmarshal(doc, &wrapped) == nil && len(wrapped.Data) > 0 { // kept with its answer's head
				doc = wrapped.Data
			}
			if r.name == swapped {
				require.Regexp(t, unswap, string(doc))
				doc = unswap.ReplaceAll(doc, []byte("$3$2$1"))
			}
			zone, err := time.LoadLocation(r.zone)
			require.NoError(t, err)
			want, n := math.Inf(-1), 0
			for _, x := range readings(t, doc) {
				if x.at.In(zone).Format(time.DateOnly) == r.date {
					want, n = max(want, x.temp), n+1
				}
			}
			require.GreaterOrEqual(t, n, 24, "the day is whole in the document")
			if r.high != 0 {
				assert.Equal(t, r.high, want)
			}
			dir := t.TempDir()
			garden, saved := filepath.Join(dir, "garden.toml"), filepath.Join(dir, "saved.json")
			require.NoError(t, os.WriteFile(saved, doc, 0o600))
			day, err := time.ParseInLocation(time.DateOnly, r.date, zone)
			require.NoError(t, err)
			place := places[r.zone]
			if r.name == berlin {
				place = [2]float64{53.5, 13}
			}
			require.NoError(t, os.WriteFile(garden, []byte(gardenAt(place[0], place[1], r.zone, day)), 0o600))
			env, out, errs := around(map[string]string{"HOME": dir})
			code := Main([]string{"week", "--json", "-c", garden, "--from", saved, "--at", r.date + "T05:00"}, env)
			require.Contains(t, []int{exitDone, exitIncomplete}, code, "%s", errs)
			var plan struct {
				Forecast struct{ Feed, Attribution string }
				Days     []struct {
					Date    string
					Weather struct {
						High *float64 `json:"high_c"`
					}
				}
			}
			require.NoError(t, json.Unmarshal(out.Bytes(), &plan))
			assert.Equal(t, r.feed, plan.Forecast.Feed)
			assert.NotEmpty(t, plan.Forecast.Attribution)
			require.Equal(t, r.date, plan.Days[0].Date)
			require.NotNil(t, plan.Days[0].Weather.High)
			assert.InDelta(t, want, *plan.Days[0].Weather.High, 0.0005)
			env, text, errs := around(map[string]string{"HOME": dir})
			code = Main([]string{"week", "-c", garden, "--from", saved, "--at", r.date + "T05:00"}, env)
			require.Contains(t, []int{exitDone, exitIncomplete}, code, "%s", errs)
			assert.Contains(t, text.String(), plan.Forecast.Attribution[:12])
		})
	}
}

// Documents that no reader may take for a forecast are refused, and it is said what
// they look like.
func TestRecordingsThatAreNoForecast(t *testing.T) {
	for name, want := range map[string]string{
		"metno/old_locationforecast_1.9_oslo_2017-04-18.json": "1.9",
		"openmeteo/forecast_daily_all_null_pacific.json":      "days, not hours",
		"openmeteo/php_ensemble_amsterdam.json":               "of another kind",
		"openmeteo/errors/error400_bad_hourly_variable.json":  "error",
		"nws/errors/404_InvalidPoint.json":                    "it holds no temperatures",
		"metno/schema_METJSONForecast.json":                   "members",
	} {
		t.Run(name, func(t *testing.T) {
			doc := feedtest.Recording(t, name)
			dir := t.TempDir()
			garden, saved := filepath.Join(dir, "garden.toml"), filepath.Join(dir, "saved.json")
			require.NoError(t, os.WriteFile(saved, doc, 0o600))
			require.NoError(t, os.WriteFile(garden, []byte(gardenAt(52, 13, "Europe/Berlin", time.Date(2026, 7, 1, 0, 0, 0, 0, time.UTC))), 0o600))
			env, out, errs := around(map[string]string{"HOME": dir})
			code := Main([]string{"week", "-c", garden, "--from", saved}, env)
			assert.NotContains(t, []int{exitDone, exitIncomplete, exitBug}, code)
			assert.Empty(t, out.String())
			assert.Contains(t, errs.String(), want)
			assert.Contains(t, errs.String(), "hint: ")
		})
	}
}
