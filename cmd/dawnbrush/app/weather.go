package app

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"time"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/fixtures"
	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/all"
	"dawnbrush/forecast/feed/fetch"
	"dawnbrush/forecast/feed/nws"
)

const (
	// pastDays is how far back observed hours are asked for: what the heat on
	// buds and the fruit set of tomatoes look back on, with some to spare.
	pastDays = 21 // [chosen: the model looks back two weeks]

	// staleAfter is the age from which a forecast is called old: services renew
	// theirs at least twice a day.
	staleAfter = 12 * time.Hour // [chosen: twice a day, the National Weather Service's custom, memory]
)

// mostFetching bounds the time a run spends on the network.
const mostFetching = 5 * time.Minute // [chosen: each document has its own limit of 2 min]

// weather is what is known of the hours, and how it came.
type weather struct {
	series *forecast.Series
	past   *forecast.Series // of the series, what was measured; nil when nothing was
	next   *forecast.Series // and what is forecast
	from   document.Provenance
	notes  []string
}

// weatherFor gets the hours of a place from the demo, a saved document or the
// service.
func (p *program) weatherFor(key string, place forecast.Place, contact string, now time.Time) (*weather, error) {
	switch {
	case p.options.demo && p.options.from != "":
		return nil, usage("leave one of them out", "--demo and --from exclude each other")
	case p.options.demo:
		return demoWeather(now)
	case p.options.from != "":
		return p.savedWeather(now)
	}
	return p.liveWeather(key, place, contact, now)
}

// weatherAhead begins to read saved or invented weather while the garden file is
// read, where neither the place nor its zone matters to it. The function it gives
// waits for the result, nil when there was nothing to begin with.
func (p *program) weatherAhead() func() (*weather, error) {
	saved := p.options.demo != (p.options.from != "")
	_, err := time.Parse(time.RFC3339, p.options.at)
	if local := p.options.at != "" && err != nil; !saved || local || p.options.from == "-" {
		return func() (*weather, error) { return nil, nil }
	}
	type result struct {
		w     *weather
		err   error
		fault any // of a panic, told where Main can recover it
	}
	done := make(chan result, 1)
	go func() {
		var r result
		defer func() {
			r.fault = recover()
			done <- r
		}()
		now, err := p.now(nil)
		if r.err = err; err == nil {
			r.w, r.err = p.weatherFor("", forecast.Place{}, "", now)
		}
	}()
	return func() (*weather, error) {
		r := <-done
		if r.fault != nil {
			panic(r.fault)
		}
		return r.w, r.err
	}
}

// demoWeather reads the invented documents.
func demoWeather(now time.Time) (*weather, error) {
	doc, err := fs.ReadFile(fixtures.Demo, fixtures.ForecastFile)
	if err != nil {
		return nil, err
	}
	next, err := nws.Reader{}.Parse(doc, now)
	if err != nil {
		return nil, err
	}
	doc, err = fs.ReadFile(fixtures.Demo, fixtures.ObservationsFile)
	if err != nil {
		return nil, err
	}
	past, err := nws.ParseObservations(doc)
	if err != nil {
		return nil, err
	}
	w := join(past, feed.Answer{Series: next, Fetched: now}, now)
	w.from.Source, w.from.Attribution = "an invented station", ""
	return w, nil
}

// savedWeather reads a saved document of any feed. Nothing is known of the days
// before it.
func (p *program) savedWeather(now time.Time) (*weather, error) {
	doc, err := p.readDocument(p.options.from)
	if err != nil {
		return nil, err
	}
	reader, err := feed.Detect(doc, all.Readers())
	if err != nil {
		return nil, err
	}
	next, err := reader.Parse(doc, now)
	if err != nil {
		return nil, err
	}
	w := join(nil, feed.Answer{Series: next}, now)
	if w.from.Stale {
		w.from.Why = "it was read from a saved document"
	}
	return w, nil
}

// liveWeather asks the service for the coming days and for the days before; the
// latter only lower what is known when they fail.
func (p *program) liveWeather(key string, place forecast.Place, contact string, now time.Time) (*weather, error) {
	reader, ok := p.reader(key)
	if !ok {
		return nil, usage("the feeds are "+fmt.Sprint(feeds()), "there is no feed %q", key)
	}
	client := &fetch.Client{Product: name, Version: version(), Contact: contact, Dir: p.cacheDir(), Now: func() time.Time { return now }}
	if p.options.at == "" {
		client.Now = p.env.Now
	}
	ctx, cancel := context.WithTimeout(p.ctx, mostFetching)
	defer cancel()
	request := feed.Request{Place: place, Now: now}
	answer, err := reader.Forecast(ctx, client, request)
	if err != nil {
		return nil, noForecast(err)
	}
	past, err := reader.Past(ctx, client, request, now.AddDate(0, 0, -pastDays))
	if p.ctx.Err() != nil {
		return nil, p.ctx.Err()
	}
	w := join(past, answer, now)
	if err != nil {
		w.notes = append(w.notes, fmt.Sprintf("measured hours of the days before could not be had: %v", err))
	}
	return w, nil
}

// reader gives the reader of a feed, asking another address where a test or a
// mirror names one.
func (p *program) reader(key string) (feed.Reader, bool) {
	if key == nws.Key {
		return nws.Reader{Base: p.env.Getenv("DAWNBRUSH_NWS_URL")}, true
	}
	return all.ByKey(key)
}

// noForecast keeps the errors that ask for another place or contact, and makes
// all others "no forecast to be had".
func noForecast(err error) error {
	var outside *feed.OutsideError
	var contact *fetch.ContactError
	f := explain(err)
	switch {
	case errors.As(err, &outside):
		f.code = exitGarden
	case errors.As(err, &contact):
		f.code, f.hint = exitGarden, `write contact = "you@example.org" at the top of the garden file; it is sent to the weather service and to nobody else`
	case f.code == exitFailed:
		f.code = exitNoForecast
	}
	return f
}

// join puts what was measured before what is forecast.
func join(past *forecast.Series, next feed.Answer, now time.Time) *weather {
	w := &weather{series: forecast.Join(past, next.Series, now), past: past, next: next.Series}
	s := next.Series
	w.from = document.Provenance{Feed: s.Feed, Source: s.Source, Attribution: s.Attribution, Issued: s.Issued, Fetched: next.Fetched}
	age, known := w.from.Age(now)
	w.from.Stale = next.Stored || known && age > staleAfter
	if next.Why != nil {
		w.from.Why = next.Why.Error()
	}
	for _, n := range w.series.Notes {
		w.notes = append(w.notes, n.Text)
	}
	return w
}
