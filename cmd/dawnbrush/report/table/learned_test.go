package table_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/table"
	"dawnbrush/risk"
)

// What the diary teaches fits a screen, says every cultivar, and keeps to one
// system of units.
func TestLearnedFitsTheScreen(t *testing.T) {
	for _, u := range []risk.Units{risk.Metric, risk.US} {
		d := reporttest.Fixed(t, u)
		d.Taught, d.Constants = reporttest.Taught(t), risk.Params()
		var b bytes.Buffer
		require.NoError(t, table.Learned(&b, d))
		for line := range strings.Lines(b.String()) {
			assert.LessOrEqual(t, len(strings.TrimRight(line, "\n")), 80, line)
		}
		assert.NotContains(t, b.String(), "\n\n\n", "one empty line parts the crops")
		assert.NotContains(t, b.String(), "n is small")
		text := strings.Join(strings.Fields(b.String()), " ")
		for _, want := range []string{"Gatepost", "Little", "sets better by bees", "cannot tell yet which sets better by hand", "not used: seen before it was sown",
			"not used: far from all the book gives", "from a chance of 90 % on", map[risk.Units]string{risk.Metric: "C degree days", risk.US: "F degree days"}[u]} {
			assert.Contains(t, text, want)
		}
		assert.NotContains(t, text, map[risk.Units]string{risk.US: "C degree days", risk.Metric: "F degree days"}[u])
	}
}
