package risk

import (
	"slices"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// wetTomorrow is the chance of rain on tomorrow's open flowers from which the
// evening's work pays. [chosen, status chosen]
const wetTomorrow = 0.4

// tonight gives the evening's work for tomorrow's flowers: pollen to save where
// it keeps, flowers to shut against rain or until one has time.
func (p *planner) tonight(d, next *Day, k int) []Task {
	today, tomorrow := &d.Plantings[k], &next.Plantings[k]
	c := tomorrow.Planting.Crop
	if c.Pollination != crop.Insect || !c.Flowers.MalesApart() || !tomorrow.Bloom.open() || tomorrow.State != Judged {
		return nil
	}
	rain, wet := forecast.Value{}, false
	for i := range tomorrow.Flags {
		if f := &tomorrow.Flags[i]; f.Kind == PollenWet && f.Prob.Or(0) >= wetTomorrow {
			rain, wet = f.Prob, true
		}
	}
	if _, _, ok := p.workable(next.Date, tomorrow.Opens, tomorrow.Closes); !ok || len(p.a.Garden.Work[d.Date.Weekday()]) == 0 {
		return nil // nobody is there to do it, or to use it
	}
	bees, hand := tomorrow.Fill, tomorrow.Both
	if _, ok := p.uncover(next, tomorrow, Task{Planting: tomorrow.Planting}); ok {
		bees, hand = tomorrow.bareFill, tomorrow.bareBoth
	}
	outside := p.outsideHours(next, tomorrow)
	old := tomorrow.BestHour >= 0 && tomorrow.Hours[tomorrow.BestHour].Alive < 0.6
	short := hand.Mid-bees.Mid >= breakEven(tomorrow.Planting)
	full := tomorrow.Load.Full() // what is dropped all the same needs no pollen
	if !wet && !outside && !old || !short && (!wet || full) {
		return nil
	}
	base := Task{Planting: tomorrow.Planting, Day: tomorrow, Rain: rain, Bees: bees, Hand: hand, Sure: p.sureness(next, tomorrow), Minutes: 10}
	base.age(p.lead(next)) // tomorrow's weather decides
	base.Day = today
	base.Flowers, base.Counted = flowers(tomorrow, next.Date)
	base.Gain = max(0, hand.Mid-bees.Mid) * float64(base.Flowers)
	base.From, base.To = p.evening(d)
	switch {
	case wet:
		base.Causes = append(base.Causes, CauseRainAhead)
	case outside:
		base.Causes = append(base.Causes, CauseOutsideHours)
	}
	if old {
		base.Causes = append(base.Causes, CausePollenOld)
	}
	var out []Task
	if c.Hand.Store.OK {
		t := base
		t.Kind, t.StoreFor = SavePollen, c.Hand.Store.Hours.Or(0)
		t.Flowers = males(c, base.Flowers)
		t.Counted = false
		out = append(out, t)
	}
	if c.Hand.BagBefore.Text != "" && (wet || outside) && p.willBrush(next, tomorrow) {
		t := base
		t.Kind = BagFlowers
		out = append(out, t)
	}
	return out
}

// willBrush tells whether the plan of a day brushes these flowers whatever is seen
// on it: only then may they be shut to the bees the evening before.
func (p *planner) willBrush(d *Day, pd *PlantingDay) bool {
	return slices.ContainsFunc(p.planting(d, pd), func(t Task) bool { return t.Kind == HandPollinate })
}

// males is how many male flowers serve so many females.
func males(c *crop.Crop, females int) int {
	per := c.Hand.FemalesPerMale.Low
	if per <= 0 {
		per = 1
	}
	return max(1, int(float64(females)/per+0.999))
}

// outsideHours tells whether none of tomorrow's best hours can be worked.
func (p *planner) outsideHours(next *Day, pd *PlantingDay) bool {
	if pd.BestHour < 0 {
		return false
	}
	_, _, ok := p.workable(next.Date, pd.BrushSpan[0], pd.BrushSpan[1])
	return !ok
}

// evening gives the last hours one can work that day after 16 h, else only the
// end: by sunset, when buds that will open show their colour.
func (p *planner) evening(d *Day) (from, to time.Time) {
	if a, b, ok := p.workable(d.Date, d.Date.At(16, p.zone), d.Date.At(24, p.zone)); ok {
		return a, b
	}
	to = d.Date.At(latest, p.zone)
	if !d.Sunset.IsZero() {
		to = minTime(to, clock(d.Sunset))
	}
	return from, to
}

// latest is the local hour by which an evening's work is done, however late the
// sun sets. [common-practice, status common-practice]
const latest = 22
