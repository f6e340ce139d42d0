// Package mail makes the digest: one message that a mail program shows as plain text
// or as a page, with the picture of the week in it. The message is whole and needs
// nothing from elsewhere; who sends it takes its bytes.
package mail

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"regexp"
	"strings"
	"time"

	gomail "github.com/wneessen/go-mail"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/picture"
	"dawnbrush/forecast"
)

// Kind says how often a digest comes.
type Kind string

// The kinds.
const (
	Daily  Kind = "daily"
	Weekly Kind = "weekly"
)

// Letter is a finished message to one recipient.
type Letter struct {
	ID       string // the Message-ID, without its angle brackets
	To, From string // addresses without names
	Kind     string
	Day      forecast.Date // the garden's day that it tells of first
	Body     []byte        // the whole message, RFC 5322, lines ending in CRLF
}

// Envelope is what the outside of a message says.
type Envelope struct {
	Kind        Kind
	From, To    string // "grower@example.org" or "A Name <grower@example.org>"
	ID          string // the Message-ID without its angle brackets; see ID
	Date        time.Time
	Unsubscribe string // a mailto: or https: address for whom it goes to others; "" for none
}

// ID makes a Message-ID that is the same for the same garden, kind, recipient and day,
// so that a message made twice is known as one. from and to are addresses as in
// Envelope.
func ID(garden string, kind Kind, day forecast.Date, from, to string) (string, error) {
	sender, err := address(from)
	if err != nil {
		return "", err
	}
	recipient, err := address(to)
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256([]byte(strings.Join([]string{garden, string(kind), day.String(), strings.ToLower(sender), strings.ToLower(recipient)}, "\x00")))
	return fmt.Sprintf("%s.%s.%x@%s", day, kind, sum[:8], domain(sender)), nil
}

// AddressError is an address that no message can go to or come from.
type AddressError struct{ Address, Why string }

func (e *AddressError) Error() string {
	return fmt.Sprintf("the mail address %q %s", e.Address, e.Why)
}

// Hint says what to write.
func (e *AddressError) Hint() string {
	return "write it as grower@example.org or \"A Name <grower@example.org>\""
}

// address gives the bare address of one with or without a name.
func address(s string) (string, error) {
	if s != clean(s) {
		return "", &AddressError{s, "holds a line break or a character that cannot be seen"}
	}
	m := gomail.NewMsg()
	if err := m.To(s); err != nil {
		return "", &AddressError{s, "is not understood"}
	}
	bare := m.GetTo()[0].Address
	if strings.IndexFunc(bare, func(r rune) bool { return r <= ' ' || r > '~' }) >= 0 {
		return "", &AddressError{s, "holds other characters than plain letters, digits and marks"}
	}
	return bare, nil
}

func domain(bare string) string { return strings.ToLower(bare[strings.LastIndexByte(bare, '@')+1:]) }

// Make writes the message that tells a document to one recipient. The document's
// units and language of dates are the recipient's. The same arguments give the same
// bytes. Errors: *AddressError, a document without a day, and none that a garden's
// names can bring about.
func Make(d *document.Document, e Envelope) (*Letter, error) {
	if len(d.Plans) == 0 {
		return nil, fmt.Errorf("there is no day to write of")
	}
	from, err := address(e.From)
	if err != nil {
		return nil, err
	}
	to, err := address(e.To)
	if err != nil {
		return nil, err
	}
	m := gomail.NewMsg(gomail.WithNoDefaultUserAgent(), gomail.WithEncoding(gomail.EncodingQP), gomail.WithCharset(gomail.CharsetUTF8))
	if err := head(m, d, e, from); err != nil {
		return nil, err
	}
	if err := body(m, d, e); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if _, err := m.WriteTo(&out); err != nil {
		return nil, fmt.Errorf("cannot put the message together: %w", err)
	}
	return &Letter{ID: e.ID, To: to, From: from, Kind: string(e.Kind), Day: d.Plans[0].Date, Body: bounded(out.Bytes(), e.ID)}, nil
}

// head fills the header fields.
func head(m *gomail.Msg, d *document.Document, e Envelope, from string) error {
	if err := m.From(e.From); err != nil {
		return err
	}
	if sender := m.GetFrom()[0]; sender.Name == "" {
		sender.Name = short(d.Garden.Name, senderName) // a phone's list of messages shows it
	}
	if err := m.To(e.To); err != nil {
		return err
	}
	m.SetMessageIDWithValue(e.ID)
	m.SetDateWithValue(e.Date)
	m.Subject(Subject(d, e.Kind))
	m.SetGenHeader("Auto-Submitted", "auto-generated") // RFC 3834 section 5: no answer from programs that are away
	m.SetGenHeader("List-Id", "<"+label(d.Garden.Name)+".dawnbrush."+domain(from)+">")
	if e.Unsubscribe != "" {
		return unsubscribe(m, e.Unsubscribe)
	}
	return nil
}

// unsubscribe says how to have no more of it: RFC 2369, and RFC 8058 where a web
// address takes it in one step.
func unsubscribe(m *gomail.Msg, uri string) error {
	switch plain := uri == clean(uri) && !strings.ContainsAny(uri, " <>,\"") && ascii(uri); {
	case plain && strings.HasPrefix(uri, "mailto:") && strings.Contains(uri, "@"):
	case plain && strings.HasPrefix(uri, "https://"):
		m.SetGenHeader(gomail.HeaderListUnsubscribePost, "List-Unsubscribe=One-Click")
	default:
		return &AddressError{uri, "cannot take word from who wants no more of it; it must begin with mailto: or https:"}
	}
	m.SetGenHeader(gomail.HeaderListUnsubscribe, "<"+uri+">")
	return nil
}

// body adds the text first, then the page and its pictures.
func body(m *gomail.Msg, d *document.Document, e Envelope) error {
	text, err := Plain(d, e.Kind)
	if err != nil {
		return err
	}
	m.SetBodyString(gomail.TypeTextPlain, text)
	week := picture.Of(d)
	ids := map[picture.Palette]string{picture.Light: "light." + e.ID, picture.Dark: "dark." + e.ID}
	var shown *Picture
	if week != nil {
		shown = &Picture{Alt: clean(week.Alt()), Width: picture.Width, Height: week.Height(), Light: "cid:" + ids[picture.Light], Dark: "cid:" + ids[picture.Dark]}
	}
	page, err := HTML(d, e.Kind, shown)
	if err != nil {
		return err
	}
	m.AddAlternativeString(gomail.TypeTextHTML, page)
	if week == nil {
		return nil
	}
	for _, p := range []picture.Palette{picture.Light, picture.Dark} {
		b, err := week.PNG(p)
		if err != nil {
			return err
		}
		name := map[picture.Palette]string{picture.Light: "week.png", picture.Dark: "week-dark.png"}[p]
		if err := m.EmbedReader(name, bytes.NewReader(b), gomail.WithFileContentType("image/png"), gomail.WithFileContentID("<"+ids[p]+">")); err != nil {
			return fmt.Errorf("cannot put the picture into the message: %w", err)
		}
	}
	return nil
}

var boundary = regexp.MustCompile(`(?m)^ boundary=([0-9a-f]{60})\r?$`)

// bounded finishes a message: it gives the parts' boundaries, which the library draws by lot, names that
// follow from the message's, so that the same message has the same bytes.
func bounded(message []byte, id string) []byte {
	for i, m := range boundary.FindAllSubmatch(message, -1) {
		sum := sha256.Sum256(fmt.Appendf(nil, "%s\x00%d", id, i))
		message = bytes.ReplaceAll(message, m[1], fmt.Appendf(nil, "%x", sum[:30]))
	}
	// RFC 2387 section 3.1 asks for the type of the root, which the library leaves out.
	return bytes.Replace(message, []byte("Content-Type: multipart/related;\r\n"), []byte("Content-Type: multipart/related; type=\"multipart/alternative\";\r\n"), 1)
}

// Differ tells whether two addresses are not the same, whatever names stand before
// them.
func Differ(a, b string) (bool, error) {
	x, err := address(a)
	if err != nil {
		return false, err
	}
	y, err := address(b)
	return !strings.EqualFold(x, y), err
}

// WriteBack gives a mailto: address at which a garden's digest can be stopped, for
// Envelope.Unsubscribe; the subject tells of which garden. [RFC 6068 section 2]
func WriteBack(to, garden string) (string, error) {
	bare, err := address(to)
	var escaped strings.Builder
	for _, c := range []byte(bare) {
		if c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte("-._~@+!$'*", c) >= 0 {
			escaped.WriteByte(c)
			continue
		}
		fmt.Fprintf(&escaped, "%%%02X", c)
	}
	return "mailto:" + escaped.String() + "?subject=stop%20" + label(garden), err
}

// Again gives another Message-ID for a message that is sent once more at a time.
func Again(id string, at time.Time) string {
	local, domain, _ := strings.Cut(id, "@")
	return fmt.Sprintf("%s.%d@%s", local, at.Unix(), domain)
}
