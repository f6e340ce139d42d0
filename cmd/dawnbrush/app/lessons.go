package app

import (
	"time"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// mostTaught bounds how far back first flowers are learned from. Older sowings
// count by their days alone.
const mostTaught = 800 // days [chosen: two seasons before the present one]

// lessons are the first flowers noted, of finished plantings too, and the hours
// behind them that no plan looks back to.
type lessons struct {
	firsts  []memory.Entry
	earlier *forecast.Series // up to the first hour a plan looks back to; nil when none is wanted
}

// lessons reads what first flowers need. Hours before from are read only when a
// flower of a planting sown before was seen.
func (p *program) lessons(s *store.Store, g *risk.Garden, from, now time.Time) (*lessons, error) {
	today := forecast.DateOf(now, g.Place.Zone)
	entries, err := s.Entries(p.ctx, store.Filter{To: today, Kinds: []memory.Kind{memory.First}})
	if err != nil {
		return nil, err
	}
	l := &lessons{firsts: entries}
	first, last := risk.FirstsSpan(g, entries, today)
	if first.IsZero() {
		return l, nil
	}
	if least := today.AddDays(-mostTaught); first.Before(least) {
		first = least
	}
	begin, end := first.Start(g.Place.Zone), last.AddDays(1).Start(g.Place.Zone)
	if end.After(from) {
		end = from
	}
	if begin.Before(end) {
		l.earlier, _, err = s.Past(p.ctx, begin, end, nil)
	}
	return l, err
}

// before puts the earlier hours before a series that begins at from.
func (l *lessons) before(s *forecast.Series, from time.Time) *forecast.Series {
	if l.earlier == nil || len(l.earlier.Hours) == 0 {
		return s
	}
	return store.Join(l.earlier, s, from)
}

// learned prints what the garden's memory teaches, without a forecast.
func (p *program) learned(g *risk.Garden, s *store.Store) error {
	now, err := p.now(g.Place.Zone)
	if err != nil {
		return err
	}
	units, err := p.units(g)
	if err != nil {
		return err
	}
	today := forecast.DateOf(now, g.Place.Zone)
	entries, err := s.Entries(p.ctx, store.Filter{To: today})
	if err != nil {
		return err
	}
	m := &recall{p: p, zone: g.Place.Zone, now: now, from: lookFrom(g, now)}
	if m.lessons, err = p.lessons(s, g, m.from, now); err != nil {
		return err
	}
	if m.entries, err = s.Entries(p.ctx, store.Filter{From: forecast.DateOf(m.from, m.zone), To: today}); err != nil {
		return err
	}
	past, _, err := s.Past(p.ctx, m.from, now, nil)
	if err != nil {
		return err
	}
	return p.show("learned", &document.Document{Garden: g, Taught: risk.Teach(g, m.learn(g, past, today), entries), Now: now, Units: units,
		Width: p.env.width(), Colour: p.env.colour(p.env.Out, p.options.noColor), Constants: risk.Params()})
}
