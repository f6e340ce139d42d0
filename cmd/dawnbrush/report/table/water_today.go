package table

import (
	"strings"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk/ledger"
)

// water writes beds to water, or to look at, among the day's work: of each how much, in
// what way and what is left, then once why and how sure.
func (t *today) water(beds []document.Watering) {
	a := beds[0].Advice()
	lead := t.pad("  "+t.WaterHours(a), whenWidth+2) + t.paint(t.pad(t.WaterDo(a.Verdict), doWidth-1), color.Bold) + " "
	indent := strings.Repeat(" ", doIndent)
	if len(beds) > 1 {
		t.line(lead + words.Count(len(beds), "bed", "beds"))
		for _, x := range beds {
			t.hanging(indent, doIndent+2, x.Bed.Bed.Name+": "+t.WaterBrief(x.Bed, x.Day))
		}
		if why := t.WaterWhyAll(a.Verdict, beds[0].Bed, days(beds)); why != "" {
			t.para(indent, why)
		}
		t.noteHint(beds, indent)
		return
	}
	x := beds[0]
	if room := t.width - t.columns(t.pad("", whenWidth+2+doWidth)); t.columns(t.Words.Bed(x.Bed)) > room {
		t.line(lead + x.Bed.Bed.Name)
	} else {
		t.line(lead + t.Words.Bed(x.Bed))
	}
	text := t.WaterLook(x.Bed, x.Day)
	if a.Verdict == ledger.Water {
		text = t.WaterOrder(x.Bed, x.Day, 1)
	}
	t.para(indent, text)
	t.noteHint(beds, indent)
}

// noteHint says how the account learns what was given, where it cannot tell for want of
// notes.
func (t *today) noteHint(beds []document.Watering, indent string) {
	if x := beds[0]; x.Advice().Verdict == ledger.LookFirst && !x.Bed.Season.Noted {
		t.para(indent, t.NoteHint())
	}
}

func days(beds []document.Watering) []*ledger.Day {
	var out []*ledger.Day
	for _, x := range beds {
		out = append(out, x.Day)
	}
	return out
}

// uneven names the beds whose water swung widely in the week.
func (t *today) uneven() []string {
	var out []string
	for _, x := range t.d.Beds(t.plan.Date) {
		if x.Bed.Swing.Known && x.Bed.Swing.Uneven {
			out = append(out, x.Bed.Bed.Name)
		}
	}
	return out
}

// noWater lists the beds that wait for rain, a line each, then those that want
// nothing and those that cannot be reckoned, a line together. It gives on how many
// lines there are under the heading.
func (t *today) noWater(lines int) int {
	add := func(label, text string) {
		if lines++; lines == 1 {
			t.heading("Leave")
		}
		t.hanging(t.pad("  "+label, 21), 4, text)
	}
	var enough, not []string
	for _, x := range t.d.Beds(t.plan.Date) {
		switch x.Advice().Verdict {
		case ledger.WaitForRain:
			add(t.WaterDo(ledger.WaitForRain), t.Bed(x.Bed)+": "+t.WaterRain(x.Day))
		case ledger.Enough:
			name := x.Bed.Bed.Name
			if why := t.WaterText(x.Bed, x.Day); why != "" {
				name += " (" + why + ")"
			}
			enough = append(enough, name)
		}
	}
	if len(enough) > 0 {
		add(t.WaterDo(ledger.Enough), strings.Join(enough, ", "))
	}
	if t.d.Water == nil {
		return lines
	}
	for i := range t.d.Water.Beds {
		if b := &t.d.Water.Beds[i]; b.Why != ledger.Reckoned && b.Why != ledger.Nothing {
			not = append(not, t.Bed(b)+": "+t.WaterNot(b.Why))
		}
	}
	if len(not) > 0 {
		add("water not reckoned", strings.Join(not, "; "))
	}
	return lines
}
