package table

import "dawnbrush/risk"

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
	k.hanging("  ", 4, "Cat-faced fruit: looked for "+k.cited(pl, "self.catface_days")+" running with evenings, the mean from 18:00 to midnight, not over the upper end of "+
		k.cited(pl, "self.catface_evening")+", just before bloom and "+k.cited(pl, "self.catface_lead")+": "+found+
		". Dry soil is blamed too; the model does not see it.")
}
