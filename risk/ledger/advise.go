package ledger

import (
	"slices"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/water"
	"dawnbrush/risk/water/dose"
	"dawnbrush/risk/water/et0"
)

const (
	// likelyRain is the chance from which rain is worth waiting for.
	likelyRain = 0.6 // [chosen: it comes more often than not, and more than by a hair]
	// enoughRain is the share of what is lacking that the rain should bring.
	enoughRain = 0.5 // [chosen: with half of it no watering is due for days]
	// littleCost is the Ks that waiting may cost.
	littleCost = 0.85 // [chosen: a seventh of a day's growth, and plants hardly flag]
	// hotDay is the reference, mm, of a day that takes much. [chosen: twice a mild summer day's]
	hotDay = 6.0
	// youngRoots are short, m. [chosen: half a spade]
	youngRoots = 0.25
	// wetting is the water, mm, that tells as one that came. [chosen: about a day's use]
	wetting = 4.0
	// recent is how many days back a rain or a watering tells why nothing is due.
	recent = 3 // [chosen: what a summer bed uses of one watering]
	// atOnce is the most, mm, that a bed takes in one watering without running off. [chosen: an inch, what the common rule gives in one]
	atOnce = 25.0
	// feel is where to feel for moisture in a bed, m, once roots go as deep: four to five inches. [common-practice]
	feel = 0.12
	// potFeel is the same in a pot, m: its top inch. [common-practice]
	potFeel = 0.025
	// feelShare is how far down young roots that is. [chosen: in the middle of them]
	feelShare = 0.5
	// second is the share of a day's use that a second watering brings back. [chosen: after the noon, when half of it is over]
	second = 0.5
	// matters is the share of the doubt that unmeasured rain must make for a gauge to settle it.
	matters = 0.5 // [chosen: the greater part]
	// shortRain is the mm of doubt about a day's rain that are worth a reading.
	shortRain = 1.0 // [chosen: a gauge's smallest useful mark]
)

// trial is a day without further water in a track of the plan.
type trial struct {
	end water.State
	f   water.Flux
	due bool
}

// tryDry takes a track over a day on which nothing more comes: no rain but what has
// fallen, no water but what was noted.
func (l *ledger) tryDry(t, k int, s water.State, d water.Day) trial {
	r, g := &l.rain[k], l.given[k]
	fell := r.fell
	if t == dry {
		fell = min(fell, r.mm.Lo)
	}
	uses := [tracks]float64{l.days[k].use.Lo, l.days[k].use.Mid, l.days[k].use.Hi}
	end, f := l.step(s, d, uses[t], fell, g.net)
	return trial{end, f, end.Dr >= f.RAW}
}

// advise says what to do on Today or a later day.
func (l *ledger) advise(k int, d water.Day) Advice {
	var try [tracks]trial
	for t := range try {
		try[t] = l.tryDry(t, k, l.plan[t], d)
	}
	m := &try[mid]
	split := try[dry].due != try[wet].due
	a := Advice{Times: 1, Sure: l.sureness(k, split), Days: l.daysLeft(k, m), NoLeaves: l.flowering(k)}
	a.Gauge = split && l.rainDoubt(k, d)
	switch {
	case split && l.looks(k, d):
		a.Verdict, a.Sure, a.Depth = LookFirst, risk.Unsure, l.feelAt(k)
		l.amount(&a, k, d, m, max(m.f.Start.Dr, min(m.f.RAW, try[dry].f.Start.Dr)))
	case !m.due:
		a.Verdict, a.Causes = Enough, l.whyEnough(k)
		if slices.Contains(a.Causes, CauseRainAhead) {
			a.Chance = l.rain[k].chance
		}
		return a
	default:
		a.Verdict = Water
		l.amount(&a, k, d, m, m.f.Start.Dr)
		if l.waits(&a, k, m) {
			return a
		}
		l.lessen(&a, k, m)
	}
	a.Causes = l.whyWater(k, d, m)
	l.when(&a, k, m)
	return a
}

// looks tells whether the doubt about what was, whatever rain is to come, leaves open
// what to do: so wide that it takes a look at the soil.
func (l *ledger) looks(k int, d water.Day) bool {
	if l.behind[dry].Dr-l.behind[wet].Dr <= looking*d.TAW {
		return false
	}
	return l.tryDry(dry, k, l.behind[dry], d).due != l.tryDry(wet, k, l.behind[wet], d).due
}

// amount fills how much to give for a net depth of mm.
func (l *ledger) amount(a *Advice, k int, d water.Day, t *trial, mm float64) {
	if t.f.Wanted >= t.f.RAW { // even full it would not last the day
		a.Times, a.later = 2, second*t.f.Wanted
		mm += a.later
	} else if mm > atOnce {
		a.Times = 2
	}
	a.Depth = l.depth(k, a.Verdict)
	l.measure(a, k, mm)
}

// measure turns a net depth into what a grower measures out.
func (l *ledger) measure(a *Advice, k int, mm float64) {
	bed := l.ground.bed
	a.MM, a.Litres = mm, l.gross(mm)
	if l.bed.Cover != "" && a.Verdict == Water {
		a.Span = l.span(k, mm)
	}
	if bed.Kind == risk.Pots && bed.Pots > 0 {
		a.EachPot = a.Litres / float64(bed.Pots)
	}
	if l.plants > 0 {
		a.PerPlant = a.Litres / float64(l.plants)
	}
	switch {
	case bed.Watering == risk.Can || bed.Watering == "":
		size := l.g.Can
		if size <= 0 {
			size = dose.CanLitres
		}
		a.Cans = dose.Cans(a.Litres, size)
	case bed.Flow > 0:
		a.Run, _ = dose.Drips{Count: 1, Flow: bed.Flow}.Run(a.Litres)
	}
}

// waits tells whether rain is likely enough, brings enough and costs little to wait
// for, and turns the advice.
func (l *ledger) waits(a *Advice, k int, m *trial) bool {
	last := m
	var next trial
	for j := k; j <= k+1 && j < len(l.days); j++ {
		if j > k {
			next = l.tryDry(mid, j, m.end, l.plan0(l.first.AddDays(j)))
			last = &next
		}
		if last.f.Ks < littleCost {
			return false
		}
		r := &l.rain[j]
		if r.chance.Or(0) >= likelyRain && r.wet*l.ground.plan.Ground.Open() >= enoughRain*last.end.Dr {
			a.Verdict, a.Chance, a.Causes = WaitForRain, r.chance, []Cause{CauseRainAhead}
			if r.chance.Or(0) < 1-oneInTen {
				a.Sure = min(a.Sure, risk.Likely)
			}
			a.IfDry = max(0, 1-last.end.Dr/last.f.TAW)
			return true
		}
	}
	return false
}

// lessen gives a bed that cannot wait less by the rain that is likely today and
// tomorrow, by its chance, yet enough to last both days should it not come.
func (l *ledger) lessen(a *Advice, k int, m *trial) {
	if l.ground.bed.Kind == risk.Pots || a.later > 0 {
		return // leaves shed rain from a pot; what lasts no day waits for none
	}
	last, rain, chance, wanted := m, 0.0, forecast.Value{}, 0.0
	var next trial
	for j := k; j <= k+1 && j < len(l.days); j++ {
		if j > k {
			next = l.tryDry(mid, j, m.end, l.plan0(l.first.AddDays(j)))
			last = &next
		}
		wanted += last.f.Wanted
		if p := l.rain[j].chance.Or(0); p >= likelyRain {
			rain += p * l.rain[j].wet * l.ground.plan.Ground.Open()
			chance = forecast.Known(max(p, chance.Or(0)))
		}
	}
	less := min(rain, a.MM-max(0, m.f.Start.Dr+wanted-last.f.RAW))
	if less < wetting {
		return
	}
	a.Less, a.Chance, a.Depth = less, chance, 0
	if a.MM-less <= atOnce {
		a.Times = 1
	}
	l.measure(a, k, a.MM-less)
}

// daysLeft counts the days until plants begin to suffer without watering: 0 where
// they do on this day unless rain comes. For later days rain counts by its chance.
func (l *ledger) daysLeft(k int, today *trial) int {
	if today.due {
		return 0
	}
	s := l.plan[mid]
	for j := k; j < len(l.days); j++ {
		d := l.plan0(l.first.AddDays(j))
		net := l.given[j].net
		var f water.Flux
		s, f = l.step(s, d, l.days[j].use.Mid, l.rain[j].mm.Mid, net)
		if j > k && s.Dr >= f.RAW {
			return j - k
		}
	}
	return -1
}

// sureness tells how far the account is to be trusted on a day.
func (l *ledger) sureness(k int, split bool) risk.Sureness {
	a := &l.days[k]
	sure := risk.VerySure
	if split || l.bed.Cover != "" || len(l.bed.Assumed) > 0 || l.bed.Borrowed != "" || a.way == et0.ByTemperature {
		sure = risk.Likely
	}
	if a.gap || split && a.way == et0.ByTemperature {
		sure = risk.Unsure
	}
	return sure
}

// rainDoubt tells whether rain that nobody measured makes most of the doubt.
func (l *ledger) rainDoubt(k int, d water.Day) bool {
	doubt := 0.0
	for j := min(k, l.index(l.today)); j >= 0 && j > k-oldReading; j-- {
		r := &l.rain[j]
		if spread := r.mm.Hi - r.mm.Lo; r.open || spread >= shortRain && (r.by == RainForecast || r.by == RainUnknown) {
			doubt += max(spread, shortRain)
			if r.open {
				doubt += d.TAW
			}
		}
	}
	return doubt > 0 && doubt >= matters*(l.plan[dry].Dr-l.plan[wet].Dr)
}

// flowering tells whether a planting of the bed has open flowers on a day.
func (l *ledger) flowering(k int) bool {
	date := l.first.AddDays(k)
	for i := range l.inBloom {
		e := &l.inBloom[i]
		if !e.Female.From.IsZero() && !date.Before(e.Female.From) && !date.After(e.End.To) {
			return true
		}
	}
	return false
}

// whyWater gives the causes, most important first.
func (l *ledger) whyWater(k int, d water.Day, t *trial) (out []Cause) {
	out = append(out, CauseDry)
	if l.ground.bed.Kind == risk.Pots {
		out = append(out, CauseSmall)
	}
	if l.days[k].et0.Or(0) > hotDay {
		out = append(out, CauseHot)
	}
	if l.flowering(k) {
		out = append(out, CauseFlower)
	}
	if l.roots(k) < youngRoots && l.ground.bed.Kind != risk.Pots {
		out = append(out, CauseYoung)
	}
	if l.bed.Swing.Uneven {
		out = append(out, CauseUneven)
	}
	return out
}

// whyEnough tells what watered a bed of late.
func (l *ledger) whyEnough(k int) (out []Cause) {
	rain, given := 0.0, 0.0
	for j := max(0, k-recent); j <= k; j++ {
		rain, given = rain+l.rain[j].fell, given+l.given[j].net
	}
	if rain*l.ground.plan.Ground.Open() >= wetting {
		out = append(out, CauseRainCame)
	}
	if given >= wetting {
		out = append(out, CauseGiven)
	}
	if l.rain[k].chance.Or(0) >= likelyRain {
		out = append(out, CauseRainAhead)
	}
	return out
}

func (l *ledger) roots(k int) float64 {
	return l.ground.plan.Roots(float64(l.first.AddDays(k).DaysSince(l.start)))
}

// depth is how deep the water should go: to the end of the roots; or where to feel.
func (l *ledger) depth(k int, v Verdict) float64 {
	if v == LookFirst {
		return l.feelAt(k)
	}
	return l.roots(k)
}

func (l *ledger) feelAt(k int) float64 {
	if l.ground.bed.Kind == risk.Pots {
		return potFeel
	}
	return min(feel, feelShare*l.roots(k))
}

// follow takes the plan over a day, watered as advised, and gives its stress and what
// it used.
func (l *ledger) follow(k int, d water.Day, a *Advice) (ks risk.Range, used float64) {
	r, g := &l.rain[k], l.given[k]
	uses := [tracks]float64{l.days[k].use.Lo, l.days[k].use.Mid, l.days[k].use.Hi}
	rains := [tracks]float64{r.mm.Lo, r.mm.Mid, r.mm.Hi}
	mm, later := g.net, 0.0
	if a.Verdict == Water {
		mm += a.MM
		later = a.later // it comes after most of the day's use
		mm -= later
	}
	var flux [tracks]water.Flux
	for t := range l.plan {
		l.plan[t], flux[t] = l.step(l.plan[t], d, uses[t], rains[t], mm)
		l.behind[t], _ = l.step(l.behind[t], d, uses[t], rains[mid], mm)
		l.plan[t].Dr, l.behind[t].Dr = max(0, l.plan[t].Dr-later), max(0, l.behind[t].Dr-later)
	}
	l.order(&l.plan)
	l.order(&l.behind)
	return stress(&flux), flux[mid].ET()
}

// soillessAdvice gives the day's use, for nothing is held from one day to the next.
func (l *ledger) soillessAdvice(k int, d water.Day, f *water.Flux) Advice {
	a := Advice{Verdict: Water, Times: 1, Sure: l.sureness(k, false), NoLeaves: l.flowering(k)}
	a.Causes = []Cause{CauseSoilless}
	if l.days[k].et0.Or(0) > hotDay {
		a.Causes = append(a.Causes, CauseHot)
	}
	if f.ET() > f.RAW {
		a.Times = 2
	}
	if f.ET() <= 0 {
		return Advice{Verdict: Enough, Times: 1, Sure: a.Sure, NoLeaves: a.NoLeaves, Days: -1}
	}
	l.measure(&a, k, f.ET())
	l.when(&a, k, &trial{f: *f})
	return a
}
