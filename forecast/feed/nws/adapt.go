package nws

import (
	"slices"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/assemble"
	"dawnbrush/forecast/unit"
)

// source says which layer holds a field.
type source struct {
	field assemble.Field
	bare  string // unit of a layer that never carries one
	layer *layer
}

// sources lists the layers that are read.
func (p *gridProperties) sources() []source {
	return []source{
		{assemble.Temp, "", &p.Temperature},
		{assemble.DewPoint, "", &p.DewPoint},
		{assemble.RH, "", &p.Humidity},
		{assemble.Wind, "", &p.WindSpeed},
		{assemble.WindFrom, "", &p.WindDirection},
		{assemble.Gust, "", &p.WindGust},
		{assemble.Sky, "", &p.SkyCover},
		{assemble.RainProb, "", &p.RainChance},
		{assemble.Thunder, "percent", &p.ThunderChance},
		{assemble.Rain, "", &p.RainAmount},
	}
}

// add gives a layer to the builder. An interval that cannot be read becomes a
// span without times.
func (s source) add(b *assemble.Builder) {
	code := s.layer.UOM
	if code == "" {
		code = s.bare
	}
	spans := make([]assemble.Span, len(s.layer.Values))
	for i := range spans {
		spans[i] = s.layer.Values[i].span()
	}
	b.Layer(s.field, code, spans)
}

func (s sample) span() (out assemble.Span) {
	start, end, err := parseInterval(s.ValidTime)
	if err != nil {
		return out
	}
	out.Start, out.End = start, end
	if s.Value.known {
		out.Value = forecast.Known(s.Value.v)
	}
	return out
}

// adaptGrid turns the wire form into a series.
func adaptGrid(d *gridDocument, now time.Time) (*forecast.Series, error) {
	p := &d.Properties
	issued, err := parseTime(p.UpdateTime)
	if err != nil {
		return nil, gridFault(err, "it does not say when it was issued: %v", err)
	}
	var b assemble.Builder
	for _, s := range p.sources() {
		s.add(&b)
	}
	s, ok := b.Series(now)
	switch {
	case s == nil:
		return nil, gridFault(nil, "none of its temperatures can be read")
	case !ok:
		return nil, gridFault(nil, "all its values are unknown")
	}
	s.Feed, s.Source, s.Attribution = Key, sourceName(p.GridID), attribution
	s.Issued, s.Point = issued, d.point()
	s.DayMax = p.dayMax()
	return s, nil
}

// dayMax gives the highest temperatures of the days as issued.
func (p *gridProperties) dayMax() []forecast.Extreme {
	conv, err := assemble.Temp.Converter(p.MaxTemperature.UOM)
	if err != nil {
		return nil
	}
	var out []forecast.Extreme
	for _, x := range p.MaxTemperature.Values {
		sp := x.span()
		if v, ok := sp.Value.Get(); ok && conv(v).IsKnown() {
			out = append(out, forecast.Extreme{Start: sp.Start, End: sp.End, Temp: conv(v)})
		}
	}
	slices.SortStableFunc(out, func(a, b forecast.Extreme) int { return a.Start.Compare(b.Start) })
	return out
}

func sourceName(office string) string {
	if office == "" {
		return service
	}
	return service + ", office " + office
}

// point gives the middle of the grid cell. Its zone is not in the document.
func (d *gridDocument) point() forecast.Place {
	var p forecast.Place
	p.Lat, p.Lon = d.Geometry.centre()
	p.Elevation = d.Properties.Elevation.elevation()
	return p
}

func (q quantity) elevation() forecast.Value {
	conv, err := unit.Converter(unit.Length, q.UnitCode)
	if err != nil || !q.Value.known {
		return forecast.Value{}
	}
	return assemble.Elevation(conv(q.Value.v))
}
