package fetch

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var noon = time.Date(2026, 7, 15, 12, 0, 0, 0, time.UTC)

// rig is a client with a clock, a server and a record of both.
type rig struct {
	*Client
	url      string
	now      time.Time
	mu       sync.Mutex // a request given up on may still be running
	requests []*http.Request
	waits    []time.Duration
	lines    []string
}

// newRig starts a server that gives the answers one after the other; the last
// one stays.
func newRig(t *testing.T, answers ...http.HandlerFunc) *rig {
	r := &rig{now: noon}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		r.mu.Lock()
		i := min(len(r.requests), len(answers)-1)
		r.requests = append(r.requests, req)
		r.mu.Unlock()
		answers[i](w, req)
	}))
	t.Cleanup(server.Close)
	r.url = server.URL + "/doc"
	r.Client = &Client{Product: "dawnbrush", Version: "1.2", Contact: "grower@garden.test", Dir: filepath.Join(t.TempDir(), "feeds"),
		Now: func() time.Time { return r.now },
		Sleep: func(_ context.Context, d time.Duration) error {
			r.waits = append(r.waits, d)
			return nil
		},
		Log: func(line string) { r.lines = append(r.lines, line) }}
	return r
}

func (r *rig) get(t *testing.T, q Request) (*Response, error) {
	t.Helper()
	q.URL = r.url
	return r.Get(t.Context(), q)
}

func answer(status int, body string, header ...string) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		for i := 0; i+1 < len(header); i += 2 {
			w.Header().Set(header[i], header[i+1])
		}
		w.WriteHeader(status)
		_, _ = w.Write([]byte(body)) // the client's view of it is tested
	}
}

func TestRequestNamesProgramAndContact(t *testing.T) {
	r := newRig(t, answer(200, "ok"))
	resp, err := r.get(t, Request{Accept: "application/geo+json"})
	require.NoError(t, err)
	assert.Equal(t, "ok", string(resp.Body))
	assert.False(t, resp.Cached || resp.Stored)
	assert.Equal(t, noon, resp.Fetched)
	assert.Equal(t, "dawnbrush/1.2 (grower@garden.test)", r.requests[0].UserAgent())
	assert.Equal(t, "application/geo+json", r.requests[0].Header.Get("Accept"))
	for _, contact := range []string{"", "  ", "a\nb: c", "x) (y"} {
		r.Contact = contact
		_, err := r.get(t, Request{})
		var c *ContactError
		assert.ErrorAs(t, err, &c, "%q", contact)
		assert.NotEmpty(t, c.Hint())
	}
	assert.Len(t, r.requests, 1)
}

func TestNoRequestBeforeExpiry(t *testing.T) {
	for name, h := range map[string][]string{
		"max-age":        {"Cache-Control", "public, max-age=600, s-maxage=9999"},
		"max-age, older": {"Cache-Control", "max-age=900", "Age", "300"},
		"expires":        {"Expires", "Wed, 15 Jul 2026 12:40:00 GMT", "Date", "Wed, 15 Jul 2026 12:30:00 GMT"},
	} {
		t.Run(name, func(t *testing.T) {
			r := newRig(t, answer(200, "one", h...), answer(200, "two"))
			_, err := r.get(t, Request{})
			require.NoError(t, err)
			r.now = noon.Add(599 * time.Second)
			resp, err := r.get(t, Request{})
			require.NoError(t, err)
			assert.Equal(t, "one", string(resp.Body))
			assert.True(t, resp.Cached)
			assert.Equal(t, 599*time.Second, resp.Age(r.now))
			r.now = noon.Add(600 * time.Second)
			resp, err = r.get(t, Request{})
			require.NoError(t, err)
			assert.Equal(t, "two", string(resp.Body))
		})
	}
}

func TestFreshnessIsBounded(t *testing.T) {
	far := answer(200, "one", "Cache-Control", "max-age=99999999")
	r := newRig(t, far, answer(200, "two"))
	_, err := r.get(t, Request{})
	require.NoError(t, err)
	r.now = noon.Add(maxFresh)
	resp, err := r.get(t, Request{})
	require.NoError(t, err)
	assert.Equal(t, "two", string(resp.Body))

	r = newRig(t, far, answer(200, "two"))
	_, err = r.get(t, Request{})
	require.NoError(t, err)
	r.now = noon.Add(-time.Hour) // the clock was put back
	resp, err = r.get(t, Request{})
	require.NoError(t, err)
	assert.Equal(t, "two", string(resp.Body))

	r = newRig(t, answer(200, "one"), answer(200, "two"))
	_, err = r.get(t, Request{})
	require.NoError(t, err)
	r.now = noon.Add(6 * 24 * time.Hour)
	resp, err = r.get(t, Request{MinFresh: 7 * 24 * time.Hour})
	require.NoError(t, err)
	assert.Equal(t, "one", string(resp.Body))
	resp, err = r.get(t, Request{MinFresh: 7 * 24 * time.Hour, Fresh: true})
	require.NoError(t, err)
	assert.Equal(t, "two", string(resp.Body))
}

func TestConditionalRequest(t *testing.T) {
	r := newRig(t, answer(200, "one", "ETag", `"v1"`, "Last-Modified", "Wed, 15 Jul 2026 11:00:00 GMT"),
		answer(304, "", "Cache-Control", "max-age=60"))
	_, err := r.get(t, Request{})
	require.NoError(t, err)
	r.now = noon.Add(time.Hour)
	resp, err := r.get(t, Request{})
	require.NoError(t, err)
	assert.Equal(t, `"v1"`, r.requests[1].Header.Get("If-None-Match"))
	assert.Equal(t, "Wed, 15 Jul 2026 11:00:00 GMT", r.requests[1].Header.Get("If-Modified-Since"))
	assert.Equal(t, "one", string(resp.Body))
	assert.True(t, resp.Cached)
	assert.Equal(t, r.now, resp.Fetched)
	r.now = r.now.Add(59 * time.Second)
	_, err = r.get(t, Request{})
	require.NoError(t, err)
	assert.Len(t, r.requests, 2, "the 304's max-age counts")
}

func TestRetries(t *testing.T) {
	t.Run("temporary", func(t *testing.T) {
		r := newRig(t, answer(502, "<html>"), answer(500, ""), answer(200, "ok"))
		_, err := r.get(t, Request{})
		require.NoError(t, err)
		require.Len(t, r.waits, 2)
		assert.InDelta(t, 2, r.waits[0].Seconds(), 0.5)
		assert.InDelta(t, 8, r.waits[1].Seconds(), 2)
		assert.Len(t, r.lines, 2)
	})
	t.Run("bounded", func(t *testing.T) {
		r := newRig(t, answer(503, `{"type":"https://x.test/problems/Busy","title":"Too Busy","detail":"Try later."}`))
		_, err := r.get(t, Request{})
		var status *StatusError
		require.ErrorAs(t, err, &status)
		assert.True(t, status.Temporary())
		assert.Equal(t, "Busy", status.Type)
		assert.Contains(t, err.Error(), "503 service unavailable: Try later")
		assert.Len(t, r.requests, defaultTries)
	})
	t.Run("permanent", func(t *testing.T) {
		for _, code := range []int{400, 401, 403, 404, 410, 422} {
			r := newRig(t, answer(code, "no"))
			_, err := r.get(t, Request{})
			var status *StatusError
			require.ErrorAs(t, err, &status)
			assert.Equal(t, code, status.Status)
			assert.False(t, status.Temporary())
			assert.NotEmpty(t, status.Hint())
			assert.Len(t, r.requests, 1)
		}
	})
	t.Run("interrupted", func(t *testing.T) {
		r := newRig(t, answer(500, ""))
		ctx, cancel := context.WithCancel(t.Context())
		r.Client.Sleep = func(ctx context.Context, _ time.Duration) error { cancel(); return ctx.Err() }
		_, err := r.Get(ctx, Request{URL: r.url})
		assert.ErrorIs(t, err, context.Canceled)
		assert.Len(t, r.requests, 1)
	})
}

func TestRetryAfter(t *testing.T) {
	r := newRig(t, answer(429, "", "Retry-After", "17"), answer(503, "", "Retry-After", "Wed, 15 Jul 2026 12:00:30 GMT"), answer(200, "ok"))
	_, err := r.get(t, Request{})
	require.NoError(t, err)
	assert.Equal(t, []time.Duration{17 * time.Second, 30 * time.Second}, r.waits)

	r = newRig(t, answer(429, "", "Retry-After", "3600"))
	_, err = r.get(t, Request{})
	var status *StatusError
	require.ErrorAs(t, err, &status)
	assert.Equal(t, time.Hour, status.RetryAfter)
	assert.Empty(t, r.waits, "an hour is not waited for")
	assert.Contains(t, status.Error(), "asks to wait 1h")
}

func TestAskedTooOften(t *testing.T) {
	r := newRig(t, answer(429, ""))
	_, err := r.get(t, Request{})
	var status *StatusError
	require.ErrorAs(t, err, &status)
	assert.Len(t, r.requests, 2, "once more, then it is left alone")
	require.Len(t, r.waits, 1)
	assert.GreaterOrEqual(t, r.waits[0], busyPause)

	r = newRig(t, answer(500, ""), answer(429, ""), answer(500, ""), answer(200, "ok"))
	_, err = r.get(t, Request{})
	require.NoError(t, err, "other faults in between do not count")
	assert.Len(t, r.requests, 4)
}

func TestRefusedBodyKeepsTheGoodCopy(t *testing.T) {
	good := func(body []byte) error {
		if string(body) != "good" {
			return errors.New("it is not good")
		}
		return nil
	}
	r := newRig(t, answer(200, "good"), answer(200, "bad"))
	_, err := r.get(t, Request{Validate: good})
	require.NoError(t, err)
	r.now = noon.Add(time.Hour)
	_, err = r.get(t, Request{Validate: good})
	var body *BodyError
	require.ErrorAs(t, err, &body)
	assert.True(t, body.Temporary())
	assert.Len(t, r.waits, 3, "a bad body is fetched again")
	resp, err := r.get(t, Request{Validate: good, MaxStored: 2 * time.Hour})
	require.NoError(t, err)
	assert.Equal(t, "good", string(resp.Body))
	assert.True(t, resp.Stored)
	assert.ErrorAs(t, resp.Why, &body)
	assert.Equal(t, time.Hour, resp.Age(r.now))
	_, err = r.get(t, Request{Validate: good, MaxStored: 59 * time.Minute})
	assert.Error(t, err, "too old to stand in")
}

func TestPermanentFaultOfTheBodyIsNotRetried(t *testing.T) {
	r := newRig(t, answer(200, "old"))
	cause := errors.New("it is old")
	_, err := r.get(t, Request{Validate: func([]byte) error { return Permanent(cause) }})
	require.ErrorIs(t, err, cause)
	assert.Len(t, r.requests, 1)
	assert.NoError(t, Permanent(nil))
}

func TestGoneIsNotCoveredUp(t *testing.T) {
	r := newRig(t, answer(200, "one"), answer(404, ""))
	_, err := r.get(t, Request{})
	require.NoError(t, err)
	_, err = r.get(t, Request{MaxStored: time.Hour})
	var status *StatusError
	require.ErrorAs(t, err, &status)
	assert.True(t, status.Gone())
}

func TestLimits(t *testing.T) {
	t.Run("size", func(t *testing.T) {
		r := newRig(t, answer(200, strings.Repeat("x", 1001)))
		r.MaxBytes = 1000
		_, err := r.get(t, Request{})
		var body *BodyError
		require.ErrorAs(t, err, &body)
		assert.Len(t, r.requests, 1)
	})
	t.Run("time", func(t *testing.T) {
		done := make(chan struct{})
		r := newRig(t, func(http.ResponseWriter, *http.Request) { <-done })
		t.Cleanup(func() { close(done) }) // before the server closes
		r.PerTry = 20 * time.Millisecond
		_, err := r.get(t, Request{})
		var network *NetworkError
		require.ErrorAs(t, err, &network)
		assert.ErrorIs(t, err, errSlow)
		assert.Len(t, r.waits, defaultTries-1)
	})
	t.Run("time in all", func(t *testing.T) {
		r := newRig(t, answer(500, ""))
		r.Total = 20 * time.Millisecond
		r.Client.Sleep = nil // the pause of 2 s is cut short by the limit
		_, err := r.get(t, Request{})
		var network *NetworkError
		require.ErrorAs(t, err, &network)
		assert.ErrorIs(t, err, errLate)
		assert.Len(t, r.requests, 1)
	})
	t.Run("redirects", func(t *testing.T) {
		r := newRig(t, answer(302, "", "Location", "/again"))
		_, err := r.get(t, Request{})
		assert.ErrorContains(t, err, "in circles")
		r = newRig(t, answer(302, "", "Location", "http://other.test/"))
		_, err = r.get(t, Request{})
		assert.ErrorContains(t, err, "other.test, which is not protected")
		r = newRig(t, answer(301, "", "Location", "/moved"), answer(200, "ok"))
		resp, err := r.get(t, Request{})
		require.NoError(t, err)
		assert.True(t, strings.HasSuffix(resp.URL, "/moved"))
	})
	t.Run("address", func(t *testing.T) {
		r := newRig(t, answer(200, ""))
		_, err := r.Get(t.Context(), Request{URL: "points/1,2"})
		assert.ErrorContains(t, err, "not an address")
	})
}

func TestStoreIsNeverTrustedBlindly(t *testing.T) {
	damage := map[string]func(b []byte) []byte{
		"torn":         func(b []byte) []byte { return b[:len(b)-1] },
		"body altered": func(b []byte) []byte { b[len(b)-1] ^= 1; return b },
		"date altered": func(b []byte) []byte { return []byte(strings.Replace(string(b), "2026", "2027", 1)) },
		"empty":        func([]byte) []byte { return nil },
		"other file":   func([]byte) []byte { return []byte("hello\nworld\n") },
	}
	for name, harm := range damage {
		t.Run(name, func(t *testing.T) {
			r := newRig(t, answer(200, "one", "Cache-Control", "max-age=600", "ETag", `"v1"`), answer(200, "two"))
			_, err := r.get(t, Request{})
			require.NoError(t, err)
			file := store{r.Dir}.path(r.url)
			b, err := os.ReadFile(file)
			require.NoError(t, err)
			require.NoError(t, os.WriteFile(file, harm(b), 0o600))
			resp, err := r.get(t, Request{})
			require.NoError(t, err)
			assert.Equal(t, "two", string(resp.Body))
			assert.Empty(t, r.requests[1].Header.Get("If-None-Match"))
			assert.Contains(t, strings.Join(r.lines, "\n"), "damaged")
		})
	}
	t.Run("another address's copy", func(t *testing.T) {
		r := newRig(t, answer(200, "one"))
		_, err := r.get(t, Request{})
		require.NoError(t, err)
		s := store{r.Dir}
		require.NoError(t, os.Rename(s.path(r.url), s.path("http://other.test/")))
		_, err = s.load("http://other.test/")
		assert.ErrorIs(t, err, errDamaged)
	})
}

func TestStoreLeavesNoHalfFiles(t *testing.T) {
	r := newRig(t, answer(200, "one"))
	for range 3 {
		_, err := r.get(t, Request{})
		require.NoError(t, err)
	}
	files, err := os.ReadDir(r.Dir)
	require.NoError(t, err)
	assert.Len(t, files, 1)
	info, err := files[0].Info()
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
}

func TestWithoutAFolder(t *testing.T) {
	for name, dir := range map[string]string{"none": "", "cannot be made": "/dev/null/feeds"} {
		t.Run(name, func(t *testing.T) {
			r := newRig(t, answer(200, "ok"))
			r.Dir = dir
			_, err := r.get(t, Request{})
			require.NoError(t, err)
			assert.Equal(t, dir != "", len(r.lines) > 0, "a line in the log when it was meant to work: %v", r.lines)
		})
	}
}

func TestNoStore(t *testing.T) {
	r := newRig(t, answer(200, "one", "Cache-Control", "no-store, max-age=600"))
	_, err := r.get(t, Request{})
	require.NoError(t, err)
	_, err = r.get(t, Request{NoStore: true})
	require.NoError(t, err)
	_, err = os.ReadDir(r.Dir)
	assert.ErrorIs(t, err, os.ErrNotExist)
}

func TestLifetime(t *testing.T) {
	// Cases by section of RFC 9111.
	for i, c := range []struct {
		header []string
		want   time.Duration
	}{
		{nil, 0},
		{[]string{"Cache-Control", "max-age=60", "Expires", "Wed, 15 Jul 2026 20:00:00 GMT"}, time.Minute}, // 5.3: max-age wins
		{[]string{"Cache-Control", "no-cache, max-age=60"}, 0},                                             // 5.2.2.4
		{[]string{"Cache-Control", "s-maxage=60"}, 0},                                                      // 5.2.2.10: shared caches only
		{[]string{"Cache-Control", "max-age=60", "Age", "90"}, 0},                                          // 4.2.3
		{[]string{"Cache-Control", "MAX-AGE=\"60\""}, time.Minute},                                         // 5.2: any case, quoted too
		{[]string{"Cache-Control", "max-age=-1"}, 0},                                                       // 4.2.1: invalid is stale
		{[]string{"Expires", "0"}, 0},                                                                      // 5.3: invalid is past
		{[]string{"Expires", "Wed, 15 Jul 2026 12:10:00 GMT"}, 10 * time.Minute},
		{[]string{"Expires", "Wed, 15 Jul 2026 11:00:00 GMT"}, 0},
	} {
		h := http.Header{}
		for j := 0; j+1 < len(c.header); j += 2 {
			h.Set(c.header[j], c.header[j+1])
		}
		assert.Equal(t, c.want, lifetime(h, noon), fmt.Sprint(i, c.header))
	}
}
