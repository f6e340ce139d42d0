package table

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

// week is the report of several days while it is written.
type week struct {
	*paper
	words.Words
	d *document.Document
}

// Week prints a row a day and, below, a row a planting with a word for each day.
func Week(w io.Writer, d *document.Document) error {
	if len(d.Plans) == 0 {
		return fmt.Errorf("there is no day to report on")
	}
	k := week{newPaper(d.Columns(), d.Colour), d.Words(), d}
	first, last := d.Plans[0].Date, d.Plans[len(d.Plans)-1].Date
	k.line(k.paint(d.Garden.Name+" - "+k.Days(first, last), color.Bold))
	k.para("", "Forecast "+provenance(k.Words, d)+".")
	if d.Demo {
		k.para("", demoLine)
	}
	k.blank()
	if err := k.days(); err != nil {
		return err
	}
	k.blank()
	if err := k.plantings(); err != nil {
		return err
	}
	if err := k.water(); err != nil {
		return err
	}
	k.unknown()
	k.second(k.Words, d)
	k.credits(d)
	return k.to(w)
}

// days prints the weather, the bees and the brush, a row a day.
func (k *week) days() error {
	columns := []column{{"day", 6, false}, {"high/low " + k.TempUnit(), 8, true}, {"rain %", 4, true}, {"rain " + k.DepthUnit(), 5, true},
		{"wind " + k.WindUnit(), 5, true}, {"bees out h", 8, true}, {"by hand", 11, false}, {"what to know", 0, false}}
	used := 2
	for _, c := range columns {
		used += c.width + gridGap
	}
	columns[len(columns)-1].width = max(12, k.width-used)
	var rows [][]string
	for i := range k.d.Plans {
		rows = append(rows, k.day(&k.d.Plans[i]))
	}
	return k.grid(columns, rows)
}

func (k *week) day(plan *risk.DayPlan) []string {
	if plan.Day == nil {
		return []string{k.ShortDay(plan.Date), words.Unknown, words.Unknown, words.Unknown, words.Unknown, words.Unknown, words.Unknown, ""}
	}
	w := &plan.Day.Weather
	bees := words.MorningOut(k.d.Garden, plan.Day)
	if bees == "" {
		bees = "-"
	}
	return []string{k.ShortDay(plan.Date), k.Degrees(w.Max) + "/" + k.Degrees(w.Min), k.PercentNumber(w.RainProb), k.RainNumber(w),
		k.WindNumber(w.Wind), bees, k.brush(plan), strings.Join(k.flags(plan), ", ")}
}

// brush gives the hours of hand work that day, those that touch as one.
func (k *week) brush(plan *risk.DayPlan) string {
	var spans []risk.Task // in order of the hour, as the plan has them
	for i := range plan.Tasks {
		t := plan.Tasks[i]
		if !words.ByHand(t.Kind) {
			continue
		}
		if n := len(spans); n > 0 && !t.From.After(spans[n-1].To) {
			if t.To.After(spans[n-1].To) {
				spans[n-1].To = t.To
			}
			continue
		}
		spans = append(spans, risk.Task{From: t.From, To: t.To})
	}
	var out []string
	for i := range spans {
		out = append(out, k.TaskHours(&spans[i]))
	}
	if len(out) == 0 {
		return "-"
	}
	return strings.Join(out, "\n")
}

// flags lists the day's flags in short words, each once.
func (k *week) flags(plan *risk.DayPlan) []string {
	var out []string
	add := func(flags []risk.Flag) {
		for i := range flags {
			switch flags[i].Kind {
			case risk.HeatOnBuds, risk.HotDays, risk.EarlyClose, risk.Catface:
				continue // tells on every day of a season, or says again what heat does
			}
			if s := k.FlagShort(&flags[i]); s != "" && !slices.Contains(out, s) {
				out = append(out, s)
			}
		}
	}
	add(plan.Day.Flags)
	for i := range plan.Day.Plantings {
		if p := &plan.Day.Plantings[i]; p.Bloom != risk.NoBloom {
			add(p.Flags)
		}
	}
	if cold := k.FlagShort(&risk.Flag{Kind: risk.ColdNight}); slices.Contains(out, cold) {
		cool := k.FlagShort(&risk.Flag{Kind: risk.CoolNight}) // one night, two crops
		out = slices.DeleteFunc(out, func(s string) bool { return s == cool })
	}
	if l := k.Layers(plan.Day.Missing); l != "" {
		out = append(out, l+" not known")
	}
	return out
}

// plantings prints a row a planting, a word a day, and the legend of the words.
func (k *week) plantings() error {
	if len(k.d.Garden.Plantings) == 0 {
		k.hanging("  ", 2, words.NothingPlanted)
		return nil
	}
	used := map[string]bool{}
	var rows [][]string
	for i := range k.d.Garden.Plantings {
		p := &k.d.Garden.Plantings[i]
		row := []string{k.split(p.Name, mostNameWidth)}
		for j := range k.d.Plans {
			cell := k.Cell(&k.d.Plans[j], p)
			row = append(row, strings.Join(cell, "\n"))
			for _, c := range cell {
				used[words.Verb(c)] = true
			}
		}
		rows = append(rows, row)
	}
	if err := k.rows(rows); err != nil {
		return err
	}
	k.blank()
	k.para("  ", strings.Join(k.Shorts(func(word string) bool { return used[word] }), "; ")+".")
	return nil
}

// Widths of the table of plantings: "06-07" must not be cut, and a week has to fit
// 80 columns.
const (
	leastNameWidth = 12
	mostNameWidth  = 24 // longer words break
	cellWidth      = 5
)

// parts cuts the days into runs that fit the width side by side.
func (k *week) parts(n, nameWidth int) [][2]int {
	fit := max(1, (k.width-2-nameWidth-gridGap)/(cellWidth+2+gridGap))
	var out [][2]int
	for from := 0; from < n; from += fit {
		out = append(out, [2]int{from, min(n, from+fit)})
	}
	return out
}

func (k *week) plantingPart(rows [][]string, from, to, nameWidth int) error {
	cell := (k.width - 2 - nameWidth - gridGap) / max(1, to-from) // what is left for each day
	columns := []column{{"", nameWidth, false}}
	for i := from; i < to; i++ {
		columns = append(columns, column{k.ShortDay(k.d.Plans[i].Date), min(14, cell-gridGap), false})
	}
	var cut [][]string
	for _, row := range rows {
		cut = append(cut, append([]string{row[0]}, row[1+from:1+to]...))
	}
	if from > 0 {
		k.blank()
	}
	return k.grid(columns, cut)
}

// unknown says what is missing.
func (k *week) unknown() {
	lines := notKnown(k.Words, k.d)
	if from, ok := k.d.ChanceOnlyFrom(); ok {
		lines = append(lines, "rain amount not forecast from "+k.Day(from)+" on; chance only")
	}
	if len(lines) == 0 {
		return
	}
	k.heading("Not known")
	for _, l := range lines {
		k.hanging("  ", 4, l)
	}
}
