package report_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/risk"
)

// Every report in the list prints both ways, under a name of its own.
func TestEveryReportPrints(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range report.Reports() {
		assert.False(t, seen[r.Name], r.Name)
		seen[r.Name] = true
		assert.NotEmpty(t, r.Short)
		for _, write := range []report.Write{r.Text, r.JSON} {
			d := reporttest.Fixed(t, risk.US)
			d.Constants, d.Focus.Date = risk.Params(), d.Plans[0].Date
			var b bytes.Buffer
			require.NoError(t, write(&b, d), r.Name)
			assert.NotEmpty(t, b.String(), r.Name)
		}
		got, ok := report.Named(r.Name)
		assert.True(t, ok)
		assert.Equal(t, r.Name, got.Name)
	}
	_, ok := report.Named("nothing")
	assert.False(t, ok)
}
