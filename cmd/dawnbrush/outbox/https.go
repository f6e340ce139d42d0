package outbox

import (
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"

	"dawnbrush/cmd/dawnbrush/store"
)

// HTTPS posts letters to an address on the web, signed so that the receiver can tell
// who sent them and when (RFC 9421, hmac-sha256).
type HTTPS struct {
	URL     string // begins with https://
	Key     Keep   // of the signature, read at each try
	Timeout time.Duration
	Roots   *x509.CertPool // nil for those of the machine
}

const (
	// keyID names the key in a signature.
	keyID = "dawnbrush"
	// leastKey is the length below which RFC 2104 section 3 strongly discourages a key:
	// that of the hash.
	leastKey = 32 // bytes
	// mostAnswer bounds what is read of an answer. [chosen: enough for a sentence]
	mostAnswer = 4 << 10
)

// Send posts one letter as message/rfc822. A status of 2xx is sent; a redirection is
// never followed, for the signature names the address, and refused; 413 and what else
// speaks of the letter is refused; 5xx, 408, 425 and 429, a wrong address or key, a
// connection that breaks or a certificate that does not hold mean later.
func (h HTTPS) Send(parent context.Context, l store.Letter, now time.Time) Outcome {
	ctx, cancel := limit(parent, h.Timeout)
	defer cancel()
	key, err := h.Key.Read()
	switch {
	case err != nil:
		return blocked(hintOf(err), "%v", err)
	case len(key.text) < leastKey:
		return blocked("make one with `openssl rand -hex 32`", "the key that letters are signed with is shorter than %d characters", leastKey)
	}
	r, err := h.request(ctx, l, key, now)
	if err != nil {
		return blocked("write url = \"https://...\" under [mail]", "the address for letters cannot be used: %v", err)
	}
	transport := &http.Transport{TLSClientConfig: &tls.Config{RootCAs: h.Roots, MinVersion: tls.VersionTLS12}, ForceAttemptHTTP2: true, DisableKeepAlives: true}
	client := &http.Client{Transport: transport, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	answer, err := client.Do(r)
	if err != nil {
		return interrupted(parent, h.unreached(r.URL, err))
	}
	defer answer.Body.Close()
	text, _ := io.ReadAll(io.LimitReader(answer.Body, mostAnswer)) // the status counts
	return h.judge(r.URL, answer, string(text), now)
}

// request makes a signed request.
func (h HTTPS) request(ctx context.Context, l store.Letter, key Secret, now time.Time) (*http.Request, error) {
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, h.URL, bytes.NewReader(l.Body))
	switch {
	case err != nil:
		return nil, errors.New("it is no web address")
	case r.URL.Scheme != "https" || r.URL.Host == "" || r.URL.User != nil || r.URL.Fragment != "":
		return nil, errors.New("it must begin with https:// and hold neither a password nor a #")
	}
	parts := []part{
		{"@method", r.Method},
		{"@target-uri", r.URL.String()},
		{"content-type", "message/rfc822"},
		{"content-digest", digestField(l.Body)},
		{"idempotency-key", quotedField(l.ID)},
	}
	for _, p := range parts {
		if !strings.HasPrefix(p.name, "@") {
			r.Header.Set(p.name, p.value)
		}
	}
	params := signatureParams(parts, now, keyID, "hmac-sha256")
	r.Header.Set("Signature-Input", "dawnbrush="+params)
	r.Header.Set("Signature", "dawnbrush="+byteSequence(sign(signatureBase(parts, params), []byte(key.text))))
	r.Header.Set("User-Agent", "dawnbrush")
	return r, nil
}

// quotedField writes a string as structured fields have it (RFC 8941 section 3.3.3),
// which is ASCII alone.
func quotedField(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r > '~':
			b.WriteByte('?')
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// unreached tells why there was no answer.
func (h HTTPS) unreached(u *url.URL, err error) Outcome {
	var unproved *tls.CertificateVerificationError
	if errors.As(err, &unproved) {
		return blocked("is the address under [mail] right, and this machine's clock? Nothing was sent", "%s cannot prove that it is the one: %v", u.Host, unproved.Err)
	}
	var wrapped *url.Error
	if errors.As(err, &wrapped) {
		err = wrapped.Err
	}
	return blocked("is there a network? Is url under [mail] right?", "%s gave no answer, so the letter may have arrived: %v", u.Host, dialed(err))
}

// judge tells what an answer means.
func (h HTTPS) judge(u *url.URL, answer *http.Response, text string, now time.Time) Outcome {
	code := answer.StatusCode
	words := fmt.Sprintf("%s answered %d %s", u.Host, code, http.StatusText(code))
	if said(text) != "" && strings.HasPrefix(answer.Header.Get("Content-Type"), "text/plain") {
		words += with(text)
	}
	switch {
	case code >= 200 && code < 300:
		return sent()
	case code >= 300 && code < 400:
		return h.redirected(u, answer, words)
	case code == http.StatusRequestEntityTooLarge:
		return refused("let the receiver take larger requests", "%s: the letter is too large for it", words)
	case code == http.StatusUnauthorized, code == http.StatusForbidden, code == http.StatusNotFound, code == http.StatusMethodNotAllowed, code == http.StatusProxyAuthRequired:
		return blocked("check url and key under [mail]", "%s", words)
	case code >= 500, code == http.StatusRequestTimeout, code == http.StatusTooEarly, code == http.StatusTooManyRequests, code == http.StatusMisdirectedRequest:
		o := blocked("", "%s", words)
		o.After = retryAfter(answer.Header.Get("Retry-After"), now)
		return o
	}
	return refused("", "%s", words)
}

// redirected refuses to go elsewhere.
func (h HTTPS) redirected(u *url.URL, answer *http.Response, words string) Outcome {
	to, err := u.Parse(answer.Header.Get("Location"))
	switch {
	case err != nil || answer.Header.Get("Location") == "":
		return refused("check url under [mail]", "%s without an address to go to", words)
	case to.Host != u.Host || to.Scheme != u.Scheme:
		return refused("write its new address as url under [mail] if you trust it", "%s and points to another host, %s: the letter was not taken there", words, said(to.Host))
	}
	return refused("write the address it points to as url under [mail]", "%s and points elsewhere: the letter was not taken there", words)
}

// retryAfter reads the field of RFC 9110 section 10.2.3: seconds or a date.
func retryAfter(field string, now time.Time) time.Duration {
	if n, err := strconv.Atoi(field); err == nil && n >= 0 {
		return min(time.Duration(min(n, 1<<30))*time.Second, mostAfter)
	}
	if at, err := http.ParseTime(field); err == nil {
		return max(0, at.Sub(now))
	}
	return 0
}
