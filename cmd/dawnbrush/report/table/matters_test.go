package table_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/table"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

func withMatters(t *testing.T, u risk.Units) *document.Document {
	d := reporttest.Fixed(t, u)
	d.Focus.Date = d.Plans[0].Date
	for i := range d.Garden.Plantings {
		d.Matters = append(d.Matters, risk.WhatMatters(d.Assessment, d.Focus.Date, &d.Garden.Plantings[i], risk.PlanOptions{Now: d.Now}))
	}
	return d
}

// What matters fits the screen in both systems of units and has a grower's word
// for every input, with the ends' source on its line.
func TestMattersFitsAndNamesEveryInput(t *testing.T) {
	judged := 0
	for _, u := range []risk.Units{risk.Metric, risk.US} {
		d := withMatters(t, u)
		w := words.New(u, d.Zone())
		var b bytes.Buffer
		require.NoError(t, table.Matters(&b, d))
		for line := range strings.Lines(b.String()) {
			assert.LessOrEqual(t, len(strings.TrimRight(line, "\n")), document.DefaultWidth, line)
		}
		for i := range d.Matters {
			m := &d.Matters[i]
			if m.Judged {
				judged++
			}
			for k := range m.Inputs {
				in := &m.Inputs[k]
				assert.NotEqual(t, in.Input, w.Input(in), "no words for %s", in.Input)
				assert.NotContains(t, w.Doubt(in), "degC")
				if in.Doubt.Range.Low < in.Doubt.Range.High {
					assert.NotEmpty(t, w.Narrow(in, m), in.Input)
				} else {
					assert.Empty(t, w.Narrow(in, m), in.Input)
				}
			}
		}
		if u == risk.US {
			assert.NotContains(t, b.String(), " km/h")
			assert.Contains(t, b.String(), " mph")
		} else {
			assert.NotContains(t, b.String(), " mph")
			assert.Contains(t, b.String(), " km/h")
		}
	}
	assert.Positive(t, judged)
}
