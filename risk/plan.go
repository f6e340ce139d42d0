package risk

import (
	"math"
	"slices"
	"sort"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// PlanOptions is what a plan depends on beside the assessment.
type PlanOptions struct {
	Now time.Time // hours before it are not planned; zero plans whole days

	// Asked is when the forecast left the service, for one that does not tell its
	// issue; zero for Now: it cannot have been issued later.
	Asked time.Time
}

// Money of the plan: what an hour of the grower's work and a fruit are worth
// where the garden file does not say, in one currency. At a minute a flower a
// brush pays when it saves a quarter of a fruit. [chosen, status chosen]
const (
	hourWorth  = 15.0
	fruitWorth = 1.0
)

// clearGain is the share of fruit that a brush must win at the middle of the
// range for it to be advised without a look. [chosen, status chosen]
const clearGain = 0.5

// hopeless is the share of flowers under which a brush is not advised at all.
// [chosen, status chosen]
const hopeless = 0.15

// Plan gives the tasks of n days from first on. Days before first in the
// assessment serve for looking back at tagged flowers.
func Plan(a *Assessment, first forecast.Date, n int, o PlanOptions) []DayPlan {
	p := planner{a: a, first: first, picked: map[*Planting]bool{}, zone: a.Garden.Place.Zone, now: o.Now, issued: o.issue(a.Series), brushed: make([][]bool, len(a.Days))}
	var out []DayPlan
	for i := range a.Days {
		d := &a.Days[i]
		if d.Date.DaysSince(first) >= n {
			break
		}
		plan := p.day(i)
		if d.Date.Before(first) { // planned only to know which flowers were brushed
			continue
		}
		out = append(out, plan)
	}
	return out
}

type planner struct {
	a      *Assessment
	zone   *time.Location
	now    time.Time
	issued time.Time // of the forecast, or the latest it can have been; zero when nothing is known
	// brushed tells, by day and planting, which flowers the plan had brushed.
	brushed [][]bool
	first   forecast.Date      // of the days asked for
	picked  map[*Planting]bool // asked to be picked
}

// day plans one day.
func (p *planner) day(i int) DayPlan {
	d := &p.a.Days[i]
	plan := DayPlan{Date: d.Date, Day: d}
	lead := p.lead(d)
	p.brushed[i] = make([]bool, len(d.Plantings))
	for k := range d.Plantings { // the diary, where it tells of any, goes before the plan
		p.brushed[i][k] = slices.Contains(d.Plantings[k].Planting.Brushed, d.Date)
	}
	var work []Task
	add := func(t Task, ok bool) {
		t.age(lead)
		switch {
		case !ok || !p.now.IsZero() && !t.To.IsZero() && !t.To.After(p.now):
		case t.Kind.Work():
			work = append(work, t)
		default:
			plan.Rest = append(plan.Rest, t)
		}
	}
	var looks []Task
	for k := range d.Plantings {
		pd := &d.Plantings[k]
		for _, t := range p.planting(d, pd) {
			if t.Kind == LookFirst {
				looks = append(looks, t)
				continue
			}
			p.brushed[i][k] = p.brushed[i][k] || t.Kind == HandPollinate && len(pd.Planting.Brushed) == 0
			add(t, true)
		}
		add(p.few(i, k))
		add(p.picking(d, pd))
		add(p.tagged(i, k))
		if i+1 < len(p.a.Days) && d.Date.AddDays(1) == p.a.Days[i+1].Date {
			for _, t := range p.tonight(d, &p.a.Days[i+1], k) {
				add(t, true)
			}
		}
	}
	for _, t := range oneLook(looks) {
		add(t, true)
	}
	for _, kind := range []TaskKind{SavePollen, BagFlowers, Shade, LookAtTagged} {
		work = together(work, kind)
	}
	if len(work) > MaxTasks {
		sort.SliceStable(work, func(x, y int) bool { return work[x].rank() > work[y].rank() })
		plan.More = append(plan.More, work[MaxTasks:]...)
		work = work[:MaxTasks]
	}
	sort.SliceStable(work, func(x, y int) bool { return work[x].order().Before(work[y].order()) })
	plan.Tasks = work
	plan.Heat = p.workHeat(work)
	return plan
}

// lookMinutes is what a look takes. [chosen, status chosen] what a grower will
// spare before breakfast.
const lookMinutes = 5

// oneLook keeps one look for the whole garden, for the bees are the same: at
// the planting that stands to win most by it, if all together are worth the
// minutes. The others are left to the bees, pending that look.
func oneLook(looks []Task) []Task {
	best, sum := -1, 0.0
	for i := range looks {
		if sum += looks[i].Look.worth; best < 0 || looks[i].Look.worth > looks[best].Look.worth {
			best = i
		}
	}
	worth := sum >= lookMinutes/60.0*hourWorth
	for i := range looks {
		if t := &looks[i]; !worth || i != best {
			t.Kind, t.From, t.To, t.Minutes = LeaveToBees, time.Time{}, time.Time{}, 0
			if worth {
				t.Causes = []Cause{CauseLookElsewhere}
				looks[best].Also = append(looks[best].Also, t.Planting)
			}
			t.Look = Look{}
		}
	}
	if worth {
		looks[best].Look.worth = sum // what it settles elsewhere counts too
	}
	return looks
}

// together makes one task of a day's tasks of a kind, under the planting that
// wins most by it: one goes round once, with the same bag of clips.
func together(work []Task, kind TaskKind) []Task {
	best := -1
	for i := range work {
		if work[i].Kind == kind && (best < 0 || work[i].Gain > work[best].Gain) {
			best = i
		}
	}
	if best < 0 {
		return work
	}
	same := func(t *Task) bool { return t.Kind == kind && t.Tagged == work[best].Tagged }
	main := work[best]
	out := work[:0:0]
	at := -1
	for i := range work {
		t := &work[i]
		switch {
		case !same(t):
			out = append(out, *t)
			continue
		case at < 0:
			at = len(out)
			out = append(out, Task{})
		}
		if i != best {
			main.Also = append(main.Also, t.Planting)
			main.Flowers += t.Flowers
			main.Minutes += (t.Minutes/2 + 4) / 5 * 5
			main.Gain += t.Gain
			main.Counted = main.Counted && t.Counted
			if !t.From.IsZero() && t.From.Before(main.From) {
				main.From = t.From
			}
			if t.To.After(main.To) {
				main.To = t.To
			}
		}
	}
	out[at] = main
	return out
}

// rank says which tasks go first when there are too many: what wins most fruit
// in the grower's money.
func (t *Task) rank() float64 {
	// A look goes before what it takes the place of: five minutes may spare hours.
	base := map[TaskKind]float64{HandPollinate: 2, LookFirst: 10 + t.Look.worth, UncoverCrop: 50, ShakeTassels: 1, TapTrusses: 0.5, SavePollen: 1, BagFlowers: 1}[t.Kind]
	return base + t.Gain*worthOf(t.Planting)
}

// order is the hour by which tasks are listed; a task with an end alone is an
// evening's work and stands at that end.
func (t *Task) order() time.Time {
	if t.From.IsZero() {
		return t.To
	}
	return t.From
}

func worthOf(pl *Planting) float64 {
	if pl.FruitWorth > 0 {
		return pl.FruitWorth
	}
	return fruitWorth
}

func minutesPerFlower(pl *Planting) float64 {
	if pl.MinutesPerFlower > 0 {
		return pl.MinutesPerFlower
	}
	if m := pl.Crop.Hand.MinutesPerFlower; m > 0 {
		return m
	}
	return 1
}

// breakEven is the share of a fruit that one flower's work must win.
func breakEven(pl *Planting) float64 {
	return minutesPerFlower(pl) / 60 * hourWorth / worthOf(pl)
}

// flowers gives how many flowers there are to pollinate: the grower's count of
// the morning, or of the buds the evening before, else the crop's default for its
// plants, less what heat took from the buds.
func flowers(pd *PlantingDay, d forecast.Date) (n int, counted bool) {
	pl := pd.Planting
	switch {
	case pl.Open > 0 && pl.OpenOn == d:
		return pl.Open, true
	case pl.Buds > 0 && pl.BudsOn == d.AddDays(-1):
		return pl.Buds, true
	}
	x := pl.Crop.Hand.FemalesPerDay * float64(max(1, pl.Plants))
	if pd.has(HeatOnBuds) && pl.Crop.Buds != nil {
		x *= pl.Crop.Buds.ShareLeft
	}
	return max(1, int(math.Round(x))), false
}

func (pd *PlantingDay) has(k FlagKind) bool {
	for i := range pd.Flags {
		if pd.Flags[i].Kind == k {
			return true
		}
	}
	return false
}

func (b Bloom) open() bool { return b == InBloom || b == MaybeBloom }

// planting gives the day's own tasks of one planting.
func (p *planner) planting(d *Day, pd *PlantingDay) []Task {
	if !pd.Bloom.open() {
		return nil
	}
	t := Task{Planting: pd.Planting, Day: pd, Bees: pd.Fill, Hand: pd.Both, Sure: p.sureness(d, pd)}
	t.Flowers, t.Counted = flowers(pd, d.Date)
	switch pd.Planting.Crop.Pollination {
	case crop.Insect:
		return p.insect(d, pd, t)
	case crop.Wind:
		return p.corn(d, pd, t)
	case crop.Self:
		return p.selfing(d, pd, t)
	}
	return nil
}

// sureness is Unsure where something that decides is unknown, else Likely.
func (p *planner) sureness(d *Day, pd *PlantingDay) Sureness {
	if pd.Missing != 0 || pd.State == HistoryUnknown || pd.State == OtherAir || pd.Bloom == MaybeBloom {
		return Unsure
	}
	return Likely
}

// over tells whether an instant of day d is behind us. Days before today are
// planned as they stood, to know which flowers were brushed.
func (p *planner) over(d forecast.Date, t time.Time) bool {
	return !p.now.IsZero() && d == forecast.DateOf(p.now, p.zone) && !t.After(p.now)
}

// workable cuts a run of hours to those one can work that day and to what is
// still ahead: the longest stretch of them. ok is false when nothing is left.
func (p *planner) workable(d forecast.Date, from, to time.Time) (time.Time, time.Time, bool) {
	return p.workableFor(d, from, to, 24*time.Hour)
}

// workableFor is workable for a work of known length: the first stretch that
// holds it, for the morning is cool and the pollen young, else the longest.
func (p *planner) workableFor(d forecast.Date, from, to time.Time, need time.Duration) (time.Time, time.Time, bool) {
	if p.over(d, from) {
		from = p.now.Truncate(5 * time.Minute)
	}
	best := time.Duration(0)
	var a, b time.Time
	for _, s := range p.a.Garden.Work[d.Weekday()] {
		x, y := d.At(s.From, p.zone), d.At(s.To, p.zone)
		if x.Before(from) {
			x = from
		}
		if y.After(to) {
			y = to
		}
		if l := y.Sub(x); l > best {
			if best, a, b = l, x, y; l >= need {
				break
			}
		}
	}
	return a, b, best >= 5*time.Minute
}

// minutesFor is how long n flowers take, rounded up to five minutes.
func minutesFor(pl *Planting, n int) int {
	return int(math.Ceil(float64(n)*minutesPerFlower(pl)/5)) * 5
}
