package risk

import (
	"math"
	"slices"

	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// FruitNote is one thing that the diary tells of a planting's growing fruit.
type FruitNote struct {
	On     forecast.Date  // day of the note
	Kind   memory.Kind    // Fruits: all that grow; Set: flowers that took; Picked
	Count  forecast.Value // fruits; unknown where only their weight was noted
	Plants float64        // Fruits: plants looked at; 0 for the whole planting
	Opened forecast.Date  // Set: day the flowers opened
	ByHand bool           // Set: pollinated by hand
}

// Load is the growing fruit that a planting carries on a day, as far as the
// diary tells. The zero Load is not known, and takes nothing from set.
type Load struct {
	PerPlant forecast.Value // growing fruits a plant; unknown where no note tells of any
	AtLeast  bool           // there may be more: fruit that nobody noted
	Kept     float64        // share of new fruit that the plants keep beside it, 0..1; 0 only with a known load
	PickFrom forecast.Date  // a spray's label lets nothing be picked before; zero when none does
}

// kept is the share of new fruit kept, 1 where no load is known.
func (l *Load) kept() float64 {
	if !l.PerPlant.IsKnown() {
		return 1
	}
	return l.Kept
}

// Full tells whether the plants drop more than half of their new fruit, so that
// the load, not the weather, is told as what decides.
func (l *Load) Full() bool { return l.kept() < fullKept }

// fullKept is the share of new fruit kept under which plants count as full.
// [chosen, status chosen] more than half is dropped then.
const fullKept = 0.5

// noteFruit takes up an entry that tells of growing fruit. Counts of set are of
// some flowers only: what they found grows, but more may.
func (p *Planting) noteFruit(e *memory.Entry) {
	n := FruitNote{On: e.Date, Kind: e.Kind, Count: e.Count, ByHand: e.By == memory.ByHand, Opened: e.FlowersOn}
	switch e.Kind {
	case memory.Fruits:
		n.Plants = e.Of.Or(0)
	case memory.Set:
		if n.Opened.IsZero() {
			after := p.Crop.Hand.LookAfter
			n.Opened = e.Date.AddDays(-int(math.Round((after.Low + after.High) / 2)))
		}
	}
	p.Growing = append(slices.Clone(p.Growing), n)
}

// unloaded leaves out of a diary the counts of set on plants that carried enough
// to drop new fruit when the flowers opened: they tell of the load, not of the brush.
func unloaded(g *Garden, entries []memory.Entry, today forecast.Date) []memory.Entry {
	told := Remember(g, entries, today)
	return slices.DeleteFunc(slices.Clone(entries), func(e memory.Entry) bool {
		k := slices.IndexFunc(told.Plantings, func(p Planting) bool { return p.Name == e.Planting })
		if e.Kind != memory.Set || k < 0 {
			return false
		}
		opened := e.FlowersOn
		if opened.IsZero() {
			opened = e.Date
		}
		load := told.Plantings[k].LoadOn(opened)
		return load.kept() < 1
	})
}

// brood is fruit of one origin on the vines.
type brood struct {
	from   forecast.Date // the day their flowers opened; of a count, the day of the count
	mixed  bool          // a count: fruit of all ages, which ripens evenly through the time that one takes
	byHand bool
	first  float64 // fruits at first
	left   float64 // less what was picked
}

// on gives how many of a brood still grow on a day, when fruit stays so many days
// from flower to picking.
func (b *brood) on(d forecast.Date, stay float64) float64 {
	age := float64(d.DaysSince(b.from))
	switch {
	case age > stay:
		return 0
	case b.mixed:
		return min(b.left, b.first*(1-age/stay))
	}
	return b.left
}

// LoadOn gives the load on a day by the notes up to it: the last count of all
// growing fruit and flowers known to have set since, less those picked, oldest
// first, and those past the longest time from flower to picking. Without a count,
// flowers known to have set are the least there is. The load is not known for a
// crop without a published or chosen limit, without notes, and where the plants
// were counted neither in the garden file nor in the note.
func (p *Planting) LoadOn(d forecast.Date) Load {
	out := Load{PickFrom: p.PickFrom}
	if p.Crop.Load == nil {
		return out
	}
	after, _ := p.Crop.HarvestAfter(p.Type)
	stay := after.High
	plants := float64(p.Plants)
	var vines []brood
	counted := forecast.Date{}
	told := false
	for i := range p.Growing {
		n := &p.Growing[i]
		if n.On.After(d) {
			break
		}
		fruits, known := n.Count.Get()
		switch {
		case n.Kind == memory.Picked:
			pick(vines, n.On, fruits, known, stay)
		case !known:
		case n.Kind == memory.Fruits:
			of := n.Plants
			switch {
			case of > 0 && p.Plants > 0:
				fruits *= float64(p.Plants) / of
			case of > 0:
				plants = of // what was looked at stands for the planting
			case p.Plants == 0:
				continue
			}
			told, counted = true, n.On
			vines = append(vines[:0], brood{from: n.On, mixed: true, first: fruits, left: fruits})
		case p.Plants > 0 && (counted.IsZero() || n.Opened.After(counted)): // else the count held them
			told = true
			vines = addSet(vines, n, fruits)
		}
	}
	if !told {
		return out
	}
	sum := 0.0
	for i := range vines {
		sum += vines[i].on(d, stay)
	}
	if sum == 0 && counted != d { // what was noted is gone, and what came since is not known
		return out
	}
	out.PerPlant, out.AtLeast = forecast.Known(sum/plants), counted != d
	out.Kept = p.Crop.Load.Kept(sum / plants)
	return out
}

// addSet adds flowers that took. A second look at the same day's flowers is no
// second brood: the later count holds.
func addSet(vines []brood, n *FruitNote, fruits float64) []brood {
	for i := range vines {
		if b := &vines[i]; !b.mixed && b.from == n.Opened && b.byHand == n.ByHand {
			b.first, b.left = fruits, fruits
			return vines
		}
	}
	return append(vines, brood{from: n.Opened, byHand: n.ByHand, first: fruits, left: fruits})
}

// pick takes fruit off the vines, oldest first. Where only a weight was noted,
// all that may have been ripe is taken for picked.
func pick(vines []brood, on forecast.Date, fruits float64, known bool, stay float64) {
	slices.SortStableFunc(vines, func(a, b brood) int {
		switch {
		case a.from.Before(b.from):
			return -1
		case b.from.Before(a.from):
			return 1
		}
		return 0
	})
	if !known {
		fruits = math.Inf(1)
	}
	for i := range vines {
		b := &vines[i]
		off := min(fruits, b.on(on, stay))
		if off > 0 {
			b.left = b.on(on, stay) - off
			fruits -= off
		}
	}
}

// load applies the growing fruit to what bees and brush set: the plants drop
// the rest, however well it was pollinated.
func (a *assessor) load(p *Planting, out *PlantingDay) {
	out.Load = p.LoadOn(a.frame.date)
	fruits, known := out.Load.PerPlant.Get()
	kept := out.Load.kept()
	if !known || kept >= 1 || out.Bloom == NoBloom {
		return
	}
	for _, r := range []*Range{&out.Set, &out.Fill, &out.Both, &out.BothSet, &out.bareFill, &out.bareBoth} {
		*r = Range{kept * r.Lo, kept * r.Mid, kept * r.Hi}
	}
	flag := Flag{Kind: FullLoad, Value: forecast.Known(fruits), Limit: forecast.Known(p.Crop.Load.Limit.High), Param: "load.limit"}
	flags := slices.Clone(out.Flags)
	out.Flags = append(flags, flag)
}

// pickMinutes is what a round of picking takes. [chosen, status chosen] a bed of a
// dozen plants.
const pickMinutes = 10

// loaded tells whether the plants are so full that a brush pays no more, and says so.
func loaded(pd *PlantingDay, t Task) (Task, bool) {
	if pd.Load.kept() >= hopeless {
		return t, false
	}
	t.Kind, t.Causes, t.Gain = NothingToGain, []Cause{CauseFullLoad}, 0
	return t, true
}

// picking asks to pick where that frees the plants for new fruit: crops picked
// young, once the load is past the lower end of the limit, and no spray's label
// forbids it yet. It asks once: what the plants carry after is not known until
// it is noted.
func (p *planner) picking(d *Day, pd *PlantingDay) (Task, bool) {
	l := pd.Planting.Crop.Load
	if l == nil || !l.Young || d.Date.Before(p.first) || p.picked[pd.Planting] || pd.Load.kept() >= 1 || !pd.Bloom.open() || d.Date.Before(pd.Load.PickFrom) {
		return Task{}, false
	}
	_, to, ok := p.workable(d.Date, d.Date.At(0, p.zone), d.Date.At(24, p.zone))
	if !ok {
		return Task{}, false
	}
	p.picked[pd.Planting] = true
	t := Task{Kind: PickFruit, Planting: pd.Planting, Day: pd, To: to, Minutes: pickMinutes, Causes: []Cause{CauseFullLoad}, Sure: Likely, Bees: pd.Fill, Hand: pd.Both}
	n, _ := flowers(pd, d.Date)
	if kept := pd.Load.kept(); pd.State.Known() && kept > 0 { // what bees set, kept whole
		t.Hand = Range{pd.Fill.Lo / kept, pd.Fill.Mid / kept, pd.Fill.Hi / kept}
		t.Gain = float64(n) * (t.Hand.Mid - t.Bees.Mid)
	}
	return t, true
}
