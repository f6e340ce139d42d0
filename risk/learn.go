package risk

import (
	"math"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/memory"
)

// Learned is what the diary teaches the model. The zero Learned is the book.
type Learned struct {
	Visits   float64 // bee visits counted, weighted by their age
	Expected float64 // visits the book would have expected in the same counts, weighted alike
	Counts   int     // counts of bees used
	Unused   int     // counts that no weather is known for, of plantings not in the garden, or in other air
	Latest   forecast.Date
	Hand     memory.Beta // share of hand-pollinated flowers that set; zero when none was counted
	HandOf   float64
	HandBook float64 // what the book has of the same flowers
	Firsts   Firsts  // first flowers seen
	Thirst   Thirst  // what the account of the beds' water makes of the plantings; nil where none is kept
}

// countHalfLife is the age in days at which a bee count weighs half: bees change
// through a season. [chosen, status chosen] two weeks, about half the life of a
// summer forager's generation.
const countHalfLife = 14.0

// handBook is the share of flowers that a brush sets when the model finds pollen
// and stigma in order, where no trial of the crop was found: 93 % of hand-pollinated
// cucumbers on watered plants. [Szegedi93, status read]
const handBook = 0.93

// handSet gives the share of a crop's flowers that trials set by hand.
func handSet(c *crop.Crop) float64 { return c.Hand.Set.Or(handBook) }

// handBookOf gives what the book has of the flowers brushed in trials.
func handBookOf(g *Garden, trials []memory.Trial) float64 {
	sum, of := 0.0, 0.0
	for _, t := range trials {
		if !t.ByHand {
			continue
		}
		book := handBook
		for i := range g.Plantings {
			if p := &g.Plantings[i]; p.Name == t.Planting {
				book = handSet(p.Crop)
			}
		}
		sum, of = sum+t.Of*book, of+t.Of
	}
	if of <= 0 {
		return handBook
	}
	return sum / of
}

// Learn works out what entries teach, up to an instant. The series must hold the
// hours of the counts: what a count means hangs on how far bees flew in that
// hour, and first flowers on the warmth before them. Entries are current ones,
// amended and removed ones left out; g is the garden as its file has it.
func Learn(g *Garden, s *forecast.Series, entries []memory.Entry, now time.Time) Learned {
	var out Learned
	var m *Model
	for i := range entries {
		if e := &entries[i]; e.Kind == memory.Bees && !e.At.IsZero() && !e.At.After(now) {
			if m == nil {
				m = NewModel(g)
			}
			out.count(m, s, e, now)
		}
	}
	out.Firsts = LearnFirsts(g, s, entries, forecast.DateOf(now, g.Place.Zone))
	trials := memory.Trials(unloaded(g, entries, forecast.DateOf(now, g.Place.Zone)))
	book := handBookOf(g, trials)
	hand := memory.Compare(trials, "", bookUnknown, book)
	if out.HandOf = hand.HandOf; out.HandOf > 0 {
		out.Hand, out.HandBook = hand.Hand, book
	}
	return out
}

// count learns from one count of bees.
func (l *Learned) count(m *Model, s *forecast.Series, e *memory.Entry, now time.Time) {
	visits, ok1 := e.Visits.Get()
	flowers, ok2 := e.Flowers.Get()
	minutes, ok3 := e.Minutes.Get()
	k := m.plantingNamed(e.Planting)
	if !ok1 || !ok2 || !ok3 || k < 0 || flowers <= 0 || minutes <= 0 {
		l.Unused++
		return
	}
	flight, after, ok := m.flightAt(s, e.At)
	if !ok {
		l.Unused++
		return
	}
	rate, insect := 0.0, m.models[k].insect
	stay := insect.staying(insect.clock.Offer.At(after))
	for g := range bee.Groups {
		if e.Group == "" || e.Group == bee.Group(g).Key() {
			rate += insect.bees.rate[g] * flight[g] * stay
		}
	}
	if rate <= 0 {
		l.Unused++ // bees cannot be expected then, so a count says nothing of how many live here
		return
	}
	age := max(0, now.Sub(e.At).Hours()/24)
	w := math.Exp2(-age / countHalfLife)
	l.Visits += w * visits
	l.Expected += w * rate * flowers * minutes / 60
	l.Counts++
	if e.Date.After(l.Latest) {
		l.Latest = e.Date
	}
}

// plantingNamed gives the index of a planting outside that insects pollinate, -1
// when there is none of that name.
func (m *Model) plantingNamed(name string) int {
	for i := range m.g.Plantings {
		if p := &m.g.Plantings[i]; p.Name == name && p.Crop.Pollination == crop.Insect && !p.inside() {
			return i
		}
	}
	return -1
}

// flightAt gives the expected flight of each group in the hour that holds t, and the
// hours from sunrise to t. ok is false when that hour's weather is not known. Light alone may be unknown, for
// few garden stations measure it: the mean of a clear and a dull sky stands for it.
func (m *Model) flightAt(s *forecast.Series, t time.Time) (flight [bee.Groups]float64, after float64, ok bool) {
	d := forecast.DateOf(t, m.g.Place.Zone)
	padded := whole(s, m.g.Place.Zone, d, 1)
	m.read(padded)
	if !m.frame.build(padded, &m.skies, m.g.Place, d, m.past.index(d)) || m.frame.polar {
		return flight, 0, false
	}
	i := int(t.Sub(m.frame.start) / time.Hour)
	if i < 0 || i >= m.frame.n || m.frame.hours[0][i].Missing&^air.Light != 0 {
		return flight, 0, false
	}
	for j := range m.frame.worlds {
		w := &m.frame.worlds[j]
		for g := range bee.Groups {
			flight[g] += w.weight * w.flight[g][i]
		}
	}
	return flight, t.Sub(m.frame.start).Hours() - m.frame.sunrise, true
}

// sharpen gives the law of the supply's multiplier after the counts: Gamma with
// the visits added to the shape and the visits expected at multiplier 1 to the
// rate (Gamma-Poisson).
func (l *Learned) sharpen(prior bee.Supply) bee.Supply {
	return bee.Supply{Shape: prior.Shape + l.Visits, Rate: prior.Rate + l.Expected}
}

// handShare gives what the diary makes of the brush's success, of the book's.
func (l *Learned) handShare() float64 {
	if l.HandOf <= 0 || l.HandBook <= 0 {
		return 1
	}
	return min(1, l.Hand.Mean()/l.HandBook)
}

// SupplyView is what a planting's bee supply rests on.
type SupplyView struct {
	Book   [bee.Groups]float64 // visits per flower and hour at full flight, middle, by the book and the garden file
	Garden [bee.Groups]float64 // the same after the counts
	Lo, Hi float64             // one in ten under and over, as a multiple of the middle
}

// SupplyOf shows the supply of a planting that insects pollinate; zero for others.
func (a *Assessment) SupplyOf(p *Planting) SupplyView {
	if p.Crop.Pollination != crop.Insect {
		return SupplyView{}
	}
	var known []law
	bees, learned := a.Garden.Bees, a.Learned
	if p.inside() && a.Garden.Inside[p.Logger] != nil {
		bees, learned.Visits, learned.Expected = bees.insideOf(p.BumbleHive), 0, 0
	}
	s := newSupply(p.Crop, bees, &learned, &known)
	return SupplyView{Book: s.book, Garden: s.rate, Lo: s.marks[0], Hi: s.marks[2]}
}
