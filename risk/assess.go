package risk

import (
	"slices"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/growth"
)

// Assess works out the days from first on, at most n of them and no further
// than the series reaches. Every planting stands in every day, in the order of
// the garden. The series may hold past hours; what looks back reads them.
func Assess(g *Garden, s *forecast.Series, first forecast.Date, n int) *Assessment {
	return NewModel(g).Assess(s, first, n)
}

// Model is a garden compiled, with the room that an assessment is worked out
// in. It may serve many series in turn, one at a time.
type Model struct {
	assessor
	out        Assessment
	results    []PlantingDay
	slab       []FlowerHour
	rooms      []closedRoom
	aside      PlantingDay // a day of corn that nobody asked for
	asideHours [openHours]FlowerHour
}

// NewModel compiles a garden by the book.
func NewModel(g *Garden) *Model { return NewModelWith(g, Learned{}) }

// NewModelWith compiles a garden with what its diary teaches.
func NewModelWith(g *Garden, l Learned) *Model {
	m := &Model{assessor: assessor{g: g, learned: l, models: make([]plantingModel, len(g.Plantings))}}
	m.compile()
	m.rooms = closedRooms(g, l)
	return m
}

// Assess is as the function of that name. The result shares the model's room
// and holds until the next call.
func (m *Model) Assess(s *forecast.Series, first forecast.Date, n int) *Assessment {
	s = whole(s, m.g.Place.Zone, first, n)
	m.read(s)
	np := len(m.g.Plantings)
	n = min(n, len(m.past.days)+max(0, m.past.first.DaysSince(first)))
	m.results, m.slab = room(m.results, n*np), m.slab[:0]
	if need := n * np * usualHours; cap(m.slab) < need {
		m.slab = make([]FlowerHour, 0, need)
	}
	m.flags = m.flags[:0]
	m.out = Assessment{Garden: m.g, Series: s, Learned: m.learned, Days: m.out.Days[:0]}
	results := m.results
	for k := range n {
		d := first.AddDays(k)
		if !m.frame.build(s, &m.skies, m.g.Place, d, m.past.index(d)) {
			continue
		}
		day := Day{Date: d, Plantings: results[:np:np]}
		results = results[np:]
		m.day(&day)
		for i := range m.g.Plantings {
			free := m.flowerHours()
			m.planting(i, &day.Plantings[i], free)
			m.load(&m.g.Plantings[i], &day.Plantings[i])
			m.thirst(&m.g.Plantings[i], &day.Plantings[i])
			if h := day.Plantings[i].Hours; len(h) > 0 && &h[0] == &free[0] {
				m.slab = m.slab[:len(m.slab)+len(h)]
			}
		}
		m.out.Days = append(m.out.Days, day)
	}
	for i := range m.rooms {
		m.rooms[i].assess(m, s, first, n)
	}
	m.fillEars()
	return &m.out
}

// usualHours is how many hours a flower is open as a rule: what the store is made
// for at first.
const usualHours = 10

// flowerHours gives room for one flower's hours behind those in use; a
// full store is left to the results that share it and a new one begun.
func (m *Model) flowerHours() []FlowerHour {
	n := len(m.slab)
	if cap(m.slab)-n < openHours {
		m.slab, n = make([]FlowerHour, 0, 16*openHours), 0
	}
	return m.slab[n : n+openHours : n+openHours]
}

// whole makes sure that the days asked for, as far as the series touches them,
// consist of whole days: hours before its start and after its end are unknown
// hours, for a flower may be open in them.
func whole(s *forecast.Series, zone *time.Location, first forecast.Date, n int) *forecast.Series {
	if len(s.Hours) == 0 {
		return s
	}
	start, end := s.Start(), s.End()
	if from, to := first.Span(zone); start.After(from) {
		for d := first; !start.Before(to); _, to = d.Span(zone) { // skip days before the series
			d = d.AddDays(1)
			from, _ = d.Span(zone)
		}
		start = from
	}
	if last := forecast.DateOf(end.Add(-time.Nanosecond), zone); last.Before(first.AddDays(n)) {
		_, end = last.Span(zone)
	}
	// A day that begins on the half hour begins with the first hour wholly in it.
	start, end = start.Add(time.Hour-time.Nanosecond).UTC().Truncate(time.Hour), end.UTC()
	if !start.Before(s.Start()) && !end.After(s.End()) {
		return s
	}
	out := *s
	padded := forecast.New(start, end)
	lo, _ := padded.Index(s.Start())
	copy(padded.Hours[lo:], s.Hours)
	out.Hours = padded.Hours
	return &out
}

// room gives a cleared slice of n elements, v's own where it is large enough.
func room[T any](v []T, n int) []T {
	if cap(v) < n {
		return make([]T, n)
	}
	v = v[:n]
	clear(v)
	return v
}

// Day gives the day of a date.
func (a *Assessment) Day(d forecast.Date) (*Day, bool) {
	for i := range a.Days {
		if a.Days[i].Date == d {
			return &a.Days[i], true
		}
	}
	return nil, false
}

// assessor holds what is worked out once per garden and series.
type assessor struct {
	g       *Garden
	s       *forecast.Series
	skies   skies
	past    history
	frame   frame
	scratch scratch
	models  []plantingModel
	shared  []sharedDay // by the first planting of a crop
	laws    []law
	learned Learned
	flags   []Flag
}

// plantingModel is one planting compiled by what carries its pollen.
type plantingModel struct {
	p      *Planting
	insect *insectModel // shared by the plantings of a crop
	first  int          // index of the first planting of the crop
	corn   cornModel
	self   selfModel
	dates  bloomDates
	male   *growth.Norms // what the garden's first flowers taught; nil for nothing
	female *growth.Norms
}

// compile prepares what no series changes.
func (a *assessor) compile() {
	for i := range a.g.Plantings {
		p := &a.g.Plantings[i]
		m := &a.models[i]
		m.p = p
		m.male, m.female = a.learned.Firsts.Teach(p)
		if !p.FirstFemale.IsZero() { // what was seen needs no weather
			m.dates = m.datesOf(nil)
		}
		switch p.Crop.Pollination {
		case crop.Insect:
			m.first = slices.IndexFunc(a.g.Plantings, func(q Planting) bool { return q.Crop == p.Crop && q.clock() == p.clock() })
			if m.insect = a.models[m.first].insect; m.insect == nil {
				m.insect = newInsectModel(p.Crop, a.g.Bees, &a.learned, &a.laws)
				m.insect.clock = p.clock()
			}
		case crop.Wind:
			m.corn = newCornModel(p.Crop)
		case crop.Self:
			m.self = selfModel{p.Crop, p.Crop.Self, falls(p.Crop.Self.Mean)}
		}
	}
}

// read works a series out for the whole garden.
func (a *assessor) read(s *forecast.Series) {
	a.s = s
	a.shared = room(a.shared, len(a.models))
	a.skies.read(s, a.g)
	a.past.read(s, a.g.Place)
	for i := range a.models {
		if m := &a.models[i]; m.p.FirstFemale.IsZero() {
			m.dates = m.datesOf(a.past.growthDays())
		}
	}
}

// day fills what concerns the whole garden.
func (a *assessor) day(day *Day) {
	f := &a.frame
	day.Forecast, day.Whole, day.Missing = f.issued, f.hasLast, f.missing
	if !f.polar {
		day.Sunrise, day.Sunset = f.at(f.sunrise), f.at(f.sunset)
	}
	a.weather(&day.Weather)
	day.Flags = a.take(func() { a.flagOver105(&day.Weather) })
}

// planting fills the verdict and the flags of one planting.
func (a *assessor) planting(i int, out *PlantingDay, slab []FlowerHour) {
	f, m := &a.frame, &a.models[i]
	p := m.p
	out.Planting, out.BestHour, out.Missing = p, -1, f.missing
	out.Bloom, out.BloomBasis = m.dates.on(f.date)
	switch inside := p.inside(); {
	case p.needsNoPollen() && (inside || f.polar):
		out.State = NeedsNoPollen
		return
	case p.lacksParent() && (inside || f.polar):
		out.State = NoPollenParent
		return
	case inside:
		out.State, out.HotOutside = OtherAir, a.hotOutside(m)
		out.Flags = a.take(func() { a.flagDays(m, out) })
		return
	case f.polar:
		out.State = NoSun
		return
	case !m.inReach(f) || f.missingIn(m.span(f)).Has(air.Temp):
		out.State = NoTemperature
		out.Missing = air.Temp
		_, to := m.span(f)
		out.Closes = f.hourStart(to) // by the clock: whatever it was, it is over then
		return
	}
	out.Missing = f.missingIn(m.span(f))
	switch p.Crop.Pollination {
	case crop.Insect:
		a.insect(m, out, slab)
		return
	case crop.Wind:
		m.corn.judge(f, p, out, slab)
	case crop.Self:
		m.self.judge(f, &a.scratch, &a.past, a.g.Place, out, slab)
	}
	out.Flags = a.take(func() { a.flagPlanting(m, out) })
}

// sharedDay is what one day does to the flowers of a crop, whatever the
// planting: it is worked out once for all plantings of the crop.
type sharedDay struct {
	on    forecast.Date
	day   PlantingDay
	flags []Flag
}

// insect fills the verdict of a planting that insects pollinate.
func (a *assessor) insect(m *plantingModel, out *PlantingDay, slab []FlowerHour) {
	f, s := &a.frame, &a.shared[m.first]
	if s.on != f.date {
		s.on, s.day = f.date, PlantingDay{BestHour: -1}
		m.insect.judge(f, &a.scratch, &s.day, slab)
		s.day.look = m.look(f, &s.day)
		s.flags = a.take(func() { a.flagInsect(m, &s.day) })
	}
	own := *out
	*out = s.day
	out.Planting, out.Bloom, out.BloomBasis, out.Missing = own.Planting, own.Bloom, own.BloomBasis, own.Missing
	a.settings(m, out)
	out.Flags = a.take(func() {
		for i := range s.flags {
			if s.flags[i].Kind != BeesIn || out.State != NeedsNoPollen && m.p.Cover != RowCover {
				a.flag(s.flags[i])
			}
		}
		a.flagDays(m, out)
	})
}

// span gives the frame hours whose weather decides about a planting's day.
func (m *plantingModel) span(f *frame) (from, to int) {
	c := m.p.Crop
	clock := m.p.clock()
	a, b := f.sunrise+clock.Opens, f.sunrise+clock.Closes
	switch {
	case c.Corn != nil:
		a, b = f.sunrise+c.Corn.ShedFrom, f.sunrise+c.Corn.ShedTo
	case c.Self != nil: // local hours
		a, b = float64(f.day)+c.Self.ShedFrom, float64(f.day)+c.Self.ShedTo
	}
	return max(f.day, int(a)), min(f.n, int(b)+1)
}

// inReach tells whether the series holds any hour that decides about the day.
func (m *plantingModel) inReach(f *frame) bool {
	from, to := m.span(f)
	return from < to
}

// settings applies how the cultivar sets and what covers it to the bees' part.
func (a *assessor) settings(m *plantingModel, out *PlantingDay) {
	if out.State != Judged {
		return
	}
	switch {
	case m.p.needsNoPollen():
		out.State = NeedsNoPollen
		return
	case m.p.lacksParent():
		out.State = NoPollenParent
		out.Set, out.Fill = Range{}, Range{}
		out.Both, out.BothSet = Range{}, Range{}
		return
	}
	if m.p.Cover == RowCover { // no bee gets in; a brush under a lifted cover works
		out.bareFill, out.bareBoth = out.Fill, out.Both
		out.Set, out.Fill = Range{}, Range{}
		h := out.BestShare
		out.Both, out.BothSet = Range{h, h, h}, Range{h, h, h}
	}
	if m.p.Setting == crop.Parthenocarpic { // part of the fruit comes unpollinated
		p0 := m.p.Crop.Need.WithoutBees.Or(0)
		for _, r := range []*Range{&out.Set, &out.Fill, &out.Both, &out.BothSet, &out.bareFill, &out.bareBoth} {
			*r = Range{p0 + (1-p0)*r.Lo, p0 + (1-p0)*r.Mid, p0 + (1-p0)*r.Hi} // [Knapp]
		}
	}
}

// needsNoPollen tells whether the cultivar fills its fruit unpollinated.
func (p *Planting) needsNoPollen() bool {
	return p.Crop.Pollination == crop.Insect && p.Setting == crop.Parthenocarpic && p.Crop.Need.WithoutBees.Or(1) >= 1
}

// lacksParent tells whether the cultivar brings no pollen of its own and no
// pollen parent stands nearby.
func (p *Planting) lacksParent() bool {
	return p.Crop.Pollination == crop.Insect && (p.Setting == crop.Gynoecious || p.Setting == crop.Triploid) && !p.Pollenizer
}

// take runs add and gives the flags it appended, out of one growing store.
func (a *assessor) take(add func()) []Flag {
	if cap(a.flags)-len(a.flags) < 16 {
		a.flags = make([]Flag, 0, 128)
	}
	n := len(a.flags)
	add()
	return a.flags[n:len(a.flags):len(a.flags)]
}

// look finds the hour to watch bees in: the first one with bees out in which
// most of the day's work is still ahead, and how many visits a flower gets then.
func (m *plantingModel) look(f *frame, out *PlantingDay) lookBasis {
	best := out.look
	if out.State != Judged || m.p.Crop.Pollination != crop.Insect {
		return best
	}
	for k := range out.Hours {
		h := &out.Hours[k]
		x := 0.0
		for g := range bee.Groups {
			x += h.Flight[g] * m.insect.bees.rate[g] * m.insect.staying(h.Offer)
		}
		if h.Open >= 0.5 && h.Hand >= 0.5*out.BestShare && x > best.visits*1.25 {
			best.visits, best.at, best.law = x, h.Start, m.insect.bees.gamma
			if k >= 2 {
				break
			}
		}
	}
	for g := range bee.Groups {
		best.groups[g] = m.insect.bees.rate[g] > 0
	}
	return best
}

// hourStart gives the first instant of a frame hour.
func (f *frame) hourStart(i int) time.Time { return f.start.Add(time.Duration(i) * time.Hour) }
