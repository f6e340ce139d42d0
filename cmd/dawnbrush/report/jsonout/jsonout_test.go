package jsonout_test

import (
	"bytes"
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/published"
)

// paths lists the fields of a value as "days[].weather.high_c". Objects whose
// keys are names of things (crops, sources) stand as "*".
func paths(v any, at string, into map[string]bool) {
	switch x := v.(type) {
	case map[string]any:
		for k, child := range x {
			if at == "sources" || at == "params" {
				k = "*"
			}
			paths(child, strings.TrimPrefix(at+"."+k, "."), into)
		}
	case []any:
		if len(x) == 0 {
			into[at+"[]"] = true
		}
		for _, child := range x {
			paths(child, at+"[]", into)
		}
	default:
		into[at] = true
	}
}

func read(t *testing.T, write func(w *bytes.Buffer) error) (map[string]any, []string) {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, write(&b))
	var v map[string]any
	require.NoError(t, json.Unmarshal(b.Bytes(), &v))
	into := map[string]bool{}
	paths(v, "", into)
	var out []string
	for p := range into {
		if list, empty := strings.CutSuffix(p, "[]"); empty && !into[p] || empty && hasPrefix(into, list+"[]") {
			continue // an empty list whose members are seen elsewhere
		}
		out = append(out, p)
	}
	slices.Sort(out)
	return v, out
}

func hasPrefix(into map[string]bool, prefix string) bool {
	for p := range into {
		if strings.HasPrefix(p, prefix+".") {
			return true
		}
	}
	return false
}

func full(t *testing.T) *document.Document {
	d := reporttest.Watered(t, risk.Metric)
	d.Constants, d.Focus.Date = risk.Params(), d.Plans[0].Date
	return d
}

// The fields are a promise: they are spelled out here by hand, and adding one
// means adding it here and in docs/json.md.
func TestFieldsOfPlan(t *testing.T) {
	d := full(t)
	d.Plans[0].More = d.Plans[0].Tasks[:1]
	d.Plans[0].Tasks[1].Also = []*risk.Planting{d.Plans[0].Tasks[2].Planting}
	_, today := read(t, func(w *bytes.Buffer) error { return jsonout.Today(w, d) })
	assert.Equal(t, planFields(), today)
	_, week := read(t, func(w *bytes.Buffer) error { return jsonout.Week(w, d) })
	assert.Equal(t, planFields(), week, "the same fields as today")
}

// Of corn whose first silk was seen the ears are an object.
func TestFieldsOfEars(t *testing.T) {
	d := full(t)
	for i := range d.Assessment.Days {
		d.Assessment.Days[i].Plantings[0].Ears = risk.Ears{Known: true, Filled: risk.Range{Lo: 0.1, Mid: 0.5, Hi: 0.9}, Waits: risk.Tip, Dark: 2}
		d.Assessment.Days[i].Plantings[0].OverRows = risk.OverRows{Known: true, Share: 0.4, Angle: 30}
	}
	out, got := read(t, func(w *bytes.Buffer) error { return jsonout.Workings(w, d) })
	assert.Subset(t, got, under("plantings[].ears.", earsFields))
	ears := out["plantings"].([]any)[0].(map[string]any)["ears"].(map[string]any)
	assert.Equal(t, "tip", ears["waiting_part"])
	assert.InDelta(t, 0.5, ears["filled"].(map[string]any)["p50"], 1e-12)
	assert.InDelta(t, 2, ears["unknown_days"], 1e-12)
	assert.Equal(t, map[string]any{"share": 0.4, "angle_deg": 30.0}, out["plantings"].([]any)[0].(map[string]any)["wind_over_rows"])
}

func TestFieldsOfWorkings(t *testing.T) {
	d := full(t)
	d.Water.Beds[2].Days[9].By, d.Water.Beds[2].Days[9].Advice = ledger.RainUnknown, ledger.Advice{} // both are null then
	_, got := read(t, func(w *bytes.Buffer) error { return jsonout.Workings(w, d) })
	assert.Equal(t, workingsFields(), got)
}

func TestFieldsOfWhatMatters(t *testing.T) {
	d := full(t)
	for i := range d.Garden.Plantings {
		m := risk.WhatMatters(d.Assessment, d.Focus.Date, &d.Garden.Plantings[i], risk.PlanOptions{})
		if m.Judged {
			d.Matters = append(d.Matters, m)
		}
	}
	_, got := read(t, func(w *bytes.Buffer) error { return jsonout.Matters(w, d) })
	want := mattersFields()
	assert.Subset(t, want, got, "no field that is not promised")
	for _, f := range want {
		if !strings.Contains(f, "curve[]") { // no input here is a curve
			assert.Contains(t, got, f)
		}
	}
}

func TestFieldsOfLearned(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	d.Taught = reporttest.Taught(t)
	_, got := read(t, func(w *bytes.Buffer) error { return jsonout.Learned(w, d) })
	assert.Equal(t, learnedFields(), got)
}

func TestFieldsOfSources(t *testing.T) {
	_, got := read(t, func(w *bytes.Buffer) error { return jsonout.Sources(w, full(t)) })
	assert.Equal(t, sourcesFields(), got)
}

// withChange is the table as if a row left out changed the verdict of another.
func withChange(t *testing.T) *published.Table {
	t.Helper()
	real, err := published.Load()
	require.NoError(t, err)
	fits := real.Fits()
	fits[0].Changes = []published.Change{{Row: fits[1].Row, To: published.Miss}}
	rows, err := published.Encode(real.Rows())
	require.NoError(t, err)
	left, err := published.EncodeFits(fits)
	require.NoError(t, err)
	table, err := published.Parse(rows, left, full(t).Crops.Bibliography())
	require.NoError(t, err)
	return table
}

func TestFieldsOfPublished(t *testing.T) {
	d := full(t)
	d.Published, d.Focus = withChange(t), document.Focus{}
	_, got := read(t, func(w *bytes.Buffer) error { return jsonout.Published(w, d) })
	assert.Equal(t, publishedFields(), got)
}

func TestFieldsOfFailure(t *testing.T) {
	f := jsonout.Failure{Code: 78, Message: "m", Hint: "h", Faults: []jsonout.Fault{{File: "f", Line: 1, Column: 2, Message: "m"}}}
	_, got := read(t, func(w *bytes.Buffer) error { return jsonout.WriteFailure(w, f) })
	assert.Equal(t, failureFields(), got)
}

func TestFieldsOfSettings(t *testing.T) {
	s := jsonout.Settings{File: "garden.toml", Faults: []jsonout.Fault{{File: "f"}}}
	s.Add("place", "lat", "40", "line 3", 3)
	_, got := read(t, func(w *bytes.Buffer) error { return s.Write(w) })
	assert.Equal(t, settingsFields(), got)
}

// Every field is explained in the manual by its last name.
func TestFieldsAreDocumented(t *testing.T) {
	manual, err := os.ReadFile("../../docs/json.md")
	require.NoError(t, err)
	for _, list := range [][]string{planFields(), workingsFields(), waterFields(), sourcesFields(), publishedFields(), failureFields(), settingsFields(), learnedFields()} {
		for _, f := range list {
			for part := range strings.SplitSeq(f, ".") {
				part = strings.TrimRight(part, "[]*")
				if part != "" {
					assert.Contains(t, string(manual), "`"+part+"`", f)
				}
			}
		}
	}
}

// What is not known is null, never a number; times carry the garden's offset;
// the schema comes first.
func TestUnknownIsNull(t *testing.T) {
	d := full(t)
	var b bytes.Buffer
	require.NoError(t, jsonout.Week(&b, d))
	assert.True(t, strings.HasPrefix(b.String(), "{\n  \"schema\": 1,"), b.String()[:40])
	var v struct {
		Made     string
		Complete bool
		Gaps     []struct {
			Layers []string `json:"unknown_layers"`
		}
		Days []struct {
			Weather struct {
				Rain     *float64 `json:"rain_mm"`
				NightLow *float64 `json:"night_low_c"`
			}
			Tasks []struct {
				From *string
				To   *string
			}
		}
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &v))
	assert.Equal(t, "2026-07-16T05:00:00-04:00", v.Made)
	assert.False(t, v.Complete)
	assert.Equal(t, []string{"wind"}, v.Gaps[0].Layers)
	assert.NotNil(t, v.Days[0].Weather.Rain)
	assert.Nil(t, v.Days[2].Weather.Rain, "rain not forecast is null, not 0")
	assert.Nil(t, v.Days[0].Weather.NightLow)
	assert.Nil(t, v.Days[0].Tasks[2].From, "a task with an end alone")
	for _, task := range v.Days[0].Tasks {
		_, err := time.Parse(time.RFC3339, *task.To)
		assert.NoError(t, err)
	}
}

// A limit carries the source of its number, and the citation is there.
func TestLimitsCarryTheirSource(t *testing.T) {
	d := reporttest.Document(t, risk.Metric)
	d.Constants = risk.Params()
	var b bytes.Buffer
	require.NoError(t, jsonout.Week(&b, d))
	var v struct {
		Days []struct {
			Flags     []struct{ Param, Source, Status string }
			Plantings []struct {
				Flags []struct{ Param, Source, Status string }
			}
		}
		Sources map[string]string
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &v))
	n := 0
	for _, day := range v.Days {
		for _, p := range day.Plantings {
			day.Flags = append(day.Flags, p.Flags...)
		}
		for _, f := range day.Flags {
			n++
			assert.NotEmpty(t, f.Source, f.Param)
			assert.NotEmpty(t, f.Status, f.Param)
			assert.NotEmpty(t, v.Sources[f.Source], f.Source)
		}
	}
	assert.Greater(t, n, 5)
}

func TestSourcesOfOneWork(t *testing.T) {
	d := full(t)
	d.Focus.Key = "CukeTube"
	v, _ := read(t, func(w *bytes.Buffer) error { return jsonout.Sources(w, d) })
	params := v["params"].(map[string]any)
	assert.NotEmpty(t, params["cucumber"])
	assert.Empty(t, params["tomato"])
	assert.Len(t, v["sources"], 1)
}
