package app

import (
	"errors"
	"io/fs"
	"time"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/fixtures"
	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/all"
	"dawnbrush/forecast/feed/assemble"
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

// weather is what is known of the hours, and how it came.
type weather struct {
	series *forecast.Series
	past   *forecast.Series // of the series, what was measured; nil when nothing was
	next   *forecast.Series // and what is forecast
	credit string           // of remembered hours, "" for none
	second *feed.Answer     // another feed's forecast, to compare with; nil for none
	from   document.Provenance
	notes  []string
}

// weatherHere gets the hours from the demo or a saved document.
func (p *program) weatherHere(now time.Time) (*weather, error) {
	switch {
	case p.options.demo && p.options.from != "":
		return nil, usage("leave one of them out", "--demo and --from exclude each other")
	case p.options.demo:
		return demoWeather(now)
	}
	return p.savedWeather(now)
}

// weatherNow gets the hours where weatherAhead could not.
func (p *program) weatherNow(file *config.File, now time.Time, m *recall) (*weather, error) {
	if p.options.demo || p.options.from != "" {
		return p.weatherHere(now)
	}
	return p.liveWeather(file, now, m)
}

// weatherAhead begins to read saved or invented weather while the garden file is
// read, where neither the place nor its zone matters to it. The function it gives
// waits for the result, nil when a service has to be asked.
func (p *program) weatherAhead() func() (*weather, error) {
	if !p.options.demo && p.options.from == "" {
		return func() (*weather, error) { return nil, nil }
	}
	type result struct {
		w   *weather
		err error
	}
	read := func() (r result) {
		now, err := p.now(nil)
		if r.err = err; err == nil {
			r.w, r.err = p.weatherHere(now)
		}
		return r
	}
	wait := func() result { return result{} }
	_, err := time.Parse(time.RFC3339, p.options.at)
	if local := p.options.at != "" && err != nil; !local && p.options.from != "-" && !(p.options.demo && p.options.from != "") {
		wait = beside(read)
	}
	return func() (*weather, error) {
		r := wait()
		return r.w, r.err
	}
}

// beside runs f on the side. The function it gives waits for the result; a panic of
// f comes up there, where Main can recover it.
func beside[T any](f func() T) func() T {
	type result struct {
		value T
		fault any
	}
	done := make(chan result, 1)
	go func() {
		var r result
		defer func() {
			r.fault = recover()
			done <- r
		}()
		r.value = f()
	}()
	return func() T {
		r := <-done
		if r.fault != nil {
			panic(r.fault)
		}
		return r.value
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
	past.Attribution = "" // no service is credited with what was invented
	w := join(past, feed.Answer{Series: next, Fetched: now}, now)
	w.from.Source, w.from.Attribution = "an invented station", ""
	return w, nil
}

// savedWeather reads a saved document of any feed. Nothing is known of the days
// before it.
func (p *program) savedWeather(now time.Time) (*weather, error) {
	doc, err := p.readDocument(p.options.from, "the forecast")
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

// raised gives a saved document's weather at the garden's height.
func (w *weather) raised(place forecast.Place, now time.Time) *weather {
	next := assemble.AtElevation(w.next, place.Elevation)
	if next == w.next {
		return w
	}
	out := join(w.past, feed.Answer{Series: next, Fetched: w.from.Fetched}, now)
	out.from = w.from
	return out
}

// join puts what was measured before what is forecast.
func join(past *forecast.Series, next feed.Answer, now time.Time) *weather {
	w := &weather{series: forecast.Join(past, next.Series, now), past: past, next: next.Series}
	w.from = provenance(&next)
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
