package risk

import (
	"slices"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// Remember gives a garden as its diary tells it: first flowers seen, buds and
// open flowers counted, covers put on and taken off, flowers brushed, fruit that
// grows and was picked, sprays that forbid picking. g stays as
// it is. Entries are current ones; those after today are left out.
func Remember(g *Garden, entries []memory.Entry, today forecast.Date) *Garden {
	out := *g
	out.Plantings = slices.Clone(g.Plantings)
	sorted := slices.Clone(entries)
	slices.SortStableFunc(sorted, func(a, b memory.Entry) int {
		switch {
		case a.Date.Before(b.Date):
			return -1
		case b.Date.Before(a.Date):
			return 1
		}
		return a.Recorded.Compare(b.Recorded)
	})
	for i := range sorted {
		e := &sorted[i]
		if e.Date.After(today) {
			continue
		}
		k := slices.IndexFunc(out.Plantings, func(p Planting) bool { return p.Name == e.Planting })
		if k >= 0 {
			out.Plantings[k].remember(e)
		}
		for i := range out.Plantings {
			if p := &out.Plantings[i]; k < 0 && p.among(e) {
				p.remember(e)
			}
		}
	}
	return &out
}

// among tells whether an entry about the whole garden, or about the bed, is about the
// planting: a spray of either, a cover of the bed, where it grows on the day.
func (p *Planting) among(e *memory.Entry) bool {
	switch {
	case e.Kind != memory.Spray && e.Kind != memory.Cover:
		return false
	case e.Planting == "":
		return e.Kind == memory.Spray
	}
	begun := p.Transplanted
	if begun.IsZero() {
		begun = p.Sown
	}
	return strings.EqualFold(p.Bed, e.Planting) && !begun.After(e.Date) && (p.Finished.IsZero() || !p.Finished.Before(e.Date))
}

// remember applies one entry; they come in order of their days.
func (p *Planting) remember(e *memory.Entry) {
	switch e.Kind {
	case memory.First:
		first := &p.FirstFemale
		if e.Sex == "male" {
			first = &p.FirstMale
		}
		if first.IsZero() || e.Date.Before(*first) {
			*first = e.Date
		}
	case memory.Buds:
		if n, ok := e.Female.Get(); ok {
			p.Buds, p.BudsOn = int(n), e.Date
		}
	case memory.Opened:
		if n, ok := e.Female.Get(); ok {
			p.Open, p.OpenOn = int(n), e.Date
			if n > 0 && p.FirstFemale.IsZero() {
				p.FirstFemale = e.Date
			}
		}
	case memory.Brushed:
		if len(p.Brushed) == 0 || p.Brushed[len(p.Brushed)-1] != e.Date {
			p.Brushed = append(slices.Clone(p.Brushed), e.Date)
		}
	case memory.Fruits, memory.Set, memory.Picked:
		p.noteFruit(e)
	case memory.Spray:
		if until := e.Date.AddDays(int(e.Interval.Or(0))); until.After(p.PickFrom) {
			p.PickFrom = until
		}
	case memory.Cover:
		switch {
		case e.On && (p.Cover == Open || p.Cover == ""):
			p.Cover = RowCover
		case !e.On && p.Cover == RowCover:
			p.Cover = Open
		}
	}
}
