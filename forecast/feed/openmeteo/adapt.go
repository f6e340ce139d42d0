package openmeteo

import (
	"fmt"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/assemble"
)

// part says which lists of a document make a series.
type part struct {
	hosts  host // whose variables to look for
	lead   int  // days between the forecast and the hours; 0 for the newest
	origin forecast.Origin
	now    time.Time // where a block of rain is cut
}

func (p part) suffix() string {
	if p.lead == 0 {
		return ""
	}
	return fmt.Sprint(leadMark, p.lead)
}

// named gives a variable's list and its unit, by its new name or its old one; nil when
// neither is there.
func (d *document) named(v *variable, suffix string) (values []forecast.Value, unit string) {
	for _, name := range []string{v.name + suffix, v.old + suffix} {
		if values, ok := d.Hourly.values[name]; ok {
			return values, d.Units[name]
		}
	}
	return nil, ""
}

// series turns lists into a series.
func (d *document) series(p part) (*forecast.Series, error) {
	b := assemble.Builder{
		Most:   time.Duration(d.count+1) * time.Hour,
		Origin: func(time.Time) forecast.Origin { return p.origin },
	}
	for i := range variables {
		if v := &variables[i]; v.hosts&p.hosts != 0 {
			values, unit := d.named(v, p.suffix())
			if values != nil && len(values) < d.count {
				b.Note(v.field, ": only %d of %d hours were sent, the others are unknown", len(values), d.count)
			}
			b.Layer(v.field, unit, d.spans(v, values))
		}
	}
	s, ok := b.Series(p.now)
	switch {
	case s == nil:
		return nil, fault("", nil, "none of its temperatures can be read")
	case !ok:
		return nil, fault("", nil, "all its values are unknown, as they are for days that the service does not have")
	}
	s.Feed, s.Source, s.Attribution = Key, sourceName, attribution
	s.Point = d.point()
	if text := d.clockChange(); text != "" {
		s.Notes = append(s.Notes, forecast.Note{Text: text})
	}
	return s, nil
}

// spans gives each value its hour. A list longer than the times is cut to them.
func (d *document) spans(v *variable, values []forecast.Value) []assemble.Span {
	start := d.first
	if v.behind {
		start = start.Add(-time.Hour)
	}
	out := make([]assemble.Span, min(len(values), d.count))
	for i := range out {
		end := start.Add(time.Hour)
		out[i] = assemble.Span{Start: start, End: end, Value: values[i]}
		start = end
	}
	return out
}

// point gives the grid cell; its height is the one that temperatures are meant for.
func (d *document) point() forecast.Place {
	p := forecast.Place{Lat: d.Latitude, Lon: d.Longitude, Zone: d.zone()}
	if d.Elevation != nil {
		p.Elevation = assemble.Elevation(*d.Elevation)
	}
	return p
}

// zone gives the time zone that the document was asked for; nil for GMT, which every
// question of this program asks for and which says nothing of the place.
func (d *document) zone() *time.Location {
	switch d.Timezone {
	case "", "Local", "GMT", "UTC": // "Local" would be the machine's own
		return nil
	}
	zone, err := time.LoadLocation(d.Timezone)
	if err != nil {
		return nil
	}
	return zone
}

// clockChange says that a document of local times goes on through a change of the clocks.
// The service counts all hours from the offset that held when it was asked. [OpenMeteo]
func (d *document) clockChange() string {
	zone := d.zone()
	if zone == nil || !d.Hourly.local {
		return ""
	}
	last := d.first.Add(time.Duration(d.count-1) * time.Hour)
	for t := d.first; ; {
		_, end := t.In(zone).ZoneBounds()
		if end.IsZero() || end.After(last) {
			break
		}
		_, was := end.Add(-time.Second).In(zone).Zone()
		if _, is := end.In(zone).Zone(); is != was {
			return fmt.Sprintf("the clocks of %s change on %s, but the document counts all hours from one offset to UTC (%+.4g h): "+
				"they are read so; should it mean the time on the clock, hours on one side of the change are an hour off",
				zone, end.In(zone).Format("2 January 2006"), float64(*d.UTCOffset)/3600)
		}
		t = end
	}
	return ""
}
