package words

import (
	"strings"

	"dawnbrush/risk"
)

// NothingPlanted says why there is no plan at all.
const NothingPlanted = "nothing is planted yet: add a [[planting]] with name and crop to the garden file"

// Line says a task on one line: when, what, where, how many, how long, what it
// is worth, how sure.
func (w Words) Line(t *risk.Task) string {
	what := w.DoFor(t)
	if t.Planting != nil {
		what += " " + w.Where(t.Planting)
	}
	if hours := w.TaskHours(t); hours != "" {
		what = hours + "  " + what
	}
	parts := []string{w.Flowers(t), w.Minutes(t), w.Worth(t), w.Sure(t)}
	if Evening(t.Kind) {
		parts = append(parts, strings.TrimPrefix(w.also(t), "; "))
	}
	switch {
	case t.Kind == risk.LookFirst:
		parts = []string{w.Manner(t)}
	case !t.Kind.Work():
		parts = []string{w.Worth(t), w.Why(t), w.Sure(t)}
	}
	var said []string
	for _, p := range parts {
		if p != "" {
			said = append(said, p)
		}
	}
	if len(said) == 0 {
		return what
	}
	return what + ": " + strings.Join(said, ", ")
}
