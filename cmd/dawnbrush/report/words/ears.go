package words

import (
	"fmt"
	"strings"

	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
)

// earParts names the parts of ears as growers do.
var earParts = map[risk.EarPart]string{risk.Butt: "butts", risk.Middle: "middles", risk.Tip: "tips"}

// ears says what fills: "ears will fill about 8 in 10 kernels, 9 in 10 if shaken;
// the tips wait for pollen now"; and what heat takes beside the pollen where it is much.
func (w Words) ears(t *risk.Task) string {
	e := &t.Day.Ears
	alone := "ears will fill " + w.OfTen(e.Filled, "kernels")
	if left := e.HeatLeft.Mid; left > 0 && 1-left >= heatTold {
		alone += " (heat on the silks takes about " + w.Percent(1-left) + ")"
	}
	if t.Kind != risk.ShakeTassels {
		return alone
	}
	more := strings.TrimPrefix(w.OfTen(e.Shaken, ""), "about ")
	if w.OfTen(e.Shaken, "kernels") == w.OfTen(e.Filled, "kernels") {
		more = "a little more"
	}
	return alone + ", " + more + " if shaken; the " + earParts[e.Waits] + " wait for pollen now"
}

// heatTold is the share of the kernels lost to heat that is worth a word. [chosen: one in twenty]
const heatTold = 0.05

// EarPart names a part of the ears: "tips".
func (w Words) EarPart(p risk.EarPart) string { return earParts[p] }

// otherCorn says what pollen of another type of corn does, and where it may come from.
func (w Words) otherCorn(f *risk.Flag, p *risk.PlantingDay) string {
	near := "other"
	if p != nil && p.Planting != nil && p.Planting.Sweetness == risk.Supersweet {
		near = "sugary (su), sugary enhanced (se), pop or field"
	} else if f.Other != nil {
		near = "supersweet (sh2)"
	}
	s := "pollen of " + near + " corn" + w.value(f.Limit, w.distance, " within ", "", "") + " makes tough, starchy kernels"
	if f.Other != nil {
		s += "; " + f.Other.Name + " may shed it in these days"
	}
	return s
}

// distance writes metres: "76 m" or "250 ft".
func (w Words) distance(m float64) string {
	if w.us() {
		return fmt.Sprintf("%.0f ft", unit.MToFt(m))
	}
	return fmt.Sprintf("%.0f m", m)
}
