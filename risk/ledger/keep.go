package ledger

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
	"dawnbrush/risk/water"
	"dawnbrush/risk/water/kc"
	"dawnbrush/risk/water/soil"
)

// The tracks of doubt: what the bed holds if all doubts fall dry, by the middle,
// and if they fall wet. A fourth was watered whenever it was due.
const (
	dry = iota
	mid
	wet
	tracks
)

// tracksOf are a bed's states in the tracks.
type tracksOf [tracks]water.State

const (
	// half is what the middle track takes of a watering that nobody noted, and of one
	// that tells minutes of an unknown flow. [chosen: half way between nothing and all]
	half = 0.5
	// looking is how far, as a share of the available water, the tracks may lie apart
	// before a look at the soil is asked for where they differ on what to do.
	looking = 0.3 // [chosen: less than from full to where plants begin to suffer]
)

// Keep works out the account of all beds. s holds hours that were, measured or
// filled in, and the forecast; entries are those of the diary that stand, amended
// and removed ones left out; now parts what was from what is to come. The garden is
// as the diary tells it, see [risk.Remember]. Numbers out of bounds never reach it:
// the readers of garden file, diary and weather refuse them.
func Keep(g *risk.Garden, s *forecast.Series, entries []memory.Entry, now time.Time) *Account {
	return KeepTaught(g, s, entries, nil, now)
}

// KeepTaught is Keep with what first flowers seen in the garden taught: they move the
// stages as they move the bloom.
func KeepTaught(g *risk.Garden, s *forecast.Series, entries []memory.Entry, firsts risk.Firsts, now time.Time) *Account {
	w := newWeather(g, s, now)
	w.firsts = firsts
	w.readRain(entries)
	a := &Account{Garden: g, Today: w.today, Beds: make([]Bed, len(g.Beds))}
	grounds, ok := make([]ground, len(g.Beds)), make([]bool, len(g.Beds))
	for i := range a.Beds {
		a.Beds[i].Bed = &g.Beds[i]
		grounds[i], ok[i] = w.compile(&a.Beds[i])
	}
	notes := w.waterings(entries, grounds)
	for i := range a.Beds {
		switch {
		case !ok[i]:
		case !w.known(w.today):
			a.Beds[i].Why = NoWeather
		default:
			l := ledger{weather: w.under(a.Beds[i].Lead), ground: &grounds[i], bed: &a.Beds[i], notes: &notes, given: notes.beds[i]}
			l.keep()
		}
	}
	return a
}

// ledger is one bed being kept.
type ledger struct {
	*weather
	*ground
	bed   *Bed
	notes *diary
	given map[int]given

	states tracksOf    // without further watering
	plan   tracksOf    // the same, with what is advised
	behind tracksOf    // the plan with the middle of the rain to come: the doubt about what was
	ideal  water.State // watered whenever it was due
	wanted float64     // litres that the ideal took in the past
}

// keep fills the days.
func (l *ledger) keep() {
	first := l.start
	if first.Before(l.first) {
		first = l.first
	}
	from, to := l.index(first), len(l.days)
	if from >= to || l.index(l.today) < from {
		l.bed.Why = NoWeather
		return
	}
	l.begin(first)
	l.bed.Days = make([]Day, 0, to-from)
	for k := from; k < to; k++ {
		if l.first.AddDays(k) == l.today {
			l.swing()
		}
		l.bed.Days = append(l.bed.Days, l.day(k))
	}
	l.season()
}

// begin fills the soil as far as is known.
func (l *ledger) begin(first forecast.Date) {
	l.ideal.Surface.Wetted = 1
	for t := range l.states {
		l.states[t].Surface.Wetted = 1
	}
	if l.told && first == l.start {
		l.bed.Start = StartSown
		return
	}
	d := l.plan0(first)
	l.states[dry] = water.State{Dr: d.TAW, Surface: kc.Surface{De: d.Layer.TEW, Wetted: 1}}
	l.states[mid] = water.State{Dr: half * d.TAW, Surface: kc.Surface{De: half * d.Layer.TEW, Wetted: 1}}
	l.ideal = l.states[mid]
}

// plan0 gives the step of a date without rain or watering.
func (l *ledger) plan0(date forecast.Date) water.Day {
	a := &l.days[l.index(date)]
	return l.ground.plan.Day(float64(date.DaysSince(l.start)), water.Weather{ET0: a.use.Mid, Climate: a.climate}, 0)
}

// day keeps one day.
func (l *ledger) day(k int) Day {
	date := l.first.AddDays(k)
	a, r, g := &l.days[k], l.rain[k], l.given[k]
	d := l.plan0(date)
	out := Day{Date: date, Age: date.DaysSince(l.start), Roots: l.roots(k), Past: date.Before(l.today), ET0: a.et0, Way: a.way, Rain: r.mm, By: r.by, Chance: r.chance,
		Given: g.net, Litres: g.gross, TAW: d.TAW, Gap: a.gap}
	if l.bed.Cover != "" {
		out.Under = Under{a.outside, risk.Range{Lo: a.use.Hi, Mid: a.use.Mid, Hi: a.use.Lo}, a.logged, a.own}
	}
	if date == l.today || l.index(l.today) > k {
		l.plan, l.behind = l.states, l.states
	}
	if l.soilless {
		l.useAlone(&out, k, d)
		return out
	}
	before := l.states
	for t := range before {
		before[t].Dr = min(before[t].Dr, d.TAW)
	}
	out.Lacks, out.Left = lacking(&before), l.left(&before, d.TAW)
	out.wide = (before[dry].Dr - before[wet].Dr) / d.TAW
	if !out.Past {
		out.wide = (l.behind[dry].Dr - l.behind[wet].Dr) / d.TAW
		out.Advice = l.advise(k, d)
		out.Heeded.Left = l.left(&l.plan, d.TAW)
		out.kept, out.Heeded.Used = l.follow(k, d, &out.Advice)
	}
	given := l.waterGiven(k, d, &out)
	if r.open { // anything may have fallen
		out.Rain.Hi = max(out.Rain.Hi, before[wet].Dr/l.ground.plan.Ground.Open())
	}
	rains := [tracks]float64{out.Rain.Lo, out.Rain.Mid, out.Rain.Hi}
	uses := [tracks]float64{a.use.Lo, a.use.Mid, a.use.Hi}
	var flux [tracks]water.Flux
	for t := range l.states {
		l.states[t], flux[t] = l.step(l.states[t], d, uses[t], rains[t], given[t])
		if l.ground.bed.Kind == risk.Pots {
			secondly(&l.states[t], &flux[t], g.net)
		}
	}
	l.order(&l.states)
	out.Flux, out.RAW, out.Caught = flux[mid], flux[mid].RAW, out.Rain.Mid*l.ground.plan.Ground.Open()
	out.Stress = stress(&flux)
	out.Night = l.left(&l.states, d.TAW)
	if l.bed.Start == StartUnknown && flux[dry].Start.Dr == 0 {
		l.bed.Start = StartSoaked
	}
	if out.Past {
		out.kept, out.Heeded.Left, out.Heeded.Used = out.Stress, out.Left, out.Flux.ET()
	}
	return out
}

// step takes a state over a day.
func (l *ledger) step(s water.State, d water.Day, use, rain, irrigation float64) (water.State, water.Flux) {
	d.ET0, d.Rain, d.Irrigation = use, rain*l.ground.plan.Ground.Open(), irrigation
	return water.Step(s, d)
}

// secondly takes a watering of pots that was more than they took, on a day that even
// a full pot would not have lasted, for two: growers note a day's sum, and such days
// ask for a second watering. What drained of it comes after the day's use.
func secondly(s *water.State, f *water.Flux, given float64) {
	if given <= 0 || f.Wanted < f.RAW {
		return
	}
	back := min(f.Drainage, given, s.Dr)
	f.Drainage, s.Dr = f.Drainage-back, s.Dr-back
}

// waterGiven gives what each track was watered on a day, mm, and keeps the ideal.
func (l *ledger) waterGiven(k int, d water.Day, out *Day) (mm [tracks]float64) {
	g := l.given[k]
	mm = [tracks]float64{g.net, g.net, g.net}
	if g.unsure { // it ran: from next to nothing to all that the soil took
		mm[mid] += half * l.states[mid].Dr
		mm[wet] += l.states[wet].Dr
	}
	if !out.Past {
		out.Taken = mm[mid] - g.net
		return mm
	}
	if l.notes.first.IsZero() || out.Date.Before(l.notes.first) { // nobody noted: from never to whenever it was due
		for t, share := range [tracks]float64{mid: half, wet: 1} {
			if l.due(l.states[t], k, d, out.Rain.Mid, mm[t]) {
				mm[t] += share * max(0, l.states[t].Dr-mm[t])
			}
		}
	}
	out.Taken = mm[mid] - g.net
	need := 0.0
	if l.due(l.ideal, k, d, out.Rain.Mid, 0) {
		need = min(l.ideal.Dr, d.TAW)
	}
	l.wanted += l.gross(need)
	l.ideal, _ = l.step(l.ideal, d, l.days[k].use.Mid, out.Rain.Mid, need)
	return mm
}

// due tells whether plants would begin to suffer before the day is over: watering
// comes at or before that moment. [FAO56 p 171]
func (l *ledger) due(s water.State, k int, d water.Day, rain, irrigation float64) bool {
	after, f := l.step(s, d, l.days[k].use.Mid, rain, irrigation)
	return after.Dr >= f.RAW
}

// order keeps the tracks of doubt bounds of the middle one: where little water is
// held a drier bed may use so much less that it would end the day as the wetter.
func (l *ledger) order(s *tracksOf) {
	s[dry].Dr = max(s[dry].Dr, s[mid].Dr)
	s[wet].Dr = min(s[wet].Dr, s[mid].Dr)
}

func lacking(s *tracksOf) risk.Range {
	return risk.Range{Lo: s[dry].Dr, Mid: s[mid].Dr, Hi: s[wet].Dr}
}

func (l *ledger) left(s *tracksOf, taw float64) risk.Range {
	share := func(dr float64) float64 { return max(0, 1-dr/taw) }
	return risk.Range{Lo: share(s[dry].Dr), Mid: share(s[mid].Dr), Hi: share(s[wet].Dr)}
}

func stress(f *[tracks]water.Flux) risk.Range {
	return risk.Range{Lo: min(f[dry].Ks, f[mid].Ks), Mid: f[mid].Ks, Hi: max(f[wet].Ks, f[mid].Ks)}
}

// useAlone keeps a day of a bed that holds no store worth reckoning.
func (l *ledger) useAlone(out *Day, k int, d water.Day) {
	full := water.State{Surface: kc.Surface{Wetted: 1}}
	_, f := l.step(full, d, l.days[k].use.Mid, 0, 0)
	all := risk.Range{Lo: 1, Mid: 1, Hi: 1}
	out.Flux, out.RAW, out.Stress, out.kept = f, soil.RAW(d.Depletion, d.TAW), all, all
	out.Caught, out.Taken, out.Heeded.Used = 0, f.ET(), f.ET()
	if out.Past {
		l.wanted += l.gross(f.ET())
		return
	}
	out.Advice = l.soillessAdvice(k, d, &f)
}
