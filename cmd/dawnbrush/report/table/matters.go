package table

import (
	"fmt"
	"io"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

// shownMatters is how many inputs come with what to do about them.
const shownMatters = 3

type matters struct {
	*paper
	words.Words
	d *document.Document
}

// Matters prints what moves the verdict most, for the plantings and the day in focus.
func Matters(w io.Writer, d *document.Document) error {
	k := matters{newPaper(d.Columns(), d.Colour), words.New(d.Units, d.Zone()), d}
	k.line(k.paint(fmt.Sprintf("%s - %s - what matters", d.Garden.Name, k.Day(d.Focus.Date)), color.Bold))
	k.para("", "Forecast "+provenance(k.Words, d)+".")
	k.para("", "Each input is moved alone between the ends of its doubt, all else as planned; what two do together is not in it.")
	for i := range d.Matters {
		if err := k.planting(&d.Matters[i]); err != nil {
			return err
		}
	}
	k.credits(d)
	return k.to(w)
}

func (k *matters) planting(m *risk.Matters) error {
	k.heading(m.Planting.Name)
	if !m.Judged {
		k.para("  ", "Nothing to judge: "+k.why(m)+".")
		return nil
	}
	k.para("  ", "As planned: "+k.Planned(&m.Now, m.Planting.Crop)+".")
	moved := 0
	for i := range m.Inputs {
		if m.Inputs[i].Moved() {
			moved++
		}
	}
	if moved == 0 {
		k.para("  ", "No input in doubt moves this verdict by one percent.")
	}
	shown, yours := min(moved, k.upTo(m)), false
	for i := range shown {
		k.input(fmt.Sprintf("  %d. ", i+1), &m.Inputs[i], m)
		yours = yours || m.Inputs[i].Handle.Grower()
	}
	for i := shown; i < len(m.Inputs) && !yours; i++ { // whoever asks wants something to do
		if in := &m.Inputs[i]; in.Moved() && in.Handle.Grower() {
			k.input("  Of what you can find out, ", in, m)
			yours = true
		}
	}
	return k.all(m)
}

// input writes one input in full.
func (k *matters) input(lead string, in *risk.Movement, m *risk.Matters) {
	k.hanging(lead, 5, fmt.Sprintf("%s, %s: %s.%s", k.Input(in), k.Doubt(in), k.Moved(in, m.Planting.Crop), k.flip(in, m)))
	if s := k.Narrow(in, m); s != "" {
		k.hanging("     To narrow it: ", 5, s+".")
	}
}

// upTo is how many inputs to show in full: three and those that tie with the third.
func (k *matters) upTo(m *risk.Matters) int {
	n := min(shownMatters, len(m.Inputs))
	for n > 0 && n < len(m.Inputs) && fmt.Sprintf("%.0f", 100*m.Inputs[n].Moves) == fmt.Sprintf("%.0f", 100*m.Inputs[n-1].Moves) && m.Inputs[n].Moved() {
		n++
	}
	return n
}

func (k *matters) flip(in *risk.Movement, m *risk.Matters) string {
	if !in.Flips {
		return " The task stays."
	}
	return " The task changes: " + k.TaskAtEnds(in, m) + "."
}

func (k *matters) why(m *risk.Matters) string {
	if m.State == risk.Judged {
		return k.Bloom(m.Bloom)
	}
	return k.State(m.State)
}

// all lists every input with where the ends of its doubt come from.
func (k *matters) all(m *risk.Matters) error {
	columns := []column{{"input", 19, false}, {"from, to", 14, false}, {"moves %", 5, true}, {"task", 7, false}, {"one can", 7, false}, {"ends from", 15, false}}
	var rows [][]string
	for i := range m.Inputs {
		in := &m.Inputs[i]
		task := "stays"
		if in.Flips {
			task = "changes"
		}
		rows = append(rows, []string{k.Input(in), k.Doubt(in), fmt.Sprintf("%.0f", 100*in.Moves), task, in.Handle.String(),
			origin(in.Doubt.Key, in.Doubt.Where, in.Doubt.Status)})
	}
	k.blank()
	return k.grid(columns, rows)
}
