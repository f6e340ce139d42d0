package brightsky

import (
	"context"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

const (
	// pastDays and futureDays are whole UTC days around today: the last night has to be
	// there, and a week has to be full in every zone.
	pastDays, futureDays = 1, 8 // [chosen: the least that does so]

	// reach is how far ahead the forecasts look when they are issued, the same at all points.
	reach = 240 * time.Hour // [DWD, status quoted]

	// renewed is how long an answer is used without asking again: forecasts and reports are
	// renewed every hour, and the service names no time.
	renewed = time.Hour // [BrightSky]

	day       = 24 * time.Hour
	mediaType = "application/json"
)

// Forecast asks for yesterday's and today's measured hours and the coming week and a day. See
// feed.Reader.
func (r Reader) Forecast(ctx context.Context, g feed.Getter, req feed.Request) (feed.Answer, error) {
	if !r.Covers(req.Place) {
		return feed.Answer{}, outside(req.Place)
	}
	explain := func(err error) error { return unavailable(req.Place, err) }
	ask := feed.Asking{Service: service, Getter: g, Now: req.Now, Explain: explain, Read: func(body []byte) (*forecast.Series, error) {
		d, err := decodeDocument(body)
		if err != nil {
			return nil, err
		}
		if err := d.timely(req.Now); err != nil {
			return nil, err
		}
		return d.series(d.mainSource(!d.forecasts()), req.Now)
	}}
	today := req.Now.UTC().Truncate(day)
	a, err := ask.Get(ctx, r.request(req.Place, today.AddDate(0, 0, -pastDays), today.AddDate(0, 0, futureDays+1)))
	if err != nil {
		return feed.Answer{}, explain(err)
	}
	return a, nil
}

// request asks for the records from the first midnight to the last, both in it.
func (r Reader) request(p forecast.Place, first, last time.Time) fetch.Request {
	base := r.Base
	if base == "" {
		base = DefaultBase
	}
	// All is named: the defaults may change.
	return fetch.Request{Accept: mediaType, MinFresh: renewed, URL: strings.TrimSuffix(base, "/") + "/weather?" + strings.Join([]string{
		"lat=" + feed.Coordinate(p.Lat), "lon=" + feed.Coordinate(p.Lon),
		"date=" + first.Format(time.DateOnly), "last_date=" + last.Format(time.DateOnly), "max_dist=50000", "tz=Etc/UTC", "units=dwd"}, "&")}
}

// timely judges the age of an answer, which does not tell it. The latest forecast lies as far
// from its issue as all forecasts reach; and an answer begins on the day before it was asked
// for.
func (d *document) timely(now time.Time) error {
	var last time.Time
	for i := range d.Sources {
		if t, err := time.Parse(time.RFC3339, d.Sources[i].Last); err == nil && d.Sources[i].Kind == kindForecast && t.After(last) {
			last = t
		}
	}
	issued := d.Weather.records[0].at.Truncate(day).AddDate(0, 0, pastDays+1) // the end of the day it was asked for
	if !last.IsZero() && last.Add(-reach).Before(issued) {
		issued = last.Add(-reach)
	}
	if age := now.Sub(issued); age >= feed.MaxIssueAge {
		return fetch.Permanent(&feed.StaleError{Service: service, Issued: issued.UTC(), Age: age})
	}
	return nil
}
