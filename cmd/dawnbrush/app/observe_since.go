package app

import (
	"context"
	"fmt"
	"time"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/all"
	"dawnbrush/forecast/feed/assemble"
	"dawnbrush/risk"
)

// mostSince bounds how far back past hours are asked for. [chosen: last season's sowing]
const mostSince = 500 // days

// observeSince takes in a feed's past hours from a day on.
func (p *program) observeSince(since, key string) error {
	file, _, err := p.readGarden()
	if err != nil {
		return err
	}
	g := &file.Garden
	now, err := p.now(g.Place.Zone)
	if err != nil {
		return err
	}
	first, err := forecast.ParseDate(since)
	today := forecast.DateOf(now, g.Place.Zone)
	switch {
	case err != nil:
		return usage("write it as 2026-05-01", "--since %s is not a date", since)
	case !first.Before(today):
		return usage("give a day before today", "--since %s has not passed", since)
	case first.Before(today.AddDays(-mostSince)):
		return usage(fmt.Sprintf("give %s or later", today.AddDays(-mostSince)), "--since %s is more than %d days ago", since, mostSince)
	}
	reader, err := p.pastReader(file, key)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(p.ctx, mostFetching)
	defer cancel()
	past, err := reader.Past(ctx, p.client(g.Contact, now), feed.Request{Place: g.Place, Now: now}, first.Start(g.Place.Zone))
	switch {
	case p.ctx.Err() != nil:
		return p.ctx.Err()
	case err != nil:
		return noForecast(err)
	}
	past = assemble.AtElevation(past, g.Place.Elevation)
	s, err := p.openMemory(g)
	if err != nil {
		return err
	}
	defer s.Close()
	added, amended, err := keepPast(p.ctx, s, past)
	if err != nil {
		return err
	}
	return p.printSince(g, past, first, added, amended)
}

// pastReader chooses the feed to ask for past hours.
func (p *program) pastReader(file *config.File, key string) (feed.Reader, error) {
	if key == "" {
		for _, r := range p.chosen(file) {
			if r.Info().Past != "" {
				return r, nil
			}
		}
		return nil, usage("name one that has: `dawnbrush feeds` lists them", "none of this garden's feeds has past hours")
	}
	r, ok := all.ByKey(key)
	switch {
	case !ok:
		return nil, usage("`dawnbrush feeds` lists them", "there is no feed %q", key)
	case r.Info().Past == "":
		return nil, usage("`dawnbrush feeds` tells which have", "%s has no past hours", key)
	case r.Info().NonCommercial && file.Sells == config.Yes:
		return nil, usage("`dawnbrush feeds` lists others", "%s is free for those alone who do not sell, and this garden sells", key)
	}
	return p.reader(r), nil
}

// keepPast keeps past hours by what they are: measured, or worked out afterwards.
func keepPast(ctx context.Context, s *store.Store, past *forecast.Series) (added, amended int, err error) {
	for _, o := range []store.Origin{store.Station, store.Reanalysis} {
		a, b, err := s.KeepObserved(ctx, past, o)
		added, amended = added+a, amended+b
		if err != nil {
			return added, amended, err
		}
	}
	return added, amended, nil
}

// printSince tells what came, and from when on.
func (p *program) printSince(g *risk.Garden, past *forecast.Series, asked forecast.Date, added, amended int) error {
	var from, until time.Time
	for _, h := range past.Hours {
		if h.Origin != forecast.OriginNone && h.Origin != forecast.OriginForecast {
			if from.IsZero() {
				from = h.Start
			}
			until = h.Start.Add(time.Hour)
		}
	}
	if p.options.json {
		at := func(t time.Time) *time.Time {
			if t.IsZero() {
				return nil
			}
			t = t.In(g.Place.Zone)
			return &t
		}
		return p.writeJSON(map[string]any{"schema": jsonout.Schema, "report": "observe", "feed": past.Feed, "source": past.Source, "attribution": past.Attribution,
			"hours_added": added, "hours_amended": amended, "from": at(from), "until": at(until)})
	}
	w := words.New(g.Units, g.Place.Zone)
	line := "no past hours came from " + past.Source
	if !from.IsZero() {
		line = fmt.Sprintf("%s, from %s to %s: %s new, %d amended", past.Source, w.Moment(from), w.Moment(until), words.Count(added, "hour", "hours"), amended)
		if forecast.DateOf(from, g.Place.Zone).After(asked) {
			line += "; nothing came of the days before"
		}
	}
	for _, n := range past.Notes {
		line += "\n" + n.Text
	}
	if past.Attribution != "" {
		line += "\n" + past.Attribution
	}
	_, err := fmt.Fprintln(p.out, line)
	return err
}
