package fetch

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"time"
)

// getting is one Get under way.
type getting struct {
	client  *Client
	request Request
	agent   string
	host    string
	store   store
	old     *entry // the stored copy, nil when there is none
	whole   bool   // ask without condition: a 304 came that nothing stored answers to
}

// once asks once and reads the whole answer.
func (g *getting) once(ctx context.Context) (*Response, error) {
	ctx, cancel := context.WithTimeoutCause(ctx, or(g.client.PerTry, defaultPerTry), errSlow)
	defer cancel()
	req, conditional, err := g.build(ctx)
	if err != nil {
		return nil, err
	}
	resp, err := g.client.http().Do(req)
	if err != nil {
		return nil, g.network(ctx, err)
	}
	defer resp.Body.Close()
	limit := or(g.client.MaxBytes, defaultMaxBytes)
	body, err := io.ReadAll(io.LimitReader(resp.Body, limit+1))
	if err != nil {
		return nil, g.network(ctx, fmt.Errorf("the document broke off after %d bytes: %w", len(body), err))
	}
	if int64(len(body)) > limit {
		return nil, &BodyError{g.host, Permanent(fmt.Errorf("it is larger than %d MiB", limit>>20))}
	}
	switch {
	case resp.StatusCode == http.StatusNotModified:
		return g.unchanged(resp, conditional)
	case resp.StatusCode == http.StatusOK || resp.StatusCode == http.StatusNonAuthoritativeInfo:
		return g.changed(resp, body)
	}
	return nil, g.refusal(resp, body)
}

var (
	errSlow = errors.New("no answer in time")
	errLate = errors.New("no good answer in the time allowed")
)

// network names the real cause of a cancelled request.
func (g *getting) network(ctx context.Context, err error) error {
	if cause := context.Cause(ctx); cause != nil {
		err = cause
	}
	if errors.Is(err, context.Canceled) {
		return err // the grower interrupted: no fault of the network
	}
	return &NetworkError{g.host, err}
}

// build makes the request. It is conditional when a copy is stored that the
// service can compare with.
func (g *getting) build(ctx context.Context) (req *http.Request, conditional bool, err error) {
	req, err = http.NewRequestWithContext(ctx, http.MethodGet, g.request.URL, nil)
	if err != nil {
		return nil, false, err
	}
	req.Header.Set("User-Agent", g.agent)
	if g.request.Accept != "" {
		req.Header.Set("Accept", g.request.Accept)
	}
	if g.request.Fresh || g.whole {
		req.Header.Set("Cache-Control", "no-cache")
		return req, false, nil
	}
	if g.old == nil || g.request.Validate != nil && g.request.Validate(g.old.body) != nil {
		return req, false, nil
	}
	if g.old.ETag != "" {
		req.Header.Set("If-None-Match", g.old.ETag)
	}
	if g.old.LastModified != "" { // sent back exactly as it came
		req.Header.Set("If-Modified-Since", g.old.LastModified)
	}
	return req, g.old.ETag != "" || g.old.LastModified != "", nil
}

// unchanged answers a 304 from the store, or asks again for the whole.
func (g *getting) unchanged(resp *http.Response, conditional bool) (*Response, error) {
	if !conditional || g.old == nil {
		g.whole = true
		return nil, &StatusError{Status: http.StatusNotModified, Host: g.host, Title: "unchanged, but there is no stored copy", again: true}
	}
	now := g.client.now()
	e := *g.old
	e.Fetched, e.FreshUntil = now, now.Add(min(lifetime(resp.Header, now), maxFresh))
	e.ETag = or(resp.Header.Get("ETag"), e.ETag)
	e.LastModified = or(resp.Header.Get("Last-Modified"), e.LastModified)
	g.keep(&e)
	return e.response(), nil
}

// changed checks and keeps a new body.
func (g *getting) changed(resp *http.Response, body []byte) (*Response, error) {
	if g.request.Validate != nil {
		if err := g.request.Validate(body); err != nil {
			return nil, &BodyError{g.host, err}
		}
	}
	now := g.client.now()
	e := &entry{URL: g.request.URL, FinalURL: resp.Request.URL.String(), Status: resp.StatusCode, Fetched: now,
		FreshUntil: now.Add(min(lifetime(resp.Header, now), maxFresh)),
		ETag:       resp.Header.Get("ETag"), LastModified: resp.Header.Get("Last-Modified"), body: body}
	if mayStore(resp.Header) {
		g.keep(e)
	}
	return &Response{Body: body, URL: e.FinalURL, Status: e.Status, Header: resp.Header, Fetched: now}, nil
}

// keep stores a copy. A folder that cannot be written costs a line in the log,
// not the answer.
func (g *getting) keep(e *entry) {
	if err := g.store.save(e); err != nil {
		g.client.log("the copy cannot be kept: %v", err)
	}
}

// refusal reads an answer that is no success.
func (g *getting) refusal(resp *http.Response, body []byte) error {
	e := &StatusError{Status: resp.StatusCode, Host: g.host, RetryAfter: retryAfter(resp.Header, g.client.now()), Body: body[:min(len(body), maxErrorBody)]}
	var p problem
	if bytes.HasPrefix(bytes.TrimSpace(body), []byte("{")) && json.Unmarshal(body, &p) == nil {
		e.Type, e.Title, e.Detail = p.name(), p.Title, p.Detail
	}
	return e
}

// http gives the client to use: redirects stay on the host or go over https.
func (c *Client) http() *http.Client {
	h := http.Client{}
	if c.HTTP != nil {
		h = *c.HTTP
	}
	h.Timeout = time.Duration(0) // the context has the limits
	h.CheckRedirect = func(req *http.Request, via []*http.Request) error {
		from := via[len(via)-1].URL
		switch {
		case len(via) > maxRedirects:
			return errors.New("it redirects in circles")
		case req.URL.Scheme != "https" && (from.Scheme == "https" || req.URL.Host != from.Host):
			return fmt.Errorf("it redirects to %s, which is not protected", req.URL.Host)
		}
		return nil
	}
	return &h
}
