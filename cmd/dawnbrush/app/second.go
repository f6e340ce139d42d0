package app

import (
	"time"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// comparedDays are those whose work hangs on the forecast now: today and tomorrow.
const comparedDays = 2

// compare plans today and tomorrow by the second forecast too and tells where the
// two part; nil where there is none.
func (p *program) compare(m *recall, g *risk.Garden, w *weather, first forecast.Date, now time.Time) *document.Second {
	if w.second == nil {
		return nil
	}
	there := store.Join(behind(w.series, now), w.second.Series, now)
	account, err := p.water(m, g, there, now)
	if err != nil { // the plan's own account told of it
		account = nil
	}
	assessment := m.assess(g, there, account, first, 0, comparedDays)
	return &document.Second{
		Forecast:    provenance(w.second),
		Differences: forecast.Differ(w.series, there, stretches(assessment, now)),
		Plans:       risk.Plan(assessment, first, comparedDays, risk.PlanOptions{Now: now, Asked: w.second.Fetched}),
	}
}

// behind gives the hours of a series that are over.
func behind(s *forecast.Series, now time.Time) *forecast.Series {
	out := *s
	_, hi := s.Slice(s.Start(), now.UTC().Truncate(time.Hour))
	out.Hours = s.Hours[:hi]
	return &out
}

// noonHour parts the day for comparing. [chosen: most crops' flowers shut by noon]
const noonHour = 12

// stretches lists the hours still ahead for which forecasts are compared: the
// mornings from sunrise to noon, the afternoons to sunset, the night between.
func stretches(a *risk.Assessment, now time.Time) []forecast.Stretch {
	var out []forecast.Stretch
	add := func(from, to time.Time) {
		if from.Before(now) {
			from = now.Truncate(time.Hour)
		}
		if !from.IsZero() && to.Sub(from) >= time.Hour {
			out = append(out, forecast.Stretch{Start: from, End: to})
		}
	}
	for i := range a.Days[:min(len(a.Days), comparedDays)] {
		d := &a.Days[i]
		if d.Sunrise.IsZero() || d.Sunset.IsZero() {
			continue
		}
		noon := d.Date.At(noonHour, a.Garden.Place.Zone)
		rise, set := d.Sunrise.Truncate(time.Hour), d.Sunset.Truncate(time.Hour)
		add(rise, noon)
		add(noon, set)
		if i == 0 && len(a.Days) > 1 && !a.Days[1].Sunrise.IsZero() {
			add(set, a.Days[1].Sunrise.Truncate(time.Hour))
		}
	}
	return out
}

// credits gives the credit lines of the hours before.
func (w *weather) credits() []string {
	out := []string{w.credit}
	if w.past != nil {
		out = append(out, w.past.Attribution)
	}
	return out
}
