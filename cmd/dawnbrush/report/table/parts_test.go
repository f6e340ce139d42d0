package table_test

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/table"
	"dawnbrush/risk"
)

// The parts say what the lines say: every word printed stands in a part, and every
// word of a part is printed.
func TestPartsSayWhatTheLinesSay(t *testing.T) {
	for _, report := range []struct {
		parts func(*document.Document) ([]table.Part, error)
		lines func(io.Writer, *document.Document) error
	}{{table.TodayParts, table.Today}, {table.WeekParts, table.Week}} {
		for _, d := range []*document.Document{reporttest.Fixed(t, risk.Metric), reporttest.Document(t, risk.US)} {
			d.Colour = true // parts have none
			parts, err := report.parts(d)
			require.NoError(t, err)
			require.Equal(t, table.Title, parts[0].Kind)
			d.Colour = false
			var b bytes.Buffer
			require.NoError(t, report.lines(&b, d))
			printed, kept := map[string]int{}, map[string]int{}
			for _, word := range strings.Fields(b.String()) {
				printed[word]++
			}
			headings := 0
			for _, p := range parts {
				if p.Kind == table.Heading {
					headings++
				}
				cells := append([]string{p.Lead, p.Text}, p.Titles...)
				for _, row := range p.Rows {
					assert.Len(t, row, len(p.Titles))
					cells = append(cells, row...)
				}
				for _, word := range strings.Fields(strings.Join(cells, " ")) {
					kept[word]++
				}
			}
			assert.Equal(t, printed, kept)
			assert.Positive(t, headings)
		}
	}
}

// A number and its unit stand on one line of prose: "6" at the end of one and "%." at
// the head of the next is read twice.
func TestUnitsDoNotBeginLines(t *testing.T) {
	for _, u := range []risk.Units{risk.Metric, risk.US} {
		d := reporttest.Watered(t, u)
		for _, name := range []string{"today", "week", "water", "workings"} {
			assert.NotRegexp(t, `(?m)^ +(%|gal|qt|L|cm|mm|mph|km/h|degC|kPa)([.,;]| [a-z])`, text(t, name, d), name)
		}
	}
}
