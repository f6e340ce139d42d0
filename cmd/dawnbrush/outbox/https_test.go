package outbox_test

import (
	"context"
	"crypto/hmac"
	"crypto/sha256"
	"crypto/x509"
	"encoding/base64"
	"io"
	"log"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/outbox"
)

const key = "0123456789abcdef0123456789abcdef"

// receive starts a receiver with a certificate of its own.
func receive(t *testing.T, f http.HandlerFunc) outbox.HTTPS {
	t.Helper()
	s := httptest.NewUnstartedServer(f)
	s.Config.ErrorLog = log.New(io.Discard, "", 0)
	s.StartTLS()
	t.Cleanup(s.Close)
	pool := x509.NewCertPool()
	pool.AddCert(s.Certificate())
	return outbox.HTTPS{URL: s.URL + "/letters?plot=7", Key: secret(t, key), Timeout: 20 * time.Second, Roots: pool}
}

// genuine checks a request as the manual tells a receiver to, with nothing of ours.
func genuine(r *http.Request, body []byte, now time.Time) bool {
	sum := sha256.Sum256(body)
	digest := "sha-256=:" + base64.StdEncoding.EncodeToString(sum[:]) + ":"
	params, ok := strings.CutPrefix(r.Header.Get("Signature-Input"), "dawnbrush=")
	created := regexp.MustCompile(`;created=(\d+)`).FindStringSubmatch(params)
	if !ok || created == nil || r.Header.Get("Content-Digest") != digest {
		return false
	}
	at, err := strconv.ParseInt(created[1], 10, 64)
	if err != nil || now.Sub(time.Unix(at, 0)).Abs() > 5*time.Minute {
		return false
	}
	base := "\"@method\": POST\n" +
		"\"@target-uri\": https://" + r.Host + r.URL.RequestURI() + "\n" +
		"\"content-type\": " + r.Header.Get("Content-Type") + "\n" +
		"\"content-digest\": " + digest + "\n" +
		"\"idempotency-key\": " + r.Header.Get("Idempotency-Key") + "\n" +
		"\"@signature-params\": " + params
	m := hmac.New(sha256.New, []byte(key))
	m.Write([]byte(base))
	return r.Header.Get("Signature") == "dawnbrush=:"+base64.StdEncoding.EncodeToString(m.Sum(nil))+":"
}

// The receiver gets the letter byte for byte and can tell that it is genuine; one sign
// of it changed, another key, another hour or another address are found out.
func TestHTTPS(t *testing.T) {
	checked := false
	h := receive(t, func(w http.ResponseWriter, r *http.Request) {
		body, err := io.ReadAll(r.Body)
		assert.NoError(t, err)
		assert.Equal(t, text, string(body))
		assert.Equal(t, "message/rfc822", r.Header.Get("Content-Type"))
		assert.Equal(t, `"a@garden.example"`, r.Header.Get("Idempotency-Key"))
		assert.True(t, genuine(r, body, morning.Add(4*time.Minute)))
		assert.False(t, genuine(r, append(body, ' '), morning))
		assert.False(t, genuine(r, body, morning.Add(6*time.Minute)))
		other := r.Clone(r.Context())
		other.URL.RawQuery = "plot=8"
		assert.False(t, genuine(other, body, morning))
		other = r.Clone(r.Context())
		other.Header.Set("Signature-Input", strings.Replace(r.Header.Get("Signature-Input"), "created=", "created=1", 1))
		assert.False(t, genuine(other, body, morning))
		assert.Contains(t, r.Header.Get("Signature-Input"), `;alg="hmac-sha256"`)
		checked = true
		w.WriteHeader(http.StatusAccepted)
	})
	require.Equal(t, outbox.Outcome{Result: outbox.Sent}, try(h))
	assert.True(t, checked)
}

// Statuses in the classes of RFC 9110 section 15.
func TestHTTPSAnswers(t *testing.T) {
	for _, c := range []struct {
		status int
		want   outbox.Result
		way    bool
		words  string
	}{
		{200, outbox.Sent, false, ""},
		{204, outbox.Sent, false, ""},
		{304, outbox.Refused, false, "without an address to go to"},
		{400, outbox.Refused, false, "answered 400 Bad Request: no thanks"},
		{401, outbox.Later, true, "answered 401"},
		{404, outbox.Later, true, "answered 404"},
		{410, outbox.Refused, false, "answered 410"},
		{413, outbox.Refused, false, "the letter is too large for it"},
		{429, outbox.Later, true, "answered 429"},
		{500, outbox.Later, true, "answered 500 Internal Server Error: no thanks"},
		{503, outbox.Later, true, "answered 503"},
	} {
		h := receive(t, func(w http.ResponseWriter, r *http.Request) {
			_, _ = io.Copy(io.Discard, r.Body)
			w.Header().Set("Content-Type", "text/plain")
			w.Header().Set("Retry-After", "7200")
			w.WriteHeader(c.status)
			if c.status >= 400 {
				_, _ = io.WriteString(w, "no\x1b thanks\n")
			}
		})
		o := try(h)
		assert.Equal(t, c.want, o.Result, c.status)
		assert.Equal(t, c.way, o.Way, c.status)
		assert.Contains(t, o.Fault, c.words)
		assert.NotContains(t, o.Fault, "\x1b")
		if c.status >= 429 {
			assert.Equal(t, 2*time.Hour, o.After, "RFC 9110 section 10.2.3")
		}
	}
	h := receive(t, func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Retry-After", morning.Add(90*time.Minute).Format(http.TimeFormat))
		w.WriteHeader(503)
	})
	assert.Equal(t, 90*time.Minute, try(h).After)
}

// A redirection is followed nowhere: not to another host, which would get the letter,
// and not on the same one, for which the signature does not hold.
func TestHTTPSRedirected(t *testing.T) {
	strayed := 0
	elsewhere := receive(t, func(http.ResponseWriter, *http.Request) { strayed++ })
	for _, code := range []int{301, 302, 303, 307, 308} {
		h := receive(t, func(w http.ResponseWriter, r *http.Request) { http.Redirect(w, r, elsewhere.URL, code) })
		o := try(h)
		assert.Equal(t, outbox.Refused, o.Result)
		assert.Contains(t, o.Fault, "points to another host")
		assert.Contains(t, o.Hint, "if you trust it")
	}
	h := receive(t, func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != "/letters" {
			strayed++
		}
		http.Redirect(w, r, "/other", http.StatusTemporaryRedirect)
	})
	o := try(h)
	assert.Equal(t, outbox.Refused, o.Result)
	assert.Contains(t, o.Fault, "points elsewhere")
	assert.Zero(t, strayed)
}

// Without a certificate that holds nothing is sent; without an answer nobody knows.
func TestHTTPSUnreached(t *testing.T) {
	asked := 0
	h := receive(t, func(http.ResponseWriter, *http.Request) { asked++ })
	h.Roots = x509.NewCertPool()
	o := try(h)
	assert.Equal(t, outbox.Later, o.Result)
	assert.True(t, o.Way)
	assert.Contains(t, o.Fault, "cannot prove that it is the one")
	assert.Zero(t, asked)

	h = receive(t, func(_ http.ResponseWriter, r *http.Request) {
		_, _ = io.Copy(io.Discard, r.Body)
		panic(http.ErrAbortHandler) // the connection breaks
	})
	o = try(h)
	assert.Equal(t, outbox.Later, o.Result)
	assert.Contains(t, o.Fault, "so the letter may have arrived")

	h = receive(t, func(_ http.ResponseWriter, r *http.Request) {
		_, _ = io.Copy(io.Discard, r.Body)
		<-r.Context().Done()
	})
	h.Timeout = 300 * time.Millisecond
	o = try(h)
	assert.Equal(t, outbox.Later, o.Result)
	assert.Contains(t, o.Fault, "did not answer in time")
	h.Timeout = time.Minute
	ctx, cancel := context.WithCancel(context.Background())
	time.AfterFunc(100*time.Millisecond, cancel)
	assert.Contains(t, h.Send(ctx, letter("a", "ann@example.org"), morning).Fault, "interrupted")
}

// An address or a key that will not do is told before anything is sent.
func TestHTTPSThatCannotBeUsed(t *testing.T) {
	asked := 0
	good := receive(t, func(http.ResponseWriter, *http.Request) { asked++ })
	for words, spoil := range map[string]func(*outbox.HTTPS){
		"must begin with https://": func(h *outbox.HTTPS) { h.URL = strings.Replace(h.URL, "https", "http", 1) },
		"hold neither a password":  func(h *outbox.HTTPS) { h.URL = strings.Replace(h.URL, "https://", "https://ann:pw@", 1) },
		"shorter than 32":          func(h *outbox.HTTPS) { h.Key = secret(t, "short") },
		"no such file":             func(h *outbox.HTTPS) { h.Key = outbox.Keep{File: "/nowhere/at/all"} },
	} {
		h := good
		spoil(&h)
		o := try(h)
		assert.Equal(t, outbox.Later, o.Result)
		assert.Contains(t, o.Fault, words)
		assert.NotEmpty(t, o.Hint)
	}
	assert.Zero(t, asked)
	l := letter("a", "ann@example.org")
	l.ID = `a"b\c` + "ü"
	var got string
	h := receive(t, func(_ http.ResponseWriter, r *http.Request) { got = r.Header.Get("Idempotency-Key") })
	require.Equal(t, outbox.Sent, h.Send(context.Background(), l, morning).Result)
	assert.Equal(t, `"a\"b\\c?"`, got, "RFC 8941 section 3.3.3")
	assert.Equal(t, "(secret)", outbox.Secret{}.String())
}
