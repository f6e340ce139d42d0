package table

import (
	"cmp"
	"io"
	"slices"
	"strings"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
)

// Quiet prints one line a task of the first day in order of the hour, the beds to
// water on one line of their own, at most risk.MaxTasks, then the credit of the
// forecast; nothing when there is nothing to do. A stale forecast, gaps and a second
// forecast are left to the exit code and to the other reports.
func Quiet(w io.Writer, d *document.Document) error {
	if !d.Work() {
		return nil
	}
	out, say := newPaper(d.Columns(), false), words.New(d.Units, d.Zone())
	for _, l := range quietLines(say, d) {
		out.line(l)
	}
	if d.Forecast.Attribution != "" {
		out.para("", d.Forecast.Attribution)
	}
	return out.to(w)
}

// quietLines gives the lines of work. Beside water there is room for one task less;
// what does not fit is named at the end.
func quietLines(say words.Words, d *document.Document) []string {
	plan := &d.Plans[0]
	var lines []string
	water := quietWater(say, d.Waterings(plan.Date))
	tasks := plan.Tasks[:min(len(plan.Tasks), risk.MaxTasks)]
	room := risk.MaxTasks
	if len(water) > 0 && len(tasks)+len(water) > risk.MaxTasks {
		room = risk.MaxTasks - len(water) - 1
	}
	left := least(tasks, len(tasks)-room)
	for _, x := range d.DayWork(&risk.DayPlan{Date: plan.Date, Tasks: tasks}) {
		switch {
		case x.Task == nil && len(water) > 0:
			lines, water = append(lines, water...), nil
		case x.Task != nil && !slices.Contains(left, x.Task):
			lines = append(lines, say.Line(x.Task))
		}
	}
	if len(left) > 0 {
		var names []string
		for _, t := range left {
			names = append(names, strings.TrimSpace(say.DoFor(t)+" "+say.TaskHours(t))+" ("+t.Planting.Name+")")
		}
		lines = append(lines, "also "+strings.Join(names, ", ")+": see dawnbrush today")
	}
	return lines
}

// least picks the n tasks that win least.
func least(tasks []risk.Task, n int) []*risk.Task {
	var all []*risk.Task
	for i := range tasks {
		all = append(all, &tasks[i])
	}
	slices.SortStableFunc(all, func(a, b *risk.Task) int { return cmp.Compare(a.Gain, b.Gain) })
	return all[:max(0, n)]
}

// quietWater puts the beds to water on one line, those to look at on another.
func quietWater(say words.Words, beds []document.Watering) []string {
	var water, look []string
	hours := ""
	for _, x := range beds {
		a := x.Advice()
		if a.Verdict == ledger.LookFirst {
			look = append(look, x.Bed.Bed.Name)
			continue
		}
		if hours == "" {
			hours = say.WaterHours(a)
		}
		water = append(water, x.Bed.Bed.Name+": "+strings.Join(say.DoseShort(x.Bed.Bed, a), ", ")) // "bed 3 28 gal" would read as 328
	}
	var out []string
	if len(water) > 0 {
		out = append(out, strings.TrimSpace(hours+"  "+say.WaterDo(ledger.Water)+" "+strings.Join(water, "; ")))
	}
	if len(look) > 0 {
		out = append(out, say.WaterDo(ledger.LookFirst)+": "+words.List(look)+"; moist, leave it; dry, water it")
	}
	return out
}
