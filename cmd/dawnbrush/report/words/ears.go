package words

import (
	"strings"

	"dawnbrush/risk"
)

// earParts names the parts of ears as growers do.
var earParts = map[risk.EarPart]string{risk.Butt: "butts", risk.Middle: "middles", risk.Tip: "tips"}

// ears says what fills: "ears will fill about 8 in 10 kernels, 9 in 10 if shaken;
// the tips wait for pollen now".
func (w Words) ears(t *risk.Task) string {
	e := &t.Day.Ears
	alone := "ears will fill " + w.OfTen(e.Filled, "kernels")
	if t.Kind != risk.ShakeTassels {
		return alone
	}
	more := strings.TrimPrefix(w.OfTen(e.Shaken, ""), "about ")
	if w.OfTen(e.Shaken, "kernels") == w.OfTen(e.Filled, "kernels") {
		more = "a little more"
	}
	return alone + ", " + more + " if shaken; the " + earParts[e.Waits] + " wait for pollen now"
}

// EarPart names a part of the ears: "tips".
func (w Words) EarPart(p risk.EarPart) string { return earParts[p] }
