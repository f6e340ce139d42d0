package risk

import (
	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/memory"
)

// Firsts is what first flowers seen in a garden tell, by the key of the crop.
type Firsts map[string][]growth.Sighting

// sexesOf lists the first flowers that a crop has: one where they are perfect.
func sexesOf(c *crop.Crop) []growth.Sex {
	if c.Flowers == crop.Perfect {
		return []growth.Sex{growth.Female}
	}
	return []growth.Sex{growth.Male, growth.Female}
}

// LearnFirsts gathers the first flowers of all plantings, finished ones too, that
// the garden file or the diary tells of up to today. g is the garden as the file
// has it: what Remember adds to it dates the bloom of a planting but is not always
// its first flower. The series should hold the days from the sowings on; what it
// lacks teaches by days alone. It is read only when some flower was seen.
func LearnFirsts(g *Garden, s *forecast.Series, entries []memory.Entry, today forecast.Date) Firsts {
	var out Firsts
	var past history
	for i := range g.Plantings {
		p := &g.Plantings[i]
		for _, sex := range sexesOf(p.Crop) {
			seen := p.firstSeen(sex, entries, today)
			if seen.IsZero() {
				continue
			}
			if out == nil {
				out = Firsts{}
				if s != nil {
					past.read(s, g.Place)
				}
			}
			one := growth.See(p.Crop.Phenology, growth.Planting{Sown: p.Sown, Transplanted: p.Transplanted, Species: p.Species}, sex, seen, past.growthDays())
			one.Planting, one.Cultivar = p.Name, p.Cultivar
			if p.inside() {
				one.Fault = growth.UnderCover
			}
			out[p.Crop.Key] = append(out[p.Crop.Key], one)
		}
	}
	return out
}

// firstSeen gives the day on which a first flower was seen, zero when none was. A
// name may have stood for another planting in an earlier year: days before the
// planting began count only where there is no other.
func (p *Planting) firstSeen(sex growth.Sex, entries []memory.Entry, today forecast.Date) forecast.Date {
	began, first, earlier := p.began(), forecast.Date{}, forecast.Date{}
	take := func(d forecast.Date) {
		to := &first
		if d.Before(began) {
			to = &earlier
		}
		if !d.IsZero() && !d.After(today) && (to.IsZero() || d.Before(*to)) {
			*to = d
		}
	}
	if sex == growth.Male {
		take(p.FirstMale)
	} else {
		take(p.FirstFemale)
	}
	for i := range entries {
		if e := &entries[i]; e.Kind == memory.First && e.Planting == p.Name && e.Sex == sex.String() {
			take(e.Date)
		}
	}
	if first.IsZero() {
		return earlier
	}
	return first
}

// began gives the day of sowing, else of transplanting, zero when neither is told.
func (p *Planting) began() forecast.Date {
	if p.Sown.IsZero() {
		return p.Transplanted
	}
	return p.Sown
}

// FirstsSpan gives the days whose warmth first flowers need to teach all they can:
// from the earliest sowing to the last flower seen. Both are zero when no flower
// of a planting with a sowing date was seen.
func FirstsSpan(g *Garden, entries []memory.Entry, today forecast.Date) (from, to forecast.Date) {
	for i := range g.Plantings {
		p := &g.Plantings[i]
		for _, sex := range sexesOf(p.Crop) {
			seen := p.firstSeen(sex, entries, today)
			if p.Sown.IsZero() || !seen.After(p.Sown) {
				continue
			}
			if from.IsZero() || p.Sown.Before(from) {
				from = p.Sown
			}
			if seen.After(to) {
				to = seen
			}
		}
	}
	return from, to
}

// Teach gives what they teach about the first male and the first female flower of a
// planting, for [growth.Planting]; nil for nothing.
func (f Firsts) Teach(p *Planting) (male, female *growth.Norms) {
	return f.of(p, growth.Male), f.of(p, growth.Female)
}

// of gives what they teach about a first flower of a planting; nil for nothing.
func (f Firsts) of(p *Planting, sex growth.Sex) *growth.Norms {
	list := f[p.Crop.Key]
	if len(list) == 0 {
		return nil
	}
	n := growth.NormsOf(p.Crop.Phenology, p.Species, p.Cultivar, sex, list)
	return &n
}

// FirstFlower is what a first flower of a planting rests on.
type FirstFlower struct {
	Sex    growth.Sex
	Seen   forecast.Date // of the planting itself; it goes before all that was learned
	Norms  growth.Norms
	Unused int // sightings of the kind that teach nothing
}

// FirstFlowersOf shows what dates the first flowers of a planting: book, garden
// and from how many.
func (a *Assessment) FirstFlowersOf(p *Planting) []FirstFlower {
	var out []FirstFlower
	for _, sex := range sexesOf(p.Crop) {
		f := FirstFlower{Sex: sex, Seen: p.FirstFemale}
		if sex == growth.Male {
			f.Seen = p.FirstMale
		}
		list := a.Learned.Firsts[p.Crop.Key]
		f.Norms = growth.NormsOf(p.Crop.Phenology, p.Species, p.Cultivar, sex, list)
		for i := range list {
			if s := &list[i]; s.Sex == sex && s.Species == p.Species && !s.Fault.Teaches() {
				f.Unused++
			}
		}
		out = append(out, f)
	}
	return out
}
