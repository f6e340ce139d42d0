package picture

import (
	"fmt"
	"strings"

	"dawnbrush/cmd/dawnbrush/report/words"
)

// Alt says in words what the picture shows: for each day and row the hours in which
// there is at least some of it.
func (w *Week) Alt() string {
	lines := []string{fmt.Sprintf("The week hour by hour, %02d to %02d.", w.First, w.First+w.Hours)}
	for _, day := range w.Days {
		lines = append(lines, day.Long+": "+strings.Join(w.said(&day), ", ")+".")
	}
	return strings.Join(lines, " ")
}

func (w *Week) said(day *Day) (out []string) {
	for r, row := range day.Marks {
		spans, unknown := w.spans(row, func(l words.Level) bool { return l >= words.Partly }), w.spans(row, func(l words.Level) bool { return l == words.NotKnown })
		switch name := &w.Rows[r]; {
		case len(unknown) > 0 && len(spans) == 0:
			out = append(out, name.Name+" not known")
		case len(spans) == 0:
			out = append(out, name.never)
		case len(unknown) > 0:
			out = append(out, name.saying+" "+words.List(spans)+" (not known "+words.List(unknown)+")")
		default:
			out = append(out, name.saying+" "+words.List(spans))
		}
	}
	return out
}

// spans writes the runs of hours that are wanted: "06-09".
func (w *Week) spans(row []words.Level, want func(words.Level) bool) (out []string) {
	for k := 0; k < len(row); k++ {
		from := k
		for k < len(row) && want(row[k]) {
			k++
		}
		if k > from {
			out = append(out, fmt.Sprintf("%02d-%02d", w.First+from, w.First+k))
		}
	}
	return out
}
