package metno

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

// path is where the document with all quantities lies.
const path = "/weatherapi/locationforecast/2.0/complete"

const mediaType = "application/json"

// Statuses with a meaning of the service's own. [METno, status read]
const (
	statusEnding   = 203 // the address is soon to be given up, or is not yet final; the body is good
	statusQuestion = 400 // a fault in the question, with a web page for a body
	statusRefused  = 403 // no contact, one that is made up, or blocked
	statusOutside  = 422 // nothing for this place
)

// Forecast asks for the coming nine to ten days. See feed.Reader.
func (r Reader) Forecast(ctx context.Context, g feed.Getter, req feed.Request) (feed.Answer, error) {
	if !r.Covers(req.Place) {
		return feed.Answer{}, feed.NotOnEarth(service, req.Place)
	}
	explain := func(err error) error { return unavailable(req.Place, err) }
	ask := feed.Asking{Service: service, Getter: g, Now: req.Now, Explain: explain, Read: func(body []byte) (*forecast.Series, error) {
		return r.Parse(body, req.Now)
	}}
	a, err := ask.Get(ctx, fetch.Request{URL: r.address(req.Place), Accept: mediaType})
	if err != nil {
		return feed.Answer{}, explain(err)
	}
	if a.Status == statusEnding {
		a.Notes = append(a.Notes, forecast.Note{Text: "MET Norway warns that this form of its forecast is to be given up or is not yet final: " +
			"look for a newer version of this program before it ends"})
	}
	return a, nil
}

// address writes the question. The height above the sea corrects the temperature; it
// is asked for in whole metres. [METno, status read]
func (r Reader) address(p forecast.Place) string {
	base := r.Base
	if base == "" {
		base = DefaultBase
	}
	s := strings.TrimSuffix(base, "/") + path + "?lat=" + feed.Coordinate(p.Lat) + "&lon=" + feed.Coordinate(p.Lon)
	if m, ok := p.Elevation.Get(); ok {
		s += fmt.Sprintf("&altitude=%d", int(math.Round(m)))
	}
	return s
}

// unavailable says in the grower's words why there is no forecast.
func unavailable(p forecast.Place, err error) error {
	var status *fetch.StatusError
	if !errors.As(err, &status) {
		return feed.Unavailable(service, err)
	}
	fail := func(reason, remedy string) error {
		return &feed.UnavailableError{Service: service, Reason: reason, Err: err, Remedy: remedy}
	}
	const newer = "a newer version of this program may ask better; until then choose another feed"
	switch {
	case status.Status == statusOutside:
		return &feed.OutsideError{Service: service, Place: p, Remedy: "are latitude and longitude right? Otherwise choose another feed"}
	case status.Status == statusRefused:
		return fail("it refuses this program (403)", "check the contact in the garden file: MET Norway wants a true e-mail address or web page, and blocks made-up ones")
	case status.Status == statusQuestion:
		return fail("it does not understand what it is asked (400)", newer)
	case status.Gone():
		return fail("it has no forecast any more where this program asks for it", newer)
	}
	return feed.Unavailable(service, err)
}

// Past gives an error: the service has no past hours. [METno, status read]
func (Reader) Past(context.Context, feed.Getter, feed.Request, time.Time) (*forecast.Series, error) {
	return nil, &feed.UnavailableError{Service: service, Reason: "it has no past hours",
		Remedy: "measured hours can come from another feed, or from a logger or a rain gauge of your own"}
}
