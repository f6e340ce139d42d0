// Package report lists the reports by hand. A report reads a Document and writes
// to a stream; it knows no feed, no store, no garden file and no clock.
package report

import (
	"io"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/table"
)

// Document is everything a report needs, as a value.
type Document = document.Document

// Write prints a document.
type Write func(w io.Writer, d *Document) error

// Report is one way to show a document.
type Report struct {
	Name  string // the command that asks for it
	Short string // in a few words
	Text  Write
	JSON  Write
}

// Reports lists every report. A new one is one line here.
func Reports() []Report {
	return []Report{
		{"today", "what to do today, hour by hour, and why", table.Today, jsonout.Today},
		{"quiet", "today's work, a line a task, nothing when there is none", table.Quiet, jsonout.Today},
		{"water", "what each bed wants, its past days and its outlook", table.Water, jsonout.Water},
		{"week", "a row a day, and a word for each planting and day", table.Week, jsonout.Week},
		{"workings", "one day and planting from hour to verdict", table.Workings, jsonout.Workings},
		{"what-matters", "which inputs move one day's verdict most", table.Matters, jsonout.Matters},
		{"learned", "what the garden's diary teaches", table.Learned, jsonout.Learned},
		{"sources", "where every number comes from", table.Sources, jsonout.Sources},
		{"published", "the model against published results", table.Published, jsonout.Published},
	}
}

// Named gives the report of a name; it is a fault of the program to ask for one
// that is not listed.
func Named(name string) (Report, bool) {
	for _, r := range Reports() {
		if r.Name == name {
			return r, true
		}
	}
	return Report{}, false
}
