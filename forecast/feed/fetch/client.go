package fetch

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"time"
	"unicode"

	"github.com/cenkalti/backoff/v5"
)

// Limits of one Get. All are chosen; services ask for moderation and a program
// under cron has to end.
const (
	defaultTries    = 4                // one and three more [feeds' own advice: 3 retries]
	defaultPerTry   = 20 * time.Second // [chosen]
	defaultTotal    = 2 * time.Minute  // [chosen]
	defaultMaxWait  = time.Minute      // longest Retry-After that is waited for [chosen]
	defaultMaxBytes = 8 << 20          // documents seen reach 0.3 MB [chosen]
	maxRedirects    = 5                // [chosen]
	maxErrorBody    = 4 << 10          // of an error document that is kept for its words [chosen]
	firstPause      = 2 * time.Second  // waiting longer helps more: pauses of about 2, 8 and 32 s
	pauseGrowth     = 4                // [chosen]
	pauseJitter     = 0.25             // [chosen]

	// A service that is asked too often is asked once more and then left alone: going
	// on is what it blocks for. [MET Norway, terms of service: limit traffic at once]
	maxBusy   = 1
	busyPause = 10 * time.Second // where it names no time; its limits are over seconds [chosen]

	// maxFresh bounds what a service may ask for by a far Expires date.
	maxFresh = 24 * time.Hour // [chosen]
)

// Client fetches documents. Product, Version and Contact are required, the rest
// may be left zero. It holds no state beyond its folder and may be used by
// several goroutines.
type Client struct {
	Product string // name of the program
	Version string
	Contact string // e-mail address or web page of whoever runs it

	Dir      string        // folder of stored copies; "" keeps none
	Tries    int           // at most so many requests, redirects not counted; 0 for 4
	PerTry   time.Duration // limit of one request and its body; 0 for 20 s
	Total    time.Duration // limit of the whole Get; 0 for 2 min
	MaxWait  time.Duration // longest Retry-After waited for; 0 for 1 min
	MaxBytes int64         // largest body; 0 for 8 MiB

	HTTP  *http.Client                                     // nil for one with the usual transport
	Now   func() time.Time                                 // nil for the clock
	Sleep func(ctx context.Context, d time.Duration) error // nil for a timer
	Log   func(line string)                                // nil drops the lines; never the standard output
}

func (c *Client) log(format string, args ...any) {
	if c.Log != nil {
		c.Log(fmt.Sprintf(format, args...))
	}
}

func (c *Client) now() time.Time {
	if c.Now != nil {
		return c.Now()
	}
	return time.Now()
}

func (c *Client) sleep(ctx context.Context, d time.Duration) error {
	if c.Sleep != nil {
		return c.Sleep(ctx, d)
	}
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
		return nil
	case <-ctx.Done():
		return context.Cause(ctx)
	}
}

// or gives v, or otherwise where v is zero.
func or[T comparable](v, otherwise T) T {
	var zero T
	if v == zero {
		return otherwise
	}
	return v
}

// agent gives the User-Agent header.
func (c *Client) agent() (string, error) {
	contact := strings.TrimSpace(c.Contact)
	if contact == "" || strings.ContainsFunc(contact, func(r rune) bool { return unicode.IsControl(r) || strings.ContainsRune("()", r) }) {
		return "", &ContactError{contact}
	}
	return fmt.Sprintf("%s/%s (%s)", c.Product, c.Version, contact), nil
}

// Get fetches a document, from the store where that is still fresh. When the
// service fails and the request allows it, a stored copy stands in. Errors:
// *ContactError, *StatusError, *NetworkError, *BodyError, or the context's.
func (c *Client) Get(ctx context.Context, r Request) (*Response, error) {
	agent, err := c.agent()
	if err != nil {
		return nil, err
	}
	u, err := url.Parse(r.URL)
	if err != nil || u.Host == "" {
		return nil, fmt.Errorf("%q is not an address", r.URL)
	}
	s := store{c.Dir}
	if r.NoStore {
		s = store{}
	}
	old, err := s.load(r.URL)
	if err != nil {
		c.log("stored copy of %s: %v", r.URL, err)
	}
	if old != nil && !r.Fresh && c.fresh(old, r) {
		return old.response(), nil
	}
	g := &getting{client: c, request: r, agent: agent, host: u.Host, store: s, old: old}
	resp, err := c.retry(ctx, g)
	if err == nil || old == nil || r.MaxStored <= 0 || ctx.Err() != nil {
		return resp, err
	}
	var status *StatusError
	if errors.As(err, &status) && status.Gone() {
		return nil, err
	}
	if age := c.now().Sub(old.Fetched); age > r.MaxStored {
		c.log("the stored copy is %s old and not used", age.Round(time.Minute))
		return nil, err
	}
	resp = old.response()
	resp.Stored, resp.Why = true, err
	return resp, nil
}

// fresh tells whether the stored copy may be used without asking. One that
// comes from the future tells of a wrong clock.
func (c *Client) fresh(e *entry, r Request) bool {
	now := c.now()
	if now.Before(e.Fetched) {
		return false
	}
	if !now.Before(e.FreshUntil) && now.Sub(e.Fetched) >= r.MinFresh {
		return false
	}
	return r.Validate == nil || r.Validate(e.body) == nil
}

func (e *entry) response() *Response {
	return &Response{Body: e.body, URL: e.FinalURL, Status: e.Status, Fetched: e.Fetched, Cached: true}
}

// retry tries until it has a good body. The library decides whether to go on;
// the pause is taken at the head of the next try instead of by the library's
// own timer, so that tests can watch it.
func (c *Client) retry(ctx context.Context, g *getting) (*Response, error) {
	ctx, cancel := context.WithTimeoutCause(ctx, or(c.Total, defaultTotal), errLate)
	defer cancel()
	pauses := &backoff.ExponentialBackOff{InitialInterval: firstPause, Multiplier: pauseGrowth,
		RandomizationFactor: pauseJitter, MaxInterval: defaultMaxWait}
	pauses.Reset()
	tries, busy, pause := 0, 0, time.Duration(0)
	try := func() (*Response, error) {
		if tries++; tries > 1 {
			if err := c.sleep(ctx, pause); err != nil {
				return nil, backoff.Permanent(err)
			}
		}
		resp, err := g.once(ctx)
		if err == nil {
			return resp, nil
		}
		c.log("try %d: %v", tries, err)
		var temporary interface{ Temporary() bool }
		if !errors.As(err, &temporary) || !temporary.Temporary() {
			return nil, backoff.Permanent(err)
		}
		pause = pauses.NextBackOff()
		var status *StatusError
		if !errors.As(err, &status) {
			return nil, err
		}
		if status.Status == http.StatusTooManyRequests {
			busy++
			pause = max(pause, busyPause)
		}
		if busy > maxBusy || status.RetryAfter > or(c.MaxWait, defaultMaxWait) {
			return nil, backoff.Permanent(err)
		}
		if status.RetryAfter > 0 {
			pause = max(status.RetryAfter, firstPause)
		}
		return nil, err
	}
	resp, err := backoff.Retry(ctx, try, backoff.WithBackOff(&backoff.ZeroBackOff{}),
		backoff.WithMaxTries(uint(or(c.Tries, defaultTries))), backoff.WithMaxElapsedTime(0))
	var stop *backoff.PermanentError
	if errors.As(err, &stop) { // the last try's mark is still on
		err = stop.Unwrap()
	}
	if err == errLate { // bare, when the time ran out between two tries
		err = &NetworkError{g.host, errLate}
	}
	return resp, err
}
