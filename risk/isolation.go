package risk

import (
	"math"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// Sweetness is the gene that makes a kind of corn sweet, by the trade's terms.
type Sweetness string

// The types. Pollen of the supersweet on the others, and of theirs on it, makes tough,
// starchy kernels. [ISUcorn98, status read]
const (
	SweetnessUnknown Sweetness = ""
	Sugary           Sweetness = "su"
	SugaryEnhanced   Sweetness = "se"
	Supersweet       Sweetness = "sh2"
)

// spoils tells whether pollen of one type makes starchy kernels on the other; of a
// type not told nothing is known.
func (s Sweetness) spoils(other Sweetness) bool {
	return s != SweetnessUnknown && other != SweetnessUnknown && (s == Supersweet) != (other == Supersweet)
}

// MayCross tells whether two plantings of corn are of types that spoil each other and
// may silk within the days that keep them apart. Without a date nothing keeps them so.
func (p *Planting) MayCross(other *Planting) bool {
	if p.Crop == nil || other.Crop == nil || p.Crop.Corn == nil || other.Crop.Corn == nil || !p.Sweetness.spoils(other.Sweetness) {
		return false
	}
	from, to, known := p.silk()
	otherFrom, otherTo, otherKnown := other.silk()
	if !known || !otherKnown {
		return true
	}
	apart := max(otherFrom.DaysSince(to), from.DaysSince(otherTo))
	return float64(apart) < p.Crop.Corn.IsolationDays
}

// silk gives the days between which a planting's first silk falls, by what was seen
// or by the days from sowing.
func (p *Planting) silk() (from, to forecast.Date, known bool) {
	after := func(d forecast.Date, r crop.Range) (forecast.Date, forecast.Date, bool) {
		return d.AddDays(int(math.Floor(r.Low))), d.AddDays(int(math.Ceil(r.High))), true
	}
	ph := &p.Crop.Phenology
	switch {
	case !p.FirstFemale.IsZero():
		return p.FirstFemale, p.FirstFemale, true
	case !p.FirstMale.IsZero():
		return after(p.FirstMale, ph.FemaleAfterMale)
	case !p.Sown.IsZero():
		return after(p.Sown, ph.SowToFemale)
	}
	return from, to, false
}

// crosses gives the first planting of the garden that may spoil p's kernels; nil for none.
func (g *Garden) crosses(p *Planting) *Planting {
	for i := range g.Plantings {
		if other := &g.Plantings[i]; other != p && p.MayCross(other) {
			return other
		}
	}
	return nil
}

// flagIsolation tells of pollen that makes kernels starchy while tassels or silks are
// out: on supersweet corn always, on the others where supersweet corn is near.
func (a *assessor) flagIsolation(m *plantingModel, out *PlantingDay) {
	if !out.Bloom.open() && out.Bloom != MalesOnly {
		return
	}
	other := a.g.crosses(m.p)
	if m.p.Sweetness != Supersweet && other == nil {
		return
	}
	d := m.p.Crop.Corn
	a.flag(Flag{Kind: OtherCorn, Limit: forecast.Known(d.Isolation), Param: "corn.isolation", Other: other})
}
