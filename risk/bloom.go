package risk

import (
	"dawnbrush/forecast"
	"dawnbrush/risk/growth"
)

// bloomDates is when a planting has flowers to pollinate, as ranges of dates.
type bloomDates struct {
	est      growth.Estimate
	finished forecast.Date
	known    bool
	basis    string
}

// datesOf reckons the dates from what was seen, degree days or days.
func (m *plantingModel) datesOf(days []growth.Day) bloomDates {
	p := m.p
	est, err := growth.Flowering(p.Crop.Phenology, growth.Planting{Sown: p.Sown, Transplanted: p.Transplanted,
		SeenMale: p.FirstMale, SeenFemale: p.FirstFemale, Species: p.Species, Male: m.male, Female: m.female}, days)
	if err != nil {
		return bloomDates{finished: p.Finished, basis: err.Error()}
	}
	return bloomDates{est: est, finished: p.Finished, known: true, basis: est.Female.Words}
}

// on tells the stage of bloom on a date and what dates it.
func (b *bloomDates) on(d forecast.Date) (Bloom, string) {
	switch {
	case !b.finished.IsZero() && !d.Before(b.finished):
		return NoBloom, "finished"
	case !b.known:
		return UnknownBloom, b.basis
	}
	female, end := b.est.Female, b.est.End
	switch {
	case d.After(end.To):
		return NoBloom, end.Words
	case d.Before(female.From):
		if male := b.est.Male; !male.To.IsZero() && !d.Before(male.To) {
			return MalesOnly, b.basis
		}
		return NoBloom, b.basis
	case d.Before(female.To):
		return MaybeBloom, b.basis
	case d.After(end.From):
		return MaybeBloom, end.Words
	}
	return InBloom, b.basis
}

// growthDays gives the known days of the history as degree days want them.
func (h *history) growthDays() []growth.Day {
	if len(h.grown) == len(h.days) {
		return h.grown
	}
	h.grown = room(h.grown, len(h.days))
	for k := range h.days {
		h.grown[k].Date = h.first.AddDays(k)
		if d := &h.days[k]; d.known {
			h.grown[k].Min, h.grown[k].Max = forecast.Known(d.min), forecast.Known(d.max)
		}
	}
	return h.grown
}
