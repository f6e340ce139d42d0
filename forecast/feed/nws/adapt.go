package nws

import (
	"fmt"
	"math"
	"sort"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
)

// Bounds of what air near the ground can be; values outside are instrument or
// conversion faults. The records of the WMO archive of weather extremes lie
// just inside or, for places no garden is in, outside. [chosen]
const (
	minTemp, maxTemp = -60, 60 // degC
	minRH, maxRH     = 1, 100  // %; a humidity of 0 is a gap in disguise, seen at the end of a layer
	maxWind          = 75      // m/s
	maxRain          = 300     // mm in one block of 1 to 12 hours
)

// maxSpan bounds a series, so that a damaged date cannot ask for years of
// hours. Documents span eight days. [chosen]
const maxSpan = 16 * 24 * time.Hour

// endsEarly is how much sooner than the temperatures a layer may end without a
// word. [chosen]
const endsEarly = 6 * time.Hour

// mapping says how one layer becomes one field of the hour.
type mapping struct {
	field    string // name of the Hour field, for notes
	words    string
	quantity unit.Quantity
	bare     string // unit of a layer that never carries one
	lo, hi   float64
	scale    float64 // from the program's unit to the field's
	layer    func(*gridProperties) *layer
	value    func(*forecast.Hour) *forecast.Value
}

// mappings lists the layers whose value holds in every hour of its interval.
func mappings() []mapping {
	return []mapping{
		{"Temp", "temperature", unit.Temperature, "", minTemp, maxTemp, 1,
			func(p *gridProperties) *layer { return &p.Temperature }, func(h *forecast.Hour) *forecast.Value { return &h.Temp }},
		{"DewPoint", "dew point", unit.Temperature, "", minTemp, maxTemp, 1,
			func(p *gridProperties) *layer { return &p.DewPoint }, func(h *forecast.Hour) *forecast.Value { return &h.DewPoint }},
		{"RH", "humidity", unit.Share, "", minRH, maxRH, 100,
			func(p *gridProperties) *layer { return &p.Humidity }, func(h *forecast.Hour) *forecast.Value { return &h.RH }},
		{"Wind", "wind", unit.Speed, "", 0, maxWind, 1,
			func(p *gridProperties) *layer { return &p.WindSpeed }, func(h *forecast.Hour) *forecast.Value { return &h.Wind }},
		{"Gust", "gust speed", unit.Speed, "", 0, maxWind, 1,
			func(p *gridProperties) *layer { return &p.WindGust }, func(h *forecast.Hour) *forecast.Value { return &h.Gust }},
		{"Sky", "cloud cover", unit.Share, "", 0, 1, 1,
			func(p *gridProperties) *layer { return &p.SkyCover }, func(h *forecast.Hour) *forecast.Value { return &h.Sky }},
		{"RainProb", "chance of rain", unit.Share, "", 0, 1, 1,
			func(p *gridProperties) *layer { return &p.RainChance }, func(h *forecast.Hour) *forecast.Value { return &h.RainProb }},
		{"Thunder", "chance of thunder", unit.Share, "percent", 0, 1, 1,
			func(p *gridProperties) *layer { return &p.ThunderChance }, func(h *forecast.Hour) *forecast.Value { return &h.Thunder }},
	}
}

// span is a layer's value over an interval, in the program's unit.
type span struct {
	start, end time.Time
	value      forecast.Value
}

// adapter builds a series from the wire form.
type adapter struct {
	props  *gridProperties
	series *forecast.Series
}

func (a *adapter) note(field, format string, args ...any) {
	a.series.Notes = append(a.series.Notes, forecast.Note{Layer: field, Text: fmt.Sprintf(format, args...)})
}

func (a *adapter) noted(field string) bool {
	for _, n := range a.series.Notes {
		if n.Layer == field {
			return true
		}
	}
	return false
}

// spans reads a layer in order of time. Intervals that cannot be read, or that
// begin before the last one ended, are left out with a note.
func (a *adapter) spans(l *layer, m mapping) []span {
	if len(l.Values) == 0 {
		return nil
	}
	code := l.UOM
	if code == "" {
		code = m.bare
	}
	conv, err := unit.Converter(m.quantity, code)
	if err != nil {
		a.note(m.field, "%s is left out: its %v", m.words, err)
		return nil
	}
	out, badTime, badValue := make([]span, 0, len(l.Values)), 0, 0
	for _, s := range l.Values {
		start, end, err := parseInterval(s.ValidTime)
		if err != nil {
			badTime++
			continue
		}
		sp := span{start: start, end: end}
		if s.Value.known {
			sp.value = forecast.Within(scaled(conv(s.Value.v), m.scale), m.lo, m.hi)
			if !sp.value.IsKnown() {
				badValue++
			}
		}
		out = append(out, sp)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].start.Before(out[j].start) })
	keep := out[:0]
	for _, sp := range out {
		if len(keep) > 0 && sp.start.Before(keep[len(keep)-1].end) {
			badTime++
			continue
		}
		keep = append(keep, sp)
	}
	if badTime > 0 {
		a.note(m.field, "%s: entries without a usable time, left out: %d", m.words, badTime)
	}
	if badValue > 0 {
		a.note(m.field, "%s: impossible entries, taken as unknown: %d", m.words, badValue)
	}
	return keep
}

// scaled multiplies without leaving a trail like 56.00000000000001 %.
func scaled(v, scale float64) float64 {
	if scale == 1 {
		return v
	}
	return math.Round(v*scale*1e9) / 1e9
}

// fill repeats a layer's values over the hours that begin in their intervals.
func (a *adapter) fill(spans []span, value func(*forecast.Hour) *forecast.Value) {
	for _, sp := range spans {
		if !sp.value.IsKnown() {
			continue
		}
		lo, hi := a.series.Slice(sp.start, sp.end)
		for i := lo; i < hi; i++ {
			*value(&a.series.Hours[i]) = sp.value
		}
	}
}

// clearSpikes makes single hours unknown that jump away from both neighbours.
func (a *adapter) clearSpikes() {
	if n := forecast.ClearSpikes(a.series.Hours); n > 0 {
		a.note("Temp", "temperature: hours far from both neighbours, taken as unknown: %d", n)
	}
}

// settle marks the hours that hold something and drops those at either end that
// hold nothing; it tells whether any is left.
func (a *adapter) settle() bool {
	hs, ms := a.series.Hours, mappings()
	for i := range hs {
		h := &hs[i]
		known := h.Rain.IsKnown()
		for _, m := range ms {
			known = known || m.value(h).IsKnown()
		}
		if known {
			h.Origin = forecast.OriginForecast
		}
	}
	for len(hs) > 0 && hs[0].Origin == forecast.OriginNone {
		hs = hs[1:]
	}
	for len(hs) > 0 && hs[len(hs)-1].Origin == forecast.OriginNone {
		hs = hs[:len(hs)-1]
	}
	a.series.Hours = hs
	return len(hs) > 0
}

// coverage notes a layer that is missing or ends long before the temperatures.
func (a *adapter) coverage(m mapping, spans []span, until time.Time) {
	var end time.Time
	for _, sp := range spans {
		if sp.value.IsKnown() {
			end = sp.end
		}
	}
	switch {
	case end.IsZero() && a.noted(m.field): // it has been said why
	case end.IsZero():
		a.note(m.field, "%s is not in this forecast", m.words)
	case until.Sub(end) > endsEarly:
		a.note(m.field, "%s ends %s before the temperatures; after that it is unknown", m.words, days(until.Sub(end)))
	}
}

// days writes a stretch of time in full hours or in days.
func days(d time.Duration) string {
	if d < 48*time.Hour {
		return fmt.Sprintf("%.0f hours", d.Hours())
	}
	return fmt.Sprintf("%.0f days", d.Hours()/24)
}

// hull gives the time that the layers cover, at most maxSpan from the first
// temperature.
func hull(temps []span, others ...[]span) (start, end time.Time) {
	start, end = temps[0].start, temps[len(temps)-1].end
	earliest, latest := start.Add(-24*time.Hour), start.Add(maxSpan)
	for _, o := range others {
		for _, sp := range o {
			if sp.start.Before(start) && !sp.start.Before(earliest) {
				start = sp.start
			}
			if sp.end.After(end) {
				end = sp.end
			}
		}
	}
	if end.After(latest) {
		end = latest
	}
	return start, end
}
