package table

import (
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
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
	widths, aligns := tw.NewMapper[int, int](), make(tw.Alignment, len(columns))
	header := make([]string, len(columns))
	columns = p.widened(columns, rows)
	for i, c := range columns {
		widths.Set(i, c.width+gridGap)
		header[i] = p.broken(c.title, c.width)
		aligns[i] = tw.AlignLeft
		if c.right {
			aligns[i] = tw.AlignRight
		}
	}
	var b strings.Builder
	t := tablewriter.NewTable(&b,
		tablewriter.WithRenderer(renderer.NewBlueprint(tw.Rendition{
			Borders: tw.BorderNone,
			Symbols: tw.NewSymbols(tw.StyleASCII),
			Settings: tw.Settings{Separators: tw.Separators{BetweenColumns: tw.Off, BetweenRows: tw.Off},
				Lines: tw.Lines{ShowHeaderLine: tw.Off}},
		})),
		tablewriter.WithEastAsian(tw.Off), // otherwise LANG decides the width
		tablewriter.WithHeaderAutoFormat(tw.Off),
		tablewriter.WithHeaderAutoWrap(tw.WrapNone),
		tablewriter.WithRowAutoWrap(tw.WrapNone),
		tablewriter.WithTrimSpace(tw.Off),
		tablewriter.WithPadding(tw.Padding{Right: strings.Repeat(" ", gridGap), Overwrite: true}),
		tablewriter.WithColumnWidths(widths),
		tablewriter.WithAlignment(aligns),
		tablewriter.WithHeaderAlignmentConfig(tw.CellAlignment{PerColumn: aligns}),
	)
	t.Header(header)
	for _, row := range rows {
		cells := make([]string, len(row))
		for i, cell := range row {
			cells[i] = p.broken(cell, columns[i].width)
		}
		if err := t.Append(cells); err != nil {
			return err
		}
	}
	if err := t.Render(); err != nil {
		return err
	}
	for line := range strings.Lines(b.String()) {
		p.line("  " + strings.TrimRight(line, "\n"))
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
