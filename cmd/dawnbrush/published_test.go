package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"dawnbrush/risk"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/published"
)

const publishedPage = "docs/published.md"

// The page of published results is made from the table and says what it says.
func TestPublishedPage(t *testing.T) {
	table, err := published.Load()
	require.NoError(t, err)
	set, err := crop.Load()
	require.NoError(t, err)
	p := page{table: table, set: set}
	text := p.make()
	if *update {
		require.NoError(t, os.WriteFile(publishedPage, []byte(text), 0o644))
	}
	have, err := os.ReadFile(publishedPage)
	require.NoError(t, err)
	was, is := strings.Split(string(have), "\n"), strings.Split(text, "\n")
	for i := range max(len(was), len(is)) {
		if i >= len(was) || i >= len(is) || was[i] != is[i] {
			t.Fatalf("%s is stale from line %d on; renew with `go test ./cmd/dawnbrush -run Published -update` and read what changed\nmust be: %.300s",
				publishedPage, i+1, strings.Join(is[min(i, len(is)):], "\n"))
		}
	}
}

// page writes the table as Markdown.
type page struct {
	strings.Builder
	table *published.Table
	set   *crop.Set
}

func (p *page) make() string {
	p.say(`# The model against published results

This page is made from [risk/published/table.csv](../../../risk/published/table.csv) and
[fits.csv](../../../risk/published/fits.csv), which a test renews from the model and holds fresh:
` + "`go test ./risk -run Published`. `dawnbrush sources --published` shows the same." + `

A hit rule was fixed for each result before the model was run: the publication's own error or
range, else 20 % of the value, or 0.10 for a share. A direction is a difference that must be above
zero. *Unforced*: no number of ours was drawn to the result. *Fitted*: one was. *By construction*:
our number is the result, or the form allows nothing else. A row in bold is one that the plan
stands on: the test fails when it misses. A miss stays in the table with its reason. The goal is
that 80 % of all rows hit.`)
	p.score()
	p.freedom()
	p.leaving()
	p.rows()
	p.notHeld()
	p.works()
	return p.String()
}

func (p *page) say(text string) { p.WriteString(text + "\n") }

// line writes a row of a table.
func (p *page) line(cells ...string) {
	for i, c := range cells {
		cells[i] = strings.NewReplacer("|", `\|`, "<", "&lt;").Replace(c)
	}
	p.say("| " + strings.Join(cells, " | ") + " |")
}

// head writes a table's head; a title that begins with > stands to the right.
func (p *page) head(titles ...string) {
	rules := make([]string, len(titles))
	for i, title := range titles {
		rules[i] = "---"
		if right, ok := strings.CutPrefix(title, ">"); ok {
			titles[i], rules[i] = right, "---:"
		}
	}
	p.say("")
	p.line(titles...)
	p.line(rules...)
}

func (p *page) name(subject string) string {
	switch subject {
	case published.Bees:
		return "bees"
	case published.Wet:
		return "wet flowers"
	}
	if c, ok := p.set.Find(subject); ok {
		return c.Name
	}
	return subject
}

func (p *page) score() {
	p.say("\n## Hits")
	p.head("", ">unforced", ">fitted", ">by construction", ">all", ">share")
	line := func(name string, keep func(*published.Row) bool) {
		cells := []string{name}
		for _, s := range []published.Standing{published.Unforced, published.Fitted, published.Constructed, ""} {
			n := p.table.Count(func(r *published.Row) bool { return keep(r) && (s == "" || r.Standing == s) })
			if n.Rows == 0 {
				cells = append(cells, "-")
			} else {
				cells = append(cells, fmt.Sprintf("%d of %d", n.Hits, n.Rows))
			}
		}
		p.line(append(cells, fmt.Sprintf("%.0f %%", 100*p.table.Count(keep).Share()))...)
	}
	for _, s := range p.table.Subjects() {
		line(p.name(s), func(r *published.Row) bool { return r.Subject == s })
	}
	line("together", func(*published.Row) bool { return true })
	line("those the plan stands on", func(r *published.Row) bool { return r.Must })
}

func (p *page) freedom() {
	p.say("\n## How free our numbers are\n\n" + published.FreedomWords)
	p.head("", ">numbers", ">published", ">derived", ">free", ">of these drawn to rows", ">rows", ">of these unforced", ">rows a free number")
	for _, f := range p.table.Freedoms(p.set, risk.Params()) {
		rows := f.Unforced.Rows + f.Fitted.Rows + f.Constructed.Rows
		p.line(p.name(f.Subject), fmt.Sprint(f.Numbers), fmt.Sprint(f.Published), fmt.Sprint(f.Derived), fmt.Sprint(f.Free), fmt.Sprint(f.Drawn),
			fmt.Sprint(rows), fmt.Sprint(f.Unforced.Rows), fmt.Sprintf("%.1f", float64(rows)/float64(max(1, f.Free))))
	}
}

func (p *page) leaving() {
	steady, unknown, moved := p.table.Steady()
	fits := p.table.Fits()
	changing, open := 0, 0
	for _, f := range fits {
		if len(f.Changes) > 0 {
			changing++
		}
		if f.Redrawn == "" {
			open++
		}
	}
	alone := p.table.Count(func(r *published.Row) bool {
		return r.Standing == published.Constructed && !slices.ContainsFunc(fits, func(f published.Fit) bool { return f.Row == r.ID })
	}).Rows
	p.say(fmt.Sprintf(`
## Leaving one row out

Each row that a number of ours was drawn to was left out, the number was drawn anew in the stated
way, and all rows that it can move were run again: %d times. The rates of visits, which are
calibrated so that a clear day sets 0.95, followed. The verdict of another row changed %s. Where a
number was drawn by eye, the stated way was run with and without the row and the number moved in
the same proportion. Two rows that are one published figure in two shapes are left out together.
Where publications contradict each other the number is drawn to one side, and the rows of the
other are tested.

Numbers that are one published figure as it stands were not drawn, and are left alone: without the
figure there would be none. %d of the rows true by construction stand for such numbers or for the form.

The aim is that no verdict hangs on another single row.
`, len(fits), times(changing), alone))
	p.say("- It is met for: " + p.drawnNames(steady) + ".")
	if len(unknown) > 0 {
		p.say(fmt.Sprintf("- Nothing changed, but some number could not be drawn anew (%d times): %s.", open, p.names(unknown)))
	}
	if len(moved) > 0 {
		p.say("- It is not met for: " + p.names(moved) + "; the rows are named below.")
	}
	name := ""
	for _, f := range fits {
		if f.Name != name {
			name = f.Name
			var crops []string
			for _, c := range f.Crops {
				crops = append(crops, p.name(c))
			}
			p.say("\n**" + strings.ToUpper(f.Name[:1]) + f.Name[1:] + "** (" + strings.Join(crops, ", ") + ": " + strings.Join(f.Params, ", ") + "): " + f.Way + ".")
			p.head("without", "with all rows", "drawn anew", "verdicts of other rows that change")
		}
		redrawn, changes := f.Redrawn, []string{}
		if redrawn == "" {
			redrawn = f.Note
		}
		for _, c := range f.Changes {
			changes = append(changes, c.Row+" becomes a "+string(c.To))
		}
		p.line(f.Row, f.Value, redrawn, strings.Join(changes, "; "))
	}
}

// times ends a sentence.
func times(n int) string {
	if n == 0 {
		return "not once"
	}
	return fmt.Sprint(n, " times")
}

func (p *page) names(subjects []string) string {
	if len(subjects) == 0 {
		return "none"
	}
	var out []string
	for _, s := range subjects {
		out = append(out, p.name(s))
	}
	return strings.Join(out, ", ")
}

// drawnNames tells too of which nothing was drawn, so that nothing could change.
func (p *page) drawnNames(subjects []string) string {
	var out []string
	for _, s := range subjects {
		name := p.name(s)
		if !slices.ContainsFunc(p.table.Fits(), func(f published.Fit) bool { return slices.Contains(f.Crops, s) }) {
			name += " (of which no number was drawn to rows)"
		}
		out = append(out, name)
	}
	return strings.Join(out, ", ")
}

func (p *page) rows() {
	p.say("\n## Rows")
	subject := ""
	for _, r := range p.table.Rows() {
		if !r.Tested() {
			continue
		}
		if r.Subject != subject {
			subject = r.Subject
			p.say("\n### " + strings.ToUpper(p.name(subject)[:1]) + p.name(subject)[1:])
			p.head("result", "setting", "published", "rule", ">model", "standing", "row and source")
		}
		id, verdict := r.ID, string(r.Verdict)
		if r.Must {
			id = "**" + id + "**"
		}
		setting := r.Setting
		if r.Verdict == published.Miss {
			verdict, setting = "MISS", setting+". *Why: "+r.Reason+".*"
		}
		p.line(verdict, setting, r.Says, r.Rule, published.Number(r.Model), string(r.Standing), fmt.Sprintf("%s (%s %s, %s)", id, r.Source, r.Where, r.Status))
	}
}

func (p *page) notHeld() {
	var reasons []string
	rows := map[string][]string{}
	n := 0
	for _, r := range p.table.Rows() {
		if r.Tested() {
			continue
		}
		if rows[r.Reason] == nil {
			reasons = append(reasons, r.Reason)
		}
		rows[r.Reason], n = append(rows[r.Reason], r.ID), n+1
	}
	slices.Sort(reasons)
	p.say(fmt.Sprintf("\n## Not held against the model\n\n%d rows of the evidence, by reason.\n", n))
	for _, why := range reasons {
		p.say(fmt.Sprintf("- %s (%d): %s", why, len(rows[why]), strings.Join(rows[why], "; ")))
	}
}

func (p *page) works() {
	p.say("\n## Works\n")
	var keys []string
	for _, r := range p.table.Rows() {
		if !slices.Contains(keys, r.Source) {
			keys = append(keys, r.Source)
		}
	}
	slices.Sort(keys)
	for _, k := range keys {
		e, _ := p.set.Bibliography().Get(k)
		p.say("- " + k + ": " + e.Citation)
	}
}
