package outbox

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"net/textproto"
	"strconv"
	"strings"
	"time"

	"github.com/wneessen/go-mail/smtp"

	"dawnbrush/cmd/dawnbrush/store"
)

// SMTP hands letters to a mail server that takes them from its users (RFC 6409). The
// connection is always encrypted.
type SMTP struct {
	Server   string // host name, as in its certificate
	Port     int
	Security Security
	User     string // "" when the server asks for none
	Password Keep   // read at each try
	Timeout  time.Duration
	Roots    *x509.CertPool // nil for those of the machine
}

// Security says how a connection to a mail server gets encrypted.
type Security string

// The ways (RFC 8314): from the first byte on, or by a command at the beginning.
const (
	TLS      Security = "tls"
	STARTTLS Security = "starttls"
)

// Ports of mail submission.
const (
	PortTLS      = 465 // RFC 8314 section 7.3
	PortSTARTTLS = 587 // RFC 6409 section 3.1
)

// Send hands one letter over. A reply of 4xx, a connection that breaks or a server
// that cannot be reached means later, and so does what speaks of the way alone:
// certificate, encryption, user and password, sender. A reply of 5xx to recipient or
// letter means refused. When the connection breaks after the whole letter went out
// and before the reply came, the server may have taken it: it is tried again.
func (s SMTP) Send(parent context.Context, l store.Letter, _ time.Time) Outcome {
	ctx, cancel := limit(parent, s.Timeout)
	defer cancel()
	password, err := s.password()
	if err != nil {
		return blocked(hintOf(err), "%v", err)
	}
	c, o := s.open(ctx)
	if o.Result != 0 {
		return interrupted(parent, o)
	}
	defer c.Close()
	if s.User != "" {
		if o := s.signIn(c, password); o.Result != 0 {
			return interrupted(parent, o)
		}
	}
	o = s.transfer(c, l)
	if o.Result == Sent {
		_ = c.Quit() // the letter is theirs, whatever becomes of the goodbye
		return o
	}
	return interrupted(parent, o)
}

// interrupted says so where that, and not the server, ended a try.
func interrupted(ctx context.Context, o Outcome) Outcome {
	if ctx.Err() != nil && o.Result == Later {
		return later("", "interrupted on the way")
	}
	return o
}

func (s SMTP) password() (Secret, error) {
	if s.User == "" {
		return Secret{}, nil
	}
	return s.Password.Read()
}

// name is the server in messages.
func (s SMTP) name() string { return "the mail server " + s.Server }

// open connects and encrypts. The context's end closes the connection's mouth.
func (s SMTP) open(ctx context.Context) (*smtp.Client, Outcome) {
	conn, err := (&net.Dialer{}).DialContext(ctx, "tcp", net.JoinHostPort(s.Server, strconv.Itoa(s.Port)))
	if err != nil {
		return nil, blocked("is there a network? Are server and port under [mail] right?", "%s cannot be reached: %v", s.name(), dialed(err))
	}
	context.AfterFunc(ctx, func() { _ = conn.SetDeadline(time.Unix(1, 0)) })
	config := &tls.Config{ServerName: s.Server, RootCAs: s.Roots, MinVersion: tls.VersionTLS12}
	through := conn
	if s.Security == TLS {
		t := tls.Client(conn, config)
		if err := t.HandshakeContext(ctx); err != nil {
			_ = conn.Close()
			return nil, s.unsafe(err)
		}
		through = t
	}
	c, err := smtp.NewClient(through, s.Server)
	if err != nil {
		_ = conn.Close()
		return nil, s.way("does not greet", err)
	}
	c.SkipSMTPUTF8(true) // addresses are ASCII
	if err := c.Hello(addressLiteral(conn.LocalAddr())); err != nil {
		_ = c.Close()
		return nil, s.way("does not go on", err)
	}
	if s.Security == TLS {
		return c, Outcome{}
	}
	if ok, _ := c.Extension("STARTTLS"); !ok {
		_ = c.Close()
		return nil, blocked(`try security = "tls" with port 465; nothing was sent unencrypted`, "%s offers no encryption (STARTTLS)", s.name())
	}
	if err := c.StartTLS(config); err != nil {
		_ = c.Close()
		return nil, s.unsafe(err)
	}
	return c, Outcome{}
}

// addressLiteral names this machine by its address, as RFC 5321 section 4.1.4 asks of
// one without a name of its own.
func addressLiteral(a net.Addr) string {
	t, ok := a.(*net.TCPAddr)
	switch {
	case !ok:
		return "localhost"
	case t.IP.To4() != nil:
		return "[" + t.IP.To4().String() + "]"
	}
	return "[IPv6:" + t.IP.String() + "]"
}

// unsafe tells why a connection could not be encrypted.
func (s SMTP) unsafe(err error) Outcome {
	var reply *textproto.Error
	var unproved *tls.CertificateVerificationError
	switch {
	case errors.As(err, &unproved):
		return blocked("is server under [mail] the name in its certificate? Is this machine's clock right? Nothing was sent",
			"%s cannot prove that it is the one: %v", s.name(), unproved.Err)
	case errors.As(err, &reply):
		return s.way("does not encrypt", err)
	}
	return blocked(`is security under [mail] right? "tls" goes with port 465, "starttls" with 587`, "%s and this machine find no common encryption: %v", s.name(), dialed(err))
}

// way puts a letter off for something between us and the server.
func (s SMTP) way(what string, err error) Outcome {
	var reply *textproto.Error
	if errors.As(err, &reply) {
		return blocked("", "%s %s: %s", s.name(), what, replied(reply))
	}
	return blocked("", "%s %s%s", s.name(), what, with(dialed(err).Error()))
}

// signIn tells the server who sends.
func (s SMTP) signIn(c *smtp.Client, password Secret) Outcome {
	_, offered := c.Extension("AUTH")
	mechanisms := strings.Fields(strings.ToUpper(offered))
	var auth smtp.Auth
	for _, m := range mechanisms {
		switch {
		case m == "PLAIN":
			auth = smtp.PlainAuth("", s.User, password.text, s.Server, false)
		case m == "LOGIN" && auth == nil:
			auth = smtp.LoginAuth(s.User, password.text, s.Server, false)
		case m == "SCRAM-SHA-256" && auth == nil:
			auth = smtp.ScramSHA256Auth(s.User, password.text)
		}
		if m == "PLAIN" {
			break
		}
	}
	if auth == nil {
		return blocked("leave user out when it takes letters without", "%s asks for no password in a way known here%s", s.name(), with(offered))
	}
	err := c.Auth(auth)
	var reply *textproto.Error
	switch {
	case err == nil:
		return Outcome{}
	case errors.As(err, &reply) && reply.Code >= 500:
		return blocked("check user and the password's file; some services want a password made for one program", "%s does not accept user and password: %s", s.name(), replied(reply))
	}
	return s.way("cannot check the password now", err)
}

// transfer hands the letter over: sender, recipient, text.
func (s SMTP) transfer(c *smtp.Client, l store.Letter) Outcome {
	for _, a := range []string{bare(l.From), bare(l.To)} {
		if strings.ContainsAny(a, "<> \r\n") { // it would end the address of a command of SMTP
			return refused("write one plain address", "%q cannot be written to", a)
		}
	}
	if err := c.Mail("<" + bare(l.From) + ">"); err != nil {
		const hint = "set from under [mail] to an address of yours at this server; does it want user and password?"
		o := s.judge(err, "the sender "+bare(l.From), hint)
		if o.Result == Refused { // the same for every letter until it is mended
			return blocked(hint, "%s", o.Fault)
		}
		return o
	}
	if err := c.Rcpt("<" + bare(l.To) + ">"); err != nil {
		return s.judge(err, "the recipient "+bare(l.To), "mend the address under [[mail.to]]")
	}
	w, err := c.Data()
	if err != nil {
		return s.judge(err, "the letter", "")
	}
	// A letter cut short must not be ended with the dot that says it is whole, so w is
	// closed only when all of it went out.
	if _, err := w.Write(l.Body); err != nil {
		return s.way("broke off in the middle of the letter", err)
	}
	if err := w.Close(); err != nil {
		var reply *textproto.Error
		if errors.As(err, &reply) {
			return s.judge(err, "the letter", "")
		}
		return s.way("did not answer to the whole letter, which may have arrived", err)
	}
	return sent()
}

// judge tells a reply for now from one for good.
func (s SMTP) judge(err error, what, hint string) Outcome {
	var reply *textproto.Error
	switch {
	case !errors.As(err, &reply):
		return s.way("broke off", err)
	case reply.Code == 421: // it closes the connection
		return blocked("", "%s takes no letters now: %s", s.name(), replied(reply))
	case reply.Code >= 400 && reply.Code < 500:
		return later("", "%s put off %s: %s", s.name(), what, replied(reply))
	case reply.Code >= 500 && reply.Code < 600:
		return refused(hint, "%s refuses %s: %s", s.name(), what, replied(reply))
	}
	return blocked("", "%s answers out of turn to %s: %s", s.name(), what, replied(reply))
}

// dialed gives the cause of a network error without addresses.
func dialed(err error) error {
	var dns *net.DNSError
	var op *net.OpError
	switch {
	case errors.Is(err, context.DeadlineExceeded), isTimeout(err):
		return errors.New("it did not answer in time")
	case errors.As(err, &dns):
		return fmt.Errorf("the name %s is not known", dns.Name)
	case errors.As(err, &op):
		return op.Err
	}
	return err
}

func isTimeout(err error) bool {
	var t interface{ Timeout() bool }
	return errors.As(err, &t) && t.Timeout()
}

func hintOf(err error) string {
	var h interface{ Hint() string }
	if errors.As(err, &h) {
		return h.Hint()
	}
	return ""
}

// replied gives what a server answered.
func replied(e *textproto.Error) string {
	return strings.TrimSpace(strconv.Itoa(e.Code) + " " + said(e.Msg))
}
