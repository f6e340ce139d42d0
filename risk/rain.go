package risk

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
)

// Rain worlds. A forecast amount is a sum over hours and comes with a chance;
// spread evenly it would be a drizzle in every hour, which grounds every bee.
// So a block is dry with one minus its chance, and otherwise wet in one run of
// 1 + Poisson(1.2) hours that carries the amount.
//
// Blocks of one day are taken as one weather: when a block with a small chance
// is wet, those with a larger chance are wet too. The day's chance of rain is
// then the largest of its blocks, as the US service shows it; independent
// blocks would overstate it, for wet hours cluster.

// runs pairs where in its block a wet run begins (share of the block's hours)
// with how many hours it lasts: the quartile middles of 1 + Poisson(1.2), in an
// order that ties no length to a place. Observed: 1.7 to 2.75 wet hours in a wet
// six-hour block (Greensboro, New York). [chosen, status chosen]
var runs = [...]struct {
	at    float64
	hours int
}{{0.375, 1}, {0.875, 2}, {0.125, 2}, {0.625, 3}}

const (
	leastWet   = 0.254 // mm: the chance of rain speaks of at least 0.01 inch [AMSglossary, status read]
	unknownWet = 3.0   // mm per wet hour where the amount is unknown: observed 2.7-4.2 [chosen, status chosen]
	littleRain = 1.0   // mm: less than this falls in one hour; observed 1.1 wet hours [chosen, status chosen]
	sureWet    = 0.9   // chance of rain where an amount of a millimetre is forecast and no chance [chosen, status chosen]
	mayWet     = 0.5   // the same for less [chosen, status chosen]
	leastProb  = 0.03  // chances below this are left out: they move no tenth of a result [chosen, status chosen]
	maxLevels  = 4     // chances of one day are told apart in this many steps [chosen, status chosen]
)

// drawWorlds fills f.worlds: for each doubt the dry world and, for each level of
// chance, the wet ones.
func (f *frame) drawWorlds(s *forecast.Series) {
	doubts := 1
	unknownRain := f.rainUnknown(s)
	if f.missing != 0 || unknownRain {
		doubts = 2
	}
	if unknownRain {
		f.missing |= air.Rain
	}
	var levels [maxLevels]float64
	n := f.levels(s, &levels)
	for x := range doubts {
		share := 1 / float64(doubts)
		floor := 0.0
		if unknownRain && air.Doubt(x) == air.Harsh {
			floor = 1
		}
		above := 0.0 // chance already given to wetter worlds
		for k := range n {
			f.wetWorlds(s, air.Doubt(x), share*max(0, levels[k]-above), levels[k], floor > 0)
			above = max(above, levels[k])
		}
		if floor > 0 {
			f.wetWorlds(s, air.Doubt(x), share*(1-above), 2, true)
			continue
		}
		f.addWorld(s, air.Doubt(x), share*(1-above), 2, -1, false)
	}
}

// levels lists the distinct chances of the frame's blocks, rising, merged into
// at most maxLevels.
func (f *frame) levels(s *forecast.Series, out *[maxLevels]float64) int {
	n := 0
	for i := range s.Blocks {
		b := &s.Blocks[i]
		if p := blockChance(b); p >= leastProb && f.overlaps(b) {
			n = insertLevel(out, n, p)
		}
	}
	return n
}

// blockChance gives the chance that a block is wet.
func blockChance(b *forecast.RainBlock) float64 {
	if p, ok := b.Prob.Get(); ok {
		return p
	}
	return ChanceOfAmount(b.Amount.Or(0))
}

// ChanceOfAmount gives the chance of rain, 0..1, of an amount (mm) that a feed issues
// without one: it is read as sure of a millimetre and as undecided below.
func ChanceOfAmount(mm float64) float64 {
	switch {
	case mm >= 1:
		return sureWet
	case mm >= leastWet:
		return mayWet
	}
	return 0
}

// insertLevel keeps out sorted. When it is full the two nearest levels merge
// into the larger, which errs on the wet side.
func insertLevel(out *[maxLevels]float64, n int, p float64) int {
	at := 0
	for at < n && out[at] < p {
		at++
	}
	if at < n && out[at] == p {
		return n
	}
	if n < maxLevels {
		copy(out[at+1:n+1], out[at:n])
		out[at] = p
		return n + 1
	}
	var all [maxLevels + 1]float64
	copy(all[:at], out[:at])
	all[at] = p
	copy(all[at+1:], out[at:])
	drop := 0
	for i := 1; i < maxLevels; i++ {
		if all[i+1]-all[i] < all[drop+1]-all[drop] {
			drop = i
		}
	}
	copy(out[:drop], all[:drop])
	copy(out[drop:], all[drop+1:])
	return n
}

func (f *frame) overlaps(b *forecast.RainBlock) bool {
	return b.Start.Before(f.start.Add(time.Duration(f.n)*time.Hour)) && b.End.After(f.start)
}

// wetWorlds adds one world per run for the chance level p.
func (f *frame) wetWorlds(s *forecast.Series, d air.Doubt, weight, level float64, unknownWet bool) {
	if weight <= 0 {
		return
	}
	for r := range runs {
		f.addWorld(s, d, weight/float64(len(runs)), level, r, unknownWet)
	}
}

// addWorld adds a world in which every block with a chance of at least level is
// wet, placed by run; run -1 is dry. With unknownWet hours without any word of
// rain are wet too, in blocks of six hours.
func (f *frame) addWorld(s *forecast.Series, d air.Doubt, weight, level float64, run int, unknown bool) {
	if weight <= 0 {
		return
	}
	if len(f.worlds) < cap(f.worlds) {
		f.worlds = f.worlds[:len(f.worlds)+1]
	} else {
		f.worlds = append(f.worlds, world{})
	}
	w := &f.worlds[len(f.worlds)-1]
	*w = world{weight: weight, doubt: d}
	for i := range f.n {
		h := &s.Hours[f.first+i]
		if h.Origin != forecast.OriginForecast {
			w.rain[i] = h.Rain.Or(0)
		}
	}
	if run >= 0 {
		for i := range s.Blocks {
			b := &s.Blocks[i]
			if p := blockChance(b); p >= max(level, leastProb) && f.overlaps(b) {
				f.wetRun(s, w, b, run)
			}
		}
		if unknown {
			f.wetUnknown(s, w, run)
		}
	}
	f.finish(w)
}

// wetRun lays one wet run into the hours of b that are still a forecast.
func (f *frame) wetRun(s *forecast.Series, w *world, b *forecast.RainBlock, run int) {
	lo, hi := s.Slice(b.Start, b.End)
	for lo < hi && s.Hours[lo].Origin != forecast.OriginForecast {
		lo++
	}
	n := hi - lo
	if n <= 0 {
		return
	}
	length := min(n, runs[run].hours)
	rate := unknownWet
	if a, ok := b.Amount.Get(); ok {
		if a < littleRain {
			length = 1
		}
		rate = max(a, leastWet) / float64(length)
	}
	first := min(lo+int(runs[run].at*float64(n)), hi-length)
	for i := first; i < first+length; i++ {
		if j := i - f.first; j >= 0 && j < f.n {
			w.rain[j] = rate
		}
	}
}

// wetUnknown wets the hours of which nothing is known.
func (f *frame) wetUnknown(s *forecast.Series, w *world, run int) {
	const block = 6
	for i := range f.n {
		if !silent(s, f.first+i) {
			continue
		}
		at := int(runs[run].at * block)
		if k := i % block; k >= at && k < at+runs[run].hours {
			w.rain[i] = unknownWet
		}
	}
}

// silent tells whether an hour has no word of rain: neither chance nor amount.
func silent(s *forecast.Series, i int) bool {
	h := &s.Hours[i]
	return !h.Rain.IsKnown() && !h.RainProb.IsKnown()
}

func (f *frame) rainUnknown(s *forecast.Series) bool {
	from, to := f.lightSpan()
	for i := from; i < to; i++ {
		if silent(s, f.first+i) {
			return true
		}
	}
	return false
}
