package table

import (
	"fmt"

	"dawnbrush/risk"
)

// ears shows the parts of the kernels' sum.
func (k *workings) ears(p *risk.PlantingDay) {
	e := &p.Ears
	if !e.Known {
		return
	}
	pl := p.Planting
	r := func(x risk.Range) string { return fmt.Sprintf("%.2f (%.2f to %.2f)", x.Mid, x.Lo, x.Hi) }
	k.hanging("  ", 4, "Kernels filled in the end "+r(e.Filled)+"; shaken on this day "+r(e.Shaken)+". By part: butt "+r(e.Part[risk.Butt])+
		", middle "+r(e.Part[risk.Middle])+", tip "+r(e.Part[risk.Tip])+fmt.Sprintf(". %.2f of all silks wait this morning, most of them of the %s.", e.Open, k.EarPart(e.Waits)))
	k.hanging("  ", 4, "Silks come out evenly over the middle of "+k.cited(pl, "corn.silks_out")+", butt first, and take pollen for "+k.cited(pl, "corn.silk_days")+
		"; one stays empty with the chance exp(-"+k.cited(pl, "corn.fill_rate")+" x the sum of its days' pollen x "+k.cited(pl, "corn.shed")+").")
	if e.Dark > 0 {
		k.hanging("  ", 4, fmt.Sprintf("Days of shed whose weather is not known: %d; each counts from nothing to a good day.", e.Dark))
	}
}
