package app

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/jsonout"
)

func (p *program) check() *cobra.Command {
	return &cobra.Command{
		Use:   "check",
		Short: "tell all faults of the garden file, or show each setting",
		Long: `Looks through the garden file and tells all its faults at once, each with its
line and a remedy. When there is none it shows every setting and whether a line
of the file or a default gave it. What is worth a look, but no fault, stands on
stderr. Nothing is fetched.`,
		Example: "  dawnbrush check\n  dawnbrush check -c other-garden.toml",
		Args:    exactly(0, "nothing more"),
		RunE: func(*cobra.Command, []string) error {
			file, faults, err := p.readGarden()
			if err != nil {
				return err
			}
			now, err := p.now(file.Garden.Place.Zone)
			if err != nil {
				return err
			}
			lacking := p.readLoggers(p.gardenPath(), &file.Garden, now)
			rows := config.Explain(file)
			if p.options.json {
				return p.checkJSON(file, rows, append(faults, loggerWarnings(lacking)...))
			}
			p.tellFaults(faults.Warnings())
			p.tellLoggers(lacking)
			return p.printSettings(file, rows)
		},
	}
}

// mostValue is how wide a setting may push the column beside it: with key, value and
// "line 1000" 80 columns are full. [derived]
const mostValue = 47

// printSettings lists settings a table at a time.
func (p *program) printSettings(file *config.File, rows []config.Row) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s can be used\n", file.Name)
	wide := 0
	for _, r := range rows {
		wide = max(wide, min(mostValue, utf8.RuneCountInString(p.settled(file, r))))
	}
	table := "\x00"
	for _, r := range rows {
		if r.Table != table {
			table = r.Table
			if table != "" {
				fmt.Fprintf(&b, "\n%s\n", table)
			} else {
				b.WriteString("\ngarden\n")
			}
		}
		line := fmt.Sprintf("  %-19s %-*s %s", r.Key, wide, p.settled(file, r), r.From)
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	_, err := p.out.Write([]byte(b.String()))
	return err
}

// settled gives a setting's value, with the feed that "auto" stands for here.
func (p *program) settled(file *config.File, r config.Row) string {
	if r.Value != config.Auto || r.Table != "" {
		return r.Value
	}
	place, used := map[string]int{"feed": 0, "second_feed": 1}[r.Key], p.chosen(file)
	if place >= len(used) {
		return r.Value + ": none"
	}
	return r.Value + ": " + used[place].Info().Key
}

func (p *program) checkJSON(file *config.File, rows []config.Row, faults config.Faults) error {
	out := jsonout.Settings{File: file.Name}
	for _, r := range rows {
		out.Add(r.Table, r.Key, r.Value, r.From, r.Line)
	}
	for _, x := range faults {
		out.Faults = append(out.Faults, jsonout.Fault{File: x.File, Line: x.Line, Column: x.Column, Message: x.Message, Hint: x.Hint, Warning: x.Warning})
	}
	return out.Write(p.out)
}
