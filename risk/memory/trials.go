package memory

import (
	"dawnbrush/forecast"
)

// Trial is one count of flowers that set.
type Trial struct {
	Planting string
	Day      forecast.Date // the day the flowers opened, else the day of the count
	ByHand   bool
	Set, Of  float64
}

// Trials gathers the counts of set among current entries.
func Trials(entries []Entry) []Trial {
	var out []Trial
	for i := range entries {
		e := &entries[i]
		set, ok1 := e.Count.Get()
		of, ok2 := e.Of.Get()
		if e.Kind != Set || !ok1 || !ok2 || of <= 0 || set > of {
			continue
		}
		day := e.FlowersOn
		if day.IsZero() {
			day = e.Date
		}
		out = append(out, Trial{e.Planting, day, e.By == ByHand, set, of})
	}
	return out
}

// Shares is what the counts of a planting teach. Hand-pollinated flowers are no
// random sample, for one takes the brush on bad days; so the comparison uses
// only days on which both were counted.
type Shares struct {
	Bees, Hand         Beta    // by the prior and all counts
	BeesOf, HandOf     float64 // flowers counted
	Days               int     // days on which both were counted
	PairBees, PairHand Beta    // from those days alone, flat prior
}

// Worth of the book in flowers: how many counted flowers weigh as much as what
// the book says. [chosen, status chosen] a week of a few flowers a day outweighs it.
const bookWorth = 10

// Compare learns from the trials of one planting, or of all when it is "".
// beesBook and handBook are the shares (0..1) that the book gives.
func Compare(trials []Trial, planting string, beesBook, handBook float64) Shares {
	s := Shares{Bees: Prior(beesBook, bookWorth), Hand: Prior(handBook, bookWorth), PairBees: Beta{1, 1}, PairHand: Beta{1, 1}}
	type day struct{ bees, hand []Trial }
	days := map[forecast.Date]*day{}
	var order []forecast.Date
	for _, t := range trials {
		if planting != "" && t.Planting != planting {
			continue
		}
		d := days[t.Day]
		if d == nil {
			d = &day{}
			days[t.Day] = d
			order = append(order, t.Day)
		}
		if t.ByHand {
			s.Hand, s.HandOf = s.Hand.Update(t.Set, t.Of), s.HandOf+t.Of
			d.hand = append(d.hand, t)
		} else {
			s.Bees, s.BeesOf = s.Bees.Update(t.Set, t.Of), s.BeesOf+t.Of
			d.bees = append(d.bees, t)
		}
	}
	for _, k := range order {
		d := days[k]
		if len(d.bees) == 0 || len(d.hand) == 0 {
			continue
		}
		s.Days++
		for _, t := range d.bees {
			s.PairBees = s.PairBees.Update(t.Set, t.Of)
		}
		for _, t := range d.hand {
			s.PairHand = s.PairHand.Update(t.Set, t.Of)
		}
	}
	return s
}

// HandBeats gives the chance that the brush sets more than bees, from days on
// which both were counted. ok is false without such a day.
func (s *Shares) HandBeats() (p float64, ok bool) {
	if s.Days == 0 {
		return 0, false
	}
	return s.PairHand.Beats(s.PairBees), true
}

// Versus counts one way of setting in two groups of plantings, flat priors. Days
// differ more than cultivars do, so only days on which both were counted speak
// where there are any; days is their number, and 0 when all counts had to do.
func Versus(trials []Trial, byHand bool, a, b func(planting string) bool) (of [2]Beta, flowers [2]float64, days int) {
	sets := [2]func(string) bool{a, b}
	var both [2]map[forecast.Date]bool
	for k := range sets {
		both[k] = map[forecast.Date]bool{}
		for _, t := range trials {
			if t.ByHand == byHand && sets[k](t.Planting) {
				both[k][t.Day] = true
			}
		}
	}
	for d := range both[0] {
		if both[1][d] {
			days++
		}
	}
	for k := range sets {
		of[k] = Beta{1, 1}
		for _, t := range trials {
			if t.ByHand == byHand && sets[k](t.Planting) && (days == 0 || both[1-k][t.Day]) {
				of[k], flowers[k] = of[k].Update(t.Set, t.Of), flowers[k]+t.Of
			}
		}
	}
	return of, flowers, days
}
