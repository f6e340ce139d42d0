package nws

import (
	"context"
	"errors"
	"fmt"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

const (
	// maxIssueAge is the age from which an answer is an old forecast, whatever
	// its headers say: offices renew theirs at least twice a day, and the known
	// fault sent one 89 hours old with a date in the future.
	// [weather-gov/api issue 71; limit chosen]
	maxIssueAge = 24 * time.Hour

	// maxClockSkew is how far in the future a forecast may be issued before
	// its date, or the machine's clock, is not believed. [chosen]
	maxClockSkew = time.Hour

	// minAhead is how far an answer has to reach, so that today and tomorrow
	// can be planned. [chosen]
	minAhead = 48 * time.Hour

	// maxStored is the age up to which a stored forecast may stand in: from an
	// evening to the noon after, one missed morning. [chosen]
	maxStored = 18 * time.Hour
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

// checker reads a body when it comes and keeps the result, so that a good
// answer is decoded once.
type checker struct {
	now     time.Time
	body    []byte
	series  *forecast.Series
	outline geometry
}

func (c *checker) read(body []byte) error {
	if c.series != nil && len(body) > 0 && len(body) == len(c.body) && &body[0] == &c.body[0] {
		return nil
	}
	d, err := decodeGrid(body)
	if err != nil {
		return err
	}
	s, err := adaptGrid(d, c.now)
	if err != nil {
		return err
	}
	c.body, c.series, c.outline = body, s, d.Geometry
	return nil
}

// validate tells whether the body is a usable and fresh forecast.
func (c *checker) validate(body []byte) error {
	if err := c.read(body); err != nil {
		return err
	}
	age := c.now.Sub(c.series.Issued)
	switch {
	case age > maxIssueAge:
		return fetch.Permanent(&feed.StaleError{Service: service, Issued: c.series.Issued, Age: age})
	case age < -maxClockSkew:
		return fetch.Permanent(gridFault(nil, "it was issued %s from now; is this machine's clock right?", feed.Hours(-age)))
	case lastKnown(c.series).Before(c.now.Add(minAhead)):
		return fetch.Permanent(gridFault(nil, "its temperatures end within %s from now", feed.Hours(minAhead)))
	}
	return nil
}

// lastKnown gives the end of the last hour whose temperature is known.
func lastKnown(s *forecast.Series) time.Time {
	for i := len(s.Hours) - 1; i >= 0; i-- {
		if s.Hours[i].Temp.IsKnown() {
			return s.Hours[i].Start.Add(time.Hour)
		}
	}
	return time.Time{}
}

// grid asks for the forecast of one cell. When the answer is old, the other
// media type is tried once.
func (r Reader) grid(ctx context.Context, g feed.Getter, req feed.Request, c cell) (gridAnswer, error) {
	check := &checker{now: req.Now}
	ask := fetch.Request{URL: r.base() + c.path(), Accept: acceptGeo, Validate: check.validate, MaxStored: maxStored}
	resp, err := g.Get(ctx, ask)
	if stale(err) || err == nil && stale(resp.Why) {
		ask.Accept, ask.Fresh = acceptAny, true
		if other, err2 := g.Get(ctx, ask); err2 == nil {
			resp, err = other, nil
		}
	}
	if err != nil {
		return gridAnswer{}, err
	}
	if err := check.read(resp.Body); err != nil {
		return gridAnswer{}, err
	}
	s := check.series
	if resp.Stored {
		s.Notes = append(s.Notes, forecast.Note{Text: fmt.Sprintf("stored forecast, fetched %s ago, because %v",
			feed.Hours(resp.Age(req.Now)), unavailable(resp.Why))})
	}
	return gridAnswer{feed.Answer{Series: s, Fetched: resp.Fetched, Stored: resp.Stored, Why: resp.Why}, check.outline}, nil
}

func stale(err error) bool {
	var s *feed.StaleError
	return errors.As(err, &s)
}
