package jsonout_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// The fields of the air inside, spelled out by hand.
func TestInsideFields(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	day := &d.Assessment.Days[0]
	in := &risk.Inside{Logger: "tunnel.csv", Series: forecast.New(d.Assessment.Series.Start(), d.Assessment.Series.End()), Measured: 4,
		Difference: risk.Difference{Known: true, Days: 9, Way: risk.ByHour, Errors: [risk.Ways]float64{4, 1.5, 0}}}
	in.Series.Hours[0].Temp, in.Series.Hours[0].Origin = forecast.Known(31.25), forecast.OriginLogger
	day.Plantings[0].Inside = in
	d.Focus.Date, d.Focus.Planting = day.Date, day.Plantings[0].Planting.Name
	v, _ := read(t, func(w *bytes.Buffer) error { return jsonout.Workings(w, d) })
	got := v["plantings"].([]any)[0].(map[string]any)["inside"].(map[string]any)
	hours := got["hours"].([]any)
	require.Len(t, hours, 24)
	delete(got, "hours")
	assert.Equal(t, map[string]any{"logger": "tunnel.csv", "hours_measured": 4.0, "measured_until": nil, "humidity_measured": false, "days_learned_from": 9.0,
		"foretold_by": "mean difference by hour", "error_c": 1.5, "error_by_hour_c": 1.5, "error_same_as_outside_c": 4.0, "not_used": nil}, got)
	first := hours[0].(map[string]any)
	delete(first, "start")
	assert.Equal(t, map[string]any{"temp_c": 31.25, "error_c": 0.0, "humidity_percent": nil, "radiation_w_m2": nil, "origin": "logger"}, first)
	v, _ = read(t, func(w *bytes.Buffer) error { return jsonout.Today(w, d) })
	plan := v["days"].([]any)[0].(map[string]any)["plantings"].([]any)[0].(map[string]any)["inside"].(map[string]any)
	assert.Empty(t, plan["hours"], "the hours stand in workings")
}
