package risk

import (
	"dawnbrush/risk/bee"
	"dawnbrush/risk/source"
)

// cropField is a number of a crop file and where the compiled crop holds it.
type cropField struct {
	name   string
	handle Handle
	at     func(t *trial) *float64
}

// fields of the crops that insects pollinate.
var insectFields = []cropField{
	{"window.opens", CanMeasure, func(t *trial) *float64 { return &t.c.Window.Opens }},
	{"window.closes", CanMeasure, func(t *trial) *float64 { return &t.c.Window.Closes }},
	{"window.opens_at_temp", CanMeasure, func(t *trial) *float64 { return &t.c.Window.OpensAtTemp }},
	{"pollen.heat_full", LeftToBooks, func(t *trial) *float64 { return &t.c.Pollen.HeatFull }},
	{"pollen.heat_nil", LeftToBooks, func(t *trial) *float64 { return &t.c.Pollen.HeatNil }},
	{"pollen.coupling", CanCount, func(t *trial) *float64 { return &t.c.Pollen.Coupling }},
	{"pollen.age_rate", LeftToBooks, func(t *trial) *float64 { return &t.c.Pollen.AgeRate }},
	{"pollen.age_threshold", LeftToBooks, func(t *trial) *float64 { return &t.c.Pollen.AgeThreshold }},
	{"pollen.tube_full", LeftToBooks, func(t *trial) *float64 { return &t.c.Pollen.TubeFull }},
	{"pollen.tube_nil", LeftToBooks, func(t *trial) *float64 { return &t.c.Pollen.TubeNil }},
	{"need.set", CanCount, func(t *trial) *float64 { return &t.c.Need.Set }},
}

var groupFields = [bee.Groups]cropField{
	{"bees.honey.grains_per_visit", LeftToBooks, func(t *trial) *float64 { return &t.group(bee.Honey).GrainsPerVisit }},
	{"bees.bumble.grains_per_visit", LeftToBooks, func(t *trial) *float64 { return &t.group(bee.Bumble).GrainsPerVisit }},
	{"bees.squash.grains_per_visit", LeftToBooks, func(t *trial) *float64 { return &t.group(bee.Squash).GrainsPerVisit }},
}

// fields of corn.
var cornFields = []cropField{
	{"corn.shed_from", CanMeasure, func(t *trial) *float64 { return &t.corn().ShedFrom }},
	{"corn.shed_to", CanMeasure, func(t *trial) *float64 { return &t.corn().ShedTo }},
	{"corn.shed_drying", CanMeasure, func(t *trial) *float64 { return &t.corn().ShedDrying }},
	{"corn.rh_limit", LeftToBooks, func(t *trial) *float64 { return &t.corn().RHLimit }},
	{"corn.heat_full", LeftToBooks, func(t *trial) *float64 { return &t.corn().HeatFull }},
	{"corn.heat_nil", LeftToBooks, func(t *trial) *float64 { return &t.corn().HeatNil }},
	{"corn.age_rate", LeftToBooks, func(t *trial) *float64 { return &t.corn().AgeRate }},
	{"corn.silk_fresh", CanMeasure, func(t *trial) *float64 { return &t.corn().SilkFresh }},
	{"corn.silk_days", CanMeasure, func(t *trial) *float64 { return &t.corn().SilkDays }},
}

// fields of the crops that pollinate themselves.
var selfFields = []cropField{
	{"self.acute_temp", LeftToBooks, func(t *trial) *float64 { return &t.self().AcuteTemp }},
	{"self.acute_hours", LeftToBooks, func(t *trial) *float64 { return &t.self().AcuteHours }},
	{"self.alone_temp", LeftToBooks, func(t *trial) *float64 { return &t.self().AloneTemp }},
}

// stepHours is how far the hour of a flower's habit is taken to be off where its
// file gives no ends. [chosen, status chosen] half an hour, the step of the
// model's first sensitivity study.
const stepHours = 0.5

// numbers are the crop's own numbers, between the ends that their file gives.
func (b *bench) numbers() []input {
	var list []cropField
	c := b.p.Crop
	switch {
	case c.Corn != nil:
		list = cornFields
	case c.Self != nil:
		list = selfFields
	default:
		list = append(list, insectFields...)
		for g, data := range [bee.Groups]bool{c.Bees.Honey != nil, c.Bees.Bumble != nil, c.Bees.Squash != nil} {
			if data {
				list = append(list, groupFields[g])
			}
		}
	}
	var out []input
	for _, f := range list {
		if p, ok := b.param(f.name); ok && p.Kind == source.Number {
			out = append(out, input{ends(p), f.handle, func(t *trial, x float64) { *f.at(t) = x }})
		}
	}
	return out
}

// ends gives a number its ends: the published range, else the spread of the
// evidence beside it in the same unit, else a chosen step for an hour of the day,
// else none.
func ends(p source.Param) source.Param {
	if p.Range != nil {
		return p
	}
	lo, hi := p.Value, p.Value
	for _, o := range p.Others {
		switch {
		case o.Unit != "" && o.Unit != p.Unit:
		case o.Value != nil:
			lo, hi = min(lo, *o.Value), max(hi, *o.Value)
		case o.Range != nil:
			lo, hi = min(lo, o.Range.Low), max(hi, o.Range.High)
		}
	}
	if lo == hi && p.Unit == "h after sunrise" {
		lo, hi = lo-stepHours, hi+stepHours
		p.Key, p.Where, p.Status, p.Note = source.KeyChosen, "", source.Chosen, "half an hour earlier and later: no ends were published"
	}
	p.Range = &source.Interval{Low: lo, High: hi}
	return p
}
