package table

import (
	"strings"

	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// kind tells what was published of the type of a planting; nothing where it was not told.
func (k *workings) kind(p *risk.Planting) {
	t, ok := p.Crop.TypeOf(p.Type)
	if !ok {
		return
	}
	var parts []string
	add := func(key, before, after string, there bool) {
		if there {
			parts = append(parts, before+k.cited(p, crop.TypeParam(t.Key, key))+after)
		}
	}
	if t.Sets != "" && t.Sets != p.Setting {
		add("sets", "usually sets as ", ", but this planting as the garden file tells", true)
	} else {
		add("sets", "sets as ", "", t.Sets != "")
	}
	add("length", "picked ", " long", t.Length != crop.Range{})
	add("width", "picked ", " across", t.Width != crop.Range{})
	add("harvest_after", "", " from flower to picking", t.HarvestAfter != crop.Range{})
	add("pick_every", "again every ", "", t.PickEvery != crop.Range{})
	add("visits_needed", "", " a flower", t.VisitsNeeded != crop.Range{})
	k.hanging("  ", 4, "Type "+t.Key+", "+t.Words+": "+strings.Join(parts, "; ")+". All else is the crop's.")
}
