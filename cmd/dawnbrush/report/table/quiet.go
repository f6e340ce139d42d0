package table

import (
	"io"
	"strings"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

// Quiet prints one line a task of the first day in order of the hour, at most
// risk.MaxTasks, and nothing when there is nothing to do. A stale forecast and
// gaps are left to the exit code and to the other reports.
func Quiet(w io.Writer, d *document.Document) error {
	if !d.Work() {
		return nil
	}
	out, say := newPaper(d.Columns(), false), words.New(d.Units, d.Zone())
	plan := &d.Plans[0]
	for i := range plan.Tasks[:min(len(plan.Tasks), risk.MaxTasks)] {
		out.line(quietLine(say, &plan.Tasks[i]))
	}
	return out.to(w)
}

// quietLine says a task on one line: when, what, where, how many, how long, what
// it is worth, how sure.
func quietLine(w words.Words, t *risk.Task) string {
	s := w.TaskHours(t) + "  " + w.DoFor(t) + " " + w.Where(t.Planting)
	var parts []string
	switch t.Kind {
	case risk.LookFirst:
		parts = append(parts, w.Look(&t.Look))
	default:
		for _, p := range []string{w.Flowers(t), w.Minutes(t), w.Worth(t)} {
			if p != "" {
				parts = append(parts, p)
			}
		}
	}
	if t.Kind != risk.LookFirst {
		parts = append(parts, w.Sure(t))
	}
	if len(parts) == 0 {
		return s
	}
	return s + ": " + strings.Join(parts, ", ")
}
