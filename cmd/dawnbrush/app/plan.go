package app

import (
	"bytes"
	"fmt"
	"sync"
	"time"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report"
	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

const (
	// backDays is how many days before the plan are assessed, so that flowers
	// tagged then are looked at now. [chosen: fruit of most crops shows within ten days]
	backDays = 10

	// mostDays is the longest plan; forecasts reach no further.
	mostDays = 10 // [chosen]
)

// document plans n days, the first being the one of the time asked for.
func (p *program) document(n int) (d *report.Document, err error) {
	ahead := p.weatherAhead()
	path, text, err := p.gardenFile()
	if err != nil {
		return nil, err
	}
	glance := config.Look(text)
	p.fetchCrops(glance.Crops)
	memory := sync.OnceValue(p.memoryAhead(glance.Name))
	defer func() { memory().close() }()
	file, _, err := p.parseGarden(path, text)
	if err != nil {
		return nil, err
	}
	p.file = file
	g := &file.Garden
	now, err := p.now(g.Place.Zone)
	if err != nil {
		return nil, err
	}
	units, err := p.units(g)
	if err != nil {
		return nil, err
	}
	lacking := p.readLoggers(path, g, now)
	m, err := p.recall(g, now, memory())
	if err != nil {
		return nil, err
	}
	p.recalled = m
	defer func() {
		if err != nil {
			_ = m.settle() // the error to tell is known
		}
	}()
	w, err := ahead()
	if w == nil && err == nil {
		w, err = p.weatherNow(file, now, m)
	}
	if err != nil {
		return nil, err
	}
	if p.options.from != "" {
		if err := w.elsewhere(g.Place); err != nil {
			return nil, err
		}
		w = w.raised(g.Place, now)
	}
	if err := m.archive(w); err != nil {
		return nil, err
	}
	first := forecast.DateOf(now, g.Place.Zone)
	account, err := p.water(m, g, w.series, now)
	if err != nil {
		return nil, err
	}
	assessment := m.assess(g, w.series, account, first, backDays, n)
	plans := risk.Plan(assessment, first, n, risk.PlanOptions{Now: now, Asked: w.from.Fetched})
	if len(plans) == 0 || plans[0].Date != first {
		return nil, outOfReach(words.New(units, g.Place.Zone), w.series, first)
	}
	second := p.compare(m, g, w, first, now)
	p.tellLoggers(lacking)
	notes, needed := loggerNotes(words.New(units, g.Place.Zone), assessment, plans, lacking, now)
	notes = append(append(w.misfits(g.Place, now), notes...), append(m.lostLetters(), p.unremembered...)...)
	return &report.Document{Second: second, Measured: w.credits(), Garden: assessment.Garden, Assessment: assessment, Plans: plans, Water: account, Now: now, Forecast: w.from, Notes: notes, Unlogged: needed, Units: units,
		Demo: p.options.demo, Width: p.env.width(), Colour: p.env.colour(p.env.Out, p.options.noColor), Crops: p.crops(), Constants: constants()}, nil
}

// farPoint is the distance from which the point of a forecast is no longer the
// garden's. [chosen: ten cells of the finest grids, the next town's weather]
const farPoint = 25.0 // km

// otherPlace is the distance from which a forecast is another region's and says nothing
// of the garden. [chosen: farther than weather of one kind reaches on most days]
const otherPlace = 300.0 // km

// elsewhere refuses a saved forecast of another region.
func (w *weather) elsewhere(place forecast.Place) error {
	at := w.series.Point
	km := at.DistanceKm(place)
	if at == (forecast.Place{}) || km <= otherPlace {
		return nil
	}
	return &failure{code: exitNoForecast, message: fmt.Sprintf("the forecast is for a place %.0f km from the garden, at lat %.2f, lon %.2f", km, at.Lat, at.Lon),
		hint: "give one for the garden's place, or mend lat and lon in the garden file if that is where the garden lies"}
}

// misfits are the notes on the weather and, beside them, where it is not this
// garden's: from another place, or made after the time asked for.
func (w *weather) misfits(place forecast.Place, now time.Time) []string {
	notes := w.notes
	if km := w.series.Point.DistanceKm(place); w.series.Point != (forecast.Place{}) && km > farPoint {
		notes = append(notes, fmt.Sprintf("the forecast is for a point %.0f km from the garden", km))
	}
	if w.series.Issued.After(now) {
		notes = append(notes, "the forecast was issued after the time asked for")
	}
	return notes
}

// outOfReach says that the forecast does not hold the day.
func outOfReach(w words.Words, s *forecast.Series, day forecast.Date) error {
	f := &failure{code: exitNoForecast, message: "the forecast holds no hour of " + w.Day(day)}
	if len(s.Hours) > 0 {
		f.message = fmt.Sprintf("the forecast runs from %s to %s and holds no hour of %s", w.Moment(s.Start()), w.Moment(s.End()), w.Day(day))
		f.hint = "ask for a day within it, for example --at " + forecast.DateOf(s.Start().Add(12*time.Hour), time.UTC).String()
	}
	return f
}

// show prints a report. It is written while the disk takes what is to be kept; where
// that fails the plan says so, so it is written anew.
func (p *program) show(reportName string, d *report.Document) error {
	r, ok := report.Named(reportName)
	if !ok {
		panic("no report " + reportName)
	}
	write := r.Text
	if p.options.json {
		write = r.JSON
	}
	var text bytes.Buffer
	if err := write(&text, d); err != nil {
		return err
	}
	lowered := len(p.unremembered)
	if err := p.recalled.settle(); err != nil {
		return err
	}
	if added := p.unremembered[lowered:]; len(added) > 0 {
		d.Notes = append(d.Notes, added...)
		text.Reset()
		if err := write(&text, d); err != nil {
			return err
		}
	}
	_, err := p.out.Write(text.Bytes())
	return err
}

// verdict gives the exit code of a plan: incomplete comes before work.
func (p *program) verdict(d *document.Document, signal bool) error {
	switch {
	case !d.Complete(), len(p.unremembered) > 0:
		return codeOnly(exitIncomplete)
	case signal && d.Work():
		return codeOnly(exitWork)
	}
	return nil
}
