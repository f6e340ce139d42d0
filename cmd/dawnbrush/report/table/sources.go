package table

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/risk/published"
	"dawnbrush/risk/source"
)

// sources is the report of the evidence while it is written.
type sources struct {
	*paper
	d *document.Document
}

// Sources prints the evidence for what is in focus: a crop, the model's own
// numbers, a work of the bibliography, or counts of all of them.
func Sources(w io.Writer, d *document.Document) error {
	k := sources{newPaper(d.Columns(), d.Colour), d}
	switch {
	case d.Focus.Key != "":
		k.work(d.Focus.Key)
	case d.Focus.Model:
		k.line(k.paint("The model's own numbers", color.Bold))
		k.counts(d.Constants)
		k.blank()
		for i := range d.Constants {
			k.param("", &d.Constants[i])
		}
	case d.Focus.Tables:
		k.line(k.paint("Printed tables that the account of water reads", color.Bold))
		k.counts(d.Tables)
		k.blank()
		for i := range d.Tables {
			k.param("", &d.Tables[i])
		}
	case d.Focus.Crop != "":
		c, ok := d.Crops.Find(d.Focus.Crop)
		if !ok {
			return fmt.Errorf("there is no crop %q", d.Focus.Crop)
		}
		k.line(k.paint("Numbers and facts for "+c.Name, color.Bold))
		k.counts(c.Params)
		k.blank()
		for i := range c.Params {
			k.param(c.Key, &c.Params[i])
		}
		k.blank()
		k.para("", "`dawnbrush sources --published ROW` tells how the model stands to a row.")
	default:
		return k.all(w)
	}
	return k.to(w)
}

// all prints counts for every crop and for the model, and the bibliography.
func (k *sources) all(w io.Writer) error {
	k.line(k.paint("Where the numbers come from", color.Bold))
	k.para("", "read: seen in the work. quoted: relayed by another. derived: computed from one that was read. memory: recalled. "+
		"common-practice: growers go by it. chosen: our own choice, with its reason.")
	columns := []column{{"", 24, false}}
	for _, s := range source.Statuses() {
		columns = append(columns, column{strings.ReplaceAll(s.String(), "-", " "), 6, true})
	}
	row := func(name string, params []source.Param) []string {
		out := []string{name}
		for _, s := range source.Statuses() {
			out = append(out, fmt.Sprint(countStatus(params, s)))
		}
		return out
	}
	var rows [][]string
	for _, c := range k.d.Crops.Crops() {
		rows = append(rows, row(c.Name, c.Params))
	}
	rows = append(rows, row("the model itself", k.d.Constants), row("printed tables (water)", k.d.Tables))
	k.blank()
	if err := k.grid(columns, rows); err != nil {
		return err
	}
	k.heading("Works")
	bib := k.d.Crops.Bibliography()
	for _, key := range bib.Keys() {
		e, _ := bib.Get(key)
		k.hanging("  "+key+"  ", 6, e.Citation)
	}
	k.blank()
	k.para("", "`dawnbrush sources CROP`, `dawnbrush sources model`, `dawnbrush sources tables` and `dawnbrush sources KEY` tell more; `dawnbrush sources --published` holds the model against published results.")
	return k.to(w)
}

// rowsOf names the published results that a number, or evidence beside it, is from.
func (p *paper) rowsOf(crop string, x *source.Param) {
	var rows []string
	add := func(row string) {
		if row = published.RowName(crop, row); row != "" && !slices.Contains(rows, row) {
			rows = append(rows, row)
		}
	}
	add(x.Row)
	for i := range x.Others {
		add(x.Others[i].Row)
	}
	if len(rows) > 0 {
		p.hanging("      row: ", 8, strings.Join(rows, "; "))
	}
}

func countStatus(params []source.Param, s source.Status) (n int) {
	for i := range params {
		if params[i].Status == s {
			n++
		}
	}
	return n
}

func (k *sources) counts(params []source.Param) {
	var parts []string
	for _, s := range source.Statuses() {
		if n := countStatus(params, s); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, s))
		}
	}
	k.para("", fmt.Sprintf("%d: ", len(params))+strings.Join(parts, ", ")+".")
}

// work prints a citation and every number that rests on it.
func (k *sources) work(key string) {
	e, ok := k.d.Crops.Bibliography().Get(key)
	if !ok {
		k.line("no source " + key)
		return
	}
	k.line(k.paint(key, color.Bold))
	k.para("", e.Citation)
	k.rests("the model itself", "", k.d.Constants, key)
	k.rests("printed tables (water)", "", k.d.Tables, key)
	for _, c := range k.d.Crops.Crops() {
		k.rests(c.Name, c.Key, c.Params, key)
	}
}

func (k *sources) rests(name, crop string, params []source.Param, key string) {
	first := true
	head := func() {
		if first {
			k.heading(name)
			first = false
		}
	}
	for i := range params {
		p := &params[i]
		if p.Key == key {
			head()
			k.param(crop, p)
			continue
		}
		for _, o := range p.Others {
			if o.Key == key {
				head()
				k.hanging("  ", 6, p.Name+": "+alternative(&o, p.Unit)+" (not taken)")
			}
		}
	}
}

// param prints a number with unit, source, place, status, note, what else was found
// and its rows in the table of published results. crop is its key, empty for a number
// of the model.
func (p *paper) param(crop string, x *source.Param) {
	text := x.Name + ": " + content(x) + " [" + origin(x.Key, x.Where, x.Status) + "]"
	if x.Note != "" {
		text += " - " + x.Note
	}
	p.hanging("  ", 6, text)
	for i := range x.Others {
		p.hanging("      also: ", 8, alternative(&x.Others[i], x.Unit))
	}
	p.rowsOf(crop, x)
}

func content(x *source.Param) string {
	unit := ""
	if x.Unit != "" && x.Unit != "1" {
		unit = " " + x.Unit
	}
	switch x.Kind {
	case source.Span:
		return fmt.Sprintf("%g to %g%s", x.Range.Low, x.Range.High, unit)
	case source.Points:
		var parts []string
		for _, p := range x.Curve {
			parts = append(parts, fmt.Sprintf("%g at %g", p[1], p[0]))
		}
		return strings.Join(parts, ", ") + " " + x.X
	case source.Words:
		return x.Text
	}
	s := fmt.Sprintf("%.4g%s", x.Value, unit)
	if x.Range != nil {
		s += fmt.Sprintf(" (%g to %g)", x.Range.Low, x.Range.High)
	}
	return s
}

func origin(key, where string, status source.Status) string {
	s := key
	if where != "" {
		s += " " + where
	}
	if key == status.String() {
		return s
	}
	return s + ", " + status.String()
}

func alternative(o *source.Alternative, unit string) string {
	if o.Unit != "" {
		unit = o.Unit
	}
	if unit == "1" {
		unit = ""
	}
	var parts []string
	switch {
	case o.Value != nil:
		parts = append(parts, strings.TrimSpace(fmt.Sprintf("%g %s", *o.Value, unit)))
	case o.Range != nil:
		parts = append(parts, strings.TrimSpace(fmt.Sprintf("%g to %g %s", o.Range.Low, o.Range.High, unit)))
	}
	if o.Text != "" {
		parts = append(parts, o.Text)
	}
	return strings.Join(parts, ", ") + " [" + origin(o.Key, o.Where, o.Status) + "]"
}
