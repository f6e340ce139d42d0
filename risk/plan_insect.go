package risk

import (
	"math"
	"slices"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/bee"
)

// insect decides between leaving flowers to the bees, looking first and the
// brush: the brush pays where the fruit it wins is worth more than the minutes.
func (p *planner) insect(d *Day, pd *PlantingDay, t Task) []Task {
	if slices.Contains(pd.Planting.Brushed, d.Date) {
		t.Kind, t.Causes, t.Sure = LeaveToBees, []Cause{CauseDone}, VerySure
		t.Bees, t.Hand = Range{}, Range{}
		return []Task{t}
	}
	if !pd.Closes.IsZero() && p.over(d.Date, pd.Closes) {
		t.Kind, t.Causes, t.Gain, t.Sure = NothingToGain, []Cause{CauseOver}, 0, VerySure
		return []Task{t}
	}
	t.Males = d.MalesFor(pd.Planting)
	if t, ok := loaded(pd, t); ok && pd.State != NeedsNoPollen {
		return []Task{t}
	}
	if t, ok := p.special(d, pd, t); ok {
		return []Task{t}
	}
	var out []Task
	covered := pd.Planting.Cover == RowCover
	if u, ok := p.uncover(d, pd, t); ok {
		out, covered = append(out, u), false
		t.Bees, t.Hand = pd.bareFill, pd.bareBoth
	}
	lo, mid, hi := t.Hand.Lo-t.Bees.Lo, t.Hand.Mid-t.Bees.Mid, t.Hand.Hi-t.Bees.Hi
	// The brush may win most in the middle: where rain washes all out at one end
	// and bees finish all at the other.
	least, most := min(lo, mid, hi), max(lo, mid, hi)
	pays := breakEven(pd.Planting)
	t.Gain = mid * float64(t.Flowers)
	t.Causes = p.causes(pd, covered)
	t.pollenParent()
	switch {
	case pd.BestHour < 0 || pd.BestShare < hopeless:
		t.Kind, t.Causes, t.Gain = NothingToGain, hopelessCauses(pd), 0
		return append(out, t)
	case most < pays && pd.Load.Full():
		t.Kind, t.Causes, t.Gain = NothingToGain, []Cause{CauseFullLoad}, 0
		return append(out, t)
	case most < pays:
		t.Kind = LeaveToBees
		if mid < pays/2 && t.Sure == Likely {
			t.Sure = VerySure
		}
		return append(out, t)
	case least >= pays && t.Sure == Likely:
		t.Sure = VerySure
	case mid < clearGain && !covered:
		if look, ok := p.look(d, pd, t); ok && pd.Inside == nil { // a count in there teaches nothing of the garden's bees
			out = append(out, look)
			out = append(out, p.shade(pd, t)...)
			return out
		}
		if mid < pays {
			t.Kind = LeaveToBees
			return append(out, t)
		}
	}
	t.Kind = HandPollinate
	if !p.schedule(d, pd, &t) {
		t.Kind, t.Causes, t.Gain = NothingToGain, append([]Cause{CauseOutsideHours}, t.Causes...), 0
		return append(out, t)
	}
	t.fit()
	return append(append(out, t), p.shade(pd, t)...)
}

// special handles what needs no weather to decide.
func (p *planner) special(d *Day, pd *PlantingDay, t Task) (Task, bool) {
	switch pd.State {
	case NeedsNoPollen:
		t.Kind, t.Causes = LeaveToBees, []Cause{CauseNeedsNoPollen}
		t.spoilt()
	case NoPollenParent:
		t.Kind, t.Causes = NothingToGain, []Cause{CauseNoParent}
	case StaysShut:
		t.Kind, t.Causes = NothingToGain, []Cause{CauseLateOpening}
	case NoTemperature:
		t.Kind, t.Causes, t.Sure = NothingToGain, []Cause{CauseUnknown}, Unsure
	case NoSun:
		t.Kind, t.Causes, t.Sure = NothingToGain, []Cause{CauseNoSun}, Unsure
	case OtherAir:
		if pd.HotOutside {
			t.Kind, t.Causes, t.Sure = NothingToGain, []Cause{CauseHotPollen, CauseOtherAir}, Likely
			return t, true
		}
		// Few bees come in and the air is not that of the forecast: the practice's
		// hours are all there is to go by.
		t.Kind, t.Causes, t.Sure = HandPollinate, []Cause{CauseOtherAir}, Unsure
		best := pd.Planting.Crop.Hand.Best
		from, to, ok := p.workable(d.Date, d.Date.At(best.Low, p.zone), d.Date.At(best.High, p.zone))
		if !ok {
			t.Kind, t.Causes = NothingToGain, []Cause{CauseOutsideHours, CauseOtherAir}
			return t, true
		}
		t.From, t.To = from, to
		t.fit()
	default:
		return t, false
	}
	return t, true
}

// schedule puts the brush into the best hours one can work, else into the best
// of those one can, marked second best. ok is false when none is any good.
func (p *planner) schedule(d *Day, pd *PlantingDay, t *Task) (ok bool) {
	need := 24 * time.Hour // how many flowers wait is not known
	if t.Flowers > 0 {
		need = time.Duration(minutesFor(pd.Planting, t.Flowers)) * time.Minute
	}
	if from, to, ok := p.workableFor(d.Date, pd.BrushSpan[0], pd.BrushSpan[1], need); ok {
		t.From, t.To = from, to
		return true
	}
	best := -1
	hour := func(h *FlowerHour) (from, to time.Time, ok bool) {
		return p.workable(d.Date, maxTime(h.Start, pd.Opens), minTime(h.Start.Add(time.Hour), clock(pd.Closes)))
	}
	for k := range pd.Hours {
		h := &pd.Hours[k]
		if _, _, ok := hour(h); ok && h.Hand >= hopeless && (best < 0 || h.Hand > pd.Hours[best].Hand) {
			best = k
		}
	}
	if best < 0 {
		return false
	}
	h := &pd.Hours[best]
	t.From, t.To, _ = hour(h)
	t.Second = true
	t.Causes = append(t.Causes, CauseOutsideHours)
	scale := h.Hand / pd.BestShare
	for _, r := range [][2]*float64{{&t.Hand.Lo, &t.Bees.Lo}, {&t.Hand.Mid, &t.Bees.Mid}, {&t.Hand.Hi, &t.Bees.Hi}} {
		*r[0] = *r[1] + (*r[0]-*r[1])*scale
	}
	t.Gain *= scale
	return true
}

// uncoverWithin is how many days after the first female flowers the cover may
// stay without loss. [Eischen94, status read]
const uncoverWithin = 6

// fitToUncover keeps the cover on for a day that is too hot, cold or windy, as
// long as waiting costs nothing.
func fitToUncover(d *Day, pd *PlantingDay) bool {
	first := pd.Planting.FirstFemale
	if !first.IsZero() && d.Date.DaysSince(first) >= uncoverWithin {
		return true
	}
	const wild = 10 // m/s at 10 m; a cover in such wind is torn from one's hands [chosen, status chosen]
	return !d.Weather.Over105 && !pd.has(ColdOpening) && d.Weather.Wind.Or(0) < wild
}

// uncover asks to take a row cover off while the flowers are open. ok is false
// where there is none, where the day is not fit for it or nobody is there to do it.
func (p *planner) uncover(d *Day, pd *PlantingDay, t Task) (Task, bool) {
	if pd.Planting.Cover != RowCover || pd.State != Judged || !fitToUncover(d, pd) {
		return t, false
	}
	from, to, ok := p.workable(d.Date, pd.Opens.Add(-time.Hour), pd.Closes)
	t.Kind, t.Causes = UncoverCrop, []Cause{CauseCovered}
	t.From, t.To = from, minTime(to, from.Add(2*time.Hour))
	t.Flowers, t.Minutes, t.Gain = 0, 10, 0
	return t, ok
}

func maxTime(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func minTime(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

// shade asks for shade over the hours in which heat undoes the morning's work:
// from the first hot hour to the end of the tubes' growth after the best hour.
func (p *planner) shade(pd *PlantingDay, t Task) []Task {
	c := pd.Planting.Crop
	if pd.BestHour < 0 || !pd.has(HotTubes) && !pd.has(HotPollen) {
		return nil
	}
	s := Task{Kind: Shade, Planting: t.Planting, Day: pd, Causes: []Cause{CauseHotTubes}, Sure: t.Sure, Minutes: 10}
	end := pd.Hours[pd.BestHour].Start.Add(time.Duration((1 + c.Pollen.TubeHours) * float64(time.Hour)))
	for k := pd.BestHour + 1; k < len(pd.Hours) && pd.Hours[k].Start.Before(end); k++ {
		if h := &pd.Hours[k]; h.Air.T >= c.Pollen.TubeFull {
			if s.From.IsZero() {
				s.From = h.Start
			}
			s.To = h.Start.Add(time.Hour)
		}
	}
	if s.From.IsZero() {
		return nil
	}
	// It is put up in hours one can work, before the heat or early in it.
	if _, _, ok := p.workable(forecast.DateOf(s.From, p.zone), pd.Opens, s.From.Add(2*time.Hour)); !ok {
		return nil
	}
	s.Gain = t.Gain * 0.1
	return []Task{s}
}

// causes lists what stands against the bees, most hours lost first.
func (p *planner) causes(pd *PlantingDay, covered bool) []Cause {
	var hours [bee.Factors]time.Duration
	var out []Cause
	for i := range pd.Flags {
		f := &pd.Flags[i]
		switch f.Kind {
		case BeesIn:
			hours[f.Factor] += f.To.Sub(f.From)
		case ColdOpening:
			out = append(out, CauseLateOpening)
		case HotPollen:
			out = append(out, CauseHotPollen)
		case HotTubes:
			out = append(out, CauseHotTubes)
		case PollenWet:
			out = append(out, CauseRainAhead)
		case HeatOnBuds:
			out = append(out, CauseFewBuds)
		}
	}
	by := [bee.Factors]Cause{bee.Cold: CauseBeesCold, bee.Heat: CauseBeesHot, bee.Light: CauseBeesDull, bee.Wind: CauseBeesWind, bee.Rain: CauseBeesWet, bee.WetFlowers: CauseBeesWet}
	for range bee.Factors {
		most := 0
		for f := range hours {
			if hours[f] > hours[most] {
				most = f
			}
		}
		if hours[most] <= 0 {
			break
		}
		out = append(out, by[most])
		hours[most] = 0
	}
	if covered {
		out = append([]Cause{CauseCovered}, out...)
	}
	if k := pd.BestHour; k >= 0 && k+2 < len(pd.Hours) && pd.Hours[k+2].Alive < 0.6*pd.Hours[k].Alive {
		out = append(out, CausePollenOld)
	}
	if pd.Missing != 0 {
		out = append(out, CauseUnknown)
	}
	if len(out) == 0 {
		out = append(out, CauseFewBees)
	}
	return out
}

// hopelessCauses says why a brush wins nothing: the smallest of what is left.
func hopelessCauses(pd *PlantingDay) []Cause {
	least := [4]float64{1, 1, 1, 1}
	causes := [4]Cause{CauseHotPollen, CauseHotTubes, CauseRainAhead, CausePollenOld}
	for k := range pd.Hours {
		h := &pd.Hours[k]
		if h.Receptive <= 0 {
			continue
		}
		for i, v := range [4]float64{h.Heat, h.Tube, h.Dry, h.Alive} {
			least[i] = min(least[i], v)
		}
	}
	at := 0
	for i := range least {
		if least[i] < least[at] {
			at = i
		}
	}
	return []Cause{causes[at]}
}

// tagged asks to look at the flowers of some days ago if the plan of that day
// was to brush them.
func (p *planner) tagged(i, k int) (Task, bool) {
	now := &p.a.Days[i]
	pd := &now.Plantings[k]
	after := pd.Planting.Crop.Hand.LookAfter
	back := int(math.Round((after.Low + after.High) / 2))
	if back <= 0 || i-back < 0 || finished(pd.Planting, now.Date) || p.a.Days[i-back].Date != now.Date.AddDays(-back) || !p.brushed[i-back][k] {
		return Task{}, false
	}
	old := &p.a.Days[i-back].Plantings[k]
	_, to, ok := p.workable(now.Date, now.Date.At(0, p.zone), now.Date.At(24, p.zone))
	if !ok {
		return Task{}, false
	}
	return Task{Kind: LookAtTagged, Planting: pd.Planting, Day: pd, To: to, Minutes: 5, Sure: Likely, Bees: old.Fill, Hand: old.Both,
		Tagged: p.a.Days[i-back].Date}, true
}

func finished(pl *Planting, d forecast.Date) bool {
	return !pl.Finished.IsZero() && !d.Before(pl.Finished)
}

// fit counts the minutes of the work and, where the hours do not hold them, the
// flowers that they do hold. Minutes are rounded up, but never past the hours.
func (t *Task) fit() {
	pace, have := minutesPerFlower(t.Planting), t.To.Sub(t.From).Minutes()
	n := t.Flowers
	if float64(n)*pace > have {
		n = max(1, int(have/pace))
	}
	t.Minutes = minutesFor(t.Planting, n)
	if float64(n)*pace <= have {
		t.Minutes = min(t.Minutes, int(have))
	}
	if n < t.Flowers {
		t.Fits = n
		t.Gain *= float64(n) / float64(t.Flowers)
	}
}
