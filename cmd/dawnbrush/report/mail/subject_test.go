package mail

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/table"
	"dawnbrush/risk"
)

// Work that is no task among flowers is named by the lines of the report.
func TestFirstEntries(t *testing.T) {
	parts, err := table.TodayParts(reporttest.Fixed(t, risk.Metric))
	require.NoError(t, err)
	assert.Equal(t, "hand-pollinate cucumbers, north trellis 06:10-08:00; look first zucchini (bed 4) 07:00-08:00", firstEntries(parts))
	assert.Equal(t, "water 2 beds 05:00-08:00", firstEntries([]table.Part{{Kind: table.Heading, Text: "Do"}, {Kind: table.Entry, Lead: "05:00-08:00", Text: "water 2 beds"}}))
	assert.Equal(t, "feel the soil", firstEntries([]table.Part{{Kind: table.Entry, Text: "feel the soil"}}))
}

// A garden's label is a part of a domain name, and two gardens whose names have other
// letters do not share one.
func TestLabel(t *testing.T) {
	for name, want := range map[string]string{"Sandhill Row": "sandhill-row", "  Plot #7  ": "plot-7", "A": "a"} {
		assert.Equal(t, want, label(name))
	}
	for _, name := range []string{"", "庭", "Süd", "Söd", "---"} {
		assert.Regexp(t, `^garden-[0-9a-f]{8}$`, label(name))
	}
	assert.NotEqual(t, label("Süd"), label("Söd"))
	assert.LessOrEqual(t, len(label("a very long name of a garden that nobody would write in full but somebody did")), 40)
}
