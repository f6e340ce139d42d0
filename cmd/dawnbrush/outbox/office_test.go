package outbox_test

import (
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"io"
	"net"
	"net/http/httptest"
	"sync"
	"testing"
	"time"

	"github.com/emersion/go-sasl"
	"github.com/emersion/go-smtp"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/outbox"
)

// office is a mail server in process, which is another's work.
type office struct {
	mu       sync.Mutex
	taken    []envelope
	rcpt     func(to string) error // what it thinks of a recipient; nil takes all
	from     func(from string) error
	data     func(c *smtp.Conn) error // what it does after it has the whole letter
	password string
}

type envelope struct {
	from, to string
	body     []byte
}

func (o *office) all() []envelope {
	o.mu.Lock()
	defer o.mu.Unlock()
	return append([]envelope{}, o.taken...)
}

// counter is one connection to the office.
type counter struct {
	o      *office
	c      *smtp.Conn
	signed bool
	e      envelope
}

func (s *counter) AuthMechanisms() []string { return []string{sasl.Plain} }

func (s *counter) Auth(string) (sasl.Server, error) {
	return sasl.NewPlainServer(func(_, user, password string) error {
		if user != "grower" || password != s.o.password {
			return smtp.ErrAuthFailed
		}
		s.signed = true
		return nil
	}), nil
}

func (s *counter) Mail(from string, _ *smtp.MailOptions) error {
	if _, encrypted := s.c.TLSConnectionState(); !encrypted || s.o.password != "" && !s.signed {
		return smtp.ErrAuthRequired
	}
	s.e = envelope{from: from}
	if s.o.from != nil {
		return s.o.from(from)
	}
	return nil
}

func (s *counter) Rcpt(to string, _ *smtp.RcptOptions) error {
	s.e.to = to
	if s.o.rcpt != nil {
		return s.o.rcpt(to)
	}
	return nil
}

func (s *counter) Data(r io.Reader) (err error) {
	if s.e.body, err = io.ReadAll(r); err != nil {
		return err
	}
	if s.o.data != nil {
		if err := s.o.data(s.c); err != nil {
			return err
		}
	}
	s.o.mu.Lock()
	defer s.o.mu.Unlock()
	s.o.taken = append(s.o.taken, s.e)
	return nil
}

func (s *counter) Reset()        {}
func (s *counter) Logout() error { return nil }

// certificate gives a certificate for 127.0.0.1 and the pool that trusts it.
func certificate(t testing.TB) (pair tls.Certificate, roots *x509.CertPool) {
	t.Helper()
	pair, roots, _ = certificatePEM(t)
	return pair, roots
}

func certificatePEM(t testing.TB) (tls.Certificate, *x509.CertPool, []byte) {
	t.Helper()
	s := httptest.NewTLSServer(nil)
	defer s.Close()
	pool := x509.NewCertPool()
	pool.AddCert(s.Certificate())
	return s.TLS.Certificates[0], pool, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: s.Certificate().Raw})
}

// start opens the office and gives a hook for it.
func (o *office) start(t testing.TB, security outbox.Security) outbox.SMTP {
	t.Helper()
	h, _ := o.startPEM(t, security)
	return h
}

// startPEM gives the certificate too, for another process.
func (o *office) startPEM(t testing.TB, security outbox.Security) (outbox.SMTP, []byte) {
	t.Helper()
	pair, roots, text := certificatePEM(t)
	server := smtp.NewServer(smtp.BackendFunc(func(c *smtp.Conn) (smtp.Session, error) { return &counter{o: o, c: c}, nil }))
	server.Domain, server.ErrorLog = "mail.example.org", quiet{}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	port := l.Addr().(*net.TCPAddr).Port
	config := &tls.Config{Certificates: []tls.Certificate{pair}}
	if security == outbox.TLS {
		l = tls.NewListener(l, config)
	} else {
		server.TLSConfig = config
	}
	go func() { _ = server.Serve(l) }() // ends with Close
	t.Cleanup(func() { _ = server.Close() })
	return outbox.SMTP{Server: "127.0.0.1", Port: port, Security: security, Roots: roots, Timeout: 20 * time.Second}, text
}

type quiet struct{}

func (quiet) Printf(string, ...any) {}
func (quiet) Println(...any)        {}
