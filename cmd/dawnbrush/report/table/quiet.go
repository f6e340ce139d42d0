package table

import (
	"io"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

// Quiet prints one line a task of the first day in order of the hour, at most
// risk.MaxTasks, then the credit of the forecast; nothing when there is nothing to
// do. A stale forecast, gaps and a second forecast are left to the exit code and to
// the other reports.
func Quiet(w io.Writer, d *document.Document) error {
	if !d.Work() {
		return nil
	}
	out, say := newPaper(d.Columns(), false), words.New(d.Units, d.Zone())
	plan := &d.Plans[0]
	for i := range plan.Tasks[:min(len(plan.Tasks), risk.MaxTasks)] {
		out.line(say.Line(&plan.Tasks[i]))
	}
	if d.Forecast.Attribution != "" {
		out.para("", d.Forecast.Attribution)
	}
	return out.to(w)
}
