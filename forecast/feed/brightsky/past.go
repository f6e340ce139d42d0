package brightsky

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/assemble"
)

// pageDays is how many days are asked for at once.
const pageDays = 30 // [chosen: some 0.4 MB]

// earliest is the first day of the service's hours. [BrightSky]
var earliest = time.Date(2010, 1, 1, 0, 0, 0, 0, time.UTC)

// Past asks for the hours from since to req.Now as stations measured them. Hours without a
// measurement are as they were forecast, where the service still has that, and tell so by
// their origin. When a part cannot be had the newer hours are given, with a note. See
// feed.Reader.
func (r Reader) Past(ctx context.Context, g feed.Getter, req feed.Request, since time.Time) (*forecast.Series, error) {
	if !since.Before(req.Now) {
		return &forecast.Series{}, nil
	}
	if !r.Covers(req.Place) {
		return nil, outside(req.Place)
	}
	if since.Before(earliest) {
		since = earliest
	}
	d, missing, fail := r.pages(ctx, g, req, since)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	d.between(since.Truncate(time.Hour), req.Now.Truncate(time.Hour))
	station := d.mainSource(true)
	if station == nil && fail != nil {
		return nil, fail
	}
	if station == nil {
		return nil, noStation(nil)
	}
	s, err := d.series(station, time.Time{})
	if err != nil {
		return nil, noStation(err)
	}
	assemble.Past(s, since, req.Now)
	if n := forecastHours(s); n > 0 {
		s.Notes = append(s.Notes, forecast.Note{Text: fmt.Sprintf("past hours without a whole measurement, with what was forecast: %d", n)})
	}
	if fail != nil {
		s.Notes = append(s.Notes, forecast.Note{Text: fmt.Sprintf("the hours before %s could not be had: %v", missing.Format("2 January 2006"), fail)})
	}
	return s, nil
}

func forecastHours(s *forecast.Series) (n int) {
	for i := range s.Hours {
		if s.Hours[i].Origin == forecast.OriginForecast {
			n++
		}
	}
	return n
}

func noStation(cause error) error {
	return &feed.UnavailableError{Service: service, Reason: "no station within 50 km measured anything in this time", Err: cause,
		Remedy: "measured hours can also come from a logger or a rain gauge of your own"}
}

// pages asks for the past a month at a time, the newest first, and puts the records together.
// It stops at the first failure and tells which hours are missing then: those before an
// instant.
func (r Reader) pages(ctx context.Context, g feed.Getter, req feed.Request, since time.Time) (all *document, missing time.Time, fail error) {
	all = &document{}
	first := since.UTC().Truncate(day)
	for end := req.Now.UTC().Truncate(day).AddDate(0, 0, 1); end.After(first); {
		start := end.AddDate(0, 0, -pageDays)
		if start.Before(first) {
			start = first
		}
		d, err := r.page(ctx, g, req.Place, start, end)
		if err != nil {
			return all, end, err
		}
		all.add(d)
		end = start
	}
	return all, missing, nil
}

// page asks for some days; a document without records when the service has nothing of them.
func (r Reader) page(ctx context.Context, g feed.Getter, p forecast.Place, start, end time.Time) (*document, error) {
	d := &document{}
	read := func(body []byte) error {
		got, err := decodeDocument(body)
		switch {
		case err == nil:
			d = got
		case errors.Is(err, errNoHours):
			d = &document{}
		default:
			return err
		}
		return nil
	}
	q := r.request(p, start, end)
	q.Validate, q.MaxStored = read, feed.MaxStored
	resp, err := g.Get(ctx, q)
	if nothingThere(err) {
		return &document{}, nil
	}
	if err == nil {
		err = read(resp.Body)
	}
	if err != nil {
		return nil, unavailable(p, err)
	}
	return d, nil
}

// add takes over the records and sources of an earlier page.
func (d *document) add(earlier *document) {
	d.Weather.records = append(d.Weather.records, earlier.Weather.records...)
	for i := range earlier.Sources {
		if d.source(earlier.Sources[i].ID) == nil {
			d.Sources = append(d.Sources, earlier.Sources[i])
		}
	}
	d.left += earlier.left
	d.order()
}

// between drops records outside a time, both ends in it: the last one tells of the hour
// before.
func (d *document) between(from, to time.Time) {
	d.Weather.records = slices.DeleteFunc(d.Weather.records, func(r record) bool { return r.at.Before(from) || r.at.After(to) })
}
