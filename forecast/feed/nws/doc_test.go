package nws

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// issued is when the invented documents of these tests were published.
var issued = time.Date(2026, 7, 15, 9, 20, 0, 0, time.UTC)

// values writes a layer whose entries follow one another from start.
type entry struct {
	hours int
	value any
}

func layerOf(uom string, start time.Time, entries ...entry) map[string]any {
	list := []any{}
	for _, e := range entries {
		list = append(list, map[string]any{"validTime": fmt.Sprintf("%s/PT%dH", start.Format("2006-01-02T15:04:05-07:00"), e.hours), "value": e.value})
		start = start.Add(time.Duration(e.hours) * time.Hour)
	}
	out := map[string]any{"values": list}
	if uom != "" {
		out["uom"] = uom
	}
	return out
}

// hourly makes n entries of one hour.
func hourly(n int, f func(i int) any) []entry {
	out := make([]entry, n)
	for i := range out {
		out[i] = entry{1, f(i)}
	}
	return out
}

// invented gives the properties of an invented grid document: 180 hours from
// six hours before it was issued, on a cell around 40.01 N 90.01 W.
func invented(at time.Time) map[string]any {
	start := at.Truncate(time.Hour).Add(-6 * time.Hour)
	const n = 180
	return map[string]any{
		"updateTime": at.Format(time.RFC3339), "validTimes": start.Format(time.RFC3339) + "/P7DT12H",
		"elevation": map[string]any{"unitCode": "wmoUnit:m", "value": 101.2}, "gridId": "XYZ", "gridX": 3, "gridY": "4",
		"temperature":                layerOf("wmoUnit:degC", start, hourly(n, func(i int) any { return 15 + float64(i%24)/2 })...),
		"dewpoint":                   layerOf("wmoUnit:degC", start, entry{n, 12.5}),
		"relativeHumidity":           layerOf("wmoUnit:percent", start, hourly(n, func(i int) any { return 50 + i%24 })...),
		"windSpeed":                  layerOf("wmoUnit:km_h-1", start, entry{n, 9.0}),
		"windGust":                   layerOf("wmoUnit:km_h-1", start, entry{n, 18.0}),
		"skyCover":                   layerOf("wmoUnit:percent", start, entry{n, 25}),
		"probabilityOfPrecipitation": layerOf("wmoUnit:percent", start, entry{12, 10}, entry{6, 60}, entry{n - 18, 20}),
		"quantitativePrecipitation":  layerOf("wmoUnit:mm", start, entry{6, 0}, entry{6, 0.6}, entry{6, 4.2}, entry{6, 0}),
		"probabilityOfThunder":       layerOf("", start, entry{n, 5}),
		"maxTemperature":             layerOf("wmoUnit:degC", start.Add(9*time.Hour), entry{13, 27.4}),
		"snowLevel":                  map[string]any{"values": []any{}},
		"weather":                    map[string]any{"values": []any{map[string]any{"validTime": "x", "value": []any{nil}}}},
		"hazards":                    map[string]any{"values": []any{}},
	}
}

// document wraps properties as the service does.
func document(t testing.TB, props map[string]any) []byte {
	t.Helper()
	b, err := json.Marshal(map[string]any{
		"id": "https://api.weather.gov/gridpoints/XYZ/3,4", "type": "Feature",
		"geometry": map[string]any{"type": "Polygon", "coordinates": []any{[]any{
			[]float64{-90.02, 40}, []float64{-90, 40}, []float64{-90, 40.02}, []float64{-90.02, 40.02}, []float64{-90.02, 40}}}},
		"properties": props})
	require.NoError(t, err)
	return b
}
