package assemble

import (
	"fmt"
	"slices"
	"sort"
	"time"

	"dawnbrush/forecast"
)

// UsualSpan bounds a series, so that a damaged date cannot ask for years of
// hours. Forecasts reach 16 days at most. [chosen]
const UsualSpan = 16 * 24 * time.Hour

// endsEarly is how much sooner than the temperatures a layer may end without a
// word. [chosen]
const endsEarly = 6 * time.Hour

// before is how far before the first temperature another layer may begin. [chosen]
const before = 24 * time.Hour

// Span is a number that a document gives for a stretch of time. A span without a
// start is one whose time could not be read.
type Span struct {
	Start, End time.Time // UTC, End exclusive
	Value      forecast.Value
}

// layer is a field over time, in order of time and without overlaps.
type layer struct {
	field Field
	spans []Span
}

// Builder gathers the layers of a document. The zero Builder is ready.
type Builder struct {
	// Most bounds the length of the series; 0 for 16 days.
	Most time.Duration

	// Origin says where an hour comes from that holds anything; nil for a forecast.
	// Rain of hours of another origin is what fell: it makes no block.
	Origin func(start time.Time) forecast.Origin

	layers []layer
	rain   []Span
	rained bool // the document's rain has been given, if only to say that it is missing
	notes  []forecast.Note
	series *forecast.Series
}

// Note adds what the grower has to know about a field.
func (b *Builder) Note(f Field, format string, args ...any) {
	b.notes = append(b.notes, forecast.Note{Layer: specs[f].name, Text: specs[f].words + fmt.Sprintf(format, args...)})
}

func (b *Builder) noted(f Field) bool {
	for _, n := range b.notes {
		if n.Layer == specs[f].name {
			return true
		}
	}
	return false
}

// Layer adds a field: numbers in the unit that the code names. It takes spans
// over and changes them. Spans whose time cannot be read, or that begin before
// the one before ended, are left out with a note, and so is a layer in a unit
// that is not known. A layer without any spans is noted as missing; one that a
// service never has is not to be added.
func (b *Builder) Layer(f Field, code string, spans []Span) {
	spans = b.read(f, code, spans)
	if f == Rain {
		b.rain, b.rained = spans, true
		return
	}
	b.layers = append(b.layers, layer{f, spans})
}

// read converts, sorts and sifts spans.
func (b *Builder) read(f Field, code string, spans []Span) []Span {
	if len(spans) == 0 {
		return nil
	}
	conv, err := f.Converter(code)
	if err != nil {
		b.Note(f, " is left out: its %v", err)
		return nil
	}
	badTime, badValue := 0, 0
	keep := spans[:0]
	for _, sp := range spans {
		if !sp.End.After(sp.Start) || sp.Start.IsZero() {
			badTime++
			continue
		}
		if v, ok := sp.Value.Get(); ok {
			sp.Value = conv(v)
			if !sp.Value.IsKnown() {
				badValue++
			}
		}
		keep = append(keep, sp)
	}
	sort.SliceStable(keep, func(i, j int) bool { return keep[i].Start.Before(keep[j].Start) })
	spans, keep = keep, keep[:0]
	for _, sp := range spans {
		if len(keep) > 0 && sp.Start.Before(keep[len(keep)-1].End) {
			badTime++
			continue
		}
		keep = append(keep, sp)
	}
	if badTime > 0 {
		b.Note(f, ": entries without a usable time, left out: %d", badTime)
	}
	if badValue > 0 {
		b.Note(f, ": impossible entries, taken as unknown: %d", badValue)
	}
	return keep
}

// temps gives the temperatures, which a series cannot do without.
func (b *Builder) temps() []Span {
	for _, l := range b.layers {
		if l.field == Temp {
			return l.spans
		}
	}
	return nil
}

// Series builds the series. Where now lies inside a rain block, the block is cut
// there; the zero time cuts nothing. ok is false when no temperature can be read
// or nothing at all is known.
func (b *Builder) Series(now time.Time) (s *forecast.Series, ok bool) {
	temps := b.temps()
	if len(temps) == 0 {
		return nil, false
	}
	b.series = forecast.New(b.hull(temps))
	until := temps[len(temps)-1].End
	for _, l := range b.layers {
		b.fill(l)
		if b.matters(l.field) {
			b.coverage(l.field, l.spans, until)
		}
	}
	if b.rained {
		b.addRain()
		b.coverage(Rain, b.rain, until)
	}
	b.addChances()
	sort.SliceStable(b.series.Blocks, func(i, j int) bool { return b.series.Blocks[i].Start.Before(b.series.Blocks[j].Start) })
	if !now.IsZero() {
		b.cutBlock(now)
	}
	b.finishAir()
	ok = b.settle()
	b.series.Notes = b.notes
	return b.series, ok
}

// hull gives the time that the layers cover.
func (b *Builder) hull(temps []Span) (start, end time.Time) {
	most := b.Most
	if most == 0 {
		most = UsualSpan
	}
	start, end = temps[0].Start, temps[len(temps)-1].End
	earliest, latest := start.Add(-before), start.Add(most)
	widen := func(spans []Span) {
		for _, sp := range spans {
			if sp.Start.Before(start) && !sp.Start.Before(earliest) {
				start = sp.Start
			}
			if sp.End.After(end) {
				end = sp.End
			}
		}
	}
	for _, l := range b.layers {
		widen(l.spans)
	}
	widen(b.rain)
	if end.After(latest) {
		end = latest
	}
	return start, end
}

// fill repeats a layer's values over the hours that begin in their spans.
func (b *Builder) fill(l layer) {
	for _, sp := range l.spans {
		if !sp.Value.IsKnown() {
			continue
		}
		lo, hi := b.series.Slice(sp.Start, sp.End)
		for i := lo; i < hi; i++ {
			*l.field.of(&b.series.Hours[i]) = sp.Value
		}
	}
}

// matters tells whether it is worth a word that a field is missing or ends early: of
// sunlight and cloud cover, and of humidity and dew point, one is enough; gusts decide
// nothing, so it matters only that they are told at all. The wind's direction says
// something to few rows of corn alone.
func (b *Builder) matters(f Field) bool {
	switch f {
	case WindFrom:
		return false
	case Gust:
		return !b.told(Gust)
	case DewPoint:
		return !b.told(RH)
	case Radiation:
		return !b.told(Sky)
	case Sky:
		return !b.told(Radiation)
	case RH:
		return !b.told(DewPoint)
	}
	return true
}

// told tells whether a field has been given any value.
func (b *Builder) told(f Field) bool {
	for _, l := range b.layers {
		if l.field == f {
			return slices.ContainsFunc(l.spans, func(s Span) bool { return s.Value.IsKnown() })
		}
	}
	return false
}

// coverage notes a layer that is missing or ends long before the temperatures.
func (b *Builder) coverage(f Field, spans []Span, until time.Time) {
	var end time.Time
	for _, sp := range spans {
		if sp.Value.IsKnown() {
			end = sp.End
		}
	}
	switch {
	case end.IsZero() && b.noted(f): // it has been said why
	case end.IsZero():
		b.Note(f, " is not in this forecast")
	case until.Sub(end) > endsEarly:
		b.Note(f, " ends %s before the temperatures; after that it is unknown", days(until.Sub(end)))
	}
}

// days writes a stretch of time in full hours or in days.
func days(d time.Duration) string {
	if d < 48*time.Hour {
		return fmt.Sprintf("%.0f hours", d.Hours())
	}
	return fmt.Sprintf("%.0f days", d.Hours()/24)
}

// finishAir makes single hours unknown that jump away from both neighbours, and
// fills in dew point or humidity where one of them is missing.
func (b *Builder) finishAir() {
	hs := b.series.Hours
	if n := forecast.ClearSpikes(hs); n > 0 {
		b.Note(Temp, ": hours far from both neighbours, taken as unknown: %d", n)
	}
	nRH := 0
	for i := range hs {
		if rh, _ := FillHumidity(&hs[i]); rh {
			nRH++
		}
	}
	if nRH > 0 {
		b.Note(RH, ": worked out from temperature and dew point in %d of %d hours", nRH, len(hs))
	}
}

// settle marks the hours that hold something and drops those at either end that
// hold nothing; it tells whether any is left.
func (b *Builder) settle() bool {
	hs := b.series.Hours
	for i := range hs {
		h := &hs[i]
		known := false
		for f := range specs {
			known = known || Field(f).of(h).IsKnown()
		}
		if known {
			h.Origin = b.origin(h.Start)
		}
	}
	b.series.Hours = known(hs)
	return len(b.series.Hours) > 0
}

func (b *Builder) origin(start time.Time) forecast.Origin {
	if b.Origin == nil {
		return forecast.OriginForecast
	}
	return b.Origin(start)
}
