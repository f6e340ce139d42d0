package table

import (
	"strings"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/risk/ledger"
)

// water writes a bed to water, or to look at, among the day's work: how much and in
// what way, then why.
func (t *today) water(x document.Watering) {
	a := x.Advice()
	lead := t.pad("  "+t.WaterHours(a), whenWidth+2) + t.paint(t.pad(t.WaterDo(a.Verdict), doWidth-1), color.Bold) + " "
	if room := t.width - whenWidth - 2 - doWidth; t.columns(t.Bed(x.Bed)) > room {
		t.line(lead + x.Bed.Bed.Name)
	} else {
		t.line(lead + t.Bed(x.Bed))
	}
	text := t.WaterLook(x.Bed, x.Day)
	if a.Verdict == ledger.Water {
		text = t.WaterOrder(x.Bed, x.Day, 1)
	}
	t.para(strings.Repeat(" ", doIndent), text)
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
