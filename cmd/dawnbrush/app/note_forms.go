package app

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/risk/memory"
)

func (p *program) noteForms() *cobra.Command {
	return &cobra.Command{
		Use:   "forms",
		Short: "how each kind of note is written, and the columns of a table",
		Args:  exactly(0, "nothing more"),
		RunE: func(*cobra.Command, []string) error {
			if p.options.json {
				return p.formsJSON()
			}
			_, err := p.out.Write([]byte(formsText()))
			return err
		},
	}
}

const formsHead = `How notes are written. Capitals are for what you fill in, brackets for what may
be left out, | for one of several. The order after the first word is free; 5min
and 5 min are the same. Texts go in quotes.

`

const formsFoot = `Days: --on 2026-07-12 or --on yesterday; times: --at 07:35.

Units: min, h; mm, cm, in; L, gal (US); g, kg, oz, lb; days, weeks. Entries are
kept in metric units.

A planting goes by its name, a part of it that no other has, its bed, or its
crop when only one planting has it. What is done to a bed that several share, or
seen in it, may name the bed. Plantings finished before the day go by their
whole name.

Columns of a CSV table, in any order; date and kind are needed:

`

func formsText() string {
	var b strings.Builder
	b.WriteString(formsHead)
	for _, f := range diary.Forms() {
		fmt.Fprintf(&b, "  note %s\n", f.Pattern)
		for _, line := range wrapAt(f.Meaning, 70) {
			fmt.Fprintf(&b, "       %s\n", line)
		}
		fmt.Fprintf(&b, "       dawnbrush note %s\n", f.Example)
	}
	b.WriteString("\n" + formsFoot)
	for _, c := range diary.Columns() {
		lines := wrapAt(c.Meaning, 60)
		fmt.Fprintf(&b, "  %-14s %s\n", c.Name, strings.Join(lines, "\n                 "))
	}
	b.WriteString("\nJSON lines hold the same under the names of dawnbrush note list --json.\n")
	return b.String()
}

func (p *program) formsJSON() error {
	type formJSON struct {
		Kind    memory.Kind `json:"kind"`
		Pattern string      `json:"pattern"`
		Example string      `json:"example"`
		Meaning string      `json:"meaning"`
	}
	type columnJSON struct {
		Name    string `json:"name"`
		Meaning string `json:"meaning"`
	}
	var forms []formJSON
	for _, f := range diary.Forms() {
		forms = append(forms, formJSON{f.Kind, f.Pattern, f.Example, f.Meaning})
	}
	var columns []columnJSON
	for _, c := range diary.Columns() {
		columns = append(columns, columnJSON{c.Name, c.Meaning})
	}
	return p.noteJSON(struct {
		Forms   []formJSON   `json:"forms"`
		Columns []columnJSON `json:"columns"`
	}{forms, columns})
}

// completeNote offers kinds, then the words of the form and the plantings.
func (p *program) completeNote(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return diary.Complete(nil, nil), cobra.ShellCompDirectiveNoFileComp
	}
	file, _, err := p.readGarden()
	if err != nil {
		return diary.Complete(args, nil), cobra.ShellCompDirectiveNoFileComp
	}
	return diary.Complete(args, &file.Garden), cobra.ShellCompDirectiveNoFileComp
}

func (p *program) completeAmend(c *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return p.completeID(c, args, typed)
	}
	return p.completeNote(c, args[1:], typed)
}

// completeID offers the ids of notes with what they say.
func (p *program) completeID(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	const none = cobra.ShellCompDirectiveNoFileComp
	if len(args) > 0 {
		return nil, none
	}
	file, _, err := p.readGarden()
	if err != nil {
		return nil, none
	}
	s, err := p.reading(&file.Garden)
	if err != nil || s == nil {
		return nil, none
	}
	defer s.Close()
	all, err := s.All(p.ctx)
	if err != nil {
		return nil, none
	}
	var out []string
	for i := range all {
		if !all[i].Removed {
			out = append(out, diary.ShortID(all[i].ID)+"\t"+all[i].Date.String()+" "+diary.Say(&all[i], file.Garden.Units))
		}
	}
	return out, none
}

// plantingNames lists the plantings for completion; none where the garden file
// cannot be read.
func (p *program) plantingNames() []string {
	file, _, err := p.readGarden()
	if err != nil {
		return nil
	}
	var out []string
	for i := range file.Garden.Plantings {
		out = append(out, file.Garden.Plantings[i].Name)
	}
	return out
}
