package table_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/table"
	"dawnbrush/risk"
	"dawnbrush/risk/published"
)

func resultsText(t *testing.T, f document.Focus, width int, colour bool) string {
	t.Helper()
	results, err := published.Load()
	require.NoError(t, err)
	d := &document.Document{Crops: reporttest.Crops(t), Constants: risk.Params(), Published: results, Focus: f, Width: width, Colour: colour}
	var b bytes.Buffer
	require.NoError(t, table.Published(&b, d))
	return b.String()
}

// No line is wider than the screen, and colour adds nothing but colour.
func TestPublishedFits(t *testing.T) {
	for _, width := range []int{0, 80, 100, 132} {
		for _, f := range []document.Focus{{}, {Crop: "cucumber"}, {Subject: published.Bees, Misses: true}, {Key: "Vidal10"}, {Row: "visits/vidal_12"}} {
			plain := resultsText(t, f, width, false)
			for line := range strings.SplitSeq(plain, "\n") {
				assert.LessOrEqual(t, runewidth.StringWidth(line), max(80, width), line)
			}
			coloured := escape.ReplaceAllString(resultsText(t, f, width, true), "")
			assert.Equal(t, plain, trimmed(coloured))
		}
	}
}

// Every row can be asked for by its name, every row held against the model stands in
// the whole table with its verdict, every miss with its reason, and nothing but misses
// where only they are asked for.
func TestPublishedTellsEveryRow(t *testing.T) {
	results, err := published.Load()
	require.NoError(t, err)
	flat := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	whole := flat(resultsText(t, document.Focus{}, 132, false))
	misses := flat(resultsText(t, document.Focus{Misses: true}, 132, false))
	for _, r := range results.Rows() {
		assert.Contains(t, flat(resultsText(t, document.Focus{Row: r.ID}, 132, false)), flat(r.ID))
		if !r.Tested() {
			continue
		}
		assert.Contains(t, whole, flat(r.ID+" ["+r.Source))
		assert.Contains(t, whole, flat(r.Reason))
		assert.Equal(t, r.Verdict == published.Miss, strings.Contains(misses, flat(r.ID+" ["+r.Source)), r.ID)
	}
}

// A row that a crop's numbers name can be asked for, and tells those numbers.
func TestPublishedWayThereAndBack(t *testing.T) {
	results, err := published.Load()
	require.NoError(t, err)
	set := reporttest.Crops(t)
	named := 0
	for _, c := range set.Crops() {
		var b bytes.Buffer
		require.NoError(t, table.Sources(&b, &document.Document{Crops: set, Focus: document.Focus{Crop: c.Key}}))
		screen := strings.Join(strings.Fields(b.String()), " ")
		for _, p := range c.Params {
			id := published.RowName(c.Key, p.Row)
			if id == "" {
				continue
			}
			named++
			assert.Contains(t, screen, id, "%s %s", c.Key, p.Name)
			_, ok := results.Row(id)
			require.True(t, ok, "%s %s names %s, which stands in no table", c.Key, p.Name, id)
			assert.Contains(t, resultsText(t, document.Focus{Row: id}, 300, false), c.Name+" "+p.Name+": ")
		}
	}
	assert.Greater(t, named, 100)
}
