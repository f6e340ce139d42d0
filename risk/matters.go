package risk

import (
	"math"
	"slices"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/source"
)

// Handle is what a grower can do about the doubt of an input.
type Handle uint8

// The handles, handiest first.
const (
	CanCount    Handle = iota // count it in the garden
	CanMeasure                // measure or time it in the garden
	CanTell                   // tell it in the garden file
	CannotKnow                // weather to come
	LeftToBooks               // a number of the crop that only a study narrows
)

var handleNames = [...]string{"count", "measure", "tell", "cannot know", "left to books"}

// String gives the word used in JSON.
func (h Handle) String() string { return handleNames[h] }

// Grower tells whether a grower can narrow such a doubt.
func (h Handle) Grower() bool { return h == CanCount || h == CanMeasure || h == CanTell }

// MarshalText gives the word used in JSON.
func (h Handle) MarshalText() ([]byte, error) { return []byte(h.String()), nil }

// Outcome is a verdict cut down to what a change of one input can move.
type Outcome struct {
	Set    float64 // share of flowers that keep a fruit, bees (wind) alone, middle of the range
	Bees   float64 // share that comes full, bees (wind) alone; with Ears the share of kernels filled in the end
	Brush  float64 // the same with a brush in the best hour, with tassels shaken on the day
	Ears   bool    // corn whose ears are known
	Known  bool    // whether the shares mean something
	Task   TaskKind
	Tasked bool // whether the plan has a task that decides; without one Task means nothing
}

// Movement is what one input alone does to the verdict between the ends of its
// doubt.
type Movement struct {
	Input  string // "bees.supply", or the dotted name of a number of the crop
	Handle Handle
	// Doubt carries the two ends as its Range, in its Unit, and where they come
	// from. Ends that are alike mean that nothing is in doubt. Shifts are added to
	// what is forecast or told, the rest stands for it.
	Doubt    source.Param
	From, To Outcome // at the low and the high end
	Moves    float64 // largest change of a share, bees or brush, between any two of low end, plan and high end; 0..1
	Flips    bool    // the plan asks for another task at an end
}

// Matters is which inputs move the verdict on a planting for a day, each moved
// alone between the ends of its doubt. What two doubts do together is not in it,
// nor a larger movement between the ends.
type Matters struct {
	Planting *Planting
	Date     forecast.Date
	State    State
	Bloom    Bloom
	Judged   bool      // false: there is nothing to judge, as State or Bloom says
	Now      Outcome   // the plan's
	LookAt   time.Time // the hour to count bees in; zero when there is none
	Inputs   []Movement
}

// leastMove is the change of a share that counts: under it the screen shows the
// same percent. [chosen, status chosen]
const leastMove = 0.005

// Moved tells whether the input moves the verdict by as much as can be shown.
func (m *Movement) Moved() bool { return m.Flips || m.Moves >= leastMove }

// WhatMatters moves each input of a planting's verdict alone between the ends of
// its doubt and ranks them by movement, at one percent with those that change
// the task first. Whole days are planned. A planting that the assessment does not
// hold on the day has nothing to judge.
func WhatMatters(a *Assessment, date forecast.Date, planting *Planting, o PlanOptions) Matters {
	out := Matters{Planting: planting, Date: date, State: NoTemperature}
	day, ok := a.Day(date)
	if !ok {
		return out
	}
	k := slices.IndexFunc(day.Plantings, func(p PlantingDay) bool { return p.Planting.Name == planting.Name })
	if k < 0 {
		return out
	}
	pd := &day.Plantings[k]
	out.State, out.Bloom = pd.State, pd.Bloom
	if !pd.State.Known() || pd.State == NoPollenParent || pd.State == SilksTooOld || pd.Bloom == NoBloom || pd.Bloom == MalesOnly {
		return out
	}
	out.Judged, out.LookAt = true, pd.look.at
	b := bench{a: a, date: date, p: pd.Planting, now: pd, options: PlanOptions{Asked: o.issue(a.Series)}}
	out.Now = b.run(nil, 0)
	for _, in := range b.inputs() {
		out.Inputs = append(out.Inputs, b.move(&in, &out.Now))
	}
	slices.SortStableFunc(out.Inputs, byMovement)
	return out
}

// byMovement orders movements: by whole percents, then flips, then what a grower
// can do about them, then the name.
func byMovement(a, b Movement) int {
	pa, pb := math.Round(100*a.Moves), math.Round(100*b.Moves)
	switch {
	case pa != pb:
		return int(pb - pa)
	case a.Flips != b.Flips:
		if a.Flips {
			return -1
		}
		return 1
	case a.Handle != b.Handle:
		return int(a.Handle) - int(b.Handle)
	}
	return strings.Compare(a.Input, b.Input)
}

// trial is a garden of one planting, copied, with all that a verdict rests on:
// changing it changes nothing else.
type trial struct {
	g Garden
	c crop.Crop
	s *forecast.Series
	l Learned
}

func (t *trial) planting() *Planting { return &t.g.Plantings[0] }

// bench is where trials of one planting and day are run.
type bench struct {
	a       *Assessment
	date    forecast.Date
	p       *Planting
	now     *PlantingDay
	options PlanOptions
}

// input is one thing in doubt and how a trial takes it on.
type input struct {
	doubt  source.Param
	handle Handle
	set    func(t *trial, x float64)
}

// run judges the planting with an input changed, or as it is.
func (b *bench) run(set func(*trial, float64), x float64) Outcome {
	t := trial{g: *b.a.Garden, c: *b.p.Crop, s: b.a.Series, l: b.a.Learned}
	t.g.Plantings = []Planting{*b.p}
	t.planting().Crop = &t.c
	if set != nil {
		set(&t, x)
	}
	a := NewModelWith(&t.g, t.l).Assess(t.s, b.date, 1)
	day, ok := a.Day(b.date)
	if !ok {
		return Outcome{}
	}
	pd := &day.Plantings[0]
	out := Outcome{Set: pd.Set.Mid, Bees: pd.Fill.Mid, Brush: pd.Both.Mid, Known: pd.State.Known()}
	if e := &pd.Ears; e.Known && out.Known {
		out.Bees, out.Brush, out.Ears = e.Filled.Mid, e.Shaken.Mid, true
	}
	for _, plan := range Plan(a, b.date, 1, b.options) {
		for _, task := range slices.Concat(plan.Tasks, plan.More, plan.Rest) {
			if !out.Tasked && task.Kind.decides() {
				out.Task, out.Tasked = task.Kind, true
			}
		}
	}
	return out
}

// decides tells whether a task is the plan's answer for the day's flowers, not
// something beside it.
func (k TaskKind) decides() bool {
	switch k {
	case LeaveToBees, LookFirst, HandPollinate, ShakeTassels, TapTrusses, UncoverCrop, NothingToGain:
		return true
	}
	return false
}

// move runs both ends of a doubt.
func (b *bench) move(in *input, now *Outcome) Movement {
	m := Movement{Input: in.doubt.Name, Handle: in.handle, Doubt: in.doubt, From: *now, To: *now}
	r := in.doubt.Range
	if r.Low >= r.High {
		return m
	}
	m.From, m.To = b.run(in.set, r.Low), b.run(in.set, r.High)
	for _, pair := range [][2]*Outcome{{&m.From, &m.To}, {&m.From, now}, {&m.To, now}} {
		if p, q := pair[0], pair[1]; p.Known && q.Known && p.Ears == q.Ears {
			m.Moves = max(m.Moves, math.Abs(p.Bees-q.Bees), math.Abs(p.Brush-q.Brush))
		}
		m.Flips = m.Flips || pair[0].Task != pair[1].Task || pair[0].Tasked != pair[1].Tasked || pair[0].Known != pair[1].Known
	}
	return m
}
