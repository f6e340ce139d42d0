package table

import (
	"fmt"

	"dawnbrush/risk"
)

// catface tells what was looked at for cat-faced fruit, found or not.
func (k *workings) catface(p *risk.PlantingDay) {
	if p.Catface == risk.CatfaceNotAsked {
		return
	}
	pl := p.Planting
	found := map[risk.CatfaceLook]string{
		risk.CatfaceUnknown: "not known yet, for some of those evenings are not known",
		risk.CatfaceClear:   "no such spell",
		risk.CatfaceCool:    "found, see the flag",
	}[p.Catface]
	dry := "the model does not see it"
	if n, ok := p.CatfaceDry.Get(); ok {
		dry = fmt.Sprintf("by the account of the bed's water %.0f of the %.0f days before were dry, which changes nothing here", n, pl.Crop.Self.Catface.Days)
	}
	k.hanging("  ", 4, "Cat-faced fruit: looked for "+k.cited(pl, "self.catface_days")+" running with evenings, the mean from 18:00 to midnight, not over the upper end of "+
		k.cited(pl, "self.catface_evening")+", just before bloom and "+k.cited(pl, "self.catface_lead")+": "+found+
		". Dry soil is blamed too; "+dry+".")
}
