package app

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/cmd/dawnbrush/store/station"
	"dawnbrush/risk"
)

func (p *program) observe() *cobra.Command {
	var since, from string
	c := &cobra.Command{
		Use:   "observe [FILE]",
		Short: "take in what your own station measured, or a feed's past hours",
		Long:  observeHelp(),
		Example: `  dawnbrush observe station.csv
  dawnbrush observe - < station.csv
  dawnbrush observe --since 2026-05-01`,
		Args: between(0, 1, "the name of a CSV file, or --since"),
		RunE: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) == 1 && (since != "" || from != ""):
				return usage("leave one of them out", "a file and --since or --feed exclude each other")
			case len(args) == 1:
				return p.runObserve(args[0])
			case since == "":
				return usage("dawnbrush observe station.csv, or dawnbrush observe --since 2026-05-01", "observe needs the name of a CSV file, or --since with a date")
			}
			return p.observeSince(since, from)
		},
	}
	c.Flags().StringVar(&since, "since", "", "ask a weather feed for the past hours from this `DATE` on")
	c.Flags().StringVar(&from, "feed", "", "`KEY` of the feed to ask, instead of the garden's own")
	return c
}

func observeHelp() string {
	var b strings.Builder
	b.WriteString(`Takes the measurements of your own weather station or recording rain gauge into
the garden's memory. They go before those of other stations. What is amended
later replaces nothing: what was known before stays in the file.

The file is CSV in UTF-8, commas between the cells, numbers with a point. Its
first line names the columns, in any order: time and at least one of

`)
	for _, c := range station.Columns() {
		fmt.Fprintf(&b, "  %-14s %s\n", c.Name, c.Meaning)
	}
	b.WriteString(`
The time is local in the garden's zone, as 2026-07-16 05:00, or RFC 3339, as
2026-07-16T05:00:00-04:00. It ends what the row tells of: the row at 05:00
belongs to the hour from 04:00. Times rise from row to row. A row may stand for
any span up to an hour; an hour needs three quarters of its rows, its rain all
of them. An empty cell is not known.

  time,temp_c,rh,wind_2m_ms,rain_mm
  2026-07-16 05:00,17.2,91,0.4,0
  2026-07-16 06:00,18.9,,0.6,0

All faults of a file are told at once, and nothing of it is kept then.

With --since, the garden's weather feed is asked for the hours from that day on,
for degree days and for what plans look back on. How far back a feed reaches,
and whether its hours are measured or worked out afterwards, dawnbrush feeds
tells. Where your own instruments or a station measured, worked-out hours give
way.`)
	return b.String()
}

func (p *program) runObserve(path string) error {
	g, now, err := p.gardenNow()
	if err != nil {
		return err
	}
	text, err := p.readDocument(path, "the measurements")
	if err != nil {
		return err
	}
	got, faults := station.Parse(text, g.Place.Zone, now)
	if len(faults) > 0 {
		return stationFaults(path, faults)
	}
	s, err := p.openMemory(g)
	if err != nil {
		return err
	}
	defer s.Close()
	origin := store.Logger
	if got.OnlyRain {
		origin = store.Gauge
	}
	got.Series.Feed, got.Series.Source = "own", "your own instrument"
	added, amended, err := s.KeepObserved(p.ctx, got.Series, origin)
	if err != nil {
		return err
	}
	return p.printObserved(got, added, amended, g)
}

// stationFaults tells all that is wrong with a file.
func stationFaults(path string, faults []station.Fault) error {
	f := &failure{code: exitFailed, hint: "mend the lines named and give the command again", message: path + " has " + faultCount(len(faults)) + "; nothing of it was kept"}
	for _, x := range faults {
		f.faults = append(f.faults, config.Fault{File: path, Line: x.Line, Column: x.Column, Message: x.Message, Hint: x.Hint})
	}
	return f
}

func (p *program) printObserved(got *station.Result, added, amended int, g *risk.Garden) error {
	if p.options.json {
		return p.writeJSON(map[string]any{"schema": jsonout.Schema, "report": "observe", "rows": got.Rows, "hours_added": added, "hours_amended": amended, "hours_partly_known": got.Partial,
			"from": got.Series.Start().In(g.Place.Zone), "until": got.Series.End().In(g.Place.Zone)})
	}
	w := words.New(g.Units, g.Place.Zone)
	line := fmt.Sprintf("%s from %s to %s: %s new, %d amended", words.Count(got.Rows, "row", "rows"), w.Moment(got.Series.Start()), w.Moment(got.Series.End()), words.Count(added, "hour", "hours"), amended)
	if got.Partial > 0 {
		line += "; " + words.Count(got.Partial, "hour lacks rows or cells and is known in part", "hours lack rows or cells and are known in part")
	}
	_, err := fmt.Fprintln(p.out, line)
	return err
}
