package app

import (
	"fmt"
	"os"
	"time"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/memory"
)

const (
	// mostBack bounds how far back a plan reads: a season from sowing to frost.
	mostBack = 300 // days [chosen: ten months]

	// lookBack is what heat on buds looks back on; weather known for less is
	// worth a note.
	lookBack = 14 // days [chosen: the two weeks of the model]
)

// recall is the garden's memory in a run that plans. When it fails the plan is
// made without it, which the notes and the exit code say.
type recall struct {
	p       *program
	store   *store.Store
	zone    *time.Location
	now     time.Time
	from    time.Time
	entries []memory.Entry
	lessons *lessons
	lost    []store.Posted // letters that did not go out
	failed  bool
	keeping chan kept // while the forecast is kept on the side
}

// kept is how keeping on the side ended.
type kept struct {
	err   error
	fault any // of a panic, told where Main can recover it
}

// live tells whether the plan is one of the present.
func (p *program) live() bool { return !p.options.demo && p.options.from == "" && p.options.at == "" }

// planMemory finds the memory of a plan; "" when none is to be used. Without
// --memory only a plan of the present reads and writes it: an invented or a saved
// forecast and another time are not this garden's past.
func (p *program) planMemory(garden string) string {
	if p.withoutMemory() || !p.live() && p.options.memory == "" {
		return ""
	}
	return p.memoryPath(garden)
}

// opened is a memory that was opened while the garden file was read.
type opened struct {
	path  string
	store *store.Store
	err   error
}

// close lets go of it where it is not used.
func (o *opened) close() {
	if o.store != nil {
		_ = o.store.Close() // nothing was written
	}
}

// memoryAhead begins to open the memory while the garden file is read, for its name
// is all that is needed. A file that is not there yet is left to recall to make.
func (p *program) memoryAhead(garden string) func() *opened {
	o := &opened{}
	if o.path = p.planMemory(garden); o.path == "" {
		return func() *opened { return o }
	}
	return beside(func() *opened {
		if _, err := os.Stat(o.path); err != nil {
			o.path = ""
			return o
		}
		o.store, o.err = store.Open(p.ctx, o.path, store.Options{})
		return o
	})
}

// recall takes the memory for a plan, opened ahead or not; nil when none is to be
// used.
func (p *program) recall(g *risk.Garden, now time.Time, ahead *opened) (*recall, error) {
	path := p.planMemory(g.Name)
	if path != ahead.path {
		ahead.close()
		*ahead = opened{}
	}
	switch {
	case p.options.memory != "" && p.withoutMemory():
		return nil, usage("leave one of them out", "a memory is named and is to be left out")
	case path == "":
		return nil, nil
	}
	options := store.Options{Now: p.env.Now, Zone: g.Place.Zone}
	if !p.live() {
		options.Now = func() time.Time { return now }
	}
	m := &recall{p: p, zone: g.Place.Zone, now: now, from: lookFrom(g, now), store: ahead.store}
	ahead.store = nil // it is m's now
	err := ahead.err
	switch {
	case err != nil:
	case m.store != nil:
		m.store.Use(options)
	default:
		m.store, err = store.Open(p.ctx, path, options)
	}
	if err == nil {
		m.entries, err = m.store.Entries(p.ctx, store.Filter{From: forecast.DateOf(m.from, m.zone), To: forecast.DateOf(now, m.zone)})
	}
	if err == nil {
		m.lessons, err = p.lessons(m.store, g, m.from, now)
	}
	if err == nil {
		m.lost, err = m.store.LettersLost(p.ctx, now.Add(-lostFor))
	}
	if err != nil {
		m.entries = nil
	}
	return m, m.lower(err, "planned without the garden's memory")
}

// lower turns a failure of the memory into a note on the weather's margin. Only
// an interruption ends the run.
func (m *recall) lower(err error, what string) error {
	if err == nil || m.p.ctx.Err() != nil {
		return m.p.ctx.Err()
	}
	m.failed = true
	f := explain(err)
	m.p.unremembered = append(m.p.unremembered, what+": "+f.message)
	if !m.p.options.json {
		fmt.Fprintf(m.p.err, "%s: %s: %s\n", name, what, f.message)
		if f.hint != "" {
			fmt.Fprintf(m.p.err, "hint: %s\n", f.hint)
		}
	}
	return nil
}

// lookFrom gives the first day that the plantings look back to.
func lookFrom(g *risk.Garden, now time.Time) time.Time {
	zone := g.Place.Zone
	today := forecast.DateOf(now, zone)
	first := today.AddDays(-pastDays)
	for i := range g.Plantings {
		p := &g.Plantings[i]
		for _, d := range []forecast.Date{p.Sown, p.Transplanted} {
			if !d.IsZero() && d.Before(first) && (p.Finished.IsZero() || !p.Finished.Before(today)) {
				first = d
			}
		}
	}
	if least := today.AddDays(-mostBack); first.Before(least) {
		first = least
	}
	return first.Start(zone)
}

// archive keeps the weather that came and puts what is remembered before it. The
// forecast is written while the plan is worked out; settle waits for it.
func (m *recall) archive(w *weather) error {
	if m == nil || m.failed {
		return nil
	}
	cut := m.now
	if w.past != nil {
		_, _, err := keepPast(m.p.ctx, m.store, w.past)
		if err := m.lower(err, notKept); err != nil {
			return err
		}
		if m.failed {
			cut = w.series.Start() // what was measured now is not among what is remembered
		}
	}
	packed := beside(func() store.Packed { return store.Pack(w.next) })
	behind, known, err := m.store.Past(m.p.ctx, m.from, m.now, w.next)
	if err != nil {
		m.entries, m.lessons = nil, nil
		return m.lower(err, "planned without the garden's memory")
	}
	if !m.failed {
		m.keepAside(packed())
	}
	w.series, w.credit = store.Join(behind, w.series, cut), behind.Attribution
	for _, n := range behind.Notes {
		w.notes = append(w.notes, n.Text)
	}
	if day := forecast.DateOf(known, m.zone); !known.IsZero() && m.now.Sub(known) < lookBack*24*time.Hour {
		w.notes = append(w.notes, "what looks back further than "+words.New(risk.Metric, m.zone).Day(day)+" is not known yet")
	}
	return nil
}

const notKept = "the weather was not kept in the garden's memory"

// keepAside keeps a forecast while the plan is made, and folds it into the file
// while the plan is printed.
func (m *recall) keepAside(f store.Packed) {
	s, ctx, done := m.store, m.p.ctx, make(chan kept, 1)
	m.keeping, m.store = done, nil
	m.p.aside.Go(func() {
		defer func() {
			if r := recover(); r != nil {
				done <- kept{fault: r}
			}
			_ = s.Close() // what was kept is safe whether or not it succeeds
		}()
		_, err := s.KeepPacked(ctx, f)
		done <- kept{err: err}
	})
}

// settle waits until what is to be kept is kept. It may be called again.
func (m *recall) settle() error {
	if m == nil {
		return nil
	}
	if m.store != nil {
		_ = m.store.Close()
		m.store = nil
	}
	if m.keeping == nil {
		return nil
	}
	k := <-m.keeping
	m.keeping = nil
	if k.fault != nil {
		panic(k.fault)
	}
	return m.lower(k.err, notKept)
}

// assess works out the days by the book, by what the diary tells and by the account of
// the beds' water, nil for none.
func (m *recall) assess(g *risk.Garden, s *forecast.Series, water *ledger.Account, first forecast.Date, back, n int) *risk.Assessment {
	learned := m.learn(g, s, first)
	if water != nil {
		learned.Thirst = water.Thirsts()
	}
	return risk.NewModelWith(m.remember(g, first), learned).Assess(s, first.AddDays(-back), back+n+1)
}

// remember gives the garden as the diary tells it.
func (m *recall) remember(g *risk.Garden, first forecast.Date) *risk.Garden {
	if m == nil || len(m.entries) == 0 {
		return g
	}
	return risk.Remember(g, m.entries, first)
}

// learn works out what garden file and diary teach; the file alone where there is
// no memory.
func (m *recall) learn(g *risk.Garden, s *forecast.Series, today forecast.Date) risk.Learned {
	if m == nil {
		return risk.Learned{Firsts: risk.LearnFirsts(g, s, nil, today)}
	}
	learned := risk.Learn(g, s, m.entries, m.now)
	if m.taught() {
		learned.Firsts = m.firsts(g, s, today)
	}
	return learned
}

// taught tells whether earlier years teach of first flowers.
func (m *recall) taught() bool {
	l := m.lessons
	return l != nil && (len(l.firsts) > 0 || l.earlier != nil)
}

// firsts gives what first flowers taught, by the garden file alone where there is no
// memory.
func (m *recall) firsts(g *risk.Garden, s *forecast.Series, today forecast.Date) risk.Firsts {
	switch {
	case m == nil:
		return risk.LearnFirsts(g, s, nil, today)
	case m.taught():
		return risk.LearnFirsts(g, m.lessons.before(s, m.from), m.lessons.firsts, today)
	}
	return risk.LearnFirsts(g, s, m.entries, today)
}
