package app

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/all"
	"dawnbrush/forecast/feed/assemble"
	"dawnbrush/forecast/feed/fetch"
)

// mostFetching bounds the time a run spends on the network.
const mostFetching = 5 * time.Minute // [chosen: each document has its own limit of 2 min]

// reader gives the reader of a feed, asking another address where a test or a
// mirror names one.
func (p *program) reader(r feed.Reader) feed.Reader {
	if base := p.env.Getenv(addressVariable(r.Info().Key)); base != "" {
		return r.At(base)
	}
	return r
}

// addressVariable names the variable that holds another address of a feed.
func addressVariable(key string) string { return "DAWNBRUSH_" + strings.ToUpper(key) + "_URL" }

// chosen lists the feeds that a garden asks, the first before the second.
func (p *program) chosen(file *config.File) []feed.Reader {
	serving := all.Serving(file.Garden.Place)
	named := func(key string, not string) feed.Reader {
		if key != config.Auto {
			r, _ := all.ByKey(key) // the garden file was checked; None gives nil
			return r
		}
		for _, r := range serving {
			if r.Info().Key != not {
				return r
			}
		}
		return nil
	}
	var out []feed.Reader
	not := ""
	for _, key := range []string{file.Feed, file.Second} {
		if r := named(key, not); r != nil {
			out, not = append(out, p.reader(r)), r.Info().Key
		}
	}
	return out
}

// client fetches documents for a garden.
func (p *program) client(contact string, now time.Time) *fetch.Client {
	c := &fetch.Client{Product: name, Version: version(), Contact: contact, Dir: p.cacheDir(), Now: func() time.Time { return now }}
	if p.options.at == "" {
		c.Now = p.env.Now
	}
	return c
}

// answered is what came of asking a feed.
type answered struct {
	reader feed.Reader
	feed.Answer
	err error
}

func (a *answered) fresh() bool { return a.err == nil && !a.Stored }

// secondGrace is how long a plan waits for the second feed once the first has a fresh
// forecast. [chosen: an answer takes a second or two; a plan before dawn can wait ten]
const secondGrace = 10 * time.Second

// askAll asks all feeds at the same time. Those after the first are given up when they
// keep the plan waiting.
func askAll(ctx context.Context, client *fetch.Client, readers []feed.Reader, request feed.Request) []answered {
	others, giveUp := context.WithCancel(ctx)
	defer giveUp()
	var waits []func() answered
	for i, r := range readers {
		asking := ctx
		if i > 0 {
			asking = others
		}
		waits = append(waits, beside(func() answered {
			a, err := r.Forecast(asking, client, request)
			if others.Err() != nil && ctx.Err() == nil && errors.Is(err, context.Canceled) {
				err = &feed.UnavailableError{Service: r.Info().Name, Reason: "no answer in time", Err: err}
			}
			return answered{r, a, err}
		}))
	}
	var out []answered
	for i, wait := range waits {
		out = append(out, wait())
		if i == 0 && out[0].fresh() {
			late := time.AfterFunc(secondGrace, giveUp)
			defer late.Stop()
		}
	}
	return out
}

// best gives the answer to plan from: the first fresh one, else the youngest stored
// one; nil when there is none.
func best(answers []answered) *answered {
	var out *answered
	for i := range answers {
		a := &answers[i]
		switch {
		case a.fresh():
			return a
		case a.err == nil && (out == nil || a.Fetched.After(out.Fetched)):
			out = a
		}
	}
	return out
}

// liveWeather asks the feeds for the coming days, and the one that is planned from
// for the days before; these only lower what is known when they fail. When no feed
// has a forecast, the last one in the garden's memory stands in.
func (p *program) liveWeather(file *config.File, now time.Time, m *recall) (*weather, error) {
	g := &file.Garden
	client := p.client(g.Contact, now)
	ctx, cancel := context.WithTimeout(p.ctx, mostFetching)
	defer cancel()
	request := feed.Request{Place: g.Place, Now: now}
	readers := p.chosen(file)
	if len(readers) == 0 {
		return nil, &failure{code: exitGarden, message: "no weather feed serves this place for everybody", hint: "`dawnbrush feeds` lists them; name one with feed = in the garden file"}
	}
	answers := askAll(ctx, client, readers, request)
	if p.ctx.Err() != nil {
		return nil, p.ctx.Err()
	}
	if err := gardenFault(file, answers); err != nil {
		return nil, err
	}
	main := best(answers)
	if main == nil {
		return m.lastForecast(answers)
	}
	past, pastErr := pastOf(ctx, client, answers, main, request, now.AddDate(0, 0, -pastDays))
	if p.ctx.Err() != nil {
		return nil, p.ctx.Err()
	}
	main.Series = assemble.AtElevation(main.Series, g.Place.Elevation)
	if past != nil {
		past = assemble.AtElevation(past, g.Place.Elevation)
	}
	w := join(past, main.Answer, now)
	if pastErr != nil {
		w.notes = append(w.notes, fmt.Sprintf("measured hours of the days before could not be had: %v", pastErr))
	}
	for i := range answers {
		a := &answers[i]
		switch {
		case a == main:
		case a.fresh() && main.fresh():
			a.Series = assemble.AtElevation(a.Series, g.Place.Elevation)
			w.second = &a.Answer
		case outside(a.err) && file.Feed == config.Auto: // it was only thought to serve the place
		case i == 0:
			w.from.Instead = a.reader.Info().Name
			w.notes = append([]string{why(a).Error()}, w.notes...)
		default:
			w.notes = append(w.notes, fmt.Sprintf("there is no second forecast to compare with: %v", why(a)))
		}
	}
	return w, nil
}

// why gives the reason for which a feed has no fresh answer.
func why(a *answered) error {
	if a.err != nil {
		return a.err
	}
	return feed.Unavailable(a.reader.Info().Name, a.Why)
}

func outside(err error) bool {
	var o *feed.OutsideError
	return errors.As(err, &o)
}

// gardenFault finds what only the garden file can mend: no contact, or a named feed
// that does not serve the place.
func gardenFault(file *config.File, answers []answered) error {
	for i := range answers {
		var contact *fetch.ContactError
		named := i == 0 && file.Feed != config.Auto || i > 0 && file.Second != config.Auto
		if errors.As(answers[i].err, &contact) || named && outside(answers[i].err) {
			return noForecast(answers[i].err)
		}
	}
	return nil
}

// pastOf asks for the hours before now, first the feed that is planned from.
func pastOf(ctx context.Context, client *fetch.Client, answers []answered, main *answered, request feed.Request, since time.Time) (*forecast.Series, error) {
	order := []*answered{main}
	for i := range answers {
		if &answers[i] != main {
			order = append(order, &answers[i])
		}
	}
	var first error
	for _, a := range order {
		if a.reader.Info().Past == "" || outside(a.err) {
			continue
		}
		past, err := a.reader.Past(ctx, client, request, since)
		if err == nil {
			return past, nil
		}
		if first == nil {
			first = err
		}
	}
	return nil, first
}

// lastForecast gives the last forecast that the memory holds, up to the age at which
// a stored one may stand in.
func (m *recall) lastForecast(answers []answered) (*weather, error) {
	err := noneOf(answers)
	if m == nil || m.failed {
		return nil, err
	}
	s, kept, found := m.store.LatestForecast(m.p.ctx, m.now)
	if found != nil {
		if lowered := m.lower(found, "planned without the garden's memory"); lowered != nil {
			return nil, lowered
		}
		return nil, err
	}
	if s == nil || m.now.Sub(kept) > feed.MaxStored {
		return nil, err
	}
	w := join(nil, feed.Answer{Series: s, Fetched: kept, Stored: true, Why: err}, m.now)
	w.notes = append(w.notes, "the forecast comes from the garden's memory")
	return w, nil
}

// noneOf says why no feed had a forecast.
func noneOf(answers []answered) error {
	first := noForecast(answers[0].err)
	if len(answers) < 2 {
		return first
	}
	f := explain(first)
	for i := range answers[1:] {
		f.also = append(f.also, explain(answers[1+i].err).message)
	}
	f.code = exitNoForecast
	return f
}

// provenance says where an answer comes from.
func provenance(a *feed.Answer) document.Provenance {
	return document.Provenance{Feed: a.Feed, Source: a.Source, Attribution: a.Attribution, Issued: a.Issued, Fetched: a.Fetched}
}
