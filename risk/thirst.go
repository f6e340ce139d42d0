package risk

import (
	"dawnbrush/forecast"
)

// Thirst is how far want of water cuts what plantings give off: Ks of FAO 56, 1 for
// plants that want for nothing and 0 for those whose soil has nothing left. Days
// that do not stand in it are not known and take nothing from set.
type Thirst map[ThirstDay]Range

// ThirstDay is a planting, by its name in the garden file, on a day.
type ThirstDay struct {
	Planting string
	Date     forecast.Date
}

// DrySoil is what want of water does to a planting's day. The zero DrySoil is not
// known, and takes nothing.
type DrySoil struct {
	Known bool
	Ks    Range
	Kept  Range // share of set that is left, 0..1; Set, Fill, Both and BothSet are with it
}

// flagged gives the share of set that is left at a stress of ks, from the share
// that is left on plants which flag at noon: 57 of 93 for cucumbers [Szegedi93,
// status read]. The paper has two states of plants and no measure of their soil's
// water: flagging is taken as nothing left, and the share falls evenly with Ks.
// [chosen: a straight line, so that plants a little short lose a little]
func flagged(ks, flagging float64) float64 { return 1 - (1-flagging)*(1-ks) }

// thirst applies dry soil to what bees and brush set.
func (a *assessor) thirst(p *Planting, out *PlantingDay) {
	ks, ok := a.learned.Thirst[ThirstDay{p.Name, a.frame.date}]
	flagging := p.Crop.Need.FlaggingSet
	if !ok || flagging <= 0 || out.Bloom == NoBloom {
		return
	}
	kept := Range{flagged(ks.Lo, flagging), flagged(ks.Mid, flagging), flagged(ks.Hi, flagging)}
	out.DrySoil = DrySoil{Known: true, Ks: ks, Kept: kept}
	for _, r := range []*Range{&out.Set, &out.Fill, &out.Both, &out.BothSet, &out.bareFill, &out.bareBoth} {
		*r = Range{kept.Lo * r.Lo, kept.Mid * r.Mid, kept.Hi * r.Hi}
	}
}
