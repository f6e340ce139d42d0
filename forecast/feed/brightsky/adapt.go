package brightsky

import (
	"slices"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/assemble"
)

// scale is a unit and what a number is multiplied with to be in it.
type scale struct {
	unit   string
	factor float64
}

// quantity is a value of the records.
type quantity struct {
	field  assemble.Field
	word   string                 // for notes
	behind bool                   // it is a sum, mean or maximum of the hour before the time stamp
	usual  scale                  // with units=dwd
	si     scale                  // with units=si
	value  func(*record) *float64 // nil when unknown
	from   func(*fallback) int64  // the source it was taken from for want of the main one
}

var (
	kelvin  = scale{"K", 1}
	celsius = scale{"degC", 1}
	kmh     = scale{"km/h", 1}
	ms      = scale{"m/s", 1}
	percent = scale{"%", 1}
	mm      = scale{"mm", 1}
	degrees = scale{"degrees", 1}

	// Energy of an hour, kWh/m2 or J/m2, to its mean power. [derived]
	kilowattHours = scale{"W_m-2", 1000}
	joules        = scale{"W_m-2", 1.0 / 3600}
)

// quantities lists what is read, with its units and the time it is of. [BrightSky]
var quantities = [...]quantity{
	{assemble.Temp, "temperature", false, celsius, kelvin, func(r *record) *float64 { return r.Temp }, func(f *fallback) int64 { return f.Temp }},
	{assemble.DewPoint, "dew point", false, celsius, kelvin, func(r *record) *float64 { return r.DewPoint }, func(f *fallback) int64 { return f.DewPoint }},
	{assemble.RH, "humidity", false, percent, percent, func(r *record) *float64 { return r.RH }, func(f *fallback) int64 { return f.RH }},
	{assemble.Sky, "cloud cover", false, percent, percent, func(r *record) *float64 { return r.Sky }, func(f *fallback) int64 { return f.Sky }},
	{assemble.Wind, "wind", true, kmh, ms, func(r *record) *float64 { return r.Wind }, func(f *fallback) int64 { return f.Wind }},
	{assemble.WindFrom, "wind direction", true, degrees, degrees, func(r *record) *float64 { return r.WindFrom }, func(f *fallback) int64 { return f.WindFrom }},
	{assemble.Gust, "gusts", true, kmh, ms, func(r *record) *float64 { return r.Gust }, func(f *fallback) int64 { return f.Gust }},
	{assemble.Radiation, "sunlight", true, kilowattHours, joules, func(r *record) *float64 { return r.Solar }, func(f *fallback) int64 { return f.Solar }},
	{assemble.Rain, "rain", true, mm, mm, func(r *record) *float64 { return r.Rain }, func(f *fallback) int64 { return f.Rain }},
}

// series turns the records into a series, named after a source. After a station, it is of the
// past and has no chances of rain.
func (d *document) series(main *source, now time.Time) (*forecast.Series, error) {
	b := assemble.Builder{Most: d.span(), Origin: d.origin}
	si := d.inKelvin()
	for i := range quantities {
		q := &quantities[i]
		s := q.usual
		if si {
			s = q.si
		}
		spans := d.spans(q, s.factor)
		if q.field == assemble.Rain {
			spans = d.rain()
		}
		b.Layer(q.field, s.unit, spans)
	}
	ahead := !main.measured()
	if ahead {
		b.Layer(assemble.RainProb, percent.unit, d.chances())
	}
	s, ok := b.Series(now)
	if s == nil || !ok {
		return nil, fault(nil, "all its values are unknown")
	}
	s.Feed, s.Attribution = Key, attribution
	s.Source, s.Point = main.words(), main.point()
	s.Notes = append(s.Notes, d.notes(si)...)
	if ahead {
		s.Notes = append(s.Notes, forecast.Note{Layer: "Thunder", Text: "chance of thunder is never in forecasts of this service"})
	}
	return s, nil
}

// tooHot is a temperature that air has in kelvin and never in degC.
const tooHot = 150 // [chosen: half way between both]

// inKelvin tells whether a document is in SI units, which it does not say.
func (d *document) inKelvin() bool {
	kelvin, all := 0, 0
	for i := range d.Weather.records {
		if t := d.Weather.records[i].Temp; t != nil {
			all++
			if *t > tooHot {
				kelvin++
			}
		}
	}
	return 2*kelvin > all // a single one is a fault of its own
}

// spans gives each value of a quantity its hour.
func (d *document) spans(q *quantity, factor float64) []assemble.Span {
	out := make([]assemble.Span, 0, len(d.Weather.records))
	for i := range d.Weather.records {
		r := &d.Weather.records[i]
		sp := assemble.Span{Start: r.at, End: r.at.Add(time.Hour)}
		if q.behind {
			sp = r.before()
		}
		if v := q.value(r); v != nil {
			sp.Value = forecast.Known(*v * factor)
		}
		out = append(out, sp)
	}
	return out
}

// before gives the hour before a record's time stamp, of which its sums and means are.
func (r *record) before() assemble.Span {
	return assemble.Span{Start: r.at.Add(-time.Hour), End: r.at}
}

// measuredHour tells whether an hour was measured: what the record at its start says of the
// air, and what the one at its end says of the rain. Where temperature or rain was filled in
// from a forecast it is none, even if the rest was measured.
func (d *document) measuredHour(start time.Time) bool {
	first, last := d.record(start), d.record(start.Add(time.Hour))
	if first == nil && last == nil {
		return false
	}
	return (first == nil || first.measured && d.filledByStation(first.Fallback.Temp)) &&
		(last == nil || last.measured && d.filledByStation(last.Fallback.Rain))
}

// filledByStation tells whether a value that the main source lacks came from a station; yes
// when nothing was filled in.
func (d *document) filledByStation(id int64) bool { return id == 0 || d.source(id).measured() }

func (d *document) origin(start time.Time) forecast.Origin {
	if d.measuredHour(start) {
		return forecast.OriginObserved
	}
	return forecast.OriginForecast
}

// forecasts tells whether any record is a forecast.
func (d *document) forecasts() bool {
	return slices.ContainsFunc(d.Weather.records, func(r record) bool { return !r.measured })
}

// six is the period of the chances that go on where those of single hours end: they are told
// at 0, 6, 12 and 18 h UTC of the hours before. [BrightSky]
const six = 6 * time.Hour

// chances gives each forecast hour its chance of rain: its own, of more than 0.1 mm, or that
// of the six hours it lies in, of more than 0.2 mm. [BrightSky] What was measured has none.
func (d *document) chances() []assemble.Span {
	out := make([]assemble.Span, 0, len(d.Weather.records))
	for i := range d.Weather.records {
		r := &d.Weather.records[i]
		sp := r.before()
		if !d.measuredHour(sp.Start) {
			if v, ok := d.chance(r); ok {
				sp.Value = forecast.Known(v)
			}
		}
		out = append(out, sp)
	}
	return out
}

func (d *document) chance(r *record) (percent float64, ok bool) {
	if r.Chance != nil {
		return *r.Chance, true
	}
	if w := d.window(r); w != nil {
		return *w.ChanceSix, true
	}
	return 0, false
}

// window gives the record that tells the chance of the six hours in which a record's hour
// lies; nil when it has a chance of its own, or there is none.
func (d *document) window(r *record) *record {
	if r.Chance != nil {
		return nil
	}
	end := r.at.Truncate(six)
	if end.Before(r.at) {
		end = end.Add(six)
	}
	if w := d.record(end); w != nil && w.ChanceSix != nil {
		return w
	}
	return nil
}

// rain gives the sums. Where hours have no chance but that of the six they lie in, their sums
// are put together into one: a chance of six hours, taken for each of them, would be a
// drizzle through all six.
func (d *document) rain() []assemble.Span {
	possible, err := assemble.Rain.Converter(mm.unit)
	if err != nil {
		return nil
	}
	out := make([]assemble.Span, 0, len(d.Weather.records))
	var open *record // the window that the last span may grow in
	for i := range d.Weather.records {
		r := &d.Weather.records[i]
		sp := r.before()
		if r.Rain == nil {
			out, open = append(out, sp), nil
			continue
		}
		sp.Value = forecast.Known(*r.Rain)
		w := d.window(r)
		if d.measuredHour(sp.Start) || !possible(*r.Rain).IsKnown() {
			w = nil
		}
		if last := len(out) - 1; w != nil && w == open && out[last].End.Equal(sp.Start) {
			out[last].End, out[last].Value = sp.End, forecast.Known(out[last].Value.Or(0)+*r.Rain)
			continue
		}
		out, open = append(out, sp), w
	}
	return out
}
