package table_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// wentThrough gives the workings of one planting of the sample garden, changed, on one line.
func wentThrough(t *testing.T, key string, change func(*risk.Planting), from forecast.Value) string {
	g, s := reporttest.Garden(t), reporttest.Series(t)
	for i := range s.Hours {
		s.Hours[i].WindFrom = from
	}
	d := (*document.Document)(nil)
	for i := range g.Plantings {
		if p := &g.Plantings[i]; p.Crop.Key == key {
			change(p)
			d = reporttest.Plan(t, g, s, risk.Metric)
			d.Focus.Date, d.Focus.Planting = reporttest.Today, p.Name
			break
		}
	}
	return strings.Join(strings.Fields(text(t, "workings", d)), " ")
}

// What was published of a planting's type stands in its workings, each number with where
// it is from; without a type nothing is said.
func TestWorkingsNameTheType(t *testing.T) {
	of := func(kind string, sets crop.Setting) string {
		return wentThrough(t, "cucumber", func(p *risk.Planting) { p.Type, p.Setting = kind, sets }, forecast.Value{})
	}
	pickling := of("pickling", crop.Monoecious)
	assert.Contains(t, pickling, "cucumber (pickling)")
	assert.Contains(t, pickling, "Type pickling, short and blocky, for pickles; gherkins: picked 5 to 10 cm [ISUcuke column text, read] long; "+
		"5 to 10 days [HIfield Maturity, quoted] from flower to picking; again every 2 to 3 days [ISUcuke column text, read]; 8 to 12 visits [MSU19 p. 14, read] a flower. All else is the crop's.")
	assert.Contains(t, of("european", crop.Parthenocarpic), "sets as parthenocarpic [UFcuke introduction, read]; picked 30 to 36 cm")
	assert.Contains(t, of("european", crop.Monoecious), "usually sets as parthenocarpic [UFcuke introduction, read], but this planting as the garden file tells")
	assert.NotContains(t, of("", crop.Monoecious), "All else is the crop's")
}

// What the wind's way over few rows brings is told, or what has to be known for it.
func TestWorkingsTellOfTheWindOverRows(t *testing.T) {
	of := func(p risk.Planting, from forecast.Value) string {
		return wentThrough(t, "sweet-corn", func(q *risk.Planting) { q.Rows, q.RowLength, q.RowsRun = p.Rows, p.RowLength, p.RowsRun }, from)
	}
	row := risk.Planting{Rows: 1, RowLength: 15, RowsRun: risk.NorthSouth}
	assert.Contains(t, of(row, forecast.Known(190)), "the rows run north-south, and over the hours of shed the wind blows at 10 degrees to them")
	assert.Contains(t, of(row, forecast.Value{}), "for where the wind comes from is not known")
	assert.Contains(t, of(risk.Planting{Rows: 1}, forecast.Known(190)), "rows_run and row_length in the garden file tell it better")
	assert.NotContains(t, of(risk.Planting{Rows: 4, RowLength: 15, RowsRun: risk.NorthSouth}, forecast.Known(190)), "Few rows")
}
