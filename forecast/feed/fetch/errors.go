package fetch

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"path"
	"strings"
	"time"
)

// ContactError says that no contact is set. Weather services ask for one so
// that they can write before they block.
type ContactError struct{ Contact string }

func (e *ContactError) Error() string {
	if e.Contact == "" {
		return "no contact is set, and weather services ask every program for one"
	}
	return fmt.Sprintf("%q cannot be sent as a contact", e.Contact)
}

// Hint gives the remedy.
func (e *ContactError) Hint() string {
	return "set the contact to your e-mail address or web page; it is sent to the weather service and to nobody else"
}

// StatusError is an answer other than success.
type StatusError struct {
	Status     int
	Host       string
	Type       string        // last part of the problem's type, such as InvalidPoint; "" when there is none
	Title      string        // the problem's own words, "" when the body was something else
	Detail     string        // the same, longer
	RetryAfter time.Duration // 0 when the service did not say
	Body       []byte        // the beginning of what came, for services that write errors in a form of their own
	again      bool          // a 304 that nothing stored answers to
}

func (e *StatusError) Error() string {
	s := fmt.Sprintf("%s answered %d %s", e.Host, e.Status, strings.ToLower(http.StatusText(e.Status)))
	switch {
	case e.Detail != "":
		s += ": " + strings.TrimSuffix(e.Detail, ".")
	case e.Title != "":
		s += ": " + strings.ToLower(strings.TrimSuffix(e.Title, "."))
	}
	if e.RetryAfter > 0 {
		s += fmt.Sprintf(" (it asks to wait %s)", e.RetryAfter)
	}
	return s
}

// Temporary tells whether asking again later may help.
func (e *StatusError) Temporary() bool {
	return e.again || e.Status == http.StatusTooManyRequests || e.Status == http.StatusRequestTimeout || e.Status >= 500
}

// Gone tells whether the service knows no such document.
func (e *StatusError) Gone() bool {
	return e.Status == http.StatusNotFound || e.Status == http.StatusGone
}

// Hint gives the remedy.
func (e *StatusError) Hint() string {
	switch {
	case e.Status == http.StatusForbidden || e.Status == http.StatusUnauthorized:
		return "the service refuses this program: check the contact that is set"
	case e.Status == http.StatusTooManyRequests:
		return "the service was asked too often: run the program less often, and not on the full hour"
	case e.Temporary():
		return "the service has a fault of its own: try again later"
	}
	return "the service does not know this document"
}

// NetworkError is a failure to reach the service or to read its answer.
type NetworkError struct {
	Host string
	Err  error
}

func (e *NetworkError) Error() string {
	return fmt.Sprintf("cannot reach %s: %v", e.Host, cause(e.Err))
}

// cause gives what is at the bottom of a failure of the network, without the address
// and the steps that led there.
func cause(err error) error {
	var address *url.Error
	if !errors.As(err, &address) {
		return err
	}
	var dns *net.DNSError
	var op *net.OpError
	switch {
	case errors.As(err, &dns):
		return errors.New(dns.Err)
	case errors.As(err, &op):
		return op.Err
	}
	return address.Err
}

// Unwrap gives the cause.
func (e *NetworkError) Unwrap() error { return e.Err }

// Temporary is true: the network may come back.
func (e *NetworkError) Temporary() bool { return true }

// Hint gives the remedy.
func (e *NetworkError) Hint() string { return "check the network connection, or try again later" }

// BodyError is an answer of success whose body was refused.
type BodyError struct {
	Host string
	Err  error
}

func (e *BodyError) Error() string { return fmt.Sprintf("%s sent a bad document: %v", e.Host, e.Err) }

// Unwrap gives the cause.
func (e *BodyError) Unwrap() error { return e.Err }

// Temporary tells whether the document may be better next time.
func (e *BodyError) Temporary() bool {
	var p *permanent
	return !errors.As(e.Err, &p)
}

// Hint gives the remedy.
func (e *BodyError) Hint() string { return "try again later" }

// permanent marks an error that another try cannot mend.
type permanent struct{ error }

func (p *permanent) Unwrap() error { return p.error }

// Permanent marks an error of Validate that another try cannot mend. A nil
// error stays nil.
func Permanent(err error) error {
	if err == nil {
		return nil
	}
	return &permanent{err}
}

// problem is a problem document. [RFC 9457 section 3.1]
type problem struct {
	Type   string `json:"type"`
	Title  string `json:"title"`
	Detail string `json:"detail"`
}

// name gives the last part of the type's address.
func (p problem) name() string {
	if p.Type == "" {
		return ""
	}
	return path.Base(p.Type)
}
