package forecast

import (
	"sort"
	"time"
)

// Origin says where an hour's values come from.
type Origin uint8

// The origins of an hour.
const (
	OriginNone       Origin = iota // nothing is known of the hour
	OriginForecast                 // a forecast
	OriginObserved                 // a weather station
	OriginLogger                   // the grower's own instrument
	OriginReanalysis               // worked out afterwards by a weather model that was fed with observations
)

var originNames = [...]string{"none", "forecast", "observed", "logger", "reanalysis"}

// String gives the word used in JSON.
func (o Origin) String() string { return originNames[o] }

// MarshalText writes the word used in JSON.
func (o Origin) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// Hour is the weather of one full UTC hour.
type Hour struct {
	Start     time.Time // first instant, UTC, on the full hour
	Temp      Value     // air temperature, degC
	DewPoint  Value     // dew point, degC
	RH        Value     // relative humidity, %
	Wind      Value     // mean wind at 10 m, m/s
	WindFrom  Value     // where the wind at 10 m comes from, degrees clockwise from true north, 0..360
	Gust      Value     // gust at 10 m, m/s
	Sky       Value     // cloud cover, 0..1
	Radiation Value     // global radiation on the flat, mean W/m2
	Rain      Value     // rain of the hour, mm; in a forecast the hour's share of its block
	RainProb  Value     // chance of measurable rain, 0..1, of the feed's own period
	Thunder   Value     // chance of thunder, 0..1
	Origin    Origin
}

// RainBlock is a forecast rain amount as issued: one sum for one period.
// Sums must not be read as drizzle in every hour, so the model takes the block
// and its chance; Hour.Rain serves totals only.
type RainBlock struct {
	Start, End time.Time // UTC, End exclusive
	Amount     Value     // mm over the whole block; unknown where the layer ends
	Prob       Value     // chance that it is measurably wet at the place, 0..1
}

// Note is something the grower has to know about the data: a missing layer, a
// unit that was refused, a layer that ends early.
type Note struct {
	Layer string // Temp, Rain, ...: the Hour field concerned, or "" for all
	Text  string // a plain sentence, lower case, no full stop
}

// Series is a run of consecutive hours from one feed.
type Series struct {
	Feed        string    // the reader's key
	Source      string    // the name to credit, in words
	Attribution string    // the credit line the licence asks for, or ""
	Issued      time.Time // when the forecaster published it; zero when observed
	Point       Place     // the data point the values stand for; may lie apart from the garden
	Hours       []Hour    // consecutive full hours
	Blocks      []RainBlock
	DayMax      []Extreme // highest temperatures as issued, where the feed has them
	Notes       []Note
}

// New makes a series of unknown hours from start (cut to the full hour) to end.
func New(start, end time.Time) *Series {
	start = start.UTC().Truncate(time.Hour)
	n := 0
	if end.After(start) {
		n = int((end.Sub(start) + time.Hour - 1) / time.Hour)
	}
	s := &Series{Hours: make([]Hour, n)}
	for i := range s.Hours {
		s.Hours[i].Start = start.Add(time.Duration(i) * time.Hour)
	}
	return s
}

// Start gives the first instant, zero for an empty series.
func (s *Series) Start() time.Time {
	if len(s.Hours) == 0 {
		return time.Time{}
	}
	return s.Hours[0].Start
}

// End gives the instant after the last hour, zero for an empty series.
func (s *Series) End() time.Time {
	if len(s.Hours) == 0 {
		return time.Time{}
	}
	return s.Hours[len(s.Hours)-1].Start.Add(time.Hour)
}

// Index gives the position of the hour that holds t; ok is false outside.
func (s *Series) Index(t time.Time) (int, bool) {
	if len(s.Hours) == 0 || t.Before(s.Hours[0].Start) {
		return 0, false
	}
	i := int(t.Sub(s.Hours[0].Start) / time.Hour)
	return i, i < len(s.Hours)
}

// Slice gives the positions of the hours that begin in [from, to); an empty
// range when none does.
func (s *Series) Slice(from, to time.Time) (lo, hi int) {
	lo = sort.Search(len(s.Hours), func(i int) bool { return !s.Hours[i].Start.Before(from) })
	hi = sort.Search(len(s.Hours), func(i int) bool { return !s.Hours[i].Start.Before(to) })
	return lo, hi
}

// Day gives the positions of the hours of a civil day in loc. A zone whose
// offset is not a full hour takes the hours that begin within the day.
func (s *Series) Day(d Date, loc *time.Location) (lo, hi int) {
	return s.Slice(d.Span(loc))
}

// Join puts observed hours before a forecast: hours before cut come from past,
// the others from next. Holes between the two are unknown hours, and an hour
// that past lacks is filled from next with its own origin, so a forecast never
// passes for a measurement. Either may be nil.
func Join(past, next *Series, cut time.Time) *Series {
	switch {
	case past == nil || len(past.Hours) == 0:
		return next
	case next == nil || len(next.Hours) == 0:
		return past
	}
	cut = cut.UTC().Truncate(time.Hour)
	start, end := past.Start(), next.End()
	if next.Start().Before(start) {
		start = next.Start()
	}
	if past.End().After(end) {
		end = past.End()
	}
	out := New(start, end)
	out.Feed, out.Source, out.Attribution = next.Feed, next.Source, next.Attribution
	out.Issued, out.Point, out.Blocks = next.Issued, next.Point, next.Blocks
	out.DayMax = next.DayMax
	out.Notes = append(append([]Note{}, next.Notes...), past.Notes...)
	for i := range out.Hours {
		t := out.Hours[i].Start
		if t.Before(cut) {
			if j, ok := past.Index(t); ok && past.Hours[j].Origin != OriginNone {
				out.Hours[i] = past.Hours[j]
				continue
			}
		}
		if j, ok := next.Index(t); ok {
			out.Hours[i] = next.Hours[j]
		} else if j, ok := past.Index(t); ok {
			out.Hours[i] = past.Hours[j]
		}
	}
	return out
}
