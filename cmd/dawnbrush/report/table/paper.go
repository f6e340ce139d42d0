// Package table prints the reports for a terminal, a pinned sheet or the mail of
// cron: plain lines, the same words with and without colour.
package table

import (
	"io"
	"slices"
	"strings"

	"github.com/fatih/color"
	"github.com/mattn/go-runewidth"
)

// paper gathers lines of a report, wrapped to a width.
type paper struct {
	text   strings.Builder
	width  int
	colour bool
	runes  *runewidth.Condition
	parts  []Part // the same, for another layout
}

func newPaper(width int, colour bool) *paper {
	return &paper{width: width, colour: colour, runes: &runewidth.Condition{}}
}

// to writes everything at once, so that a failed write is seen.
func (p *paper) to(w io.Writer) error {
	if r, ok := w.(*recorder); ok {
		r.parts = p.parts
		return nil
	}
	_, err := io.WriteString(w, p.text.String())
	return err
}

// line writes a line as it is.
func (p *paper) line(s string) {
	p.lineSaid(s)
	p.put(s)
}

// put writes a line that is kept as a part elsewhere.
func (p *paper) put(s string) {
	p.text.WriteString(strings.TrimRight(s, " "))
	p.text.WriteByte('\n')
}

func (p *paper) blank() { p.text.WriteByte('\n') }

// heading writes a section's heading after an empty line, wrapped where it is long.
func (p *paper) heading(s string) {
	p.blank()
	p.note(Part{Kind: Heading, Text: s})
	for _, l := range p.wrap(s, p.width, p.width) {
		p.put(p.paint(l, color.Bold))
	}
}

// para writes text wrapped to the width, its first line after lead, the others
// indented as far.
func (p *paper) para(lead, text string) { p.hanging(lead, p.columns(lead), text) }

// hanging writes text wrapped to the width after lead, its further lines
// indented by indent columns.
func (p *paper) hanging(lead string, indent int, text string) {
	p.said(lead, text)
	lines := p.wrap(text, p.width-p.columns(lead), p.width-indent)
	for i, l := range lines {
		if i == 0 {
			p.put(lead + l)
			continue
		}
		p.put(strings.Repeat(" ", indent) + l)
	}
}

// columns counts what a text takes on the screen.
func (p *paper) columns(s string) int { return p.runes.StringWidth(s) }

// wrap breaks text at blanks. A word longer than the line stands alone, uncut.
func (p *paper) wrap(text string, first, others int) []string {
	var lines []string
	line, room := "", first
	for _, word := range p.measures(strings.Fields(text), min(first, others)) {
		if line != "" && p.columns(line)+1+p.columns(word) > room {
			lines, line, room = append(lines, line), word, others
			continue
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}

// kept are units that do not begin a line: "6 %" is read as one.
var kept = []string{"%", "C", "F", "mm", "cm", "L", "gal", "qt", "mph", "km/h", "min", "h", "degC", "degF", "kPa"}

// narrowest is the room, in columns, below which a line breaks wherever it can: a cell
// that has to be filled. [chosen]
const narrowest = 30

// measures joins numbers with the units after them, but in narrow cells.
func (p *paper) measures(fields []string, room int) []string {
	if room < narrowest {
		return fields
	}
	var out []string
	for _, f := range fields {
		n := len(out) - 1
		if n >= 0 && slices.Contains(kept, strings.TrimRight(f, ".,;:)]")) && endsInDigit(out[n]) {
			out[n] += " " + f
			continue
		}
		out = append(out, f)
	}
	return out
}

func endsInDigit(s string) bool {
	return s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9'
}

// pad fills s with blanks to a width.
func (p *paper) pad(s string, width int) string {
	return s + strings.Repeat(" ", max(0, width-p.columns(s)))
}

// paint colours s where colour may be used.
func (p *paper) paint(s string, attributes ...color.Attribute) string {
	if !p.colour || s == "" {
		return s
	}
	c := color.New(attributes...)
	c.EnableColor() // the library's own test of the terminal is global; ours was made per stream
	return c.Sprint(s)
}
