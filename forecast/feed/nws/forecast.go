package nws

import (
	"context"
	"errors"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

// Forecast asks for the grid forecast of the place. See feed.Reader.
func (r Reader) Forecast(ctx context.Context, g feed.Getter, req feed.Request) (feed.Answer, error) {
	c, err := r.cell(ctx, g, req, false)
	if err != nil {
		return feed.Answer{}, err
	}
	answer, err := r.grid(ctx, g, req, c)
	if c.stored && (gone(err) || err == nil && !answer.inside(req.Place)) {
		// The service has moved its grid since the cell was stored.
		if c, err = r.cell(ctx, g, req, true); err != nil {
			return feed.Answer{}, err
		}
		answer, err = r.grid(ctx, g, req, c)
	}
	if err != nil {
		return feed.Answer{}, unavailable(err)
	}
	answer.Point.Zone = c.zone
	return answer.Answer, nil
}

func gone(err error) bool {
	var status *fetch.StatusError
	return errors.As(err, &status) && status.Gone()
}

// gridAnswer is an answer with the outline of its cell.
type gridAnswer struct {
	feed.Answer
	outline geometry
}

// inside tells whether the cell holds the place; yes when it has no outline.
func (a gridAnswer) inside(p forecast.Place) bool {
	return len(a.outline.Corners) < 3 || a.outline.contains(p.Lat, p.Lon)
}

// grid asks for the forecast of one cell. When the answer is old, the other
// media type is tried once.
func (r Reader) grid(ctx context.Context, g feed.Getter, req feed.Request, c cell) (gridAnswer, error) {
	var out gridAnswer
	ask := feed.Asking{Service: service, Getter: g, Now: req.Now, Explain: unavailable, Read: func(body []byte) (*forecast.Series, error) {
		d, err := decodeGrid(body)
		if err != nil {
			return nil, err
		}
		out.outline = d.Geometry
		return adaptGrid(d, req.Now)
	}}
	request := fetch.Request{URL: r.base() + c.path(), Accept: acceptGeo}
	var err error
	out.Answer, err = ask.Get(ctx, request)
	if stale(err) || err == nil && stale(out.Why) {
		request.Accept, request.Fresh = acceptAny, true
		if other, err2 := ask.Get(ctx, request); err2 == nil {
			out.Answer, err = other, nil
		}
	}
	return out, err
}

func stale(err error) bool {
	var s *feed.StaleError
	return errors.As(err, &s)
}
