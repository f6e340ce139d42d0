package store

import (
	"context"
	"fmt"
	"time"

	"dawnbrush/forecast"
)

// fillDays is how far back a forecast stands in for hours that nobody measured:
// as long as all forecasts are kept.
const fillDays = keepAllDays

// noteHours is how far back a missing measurement of rain is worth a note: what
// mould and wet flowers of today look back on.
const noteHours = 48 // [chosen: two days, as for tassels and silks]

// lateHours is how many of them may lack it without a word: stations report late.
const lateHours = 3 // [chosen: reports come in within two hours]

// rainFrom says what is behind the rain of an hour.
type rainFrom uint8

const (
	rainUnknown rainFrom = iota
	rainMeasured
	rainGauge    // of the diary, in the shape in which a station measured it
	rainInGauge  // of the diary, at hours nobody knows
	rainForecast // not measured
)

// past puts together what is known of the hours behind.
type past struct {
	*forecast.Series
	rain   []rainFrom
	by     []*forecast.Series // the last forecast of an hour that was not measured whole, nil for none
	warmth int                // hours whose temperature nobody measured and a forecast told
	// stretches are rain gauge readings whose hours nobody knows.
	stretches []forecast.RainBlock
}

// Past gives what is known of the full hours in [from, now): measured values
// where there are any, else the last forecast of that hour, which keeps its
// origin and its rain blocks. Rain is that of the diary's gauge readings, else
// measured, else forecast; an hour whose rain is forecast counts as a forecast
// as a whole, for an hour has one origin. The series begins with the first hour
// whose temperature is known, and firstKnown is its time; both are empty when
// there is none. Of forecasts not kept yet, latest counts as the last issued; it
// may be nil.
func (s *Store) Past(ctx context.Context, from, now time.Time, latest *forecast.Series) (out *forecast.Series, firstKnown time.Time, err error) {
	now = now.UTC().Truncate(time.Hour)
	if !from.Before(now) {
		return forecast.New(now, now), time.Time{}, nil
	}
	var p *past
	err = s.read(ctx, func() error {
		measured, err := s.observed(from, now)
		if err != nil {
			return err
		}
		p = &past{Series: measured, rain: make([]rainFrom, len(measured.Hours)), by: make([]*forecast.Series, len(measured.Hours))}
		for i := range p.Hours {
			if p.Hours[i].Rain.IsKnown() {
				p.rain[i] = rainMeasured
			}
		}
		if err := s.fill(p, now, latest); err != nil {
			return err
		}
		readings, err := s.readings(p.Start(), now)
		for _, r := range readings {
			p.gauge(r)
		}
		return err
	})
	if err != nil {
		return nil, time.Time{}, err
	}
	p.settle()
	return p.trim()
}

// fill takes what nobody measured from the last forecast of each hour.
func (s *Store) fill(p *past, now time.Time, latest *forecast.Series) error {
	first, stop := max(hourOf(p.Start()), hourOf(now.AddDate(0, 0, -fillDays))), hourOf(now)
	if latest != nil {
		p.fillFrom(latest, hourStart(first))
	}
	if !p.lack(first, stop) {
		return nil
	}
	st, _, err := s.db.Prepare(`SELECT first, stop, body FROM forecast WHERE first < ?1 AND stop > ?2 AND issued >= ?3 ORDER BY issued DESC, seq DESC`)
	if err != nil {
		return err
	}
	defer st.Close()
	for at, v := range []int64{stop, first, now.AddDate(0, 0, -fillDays-1).Unix()} {
		if err := st.BindInt64(at+1, v); err != nil {
			return err
		}
	}
	for st.Step() {
		if !p.lack(max(first, st.ColumnInt64(0)), min(stop, st.ColumnInt64(1))) {
			continue
		}
		f, err := unpack(st.ColumnRawBlob(2))
		if err != nil {
			return &DamagedError{Path: s.path, What: err.Error(), Err: err}
		}
		p.fillFrom(f, hourStart(first))
	}
	return st.Err()
}

// lack tells whether any hour in [first, stop) still waits for a forecast.
func (p *past) lack(first, stop int64) bool {
	start := hourOf(p.Start())
	for i := first - start; i < stop-start; i++ {
		if p.lacks(int(i)) {
			return true
		}
	}
	return false
}

// lacks tells whether temperature or rain of an hour were not measured and no
// forecast of it was looked at yet.
func (p *past) lacks(i int) bool {
	return p.by[i] == nil && (!p.Hours[i].Temp.IsKnown() || p.rain[i] == rainUnknown)
}

// fillFrom takes what is lacking from one forecast.
func (p *past) fillFrom(f *forecast.Series, from time.Time) {
	lo, hi := f.Slice(from, p.End())
	for j := lo; j < hi; j++ {
		i, ok := p.Index(f.Hours[j].Start)
		if !ok || !p.lacks(i) {
			continue
		}
		h, x := &p.Hours[i], &f.Hours[j]
		p.by[i] = f
		rain := p.rain[i] == rainUnknown && (x.Rain.IsKnown() || x.RainProb.IsKnown())
		if !h.Temp.IsKnown() && x.Origin != forecast.OriginNone {
			to, from := layers(h), layers(x)
			for k := range to {
				if !to[k].IsKnown() && (rain || to[k] != &h.RainProb) {
					*to[k] = *from[k]
				}
			}
			h.Origin = forecast.OriginForecast
			if h.Temp.IsKnown() {
				p.warmth++
			}
		}
		if rain {
			h.Rain, h.RainProb, h.Origin = x.Rain, x.RainProb, forecast.OriginForecast
			p.rain[i] = rainForecast
		}
	}
}

// settle gives every hour the origin and the blocks that its rain calls for.
func (p *past) settle() {
	unsure := 0
	for i := range p.Hours {
		h := &p.Hours[i]
		amount, known := h.Rain.Get()
		switch {
		case p.rain[i] == rainInGauge:
			h.Origin = forecast.OriginForecast
		case p.rain[i] == rainForecast:
			if i >= len(p.Hours)-noteHours {
				unsure++
			}
		case h.Origin == forecast.OriginNone && known:
			h.Origin = forecast.OriginLogger
		case h.Origin == forecast.OriginForecast && known: // its temperature is; of its rain nothing is left open
			h.RainProb = forecast.Known(0)
			if amount > 0 {
				h.RainProb = forecast.Known(1)
				p.Blocks = append(p.Blocks, forecast.RainBlock{Start: h.Start, End: h.Start.Add(time.Hour), Amount: h.Rain, Prob: h.RainProb})
			}
		}
	}
	p.Blocks = append(p.Blocks, p.stretches...)
	p.forecastBlocks()
	if unsure > lateHours {
		p.Notes = append(p.Notes, forecast.Note{Layer: "Rain", Text: fmt.Sprintf("of the last %d hours, %d have forecast rain, not measured", noteHours, unsure)})
	}
	if p.warmth > lateHours {
		p.Notes = append(p.Notes, forecast.Note{Layer: "Temp", Text: fmt.Sprintf("of the hours before, %d have a forecast temperature, not measured", p.warmth)})
	}
}

// forecastBlocks takes over the parts of forecasts' rain blocks that lie in the
// hours whose rain they told, each with its share of the amount.
func (p *past) forecastBlocks() {
	for lo := 0; lo < len(p.Hours); {
		f := p.by[lo]
		hi := lo + 1
		for hi < len(p.Hours) && p.by[hi] == f && p.rain[hi] == p.rain[lo] {
			hi++
		}
		if p.rain[lo] == rainForecast {
			from, to := p.Hours[lo].Start, p.Hours[hi-1].Start.Add(time.Hour)
			for _, b := range f.Blocks {
				if c, ok := clip(b, from, to); ok {
					p.Blocks = append(p.Blocks, c)
				}
			}
		}
		lo = hi
	}
}

// clip cuts a block to [from, to).
func clip(b forecast.RainBlock, from, to time.Time) (forecast.RainBlock, bool) {
	c := b
	if c.Start.Before(from) {
		c.Start = from
	}
	if c.End.After(to) {
		c.End = to
	}
	if !c.End.After(c.Start) {
		return c, false
	}
	if a, ok := b.Amount.Get(); ok {
		c.Amount = forecast.Known(a * c.End.Sub(c.Start).Hours() / b.End.Sub(b.Start).Hours())
	}
	return c, true
}

// trim lets the series begin where something is known.
func (p *past) trim() (*forecast.Series, time.Time, error) {
	for i := range p.Hours {
		if p.Hours[i].Temp.IsKnown() {
			p.Hours = p.Hours[i:]
			return p.Series, p.Start(), nil
		}
	}
	p.Hours = nil
	return p.Series, time.Time{}, nil
}

// reading is what a rain gauge held after a stretch of time.
type reading struct {
	from, to time.Time
	amount   float64 // mm
}

// gaugeHours is the stretch of a reading that no other goes before: gauges are
// read once a day. [common-practice]
const gaugeHours = 24

// readings gives the diary's rain gauge readings that end in (from, to), in
// order, each with the stretch since the one before. A reading of a day without a
// clock time is that of its civil day; several of one day are added up.
func (s *Store) readings(from, to time.Time) (out []reading, err error) {
	const early = 14 // days: the reading before the first one counts as well
	entries, err := s.entries(`SELECT e.payload FROM entry e WHERE e.removed = 0 AND e.kind = 'rain' AND e.planting = '' AND e.date BETWEEN ? AND ? AND `+notReplaced+
		` ORDER BY e.date, e.recorded, e.id`, forecast.DateOf(from, s.zone).AddDays(-early).String(), forecast.DateOf(to, s.zone).String())
	if err != nil {
		return nil, err
	}
	var last time.Time
	for i := range entries {
		e := &entries[i]
		amount, ok := e.Amount.Get()
		if !ok || amount < 0 {
			continue
		}
		var r reading
		if e.At.IsZero() {
			r.from, r.to = e.Date.Span(s.zone)
			if r.from.Before(e.Recorded) && e.Recorded.Before(r.to) {
				r.to = e.Recorded
			}
			if n := len(out); n > 0 && out[n-1].from.Equal(r.from) { // of the same day
				out[n-1].amount += amount
				continue
			}
		} else {
			r.from, r.to = e.At.Add(-gaugeHours*time.Hour), e.At
			if !last.IsZero() {
				r.from = last
			}
		}
		if r.from.Before(last) {
			r.from = last
		}
		if r.amount = amount; r.to.After(r.from) {
			out, last = append(out, r), r.to
		}
	}
	return out, nil
}

// gauge lays a reading over the hours of its stretch, to the nearest full hour.
// Where a station measured rain within it, the reading falls as that did; else
// its hours are unknown and the whole stretch is one block that is sure to be
// wet. A stretch that begins before the series is left out.
func (p *past) gauge(r reading) {
	from, to := r.from.Round(time.Hour), r.to.Round(time.Hour)
	lo, hi := p.Slice(from, to)
	if from.Before(p.Start()) || lo == hi {
		return
	}
	sum := 0.0
	for i := lo; i < hi; i++ {
		if p.rain[i] == rainMeasured {
			sum += p.Hours[i].Rain.Or(0)
		}
	}
	spread := r.amount > 0 && sum == 0
	for i := lo; i < hi; i++ {
		h := &p.Hours[i]
		switch {
		case spread:
			h.Rain, h.RainProb, p.rain[i] = forecast.Known(r.amount/float64(hi-lo)), forecast.Known(1), rainInGauge
			continue
		case p.rain[i] == rainMeasured && sum > 0:
			h.Rain = forecast.Known(h.Rain.Or(0) * r.amount / sum)
		default:
			h.Rain = forecast.Known(0)
		}
		h.RainProb, p.rain[i] = forecast.Value{}, rainGauge
	}
	if spread {
		p.stretches = append(p.stretches, forecast.RainBlock{Start: p.Hours[lo].Start, End: p.Hours[hi-1].Start.Add(time.Hour), Amount: forecast.Known(r.amount), Prob: forecast.Known(1)})
	}
}

// Join puts what is behind before what is ahead: hours before cut come from
// behind where it knows them. Rain blocks of ahead begin at the cut, for those
// of behind tell the hours before.
func Join(behind, ahead *forecast.Series, cut time.Time) *forecast.Series {
	out := forecast.Join(behind, ahead, cut)
	if behind == nil || len(behind.Hours) == 0 || ahead == nil || len(ahead.Hours) == 0 {
		return out
	}
	cut = cut.UTC().Truncate(time.Hour)
	if cut.After(behind.End()) {
		cut = behind.End()
	}
	out.Blocks = nil
	for _, b := range behind.Blocks {
		if c, ok := clip(b, behind.Start(), cut); ok {
			out.Blocks = append(out.Blocks, c)
		}
	}
	for _, b := range ahead.Blocks {
		from := cut
		if !b.End.After(behind.Start()) {
			from = b.Start
		}
		if c, ok := clip(b, from, b.End); ok {
			out.Blocks = append(out.Blocks, c)
		}
	}
	return out
}
