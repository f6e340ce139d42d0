package openmeteo

import (
	"context"
	"fmt"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

const (
	// pastDays and futureDays are whole UTC days around today: yesterday's end is this
	// morning in the west, and a week has to be full in every zone.
	pastDays, futureDays = 1, 8 // [chosen: the least that does so]

	// renewed is how long an answer is used without asking again: the service names no
	// time, and its models are renewed every one to six hours. [OpenMeteo]
	renewed = time.Hour

	day = 24 * time.Hour
)

// Forecast asks for the coming week and a day. See feed.Reader.
func (r Reader) Forecast(ctx context.Context, g feed.Getter, req feed.Request) (feed.Answer, error) {
	if !r.Covers(req.Place) {
		return feed.Answer{}, feed.NotOnEarth(service, req.Place)
	}
	explain := func(err error) error { return unavailable(req.Place, err) }
	ask := feed.Asking{Service: service, Getter: g, Now: req.Now, Explain: explain, Read: func(body []byte) (*forecast.Series, error) {
		d, err := decodeDocument(body)
		if err == nil {
			err = d.timely(req.Now)
		}
		if err != nil {
			return nil, err
		}
		return d.forecast(req.Now)
	}}
	a, err := ask.Get(ctx, fetch.Request{URL: r.forecastAddress(req.Place, pastDays, futureDays), Accept: mediaType, MinFresh: renewed})
	if err != nil {
		return feed.Answer{}, explain(err)
	}
	return a, nil
}

// timely judges an answer's age. It does not tell one, but it begins on the day before the
// one it was asked on. When that was the day before yesterday, the answer is a day old at
// least, like one of any other service that is refused.
func (d *document) timely(now time.Time) error {
	asked := d.first.Add(pastDays * day)
	switch age := now.Sub(asked.Add(day)); {
	case age >= feed.MaxIssueAge:
		return fetch.Permanent(&feed.StaleError{Service: service, Issued: asked.Add(day), Age: age})
	case now.Before(asked.Add(-time.Hour)): // a clock that is a little slow does no harm [chosen]
		return fetch.Permanent(fault("", nil, "it was asked for on a day to come; is this machine's clock right?"))
	}
	return nil
}

const mediaType = "application/json"

func (r Reader) forecastAddress(p forecast.Place, past, future int) string {
	return address(or(r.Base, DefaultBase), "/v1/forecast", p, names(onForecast, ""),
		fmt.Sprintf("past_days=%d&forecast_days=%d", past, future))
}

// address writes a question. Units and times are always named: the defaults may change.
func address(base, path string, p forecast.Place, vars, when string) string {
	q := []string{"latitude=" + feed.Coordinate(p.Lat), "longitude=" + feed.Coordinate(p.Lon), "hourly=" + vars, when,
		"timezone=GMT", "timeformat=unixtime", "temperature_unit=celsius", "wind_speed_unit=ms", "precipitation_unit=mm"}
	if m, ok := p.Elevation.Get(); ok {
		q = append(q, fmt.Sprintf("elevation=%.0f", m))
	}
	return base + path + "?" + strings.Join(q, "&")
}

// between names the days of a question, both in it.
func between(first, last time.Time) string {
	return "start_date=" + first.Format(time.DateOnly) + "&end_date=" + last.Format(time.DateOnly)
}

func or(base, otherwise string) string {
	if base == "" {
		return otherwise
	}
	return strings.TrimSuffix(base, "/")
}
