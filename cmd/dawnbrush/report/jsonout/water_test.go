package jsonout_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
)

func TestFieldsOfWater(t *testing.T) {
	_, got := read(t, func(w *bytes.Buffer) error { return jsonout.Water(w, reporttest.Watered(t, risk.Metric)) })
	assert.Equal(t, waterFields(), got)
}

// What is not known of a bed's water is null; programs get litres whatever people
// read; ranges run from the smaller to the greater number.
func TestWaterUnknownIsNull(t *testing.T) {
	d := reporttest.Watered(t, risk.US)
	day := &d.Water.Beds[0].Days[6]
	day.Lacks = risk.Range{Lo: 40, Mid: 30, Hi: 20} // the dry end first, as the account has it
	var b bytes.Buffer
	require.NoError(t, jsonout.Water(&b, d))
	var v struct {
		Beds []struct {
			Name string
			Not  *string `json:"not_reckoned"`
			Days []struct {
				Reference *float64 `json:"reference_mm"`
				By        string   `json:"reference_by"`
				Rain      *struct{ P50 float64 }
				RainBy    string                     `json:"rain_by"`
				RainMM    *struct{ P50 float64 }     `json:"rain_mm"`
				Lacks     struct{ P10, P90 float64 } `json:"lacks_mm"`
				Advice    *struct {
					Verdict string
					Litres  float64  `json:"water_l"`
					Run     *float64 `json:"run_min"`
					Cans    *float64
				}
			}
		}
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &v))
	bed := v.Beds[0]
	assert.Nil(t, bed.Not)
	assert.Nil(t, bed.Days[6].Reference)
	assert.Equal(t, "unknown", bed.Days[6].By)
	assert.InDelta(t, 20, bed.Days[6].Lacks.P10, 1e-9)
	assert.InDelta(t, 40, bed.Days[6].Lacks.P90, 1e-9)
	assert.Nil(t, bed.Days[5].RainMM, "nobody told the rain")
	assert.Equal(t, "gauge", bed.Days[2].RainBy)
	assert.Nil(t, bed.Days[0].Advice, "nothing is advised for the past")
	require.NotNil(t, bed.Days[9].Advice)
	assert.Equal(t, "water", bed.Days[9].Advice.Verdict)
	assert.InDelta(t, 84, bed.Days[9].Advice.Litres, 1e-9)
	assert.InDelta(t, 210, *bed.Days[9].Advice.Run, 1e-9)
	assert.Nil(t, bed.Days[9].Advice.Cans)
	assert.Equal(t, "no_table", *v.Beds[5].Not)
	assert.Empty(t, v.Beds[5].Days)
}

// Every value of the account has its own word, so that a new one cannot pass as
// another or stop the program.
func TestEveryValueOfTheAccountHasAWord(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	count := func(n int, change func(k int, b *ledger.Bed, day *ledger.Day)) {
		t.Helper()
		seen := map[string]bool{}
		for k := range n {
			change(k, &d.Water.Beds[0], &d.Water.Beds[0].Days[9])
			var b bytes.Buffer
			require.NoError(t, jsonout.Water(&b, d))
			seen[b.String()] = true
		}
		assert.Len(t, seen, n)
	}
	count(int(ledger.CauseUneven), func(k int, _ *ledger.Bed, day *ledger.Day) {
		day.Advice.Causes = []ledger.Cause{ledger.CauseDry + ledger.Cause(k)}
	})
	count(int(ledger.LookFirst)+1, func(k int, _ *ledger.Bed, day *ledger.Day) { day.Advice.Verdict = ledger.Verdict(k) })
	count(int(ledger.RainNone), func(k int, _ *ledger.Bed, day *ledger.Day) { day.By = ledger.RainGauge + ledger.RainBasis(k) })
	count(int(ledger.StartSoaked)+1, func(k int, b *ledger.Bed, _ *ledger.Day) { b.Start = ledger.StartBasis(k) })
	count(int(ledger.NoWeather)+1, func(k int, b *ledger.Bed, _ *ledger.Day) { b.Why = ledger.Why(k) })
}

// A garden without beds has no account: the list is empty, not missing.
func TestWaterWithoutBeds(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	v, _ := read(t, func(w *bytes.Buffer) error { return jsonout.Water(w, d) })
	assert.Empty(t, v["beds"])
	assert.NotNil(t, v["beds"])
	today, _ := read(t, func(w *bytes.Buffer) error { return jsonout.Today(w, d) })
	assert.Equal(t, []any{}, today["days"].([]any)[0].(map[string]any)["water"])
	assert.Equal(t, forecast.Date{Year: 2026, Month: 7, Day: 16}, d.Plans[0].Date)
}

// Where the account tells, want of water is an object beside the shares that it cut.
func TestFieldsOfDrySoil(t *testing.T) {
	d := full(t)
	for i := range d.Assessment.Days {
		d.Assessment.Days[i].Plantings[0].DrySoil = risk.DrySoil{Known: true, Ks: risk.Range{Lo: 0.5, Mid: 0.75, Hi: 1}, Kept: risk.Range{Lo: 0.8, Mid: 0.9, Hi: 1}}
	}
	out, got := read(t, func(w *bytes.Buffer) error { return jsonout.Workings(w, d) })
	assert.Subset(t, got, under("plantings[].dry_soil.", "ks.p10 ks.p50 ks.p90 set_kept.p10 set_kept.p50 set_kept.p90"))
	soil := out["plantings"].([]any)[0].(map[string]any)["dry_soil"].(map[string]any)
	assert.InDelta(t, 0.9, soil["set_kept"].(map[string]any)["p50"], 1e-12)
}

// Under a cover the share, the pull outdoors and the ends of the litres are told, from
// the smaller to the greater.
func TestWaterUnderCover(t *testing.T) {
	d := reporttest.Covered(t, risk.Metric)
	v, _ := read(t, func(w *bytes.Buffer) error { return jsonout.Water(w, d) })
	bed := v["beds"].([]any)[0].(map[string]any)
	assert.Equal(t, "tunnel", bed["cover"])
	assert.Equal(t, map[string]any{"p10": 0.65, "p50": 0.72, "p90": 0.82}, bed["share_of_outdoor"])
	day := bed["days"].([]any)[9].(map[string]any)
	assert.InDelta(t, 7, day["reference_outdoors_mm"], 1e-9)
	assert.Equal(t, map[string]any{"p10": 4.55, "p50": 5.04, "p90": 5.74}, day["reference_range_mm"])
	assert.Equal(t, false, day["by_logger"])
	assert.Equal(t, map[string]any{"p10": 70.0, "p50": 84.0, "p90": 96.0}, day["advice"].(map[string]any)["water_range_l"])
}
