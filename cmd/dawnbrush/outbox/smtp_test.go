package outbox_test

import (
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"net"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/emersion/go-smtp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/outbox"
	"dawnbrush/cmd/dawnbrush/store"
)

// secret writes a file that holds a secret.
func secret(t testing.TB, text string) outbox.Keep {
	t.Helper()
	path := filepath.Join(t.TempDir(), "secret")
	require.NoError(t, os.WriteFile(path, []byte(text+"\n"), 0o600))
	return outbox.Keep{File: path}
}

// Encrypted either way, signed in with the password from a file or from the folder of
// credentials, the letter arrives as it was written, also lines that begin with a dot.
func TestSMTP(t *testing.T) {
	for _, security := range []outbox.Security{outbox.TLS, outbox.STARTTLS} {
		t.Run(string(security), func(t *testing.T) {
			o := &office{password: "correct horse"}
			h := o.start(t, security)
			h.User, h.Password = "grower", secret(t, "correct horse")
			out := try(h)
			require.Equal(t, outbox.Outcome{Result: outbox.Sent}, out)
			dir := t.TempDir()
			require.NoError(t, os.WriteFile(filepath.Join(dir, "mail"), []byte("correct horse"), 0o440))
			h.Password = outbox.Keep{Credential: "mail", Folder: dir}
			require.Equal(t, outbox.Sent, try(h).Result)
			for _, e := range o.all() {
				assert.Equal(t, envelope{"garden@example.org", "ann@example.org", []byte(text)}, e)
			}
			assert.Len(t, o.all(), 2)
		})
	}
}

// A wrong password, a missing one, or one that others may read: the letter waits, and
// the password stands in no message.
func TestSMTPPassword(t *testing.T) {
	o := &office{password: "correct horse"}
	h := o.start(t, outbox.STARTTLS)
	h.User = "grower"
	open := secret(t, "correct horse")
	require.NoError(t, os.Chmod(open.File, 0o644))
	for _, c := range []struct {
		keep  outbox.Keep
		words string
	}{
		{secret(t, "battery staple"), "does not accept user and password"},
		{secret(t, ""), "it is empty"},
		{secret(t, "correct horse\nuser grower"), "more than one line"},
		{open, "others may read it"},
		{outbox.Keep{File: "/nowhere/at/all"}, "no such file"},
		{outbox.Keep{Credential: "mail"}, "$CREDENTIALS_DIRECTORY is not set"},
		{outbox.Keep{Credential: "mail", Folder: t.TempDir()}, "no such file"},
	} {
		h.Password = c.keep
		out := try(h)
		assert.Equal(t, outbox.Later, out.Result, c.words)
		assert.True(t, out.Way)
		assert.Contains(t, out.Fault, c.words)
		assert.NotEmpty(t, out.Hint)
		assert.NotContains(t, out.Fault+out.Hint, "battery staple")
		assert.NotContains(t, out.Fault+out.Hint, "correct horse")
	}
	h.User = ""
	out := try(h)
	assert.Equal(t, outbox.Later, out.Result, "530, RFC 4954 section 6: it wants a password")
	assert.Contains(t, out.Hint, "user and password")
	assert.Empty(t, o.all())
}

// The server's replies, in the classes of RFC 5321 section 4.2.1.
func TestSMTPReplies(t *testing.T) {
	reply := func(code int, words string) error {
		return &smtp.SMTPError{Code: code, EnhancedCode: smtp.NoEnhancedCode, Message: words}
	}
	for name, c := range map[string]struct {
		office *office
		want   outbox.Result
		way    bool
		words  string
	}{
		"greylisted":          {&office{rcpt: func(string) error { return reply(451, "greylisted, come back") }}, outbox.Later, false, "put off the recipient ann@example.org: 451 greylisted, come back"},
		"no such mailbox":     {&office{rcpt: func(string) error { return reply(550, "no such user") }}, outbox.Refused, false, "refuses the recipient ann@example.org: 550 no such user"},
		"closing":             {&office{rcpt: func(string) error { return reply(421, "shutting down") }}, outbox.Later, true, "takes no letters now: 421 shutting down"},
		"sender not ours":     {&office{from: func(string) error { return reply(553, "not your address") }}, outbox.Later, true, "refuses the sender garden@example.org: 553"},
		"full after the text": {&office{data: func(*smtp.Conn) error { return reply(452, "no room") }}, outbox.Later, false, "put off the letter: 452 no room"},
		"too large":           {&office{data: func(*smtp.Conn) error { return reply(552, "too large") }}, outbox.Refused, false, "refuses the letter: 552 too large"},
	} {
		t.Run(name, func(t *testing.T) {
			out := try(c.office.start(t, outbox.STARTTLS))
			assert.Equal(t, c.want, out.Result, out.Fault)
			assert.Equal(t, c.way, out.Way)
			assert.Contains(t, out.Fault, c.words)
			assert.Empty(t, c.office.all())
		})
	}
}

// One recipient is refused, another greylisted, the third gets the letter; the
// greylisted one gets it at the next try and nobody twice.
func TestSMTPOneOfSeveral(t *testing.T) {
	w := &watch{morning}
	s := memory(t, w)
	seen := 0
	o := &office{rcpt: func(to string) error {
		switch {
		case to == "bob@example.org":
			return &smtp.SMTPError{Code: 550, Message: "no such user"}
		case to == "cem@example.org" && seen == 0:
			seen++
			return &smtp.SMTPError{Code: 451, Message: "greylisted"}
		}
		return nil
	}}
	h := o.start(t, outbox.TLS)
	for _, who := range []string{"ann", "bob", "cem"} {
		post(t, s, letter(who, who+"@example.org"))
	}
	deliver(t, s, h, w)
	w.forward(30 * time.Minute)
	deliver(t, s, h, w)
	var to []string
	for _, e := range o.all() {
		to = append(to, e.to)
	}
	assert.Equal(t, []string{"ann@example.org", "cem@example.org"}, to)
	assert.Equal(t, store.LetterRefused, states(t, s)["bob@example.org"])
}

// A server that cannot prove that it is the one gets neither password nor letter.
func TestSMTPCertificate(t *testing.T) {
	for _, security := range []outbox.Security{outbox.TLS, outbox.STARTTLS} {
		o := &office{}
		h := o.start(t, security)
		h.Roots = x509.NewCertPool()
		out := try(h)
		assert.Equal(t, outbox.Later, out.Result)
		assert.True(t, out.Way)
		assert.Contains(t, out.Fault, "cannot prove that it is the one", security)
		h = o.start(t, security)
		h.Server = "localhost" // the certificate is for 127.0.0.1
		out = try(h)
		assert.Contains(t, out.Fault, "cannot prove that it is the one", security)
		assert.Empty(t, o.all())
	}
	o := &office{}
	h := o.start(t, outbox.TLS)
	h.Security = outbox.STARTTLS
	h.Timeout = time.Second
	assert.Equal(t, outbox.Later, try(h).Result, "the wrong way of encryption")
	h = o.start(t, outbox.STARTTLS)
	h.Security = outbox.TLS
	out := try(h)
	assert.Contains(t, out.Fault, "no common encryption")
	assert.Contains(t, out.Hint, "465")
}

func TestSMTPUnreached(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	port := l.Addr().(*net.TCPAddr).Port
	require.NoError(t, l.Close())
	out := try(outbox.SMTP{Server: "127.0.0.1", Port: port, Security: outbox.TLS, Timeout: 5 * time.Second})
	assert.Equal(t, outbox.Later, out.Result)
	assert.Contains(t, out.Fault, "cannot be reached")
}

// A server that says nothing is left when the time is over.
func TestSMTPSilent(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer l.Close()
	h := outbox.SMTP{Server: "127.0.0.1", Port: l.Addr().(*net.TCPAddr).Port, Security: outbox.STARTTLS, Timeout: 300 * time.Millisecond}
	out := try(h)
	assert.Equal(t, outbox.Later, out.Result)
	assert.Contains(t, out.Fault, "did not answer in time")
	h.Timeout = time.Minute
	ctx, cancel := context.WithCancel(context.Background())
	time.AfterFunc(100*time.Millisecond, cancel)
	out = h.Send(ctx, letter("a", "ann@example.org"), morning)
	assert.Contains(t, out.Fault, "interrupted")
}

// The server dies after it has the whole letter and before it said so: nobody knows,
// so the letter is tried again, under the same identity.
func TestSMTPDiesBeforeItsReply(t *testing.T) {
	w := &watch{morning}
	s := memory(t, w)
	died := 0
	o := &office{}
	o.data = func(c *smtp.Conn) error {
		if died++; died == 1 {
			o.mu.Lock() // it did take the letter
			o.taken = append(o.taken, envelope{to: "ann@example.org", body: []byte(text)})
			o.mu.Unlock()
			_ = c.Conn().Close()
			return errors.New("dead")
		}
		return nil
	}
	h := o.start(t, outbox.TLS)
	post(t, s, letter("a", "ann@example.org"))
	r := deliver(t, s, h, w)
	assert.ErrorContains(t, r.Err(time.UTC), "did not answer to the whole letter, which may have arrived")
	w.forward(30 * time.Minute)
	require.NoError(t, deliver(t, s, h, w).Err(time.UTC))
	all := o.all()
	require.Len(t, all, 2, "the double that nobody can avoid")
	id := []byte("Message-ID: <a@garden.example>")
	assert.True(t, bytes.Contains(all[0].body, id) && bytes.Contains(all[1].body, id), "by which a mail program can drop it")
}

// scripted is a server that breaks the connection where it is told.
func scripted(t *testing.T, dies string) (h outbox.SMTP, letters func() int) {
	t.Helper()
	pair, roots := certificate(t)
	l, err := tls.Listen("tcp", "127.0.0.1:0", &tls.Config{Certificates: []tls.Certificate{pair}})
	require.NoError(t, err)
	t.Cleanup(func() { _ = l.Close() })
	var mu sync.Mutex
	whole := 0
	go func() {
		for {
			c, err := l.Accept()
			if err != nil {
				return
			}
			if speak(c, dies) {
				mu.Lock()
				whole++
				mu.Unlock()
			}
			_ = c.Close()
		}
	}()
	return outbox.SMTP{Server: "127.0.0.1", Port: l.Addr().(*net.TCPAddr).Port, Security: outbox.TLS, Roots: roots, Timeout: 20 * time.Second},
		func() int { mu.Lock(); defer mu.Unlock(); return whole }
}

// The server dies after its reply: the letter is theirs and is not sent again. It dies
// at an earlier point: the letter waits.
func TestSMTPDies(t *testing.T) {
	for _, c := range []struct {
		dies string
		want outbox.Result
	}{
		{"greeting", outbox.Later}, {"EHLO", outbox.Later}, {"MAIL", outbox.Later}, {"RCPT", outbox.Later}, {"DATA", outbox.Later}, {"text", outbox.Later},
		{"reply", outbox.Sent}, {"QUIT", outbox.Sent},
	} {
		t.Run(c.dies, func(t *testing.T) {
			h, letters := scripted(t, c.dies)
			l := letter("a", "ann@example.org")
			l.Body = append(l.Body, bytes.Repeat([]byte("a long letter that fills what lies between\r\n"), 200_000)...)
			out := h.Send(context.Background(), l, morning)
			assert.Equal(t, c.want, out.Result, out.Fault)
			if c.want == outbox.Sent {
				assert.Eventually(t, func() bool { return letters() == 1 }, 10*time.Second, 10*time.Millisecond)
			} else {
				assert.Zero(t, letters())
				assert.NotEmpty(t, out.Fault)
			}
		})
	}
}
