package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast/unit"
)

// shapeStart is the first hour of the invented weather that is written in every
// service's shape, and when it is asked for; shapeHours how many there are.
var shapeStart = time.Date(2026, 7, 15, 11, 0, 0, 0, time.UTC)

const shapeHours = 190

// shapeHour is one hour of it: temperature and dew point in degC, humidity in %, wind
// in km/h, cloud and chance of rain in %, rain in mm.
type shapeHour struct {
	temp, dew, rh, wind, cloud, chance, rain float64
}

// shape gives hour i: a cold wet day, a hot one, a windy one, fair ones.
func shape(i int) shapeHour {
	clock, day := i%24, i/24
	h := shapeHour{temp: 16 + float64((clock*(23-clock))/10), dew: 12.5, rh: 60 - float64(clock), wind: 7, cloud: 20, chance: 5}
	switch day {
	case 1:
		h.temp, h.cloud = h.temp-6, 95
		if clock > 5 && clock < 12 {
			h.chance, h.rain = 80, 1.2
		}
	case 2:
		h.temp += 14
	case 3:
		h.wind = 38
	case 5:
		h.chance = 40
		if clock == 9 {
			h.rain = 4.5
		}
	}
	return h
}

// shapes write the weather as each service does: the start of the hour or its end,
// their units, their lists.
var shapes = map[string]func(start time.Time) any{
	"nws": func(start time.Time) any {
		layer := func(code string, of func(shapeHour) float64) any {
			var values []any
			for i := range shapeHours {
				values = append(values, map[string]any{"validTime": start.Add(time.Duration(i)*time.Hour).Format(time.RFC3339) + "/PT1H", "value": of(shape(i))})
			}
			return map[string]any{"uom": "wmoUnit:" + code, "values": values}
		}
		return map[string]any{"id": "https://api.weather.gov/gridpoints/XDM/41,27", "properties": map[string]any{"updateTime": start.Format(time.RFC3339), "validTimes": "x",
			"temperature":                layer("degC", func(h shapeHour) float64 { return h.temp }),
			"dewpoint":                   layer("degC", func(h shapeHour) float64 { return h.dew }),
			"relativeHumidity":           layer("percent", func(h shapeHour) float64 { return h.rh }),
			"windSpeed":                  layer("km_h-1", func(h shapeHour) float64 { return h.wind }),
			"skyCover":                   layer("percent", func(h shapeHour) float64 { return h.cloud }),
			"probabilityOfPrecipitation": layer("percent", func(h shapeHour) float64 { return h.chance }),
			"quantitativePrecipitation":  layer("mm", func(h shapeHour) float64 { return h.rain })}}
	},
	"metno": func(start time.Time) any {
		var steps []any
		for i := range shapeHours {
			h := shape(i)
			steps = append(steps, map[string]any{"time": start.Add(time.Duration(i) * time.Hour).Format(time.RFC3339), "data": map[string]any{
				"instant": map[string]any{"details": map[string]any{"air_temperature": h.temp, "dew_point_temperature": h.dew, "relative_humidity": h.rh,
					"wind_speed": unit.KmhToMs(h.wind), "cloud_area_fraction": h.cloud}},
				"next_1_hours": map[string]any{"summary": map[string]any{"symbol_code": "x"}, "details": map[string]any{"precipitation_amount": h.rain, "probability_of_precipitation": h.chance}}}})
		}
		return map[string]any{"type": "Feature", "geometry": map[string]any{"type": "Point", "coordinates": []float64{-102.41, 37.91, 1061}},
			"properties": map[string]any{"timeseries": steps, "meta": map[string]any{"updated_at": start.Format(time.RFC3339), "units": map[string]any{
				"air_temperature": "celsius", "dew_point_temperature": "celsius", "relative_humidity": "%", "wind_speed": "m/s", "cloud_area_fraction": "%",
				"precipitation_amount": "mm", "probability_of_precipitation": "%"}}}}
	},
	"openmeteo": func(start time.Time) any {
		hourly := map[string][]any{}
		for i := 0; i <= shapeHours; i++ { // an entry tells of its instant and of the hour before it
			hourly["time"] = append(hourly["time"], start.Add(time.Duration(i)*time.Hour).Unix())
			put := func(name string, at int, of func(shapeHour) float64) {
				var v any
				if at >= 0 && at < shapeHours {
					v = of(shape(at))
				}
				hourly[name] = append(hourly[name], v)
			}
			put("temperature_2m", i, func(h shapeHour) float64 { return h.temp })
			put("dew_point_2m", i, func(h shapeHour) float64 { return h.dew })
			put("relative_humidity_2m", i, func(h shapeHour) float64 { return h.rh })
			put("wind_speed_10m", i, func(h shapeHour) float64 { return h.wind })
			put("cloud_cover", i, func(h shapeHour) float64 { return h.cloud })
			put("precipitation", i-1, func(h shapeHour) float64 { return h.rain })
			put("precipitation_probability", i-1, func(h shapeHour) float64 { return h.chance })
		}
		return map[string]any{"latitude": 37.91, "longitude": -102.41, "generationtime_ms": 0.1, "utc_offset_seconds": 0, "timezone": "GMT", "timezone_abbreviation": "GMT", "elevation": 1061.0,
			"hourly_units": map[string]string{"time": "unixtime", "temperature_2m": "°C", "dew_point_2m": "°C", "relative_humidity_2m": "%", "wind_speed_10m": "km/h", "cloud_cover": "%",
				"precipitation": "mm", "precipitation_probability": "%"}, "hourly": hourly}
	},
	"brightsky": func(start time.Time) any {
		var records []any
		for i := 0; i <= shapeHours; i++ {
			r := map[string]any{"timestamp": start.Add(time.Duration(i) * time.Hour).Format(time.RFC3339), "source_id": 1}
			if i < shapeHours {
				h := shape(i)
				r["temperature"], r["dew_point"], r["relative_humidity"], r["cloud_cover"] = h.temp, h.dew, h.rh, h.cloud
			}
			if i > 0 {
				h := shape(i - 1)
				r["precipitation"], r["precipitation_probability"], r["wind_speed"] = h.rain, h.chance, h.wind
			}
			records = append(records, r)
		}
		return map[string]any{"weather": records, "sources": []any{map[string]any{"id": 1, "observation_type": "forecast", "lat": 37.91, "lon": -102.41, "height": 1061.0, "distance": 100.0,
			"station_name": "INVENTED", "dwd_station_id": nil, "wmo_station_id": "00000"}}}
	},
}

// The same weather, written as each service writes it, gives the same plan to the
// digit.
func TestSameWeatherInEveryShape(t *testing.T) {
	dir := t.TempDir()
	days := func(name string) string {
		doc, err := json.Marshal(shapes[name](shapeStart))
		require.NoError(t, err)
		path := filepath.Join(dir, name+".json")
		require.NoError(t, os.WriteFile(path, doc, 0o600))
		out, code := run(t, time.Time{}, "week", "--json", "--no-memory", "-c", "../../fixtures/demo/garden.toml", "--from", path, "--at", "2026-07-15T05:00:00-06:00")
		require.Contains(t, []int{0, 10}, code, "%s: %s", name, out)
		var plan struct {
			Forecast struct{ Feed string }
			Days     json.RawMessage
		}
		require.NoError(t, json.Unmarshal([]byte(out), &plan))
		require.Equal(t, name, plan.Forecast.Feed)
		return string(plan.Days)
	}
	want := days("nws")
	require.Contains(t, want, "hand_pollinate")
	for name := range shapes {
		t.Run(name, func(t *testing.T) {
			got := days(name)
			assert.True(t, want == got, "%s", firstDifference(want, got))
		})
	}
}

func firstDifference(a, b string) string {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	cut := func(s string) string { return s[max(0, i-200):min(len(s), i+80)] }
	return fmt.Sprintf("...%s...\n...%s...", cut(a), cut(b))
}
