package feed

import (
	"context"
	"errors"
	"fmt"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/fetch"
)

const (
	// MaxIssueAge is the age from which an answer is an old forecast, whatever
	// its headers say: services renew theirs at least twice a day, and the known
	// fault sent one 89 hours old with a date in the future.
	// [weather-gov/api issue 71; limit chosen]
	MaxIssueAge = 24 * time.Hour

	// MaxStored is the age up to which a stored forecast may stand in: from an
	// evening to the noon after, one missed morning. [chosen]
	MaxStored = 18 * time.Hour

	// MinAhead is how far an answer has to reach, so that today and tomorrow
	// can be planned. [chosen]
	MinAhead = 48 * time.Hour

	// maxClockSkew is how far in the future a forecast may be issued before
	// its date, or the machine's clock, is not believed. [chosen]
	maxClockSkew = time.Hour
)

// Asking asks a service for forecast documents and judges the answers. It is used
// for one request of the grower's and reads a good answer once.
type Asking struct {
	Service string // inside sentences
	Getter  Getter
	Now     time.Time
	Read    func(body []byte) (*forecast.Series, error)
	Explain func(error) error // says in words why the service failed; nil for Unavailable

	body   []byte
	series *forecast.Series
}

// Get asks for one document, which has to be readable, fresh and to reach far
// enough. A stored copy stands in where the service fails, with a note.
// r.Validate and r.MaxStored are set here. Errors are those of the getter; see
// Unavailable.
func (a *Asking) Get(ctx context.Context, r fetch.Request) (Answer, error) {
	r.Validate, r.MaxStored = a.validate, MaxStored
	resp, err := a.Getter.Get(ctx, r)
	if err != nil {
		return Answer{}, err
	}
	if err := a.read(resp.Body); err != nil {
		return Answer{}, err
	}
	s := a.series
	if resp.Stored {
		s.Notes = append(s.Notes, forecast.Note{Text: fmt.Sprintf("stored forecast, fetched %s ago, because %v",
			Hours(resp.Age(a.Now)), a.explain(resp.Why))})
	}
	return Answer{Series: s, Fetched: resp.Fetched, Status: resp.Status, Stored: resp.Stored, Why: resp.Why}, nil
}

func (a *Asking) explain(err error) error {
	if a.Explain != nil {
		return a.Explain(err)
	}
	return Unavailable(a.Service, err)
}

func (a *Asking) read(body []byte) error {
	if a.series != nil && len(body) > 0 && len(body) == len(a.body) && &body[0] == &a.body[0] {
		return nil
	}
	s, err := a.Read(body)
	if err != nil {
		return err
	}
	a.body, a.series = body, s
	return nil
}

// validate tells whether the body is a usable and fresh forecast.
func (a *Asking) validate(body []byte) error {
	if err := a.read(body); err != nil {
		return err
	}
	s := a.series
	age := a.Now.Sub(s.Issued)
	fault := func(format string, args ...any) error {
		return fetch.Permanent(&DocumentError{What: "forecast of the " + a.Service, Fault: fmt.Sprintf(format, args...)})
	}
	switch {
	case s.Issued.IsZero(): // not said
	case age > MaxIssueAge:
		return fetch.Permanent(&StaleError{Service: a.Service, Issued: s.Issued, Age: age})
	case age < -maxClockSkew:
		return fault("it was issued %s from now; is this machine's clock right?", Hours(-age))
	}
	if lastKnown(s).Before(a.Now.Add(MinAhead)) {
		return fault("its temperatures end within %s from now", Hours(MinAhead))
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

// Unavailable says in the grower's words why there is no forecast. Errors of
// the grower's own making (no contact, an interrupt) and those that already are
// in such words pass unchanged.
func Unavailable(service string, err error) error {
	var (
		contact  *fetch.ContactError
		status   *fetch.StatusError
		network  *fetch.NetworkError
		body     *fetch.BodyError
		stale    *StaleError
		document *DocumentError
		outside  *OutsideError
		already  *UnavailableError
	)
	fail := func(reason, remedy string) error {
		return &UnavailableError{Service: service, Reason: reason, Err: err, Remedy: remedy}
	}
	switch {
	case err == nil, errors.As(err, &contact), errors.Is(err, context.Canceled), errors.As(err, &outside), errors.As(err, &already):
		return err
	case errors.As(err, &stale):
		return stale
	case errors.As(err, &status):
		return fail(status.Error(), status.Hint())
	case errors.As(err, &network):
		return fail(network.Error(), network.Hint())
	case errors.As(err, &document):
		return fail("it sent a bad document: "+document.Fault, "")
	case errors.As(err, &body):
		return fail(body.Error(), "")
	}
	return fail(err.Error(), "")
}
