package app

import (
	"slices"
	"strings"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// mostWatering is the depth of one watering, in mm, above which a grower is
// asked whether the amount is right: more than the root zone of a loam holds from dry
// to full. [chosen: FAO56 table 19 gives a loam some 150 mm a metre, and vegetables
// root half a metre to a metre deep]
const mostWatering = 150

// plantingOf finds the planting that a watering was noted for; nil where it was
// another note or meant the whole garden.
func plantingOf(g *risk.Garden, e *memory.Entry) *risk.Planting {
	if e.Kind != memory.Water || e.Removed {
		return nil
	}
	at := slices.IndexFunc(g.Plantings, func(p risk.Planting) bool { return strings.EqualFold(p.Name, e.Planting) })
	if at < 0 {
		return nil
	}
	return &g.Plantings[at]
}

// wholeBed says that water noted for one planting is that of the bed which others
// share; "" for all else.
func wholeBed(g *risk.Garden, e *memory.Entry) string {
	p := plantingOf(g, e)
	if p == nil || p.Bed == "" {
		return ""
	}
	for i := range g.Plantings {
		if other := &g.Plantings[i]; other != p && strings.EqualFold(other.Bed, p.Bed) {
			return ", for all of " + p.Bed
		}
	}
	return ""
}

// wateredBed finds the bed that a watering was noted for, by a planting or by its own
// name; nil where it is told of none.
func wateredBed(g *risk.Garden, e *memory.Entry) *risk.Bed {
	if p := plantingOf(g, e); p != nil {
		return g.Bed(p)
	}
	for i := range g.Beds {
		if bed := &g.Beds[i]; e.Kind == memory.Water && !e.Removed && strings.EqualFold(bed.Name, e.Planting) {
			return bed
		}
	}
	return nil
}

// tooMuch asks after a watering that no bed takes up, such as gallons typed for
// litres or hours for minutes; "" for one that may be.
func tooMuch(g *risk.Garden, e *memory.Entry, u risk.Units) string {
	bed := wateredBed(g, e)
	if bed == nil || bed.Area <= 0 {
		return ""
	}
	litres, told := e.Amount.Get()
	if minutes, ok := e.Minutes.Get(); ok && !told {
		litres = minutes / 60 * bed.Flow
	}
	depth := litres / bed.Area // a litre on a square metre is a millimetre
	if depth <= mostWatering {
		return ""
	}
	w := words.New(u, g.Place.Zone)
	return w.Litres(litres) + " on " + bed.Name + " stands " + w.Depth(depth) + " deep: is the amount right?"
}
