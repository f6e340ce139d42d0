package app

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
)

func (p *program) today() *cobra.Command {
	var quiet, signal bool
	c := &cobra.Command{
		Use:   "today",
		Short: "what to do today, hour by hour, and why",
		Example: `  dawnbrush today
  dawnbrush today --quiet     for cron: silent when there is nothing to do
  dawnbrush today --from saved.json --at 2026-07-16T05:00`,
		Args: exactly(0, "nothing more"),
		RunE: func(*cobra.Command, []string) error {
			d, err := p.document(2) // tomorrow decides the evening and what counts as missing
			if err != nil {
				return err
			}
			if !quiet {
				if err := p.show("today", d); err != nil {
					return err
				}
				return p.verdict(d, signal)
			}
			if err := p.show("quiet", d); err != nil {
				return err
			}
			p.warnIncomplete(d)
			return p.verdict(d, signal)
		},
	}
	c.Flags().BoolVarP(&quiet, "quiet", "q", false, "one line a task, and nothing when there is nothing to do")
	c.Flags().BoolVar(&signal, "signal", false, "exit with 11 when there is work")
	return c
}

// warnIncomplete says on stderr what the quiet lines have no room for.
func (p *program) warnIncomplete(d *document.Document) {
	if d.Complete() || p.options.json {
		return
	}
	w := words.New(d.Units, d.Zone())
	var parts []string
	if d.Forecast.Stale {
		age, _ := d.Forecast.Age(d.Now)
		s := "the forecast is " + w.Age(age) + " old"
		if d.Forecast.Why != "" {
			s += " (" + d.Forecast.Why + ")"
		}
		parts = append(parts, s)
	}
	for _, g := range d.Gaps() {
		parts = append(parts, w.Layers(g.Layers)+" not known on "+w.Day(g.Date))
	}
	if d.Unlogged {
		parts = append(parts, "a logger in a tunnel or house is of no use now")
	}
	fmt.Fprintf(p.err, "%s: plan made, but %s\n", name, strings.Join(parts, "; "))
}
