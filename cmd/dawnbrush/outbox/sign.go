package outbox

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"strings"
	"time"
)

// part is one component that a signature covers, with its value.
type part struct{ name, value string }

// signatureBase writes what is signed, a line a component and then the parameters
// (RFC 9421 section 2.5).
func signatureBase(parts []part, params string) string {
	var b strings.Builder
	for _, p := range parts {
		fmt.Fprintf(&b, "%q: %s\n", p.name, p.value)
	}
	fmt.Fprintf(&b, "%q: %s", "@signature-params", params)
	return b.String()
}

// signatureParams names the components and when they were signed (RFC 9421 section
// 2.3). algorithm may be "".
func signatureParams(parts []part, created time.Time, key, algorithm string) string {
	names := make([]string, len(parts))
	for i, p := range parts {
		names[i] = `"` + p.name + `"`
	}
	params := fmt.Sprintf("(%s);created=%d;keyid=%q", strings.Join(names, " "), created.Unix(), key)
	if algorithm != "" {
		params += fmt.Sprintf(";alg=%q", algorithm)
	}
	return params
}

// sign gives the HMAC-SHA256 of a signature base (RFC 9421 section 3.3.3).
func sign(base string, key []byte) []byte {
	m := hmac.New(sha256.New, key)
	m.Write([]byte(base))
	return m.Sum(nil)
}

// digestField gives the value of Content-Digest (RFC 9530 section 2).
func digestField(body []byte) string {
	sum := sha256.Sum256(body)
	return "sha-256=" + byteSequence(sum[:])
}

// byteSequence writes bytes as structured fields have them (RFC 8941 section 3.3.5).
func byteSequence(b []byte) string { return ":" + base64.StdEncoding.EncodeToString(b) + ":" }
