package table

import (
	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
)

// second says where another forecast parts from the plan's.
func (p *paper) second(w words.Words, d *document.Document) {
	if d.Second == nil {
		return
	}
	lines := w.Differences(d.Second.Differences)
	for _, x := range d.Partings(w.Cell, words.Verb) {
		lines = append(lines, w.Parting(x.Date, x.Planting, x.Here, x.There))
	}
	if len(lines) == 0 {
		p.blank()
		p.para("", "A second forecast, of the "+d.Second.Forecast.Source+", says the same of today and tomorrow.")
		return
	}
	p.heading("Two forecasts")
	p.hanging("  ", 4, "here: "+d.Forecast.Source+"; there: "+d.Second.Forecast.Source)
	for _, l := range lines {
		p.hanging("  ", 4, l)
	}
}

// credits prints the lines that the licences of the data ask for.
func (p *paper) credits(d *document.Document) {
	lines := d.Credits()
	if len(lines) == 0 {
		return
	}
	p.blank()
	for _, l := range lines {
		p.para("", l)
	}
}
