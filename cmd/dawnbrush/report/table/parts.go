package table

import (
	"io"
	"strings"

	"dawnbrush/cmd/dawnbrush/report/document"
)

// Part is a piece of a report in the order of reading, for those who lay it out in
// another way than on lines of a fixed width. What the lines say and what the parts
// say is the same, for both are written by the same calls.
type Part struct {
	Kind   PartKind
	Indent int        // columns it stands in; what stands further in belongs to what is before
	Lead   string     // what stands before the text: "heat", "07:00-08:00"; "" for nothing
	Text   string     // whole, not wrapped
	Titles []string   // of the columns, the first being that of the rows' names
	Rows   [][]string // cells as wide as Titles; a cell may have several lines
}

// PartKind says what a part is.
type PartKind uint8

// The kinds of parts.
const (
	Text    PartKind = iota // a sentence or a line of a list
	Title                   // of the whole report
	Heading                 // of a section
	Entry                   // a piece of work: the hours and what; texts further in tell of it
	Grid                    // a table
	Hours                   // marks of one planting's day: hours across, letters as in the strips
)

// TodayParts gives what Today prints.
func TodayParts(d *document.Document) ([]Part, error) { return partsOf(d, Today) }

// WeekParts gives what Week prints; the width decides how many days stand beside
// each other.
func WeekParts(d *document.Document) ([]Part, error) { return partsOf(d, Week) }

// recorder takes the parts of a report beside its lines.
type recorder struct{ parts []Part }

func (*recorder) Write(p []byte) (int, error) { return len(p), nil }

func partsOf(d *document.Document, write func(io.Writer, *document.Document) error) ([]Part, error) {
	plain := *d
	plain.Colour = false
	var r recorder
	err := write(&r, &plain)
	return r.parts, err
}

// note keeps a part.
func (p *paper) note(part Part) { p.parts = append(p.parts, part) }

// said keeps a text with what stood before it on its line. The first line of a report
// is its title.
func (p *paper) said(lead, text string) {
	kind := Text
	if len(p.parts) == 0 {
		kind = Title
	}
	p.note(Part{Kind: kind, Indent: p.indentOf(lead + text), Lead: strings.TrimSpace(lead), Text: strings.TrimSpace(text)})
}

func (p *paper) indentOf(s string) int { return len(s) - len(strings.TrimLeft(s, " ")) }

// lineSaid keeps a line written whole. One in columns is the first line of a piece of
// work; where it begins further in, no hours are told.
func (p *paper) lineSaid(s string) {
	var columns []string // of a line of work: the hours, what, where
	for c := range strings.SplitSeq(s, "  ") {
		if c = strings.TrimSpace(c); c != "" {
			columns = append(columns, c)
		}
	}
	if len(columns) < 2 || len(p.parts) == 0 {
		p.said("", s)
		return
	}
	part := Part{Kind: Entry, Indent: entryIndent}
	if p.indentOf(s) == entryIndent {
		part.Lead, columns = columns[0], columns[1:]
	}
	part.Text = strings.Join(columns, " ")
	p.note(part)
}

// entryIndent is where the hours of a piece of work stand.
const entryIndent = 2

// noteGrid keeps a table.
func (p *paper) noteGrid(columns []column, rows [][]string) {
	titles := make([]string, len(columns))
	for i := range columns {
		titles[i] = columns[i].title
	}
	p.note(Part{Kind: Grid, Titles: titles, Rows: rows})
}

// noteStrip keeps a planting's hours.
func (p *paper) noteStrip(s *strip) {
	part := Part{Kind: Hours, Text: s.title, Titles: []string{"hour"}}
	for _, h := range s.hours {
		part.Titles = append(part.Titles, h.Format("15"))
	}
	for _, r := range s.rows {
		row := []string{r.label}
		for _, m := range r.marks {
			row = append(row, strings.TrimSpace(string(m)))
		}
		part.Rows = append(part.Rows, row)
	}
	p.note(part)
}
