package risk

import (
	"slices"

	"dawnbrush/risk/crop"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/memory"
)

// Taught is all that a garden's file and diary teach, for a report.
type Taught struct {
	Learned Learned
	Kinds   []Kind
}

// Kind is what was learned of a crop, or of one species of it.
type Kind struct {
	Crop      *crop.Crop
	Species   string // "" where the crop is one, or none was told
	Seen      []growth.Sighting
	Firsts    []FirstTaught
	Sets      memory.Shares // bees and the brush, held together on days on which both were counted
	Cultivars []Cultivar    // named ones with evidence, in the order of the garden
	Verdicts  []Verdict     // of every two of them that have evidence of a kind
}

// FirstTaught is what was learned of a first flower, for a planting of no cultivar
// that was seen before.
type FirstTaught struct {
	Sex   growth.Sex
	Norms growth.Norms
}

// Cultivar is the evidence on one cultivar.
type Cultivar struct {
	Name           string
	Firsts         []FirstTaught // as its next planting will do
	Bees, Hand     memory.Beta   // flowers that set, flat prior
	BeesOf, HandOf float64       // flowers counted
}

// Topic is what two cultivars are compared in.
type Topic uint8

// The topics.
const (
	FirstMaleEarlier Topic = iota
	FirstFemaleEarlier
	SetByBees
	SetByHand
)

var topicNames = [...]string{"first_male", "first_female", "set_by_bees", "set_by_hand"}

// String gives the word used in JSON.
func (t Topic) String() string { return topicNames[t] }

// Verdict compares two cultivars.
type Verdict struct {
	Topic  Topic
	Better string  // the one that is earlier or sets better, as far as can be told
	Other  string  // the other
	Chance float64 // that it is so, 0.5..1
	Sum    float64 // degC day it is earlier by; 0 where days alone are known
	Days   float64 // days it is earlier by; 0 where Sum is given or it is no matter of time
	N      [2]int  // of Better and Other: first flowers seen, or flowers counted
	Paired int     // days on which both were counted; 0 where all counts had to do
}

// tellable is the chance from which a difference between cultivars is told as one.
const tellable = 0.9 // [chosen: one such verdict in ten may be wrong; growers choose seed on less]

// Told tells whether the difference may be told; otherwise n is too small for it.
// What sets on different days says more of the days than of the cultivars.
func (v *Verdict) Told() bool {
	return v.Chance >= tellable && (v.Paired > 0 || v.Topic == FirstMaleEarlier || v.Topic == FirstFemaleEarlier)
}

// Teach gathers what was learned. g is the garden as its file has it, entries are
// current ones.
func Teach(g *Garden, l Learned, entries []memory.Entry) *Taught {
	out := &Taught{Learned: l}
	trials := memory.Trials(entries)
	for i := range g.Plantings {
		p := &g.Plantings[i]
		same := func(k Kind) bool { return k.Crop == p.Crop && k.Species == p.Species }
		if slices.ContainsFunc(out.Kinds, same) {
			continue
		}
		if k := kindOf(g, &l, trials, p); len(k.Seen) > 0 || len(k.Cultivars) > 0 || k.Sets.Days > 0 {
			out.Kinds = append(out.Kinds, k)
		}
	}
	return out
}

// kindOf gathers what was learned of the kind of a planting.
func kindOf(g *Garden, l *Learned, trials []memory.Trial, p *Planting) Kind {
	k := Kind{Crop: p.Crop, Species: p.Species}
	for _, s := range l.Firsts[p.Crop.Key] {
		if s.Species == p.Species {
			k.Seen = append(k.Seen, s)
		}
	}
	norms := func(cultivar string) (out []FirstTaught) {
		for _, sex := range sexesOf(k.Crop) {
			out = append(out, FirstTaught{sex, growth.NormsOf(k.Crop.Phenology, k.Species, cultivar, sex, k.Seen)})
		}
		return out
	}
	k.Firsts = norms("")
	book := handSet(p.Crop)
	k.Sets = memory.Compare(slices.DeleteFunc(slices.Clone(trials), func(t memory.Trial) bool { return !g.ofKind(&k, t.Planting) }), "", bookUnknown, book)
	for i := range g.Plantings {
		q := &g.Plantings[i]
		known := func(c Cultivar) bool { return growth.SameCultivar(c.Name, q.Cultivar) }
		if q.Crop != p.Crop || q.Species != p.Species || !growth.SameCultivar(q.Cultivar, q.Cultivar) || slices.ContainsFunc(k.Cultivars, known) {
			continue
		}
		c := Cultivar{Name: q.Cultivar, Firsts: norms(q.Cultivar)}
		mine, none := g.plantingsOf(&k, q.Cultivar), func(string) bool { return false }
		bees, beesOf, _ := memory.Versus(trials, false, mine, none)
		hand, handOf, _ := memory.Versus(trials, true, mine, none)
		c.Bees, c.BeesOf, c.Hand, c.HandOf = bees[0], beesOf[0], hand[0], handOf[0]
		if c.BeesOf+c.HandOf > 0 || slices.ContainsFunc(c.Firsts, func(f FirstTaught) bool { return f.Norms.Days.Own > 0 }) {
			k.Cultivars = append(k.Cultivars, c)
		}
	}
	for i := range k.Cultivars {
		for j := i + 1; j < len(k.Cultivars); j++ {
			k.compare(g, trials, &k.Cultivars[i], &k.Cultivars[j])
		}
	}
	return k
}

// bookUnknown stands for the share that bees set, of which the book has no one
// number. [chosen: it weighs only in shares that no report shows]
const bookUnknown = 0.5

// ofKind tells whether a planting is of a kind and grows in the garden's air: what
// sets in a tunnel or house is not to be held against what sets outside.
func (g *Garden) ofKind(k *Kind, name string) bool {
	return slices.ContainsFunc(g.Plantings, func(p Planting) bool {
		return p.Name == name && p.Crop == k.Crop && p.Species == k.Species && !p.inside()
	})
}

// BrushBeats gives the chance that the brush sets more than bees, from days on
// which both were counted; ok is false without such a day.
func (k *Kind) BrushBeats() (chance float64, ok bool) { return k.Sets.HandBeats() }

// BrushTold tells whether that may be told as a difference.
func (k *Kind) BrushTold() bool {
	chance, ok := k.BrushBeats()
	return ok && max(chance, 1-chance) >= tellable
}

// inside tells whether a planting grows in a tunnel or house.
func (p *Planting) inside() bool { return p.Cover == Tunnel || p.Cover == House }

// plantingsOf tells the names of a cultivar's plantings of a kind.
func (g *Garden) plantingsOf(k *Kind, cultivar string) func(string) bool {
	return func(name string) bool {
		return slices.ContainsFunc(g.Plantings, func(p Planting) bool {
			return p.Name == name && g.ofKind(k, name) && growth.SameCultivar(p.Cultivar, cultivar)
		})
	}
}

// compare adds the verdicts on two cultivars.
func (k *Kind) compare(g *Garden, trials []memory.Trial, a, b *Cultivar) {
	for i := range a.Firsts {
		if v, ok := earlier(a, b, i); ok {
			k.Verdicts = append(k.Verdicts, v)
		}
	}
	for _, topic := range []Topic{SetByBees, SetByHand} {
		of, flowers, days := memory.Versus(trials, topic == SetByHand, g.plantingsOf(k, a.Name), g.plantingsOf(k, b.Name))
		if flowers[0] == 0 || flowers[1] == 0 {
			continue
		}
		v := Verdict{Topic: topic, Better: a.Name, Other: b.Name, Chance: of[0].Beats(of[1]), N: [2]int{int(flowers[0]), int(flowers[1])}, Paired: days}
		k.Verdicts = append(k.Verdicts, v.turned())
	}
}

// earlier compares a first flower of two cultivars: by degree days where both have
// any, else by days. ok is false where one of them was never seen.
func earlier(a, b *Cultivar, i int) (v Verdict, ok bool) {
	x, y := &a.Firsts[i].Norms, &b.Firsts[i].Norms
	if x.Days.Own == 0 || y.Days.Own == 0 {
		return v, false
	}
	v = Verdict{Topic: FirstFemaleEarlier, Better: a.Name, Other: b.Name}
	if a.Firsts[i].Sex == growth.Male {
		v.Topic = FirstMaleEarlier
	}
	if x.Sum.Own > 0 && y.Sum.Own > 0 {
		midA, _ := x.Sum.Cultivar()
		midB, _ := y.Sum.Cultivar()
		v.Sum, v.N, v.Chance = midB-midA, [2]int{x.Sum.Own, y.Sum.Own}, x.Sum.Earlier(a.Name, b.Name)
	} else {
		midA, _ := x.Days.Cultivar()
		midB, _ := y.Days.Cultivar()
		v.Days, v.N, v.Chance = midB-midA, [2]int{x.Days.Own, y.Days.Own}, x.Days.Earlier(a.Name, b.Name)
	}
	return v.turned(), true
}

// turned puts the likelier one first.
func (v Verdict) turned() Verdict {
	if v.Chance < 0.5 {
		v.Better, v.Other, v.Chance = v.Other, v.Better, 1-v.Chance
		v.Sum, v.Days, v.N = -v.Sum, -v.Days, [2]int{v.N[1], v.N[0]}
	}
	return v
}
