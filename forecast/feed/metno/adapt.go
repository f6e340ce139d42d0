package metno

import (
	"fmt"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/assemble"
)

// The quantities of an instant, and those of the hours after it.
var (
	instants = [...]assemble.Field{assemble.Temp, assemble.DewPoint, assemble.RH, assemble.Wind, assemble.WindFrom, assemble.Gust, assemble.Sky}
	periods  = [...]assemble.Field{assemble.RainProb, assemble.Thunder, assemble.Rain}
)

const (
	sixHours = 6 * time.Hour

	// longestStep is the widest step between whose ends readings are worked out: the
	// service goes by one or six hours, a wider gap is a hole. [METno, status read]
	longestStep = sixHours
)

// series turns the wire form into a series.
func (d *document) series(now time.Time) (*forecast.Series, error) {
	meta := &d.Properties.Meta
	issued, err := parseTime(meta.UpdatedAt)
	if err != nil {
		return nil, fault("", err, "it does not say when it was issued: %v", err)
	}
	steps, bad := d.steps()
	var b assemble.Builder
	for _, f := range instants {
		code := meta.Units.of(f)
		spans := readings(steps, f, code)
		if f == assemble.DewPoint && spans == nil {
			continue // it follows from temperature and humidity, and that is said
		}
		b.Layer(f, code, spans)
	}
	for _, f := range periods {
		b.Layer(f, meta.Units.of(f), sums(steps, f))
	}
	s, ok := b.Series(now)
	switch {
	case s == nil:
		return nil, fault("", nil, "none of its temperatures can be read")
	case !ok:
		return nil, fault("", nil, "all its values are unknown")
	}
	s.Feed, s.Source, s.Attribution = Key, sourceName, attribution
	s.Issued, s.Point, s.DayMax = issued, d.point(), d.highest(steps)
	s.Notes = append(s.Notes, d.notes(steps, bad, len(s.DayMax) > 0)...)
	return s, nil
}

// point gives the place that was asked for; its height is the one that the
// temperatures are meant for. Its zone is not in the document.
func (d *document) point() forecast.Place {
	var p forecast.Place
	c := d.Geometry.Coordinates
	if len(c) >= 2 {
		p.Lon, p.Lat = c[0].Or(0), c[1].Or(0)
	}
	if len(c) >= 3 {
		if m, ok := c[2].Get(); ok {
			p.Elevation = assemble.Elevation(m)
		}
	}
	return p
}

// gap gives the time from a step to the next; an hour for the last.
func gap(steps []step, i int) time.Duration {
	if i+1 == len(steps) {
		return time.Hour
	}
	return steps[i+1].at.Sub(steps[i].at)
}

// wide tells whether hours between a step and the next have to be worked out.
func wide(steps []step, i int) bool {
	g := gap(steps, i)
	return g > time.Hour && g <= longestStep
}

// readings gives each reading of an instant its hour, and each hour between two
// readings of wider steps its share of both. No spans are given for a quantity that
// the document does not have.
func readings(steps []step, f assemble.Field, code string) []assemble.Span {
	conv, err := f.Converter(code)
	possible := func(v float64) bool { return err != nil || conv(v).IsKnown() }
	out, some := make([]assemble.Span, 0, 3*len(steps)), false
	for i := range steps {
		at, v := steps[i].at, steps[i].Data.Instant.Details.of(f)
		some = some || v.IsKnown()
		out = append(out, assemble.Span{Start: at, End: at.Add(time.Hour), Value: v})
		if !wide(steps, i) {
			continue
		}
		a, ok1 := v.Get()
		b, ok2 := steps[i+1].Data.Instant.Details.of(f).Get()
		if !ok1 || !ok2 || !possible(a) || !possible(b) { // nothing follows from a sentinel
			continue
		}
		width := gap(steps, i)
		for t := time.Hour; t < width; t += time.Hour {
			share := float64(t) / float64(width)
			out = append(out, assemble.Span{Start: at.Add(t), End: at.Add(t + time.Hour), Value: f.Between(a, b, share)})
		}
	}
	if !some {
		return nil
	}
	return out
}

// sums gives the values of periods: those of the next hour where there are any, and
// those of the next six where no shorter one, and no longer one before it, tells of
// the same hours.
func sums(steps []step, f assemble.Field) []assemble.Span {
	var out []assemble.Span
	var told time.Time
	for i, s := range steps {
		v, width := s.Data.NextHour.Details.of(f), time.Hour
		if !v.IsKnown() {
			v, width = s.Data.NextSix.Details.of(f), sixHours
			if !v.IsKnown() || s.at.Before(told) || hourly(steps[i+1:], f, s.at.Add(sixHours)) {
				continue
			}
		}
		told = s.at.Add(width)
		out = append(out, assemble.Span{Start: s.at, End: told, Value: v})
	}
	return out
}

// hourly tells whether any step before the time has a value of its next hour.
func hourly(steps []step, f assemble.Field, before time.Time) bool {
	for _, s := range steps {
		if !s.at.Before(before) {
			break
		}
		if s.Data.NextHour.Details.of(f).IsKnown() {
			return true
		}
	}
	return false
}

// highest gives the highest temperatures as issued of the hours between wider steps.
// Where the forecast goes by the hour its readings speak for themselves.
func (d *document) highest(steps []step) []forecast.Extreme {
	conv, err := assemble.Temp.Converter(d.Properties.Meta.Units.TempMax)
	if err != nil {
		return nil
	}
	var out []forecast.Extreme
	for i, s := range steps {
		v, ok := s.Data.NextSix.Details.TempMax.Get()
		if ok && wide(steps, i) && conv(v).IsKnown() {
			out = append(out, forecast.Extreme{Start: s.at, End: s.at.Add(sixHours), Temp: conv(v)})
		}
	}
	return out
}

// notes says what a grower has to know besides the layers.
func (d *document) notes(steps []step, bad int, maxima bool) []forecast.Note {
	var out []forecast.Note
	note := func(format string, args ...any) {
		out = append(out, forecast.Note{Text: fmt.Sprintf(format, args...)})
	}
	if bad > 0 {
		note("steps without a usable time, left out: %d", bad)
	}
	first, missing := -1, 0
	for i := range steps {
		switch {
		case wide(steps, i) && first < 0:
			first = i
		case gap(steps, i) > longestStep:
			missing++
		}
	}
	if missing > 0 {
		note("holes of more than 6 hours, left unknown: %d", missing)
	}
	if first >= 0 {
		but := ""
		if maxima {
			but = "; the days' highest temperatures are as issued"
		}
		note("from %s UTC on the forecast goes in steps of up to 6 hours: temperature, humidity, wind and cloud cover between two steps "+
			"are worked out in a straight line, which cuts off the coldest and the hottest hours%s", steps[first].at.Format("2 January 15:04"), but)
	}
	if d.Properties.Meta.Units.DewPoint == "" {
		note("this is the service's short document; the long one, called complete, also has gusts and chances of rain and thunder where there are any")
	}
	return out
}
