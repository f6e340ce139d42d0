package risk

import (
	"math"
	"slices"

	"dawnbrush/forecast"
)

// few tells of female flowers lost to heat, now or ahead; whether that was told the day
// before stands in the task.
func (p *planner) few(i, k int) (Task, bool) {
	d := &p.a.Days[i]
	pd := &d.Plantings[k]
	spells := pd.budSpells(d.Date)
	if len(spells) == 0 {
		return Task{}, false
	}
	t := Task{Kind: FewFemales, Planting: pd.Planting, Day: pd, Causes: []Cause{CauseFewBuds}, Sure: Likely, Tagged: spells[0].since}
	if i > 0 && p.a.Days[i-1].Date == d.Date.AddDays(-1) {
		before := p.a.Days[i-1].Plantings[k].budSpells(d.Date.AddDays(-1))
		t.Told = !slices.ContainsFunc(spells, func(s budSpell) bool {
			return !slices.ContainsFunc(before, func(b budSpell) bool { return b.kind == s.kind && b.began == s.began })
		})
	}
	return t, true
}

// budSpell is a spell of heat that tells on a planting's female flowers.
type budSpell struct {
	kind  FlagKind
	began forecast.Date // its first hot day: what tells spells apart
	since forecast.Date // as the flag has it
}

// budSpells lists the spells that a planting's day tells of.
func (pd *PlantingDay) budSpells(d forecast.Date) (out []budSpell) {
	for i := range pd.Flags {
		switch f := &pd.Flags[i]; {
		case f.Kind == HeatOnBuds && pd.Bloom.open():
			out = append(out, budSpell{f.Kind, f.Since, f.Since})
		case f.Kind == FewAhead && pd.Bloom != NoBloom: // its days are those to come; the heat is that of the days up to this one
			out = append(out, budSpell{f.Kind, d.AddDays(1 - int(math.Round(f.Value.Or(1)))), f.Since})
		}
	}
	return out
}
