package table

import (
	"fmt"
	"io"
	"strings"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/risk/published"
)

// results is the report of the published results while it is written.
type results struct {
	*paper
	d *document.Document
	t *published.Table
}

// Published prints the published results that the model is held against: the score,
// how free our numbers are, the rows in focus, misses with their reasons, and what
// leaving a row out changes.
func Published(w io.Writer, d *document.Document) error {
	if d.Published == nil {
		return fmt.Errorf("there is no table of published results")
	}
	k := results{newPaper(d.Columns(), d.Colour), d, d.Published}
	k.line(k.paint("The model against published results", color.Bold))
	if d.Focus.Row != "" {
		k.one(d.Focus.Row)
		return k.to(w)
	}
	k.para("", "A rule was fixed for each result beforehand: the publication's own error or range, else 20 %, or 0.10 for a share. "+
		"Unforced: no number of ours was drawn to the result. Fitted: one was. By construction: our number is the result, or the form allows nothing else.")
	k.blank()
	if err := k.score(); err != nil {
		return err
	}
	if d.Focus == (document.Focus{}) {
		k.freedomWords()
		if err := k.freedom(); err != nil {
			return err
		}
	}
	k.rows()
	k.notHeld()
	k.leaving()
	k.blank()
	k.para("", "`dawnbrush sources --published ROW` tells a row's work, the numbers of ours that hold it, and what leaving it out would change.")
	return k.to(w)
}

func scored(s published.Score) string {
	if s.Rows == 0 {
		return "-"
	}
	return fmt.Sprintf("%d of %d", s.Hits, s.Rows)
}

// score prints hits by crop and standing.
func (k *results) score() error {
	columns := []column{{"hits", 22, false}, {"unforced", 9, true}, {"fitted", 9, true}, {"by construction", 12, true}, {"all", 10, true}, {"", 5, true}}
	line := func(name string, keep func(*published.Row) bool) []string {
		out := []string{name}
		for _, s := range []published.Standing{published.Unforced, published.Fitted, published.Constructed} {
			out = append(out, scored(k.t.Count(func(r *published.Row) bool { return keep(r) && r.Standing == s })))
		}
		all := k.t.Count(keep)
		return append(out, scored(all), fmt.Sprintf("%.0f %%", 100*all.Share()))
	}
	focus := k.d.Focus
	focus.Misses = false
	keep := func(r *published.Row) bool { return focus.Keeps(r) }
	var rows [][]string
	for _, s := range k.t.Subjects() {
		of := func(r *published.Row) bool { return keep(r) && r.Subject == s }
		if k.t.Count(of).Rows > 0 {
			rows = append(rows, line(k.subject(s), of))
		}
	}
	if len(rows) != 1 {
		rows = append(rows, line("together", keep))
	}
	rows = append(rows, line("those the plan stands on", func(r *published.Row) bool { return keep(r) && r.Must }))
	return k.grid(columns, rows)
}

// subject gives the words for whose row it is.
func (k *results) subject(s string) string {
	switch s {
	case published.Bees:
		return "bees"
	case published.Wet:
		return "wet flowers"
	}
	if c, ok := k.d.Crops.Find(s); ok {
		return c.Name
	}
	return s
}

func (k *results) freedomWords() {
	k.heading("How free our numbers are")
	k.para("", published.FreedomWords)
	k.blank()
}

// freedom sets numbers against rows, a line a crop.
func (k *results) freedom() error {
	columns := []column{{"numbers", 20, false}, {"all", 4, true}, {"published", 9, true}, {"derived", 7, true}, {"free", 4, true}, {"of these drawn to rows", 8, true}, {"rows", 4, true}, {"of these unforced", 8, true}}
	var rows [][]string
	for _, f := range k.t.Freedoms(k.d.Crops, k.d.Constants) {
		n := f.Unforced.Rows + f.Fitted.Rows + f.Constructed.Rows
		row := []string{k.subject(f.Subject)}
		for _, v := range []int{f.Numbers, f.Published, f.Derived, f.Free, f.Drawn, n, f.Unforced.Rows} {
			row = append(row, fmt.Sprint(v))
		}
		rows = append(rows, row)
	}
	return k.grid(columns, rows)
}

// rows prints the results in focus, those of a crop together.
func (k *results) rows() {
	subject := ""
	for _, r := range k.t.Rows() {
		if !r.Tested() || !k.d.Focus.Keeps(&r) {
			continue
		}
		if r.Subject != subject {
			subject = r.Subject
			k.heading(k.subject(subject))
		}
		k.row(&r)
	}
}

// row prints a result held against the model.
func (k *results) row(r *published.Row) {
	lead, paint := "  hit   ", color.FgGreen
	if r.Verdict == published.Miss {
		lead, paint = "  MISS  ", color.FgRed
	}
	first := len(lead)
	for i, line := range k.wrap(r.Setting, k.width-first, k.width-first) {
		if i > 0 {
			lead = strings.Repeat(" ", first)
		}
		k.line(k.paint(lead, paint) + line)
	}
	held := fmt.Sprintf("published: %s; rule %s; the model: %s; %s", r.Says, r.Rule, published.Number(r.Model), r.Standing)
	if r.Must {
		held += ", must hit"
	}
	k.para(strings.Repeat(" ", first), held)
	if r.Reason != "" {
		k.para(strings.Repeat(" ", first), "why: "+r.Reason)
	}
	k.para(strings.Repeat(" ", first), r.ID+" ["+origin(r.Source, r.Where, r.Status)+"]")
}

// notHeld prints what cannot be held against the model, by reason.
func (k *results) notHeld() {
	if k.d.Focus.Misses {
		return
	}
	var reasons []string
	ids := map[string][]string{}
	n := 0
	for _, r := range k.t.Rows() {
		if r.Tested() || !k.d.Focus.Keeps(&r) {
			continue
		}
		if ids[r.Reason] == nil {
			reasons = append(reasons, r.Reason)
		}
		ids[r.Reason] = append(ids[r.Reason], r.ID)
		n++
	}
	if n == 0 {
		return
	}
	k.heading(fmt.Sprintf("Not held against the model: %d", n))
	for _, why := range reasons {
		k.hanging("  ", 4, fmt.Sprintf("%d: %s", len(ids[why]), why))
		if k.d.Focus != (document.Focus{}) {
			k.para("      ", strings.Join(ids[why], "; "))
		}
	}
}

// leaving prints which rows, left out of a drawing, change others' verdicts.
func (k *results) leaving() {
	n, changing, open := 0, []published.Fit{}, 0
	for _, f := range k.t.Fits() {
		row, _ := k.t.Row(f.Row)
		if focus := k.d.Focus; focus.Misses || !focus.Keeps(&row) {
			continue
		}
		n++
		if f.Redrawn == "" {
			open++
		}
		if len(f.Changes) > 0 {
			changing = append(changing, f)
		}
	}
	if n == 0 {
		return
	}
	k.heading("Leaving one row out")
	text := fmt.Sprintf("Each row was left out of what was drawn to it, the numbers were drawn anew and all rows that they can move run again: %d times.", n)
	if len(changing) == 0 {
		text += " The verdict of another row changed not once."
	} else {
		text += fmt.Sprintf(" The verdict of another row changed %d times.", len(changing))
	}
	if open > 0 {
		text += fmt.Sprintf(" %d times nothing could be drawn without the row.", open)
	}
	k.para("", text)
	if steady, unknown, moved := k.t.Steady(); k.d.Focus == (document.Focus{}) {
		text := "No verdict hangs on another single row: " + k.subjects(steady) + "."
		if len(unknown) > 0 {
			text += " None changed, but some number could not be drawn anew: " + k.subjects(unknown) + "."
		}
		if len(moved) > 0 {
			text += " Some do: " + k.subjects(moved) + "."
		}
		k.para("", text)
	}
	for i := range changing {
		k.fit(&changing[i])
	}
}

func (k *results) subjects(list []string) string {
	if len(list) == 0 {
		return "none"
	}
	var out []string
	for _, s := range list {
		out = append(out, k.subject(s))
	}
	return strings.Join(out, ", ")
}

// fit prints one row left out.
func (k *results) fit(f *published.Fit) {
	if f.Redrawn == "" {
		k.hanging("  ", 6, fmt.Sprintf("%s without %s: %s", f.Name, f.Row, f.Note))
		return
	}
	text := fmt.Sprintf("%s without %s: %s becomes %s; ", f.Name, f.Row, f.Value, f.Redrawn)
	var parts []string
	for _, c := range f.Changes {
		parts = append(parts, fmt.Sprintf("%s becomes a %s", c.Row, c.To))
	}
	if len(parts) == 0 {
		parts = []string{"no other verdict changes"}
	}
	k.hanging("  ", 6, text+strings.Join(parts, ", "))
}

// one prints everything about a row.
func (k *results) one(id string) {
	r, ok := k.t.Row(id)
	if !ok {
		k.line("no row " + id)
		return
	}
	k.heading(k.subject(r.Subject))
	if r.Tested() {
		k.row(&r)
	} else {
		k.hanging("  ", 6, r.Says)
		k.hanging("  ", 6, "not held against the model: "+r.Reason)
		k.hanging("  ", 6, r.ID+" ["+origin(r.Source, r.Where, r.Status)+"]")
	}
	if e, ok := k.d.Crops.Bibliography().Get(r.Source); ok {
		k.hanging("  ", 6, e.Citation)
	}
	k.heading("Our numbers")
	holders := k.t.Holders(k.d.Crops, id)
	for _, h := range holders {
		k.holder(h)
	}
	if len(holders) == 0 {
		k.line("  no number of a crop file names it or was drawn to it")
	}
	first := true
	for _, f := range k.t.Fits() {
		if f.Row != id {
			continue
		}
		if first {
			k.heading("Leaving it out")
			first = false
		}
		k.hanging("  ", 6, "drawn: "+f.Way)
		k.fit(&f)
	}
}

// holder prints a number of ours that has to do with a row.
func (k *results) holder(h published.Holder) {
	c, ok := k.d.Crops.Find(h.Crop)
	if !ok {
		return
	}
	how := "the row stands beside it"
	switch {
	case h.Taken:
		how = "names the row"
	case h.Drawn:
		how = "was drawn to the row"
	}
	for i := range c.Params {
		if c.Params[i].Name == h.Param {
			k.hanging("  ", 6, fmt.Sprintf("%s %s: %s (%s)", c.Name, h.Param, content(&c.Params[i]), how))
		}
	}
}
