package table

import (
	"strings"

	"github.com/olekukonko/tablewriter"
)

// column is one column of a grid; its width is ours to choose.
type column struct {
	title string
	width int
	right bool
}

// gridGap is what stands between two columns.
const gridGap = 2

// grid writes a table of fixed column widths. Cells wrap at blanks; nothing is
// cut.
func (p *paper) grid(columns []column, rows [][]string) error {
	p.noteGrid(columns, rows)
	columns = p.widened(columns, rows)
	aligns, header := make([]int, len(columns)), make([]string, len(columns))
	var b strings.Builder
	t := tablewriter.NewWriter(&b)
	for i, c := range columns {
		header[i] = p.broken(c.title, c.width)
		aligns[i] = tablewriter.ALIGN_LEFT
		if c.right {
			aligns[i] = tablewriter.ALIGN_RIGHT
		}
		t.SetColMinWidth(i, c.width)
	}
	t.SetAutoWrapText(false)
	t.SetBorder(false)
	t.SetHeaderLine(false)
	t.SetColumnSeparator("")
	t.SetCenterSeparator("")
	t.SetTablePadding(strings.Repeat(" ", gridGap))
	t.SetNoWhiteSpace(true)
	t.SetColumnAlignment(aligns)
	t.Append(header) // as a row: the library's own header is centred or left, whatever its column
	for _, row := range rows {
		cells := make([]string, len(row))
		for i, cell := range row {
			cells[i] = p.broken(cell, columns[i].width)
		}
		t.Append(cells)
	}
	t.Render()
	for line := range strings.Lines(b.String()) {
		p.put("  " + strings.TrimRight(line, " \n"))
	}
	return nil
}

// broken wraps a cell to its width, so that the library never has to cut.
func (p *paper) broken(cell string, width int) string {
	var lines []string
	for line := range strings.SplitSeq(cell, "\n") {
		lines = append(lines, p.wrap(line, width, width)...)
	}
	return strings.Join(lines, "\n")
}

// split breaks words longer than a width by a blank.
func (p *paper) split(s string, width int) string {
	var out []string
	for _, word := range strings.Fields(s) {
		for p.columns(word) > width {
			head := p.runes.Truncate(word, width, "")
			if head == "" {
				break
			}
			out, word = append(out, head), word[len(head):]
		}
		out = append(out, word)
	}
	return strings.Join(out, " ")
}

// widened makes every column as wide as its longest word: the library would cut it.
func (p *paper) widened(columns []column, rows [][]string) []column {
	out := append([]column{}, columns...)
	for i := range out {
		cells := []string{out[i].title}
		for _, row := range rows {
			cells = append(cells, row[i])
		}
		out[i].width = p.widthOf(cells, out[i].width)
	}
	return out
}

// widthOf gives the width that a column of these cells needs so that no word is
// cut, at least least.
func (p *paper) widthOf(cells []string, least int) int {
	for _, c := range cells {
		for _, word := range strings.Fields(c) {
			least = max(least, p.columns(word))
		}
	}
	return least
}
