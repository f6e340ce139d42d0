package table

import (
	"fmt"

	"dawnbrush/risk"
)

// load tells the growing fruit that the diary knows of, and what the plants keep
// of new fruit beside it; nothing where it is not known.
func (k *workings) load(p *risk.PlantingDay) {
	n, ok := p.Load.PerPlant.Get()
	if !ok {
		return
	}
	pl := p.Planting
	least := ""
	if p.Load.AtLeast {
		least = ", or more that nobody noted"
	}
	_, stays := pl.Crop.HarvestAfter(pl.Type)
	k.hanging("  ", 4, fmt.Sprintf("Growing fruit by the diary: %.2f a plant%s; fruit stays %s from flower to picking. "+
		"Limit %s; a full plant keeps %s of new fruit, in a straight line between. Kept: %.2f, with which set and full fruit above are multiplied.",
		n, least, k.cited(pl, stays), k.cited(pl, "load.limit"), k.cited(pl, "load.left"), p.Load.Kept))
}
