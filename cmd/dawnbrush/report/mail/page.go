package mail

import (
	_ "embed"
	"html/template"
	"slices"
	"strings"
	"unicode/utf8"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/table"
)

// Picture is where the page finds the week's picture and what it says.
type Picture struct {
	Alt           string
	Width, Height int    // pixels; it is shown at half of them at least
	Light, Dark   string // addresses of the two, such as cid:...
}

// page is what the template lays out.
type page struct {
	Title    string
	Sections []section
}

// section is a heading with what stands under it; the first has no heading.
type section struct {
	Heading string
	Blocks  []block
	Picture *Picture

	table bool   // begun for a table
	by    string // the title of its rows' names
}

// block is one of its fields.
type block struct {
	Text  string
	Items []item
	Entry *entry
	Cards []card
	Grid  *table.Part
	Hours *table.Part
}

// item is a line of a list with what belongs to it.
type item struct {
	Lead, Text string
	More       []string
	indent     int
}

// entry is a piece of work.
type entry struct {
	Hours, What string
	Texts       []string
	indent      int
}

// card is a row of a table too wide for a phone, read downwards.
type card struct {
	Title string
	Facts []fact
}

type fact struct{ Name, Value string }

const (
	// weekWidth makes Week lay four days or three beside each other. [chosen: what a
	// phone holds]
	weekWidth = 54

	// mostColumns is how many columns of a table a phone holds; a wider one becomes
	// cards. [chosen]
	mostColumns = 6

	// mostTogether is how long a line of a cell may be that never breaks, in letters:
	// an amount and its unit stay together. [chosen: "490 gal", "9.5 cans"; four of
	// them and a name fill a phone]
	mostTogether = 8
)

//go:embed page.html.tmpl
var pageText string

// HTML writes the page of a digest: whole in itself, without script, font or picture
// from elsewhere but those that shown names. It says what Plain says. shown may be nil.
func HTML(d *document.Document, kind Kind, shown *Picture) (string, error) {
	of, width := table.TodayParts, dayWidth
	if kind == Weekly {
		of, width = table.WeekParts, weekWidth
	}
	narrow := *d
	narrow.Width = width
	parts, err := of(&narrow)
	if err != nil {
		return "", err
	}
	p := laidOut(parts)
	if at := slices.IndexFunc(p.Sections, func(s section) bool { return s.Heading != "" }); shown != nil {
		if kind == Daily && at >= 0 {
			at++ // the day's work comes first
		}
		at = max(at, 1)
		p.Sections = slices.Insert(p.Sections, min(at, len(p.Sections)), section{Heading: "The week", Picture: shown})
	}
	t, err := template.New("page").Funcs(template.FuncMap{
		"lines": func(s string) []string { return strings.Split(s, "\n") }, "words": strings.Fields,
		"short":   func(s string) bool { return utf8.RuneCountInString(s) <= mostTogether },
		"trusted": func(s string) template.URL { return template.URL(s) }, // ours: cid: is not among the schemes that the library knows
	}).Parse(pageText)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	err = t.Execute(&b, p)
	return b.String(), err
}

// laidOut puts the parts of a report into sections.
func laidOut(parts []table.Part) page {
	p := page{Sections: []section{{}}}
	for i := range parts {
		part := cleaned(&parts[i])
		now := &p.Sections[len(p.Sections)-1]
		switch part.Kind {
		case table.Title:
			p.Title = part.Text
		case table.Heading:
			p.Sections = append(p.Sections, section{Heading: part.Text})
		case table.Entry:
			now.add(block{Entry: &entry{Hours: part.Lead, What: part.Text, indent: part.Indent}})
		case table.Hours:
			now.add(block{Hours: part})
		case table.Grid:
			if now.Heading == "" || now.table && now.by != part.Titles[0] { // on lines a table needs no heading
				p.Sections = append(p.Sections, section{Heading: headingOf(part), table: true, by: part.Titles[0]})
				now = &p.Sections[len(p.Sections)-1]
			}
			if len(part.Titles) > mostColumns {
				now.add(block{Cards: cards(part)})
			} else {
				now.add(block{Grid: part})
			}
		default:
			now.text(part)
		}
	}
	for i := range p.Sections {
		for k := range p.Sections[i].Blocks {
			p.Sections[i].Blocks[k].single()
		}
	}
	return p
}

// single makes a list of one line a paragraph.
func (b *block) single() {
	if len(b.Items) == 1 && b.Items[0].Lead == "" && len(b.Items[0].More) == 0 {
		b.Text, b.Items = b.Items[0].Text, nil
	}
}

// headingOf names a table by what its rows are.
func headingOf(grid *table.Part) string {
	if grid.Titles[0] == "day" {
		return "Day by day"
	}
	return "Plantings"
}

func (s *section) add(b block) { s.Blocks = append(s.Blocks, b) }

// text adds a text to what it belongs to: the work or the line before when it stands
// further in, a list, or a paragraph of its own at the margin.
func (s *section) text(part *table.Part) {
	if n := len(s.Blocks); n > 0 {
		last := &s.Blocks[n-1]
		if e := last.Entry; e != nil && part.Indent > e.indent {
			e.Texts = append(e.Texts, strings.TrimSpace(part.Lead+" "+part.Text))
			return
		}
		if k := len(last.Items); k > 0 && part.Indent > last.Items[k-1].indent && part.Lead == "" {
			last.Items[k-1].More = append(last.Items[k-1].More, part.Text)
			return
		}
		if len(last.Items) > 0 && part.Indent > 0 {
			last.Items = append(last.Items, item{Lead: part.Lead, Text: part.Text, indent: part.Indent})
			return
		}
	}
	if part.Indent == 0 || s.Heading == "" {
		s.add(block{Text: strings.TrimSpace(part.Lead + " " + part.Text)})
		return
	}
	s.add(block{Items: []item{{Lead: part.Lead, Text: part.Text, indent: part.Indent}}})
}

// cards turns the rows of a wide table into cards.
func cards(grid *table.Part) (out []card) {
	for _, row := range grid.Rows {
		c := card{Title: row[0]}
		for k := 1; k < len(row); k++ {
			if value := strings.ReplaceAll(row[k], "\n", ", "); value != "" {
				c.Facts = append(c.Facts, factOf(grid.Titles[k], value))
			}
		}
		out = append(out, c)
	}
	return out
}

// units are those that the head of a column may end in.
var units = []string{"C", "F", "%", "mm", "in", "km/h", "mph", "h"}

// factOf moves the unit from the head of a column to the value: a head is read once
// over a column, but "rain in: 0" is not read as inches.
func factOf(title, value string) fact {
	at := strings.LastIndex(title, " ")
	if at < 0 || !slices.Contains(units, title[at+1:]) {
		return fact{title, value}
	}
	return fact{title[:at], value + " " + title[at+1:]}
}

// cleaned gives a part without characters that cannot be seen.
func cleaned(part *table.Part) *table.Part {
	out := *part
	out.Lead, out.Text = clean(part.Lead), clean(part.Text)
	out.Rows = nil
	for _, row := range part.Rows {
		var cells []string
		for _, cell := range row {
			cells = append(cells, cleanLines(cell))
		}
		out.Rows = append(out.Rows, cells)
	}
	return &out
}
