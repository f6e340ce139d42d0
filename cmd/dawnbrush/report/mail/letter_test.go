package mail_test

import (
	"bytes"
	"encoding/base64"
	"image/png"
	"io"
	"mime"
	"mime/multipart"
	"mime/quotedprintable"
	netmail "net/mail"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/mail"
	"dawnbrush/cmd/dawnbrush/report/picture"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/risk"
)

const (
	sender = "grower@cottonwood-bend.example"
	friend = "Ada Ünver <ada@friends.example>"
)

func envelope(t rapid.TB, d *document.Document, kind mail.Kind) mail.Envelope {
	id, err := mail.ID(d.Garden.Name, kind, d.Plans[0].Date, sender, friend)
	require.NoError(t, err)
	return mail.Envelope{Kind: kind, From: sender, To: friend, ID: id, Date: d.Now.In(d.Zone()), Unsubscribe: "mailto:" + sender + "?subject=no%20more"}
}

func made(t rapid.TB, d *document.Document, kind mail.Kind) *mail.Letter {
	l, err := mail.Make(d, envelope(t, d, kind))
	require.NoError(t, err)
	return l
}

// leaf is a part that holds content.
type leaf struct {
	kind    string
	header  map[string][]string
	content []byte
}

// opened reads a message with the standard library, down to its leaves.
func opened(t rapid.TB, body []byte) (netmail.Header, []string, []leaf) {
	m, err := netmail.ReadMessage(bytes.NewReader(body))
	require.NoError(t, err)
	var tree []string
	var leaves []leaf
	var walk func(header map[string][]string, r io.Reader)
	walk = func(header map[string][]string, r io.Reader) {
		first := func(key string) string { return strings.Join(header[key], "") }
		kind, params, err := mime.ParseMediaType(first("Content-Type"))
		require.NoError(t, err)
		tree = append(tree, kind)
		if strings.HasPrefix(kind, "multipart/") {
			parts := multipart.NewReader(r, params["boundary"])
			for {
				p, err := parts.NextRawPart()
				if err == io.EOF {
					return
				}
				require.NoError(t, err)
				walk(p.Header, p)
			}
		}
		switch first("Content-Transfer-Encoding") {
		case "quoted-printable":
			r = quotedprintable.NewReader(r)
		case "base64":
			r = base64.NewDecoder(base64.StdEncoding, r)
		default:
			t.Fatalf("%s is encoded as %q", kind, first("Content-Transfer-Encoding"))
		}
		content, err := io.ReadAll(r)
		require.NoError(t, err)
		leaves = append(leaves, leaf{kind, header, content})
	}
	walk(m.Header, m.Body)
	return m.Header, tree, leaves
}

// wellFormed holds what RFC 5322 sections 2.1.1, 2.2.3 and 2.3 ask of every line: CRLF,
// ASCII, no NUL, at most 78 characters where a line can be folded and 998 in any case.
func wellFormed(t rapid.TB, body []byte) {
	for line := range bytes.SplitAfterSeq(body, []byte("\r\n")) {
		text := bytes.TrimSuffix(line, []byte("\r\n"))
		assert.LessOrEqual(t, len(text), 78, "%s", text)
		assert.False(t, bytes.ContainsAny(text, "\r\n\x00"), "%q", text)
		assert.Equal(t, -1, bytes.IndexFunc(text, func(r rune) bool { return r > 126 || r < ' ' && r != '\t' }), "%q", text)
	}
}

// A message opens with what was put into it: text first, then the page with its
// pictures (RFC 2046 section 5.1.4: the last alternative is the best one).
func TestLetterOpens(t *testing.T) {
	for _, kind := range []mail.Kind{mail.Daily, mail.Weekly} {
		d := reporttest.Fixed(t, risk.Metric)
		l := made(t, d, kind)
		wellFormed(t, l.Body)
		header, tree, leaves := opened(t, l.Body)
		assert.Equal(t, []string{"multipart/related", "multipart/alternative", "text/plain", "text/html", "image/png", "image/png"}, tree)

		text, err := mail.Plain(d, kind)
		require.NoError(t, err)
		assert.Equal(t, text, strings.ReplaceAll(string(leaves[0].content), "\r\n", "\n"))
		for _, l := range leaves[:2] {
			_, params, err := mime.ParseMediaType(l.header["Content-Type"][0])
			require.NoError(t, err)
			assert.Equal(t, "UTF-8", params["charset"])
		}
		page := string(leaves[1].content)
		for i, name := range []string{"light.", "dark."} {
			img, err := png.Decode(bytes.NewReader(leaves[2+i].content))
			require.NoError(t, err)
			assert.Equal(t, picture.Width, img.Bounds().Dx())
			assert.Equal(t, "<"+name+l.ID+">", leaves[2+i].header["Content-Id"][0])
			assert.Contains(t, page, `src="cid:`+name+l.ID+`"`)
			assert.True(t, strings.HasPrefix(leaves[2+i].header["Content-Disposition"][0], "inline"))
		}
		assert.Contains(t, page, "The week hour by hour")

		date, err := header.Date()
		require.NoError(t, err)
		assert.True(t, date.Equal(d.Now))
		assert.Equal(t, "<"+l.ID+">", header.Get("Message-Id"))
		assert.Equal(t, "auto-generated", header.Get("Auto-Submitted"))
		assert.Equal(t, "<cottonwood-bend.dawnbrush.cottonwood-bend.example>", header.Get("List-Id"))
		assert.Equal(t, "<mailto:grower@cottonwood-bend.example?subject=no%20more>", header.Get("List-Unsubscribe"))
		from, err := header.AddressList("From")
		require.NoError(t, err)
		assert.Equal(t, []*netmail.Address{{Name: "Cottonwood Bend", Address: sender}}, from)
		to, err := header.AddressList("To")
		require.NoError(t, err)
		assert.Equal(t, []*netmail.Address{{Name: "Ada Ünver", Address: "ada@friends.example"}}, to)
		assert.Equal(t, mail.Letter{ID: l.ID, To: "ada@friends.example", From: sender, Kind: string(kind), Day: reporttest.Today, Body: l.Body}, *l)
	}
}

// The same message has the same bytes; another recipient, kind or day has another name.
func TestLetterIsTheSameTwice(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	assert.True(t, bytes.Equal(made(t, d, mail.Daily).Body, made(t, d, mail.Daily).Body))
	seen := map[string]bool{}
	for _, garden := range []string{"a", "b"} {
		for _, kind := range []mail.Kind{mail.Daily, mail.Weekly} {
			for day := range 2 {
				for _, to := range []string{"a@x.example", "b@x.example"} {
					id, err := mail.ID(garden, kind, reporttest.Today.AddDays(day), sender, to)
					require.NoError(t, err)
					assert.False(t, seen[id])
					seen[id] = true
					again, err := mail.ID(garden, kind, reporttest.Today.AddDays(day), sender, "Somebody <"+strings.ToUpper(to)+">")
					require.NoError(t, err)
					assert.Equal(t, id, again)
					once := mail.Again(id, reporttest.Today.At(5, reporttest.Zone(t)))
					assert.NotEqual(t, id, once)
					assert.Equal(t, id[strings.Index(id, "@"):], once[strings.Index(once, "@"):])
				}
			}
		}
	}
}

// strictly opens a message with Python's email package, whose strict policy raises on
// any defect, and reads every part.
const strictly = `
import sys, email, email.policy
m = email.message_from_binary_file(sys.stdin.buffer, policy=email.policy.strict)
assert not m.defects, m.defects
for name, value in m.items():
    assert not value.defects, (name, value.defects)
for part in m.walk():
    assert not part.defects, part.defects
    if not part.is_multipart():
        part.get_content()
assert m.get_body(('plain',)) is not None and m.get_body(('related', 'html')) is not None
print(m['subject'])
`

// A second reader, of another make, finds no defect.
func TestPythonFindsNoDefect(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("python3 is not here: the second reader did not look at the message")
	}
	for _, name := range []string{"Cottonwood Bend", "Überm Bach, \"Süd\" <x@y>", "庭 🥒 חצר", strings.Repeat("long", 19), "a\r\nBcc: x@example.org"} {
		d := reporttest.Fixed(t, risk.US)
		d.Garden.Name, d.Garden.Plantings[0].Name = name, name
		l := made(t, d, mail.Daily)
		c := exec.Command(python, "-c", strictly)
		c.Stdin = bytes.NewReader(l.Body)
		out, err := c.CombinedOutput()
		require.NoError(t, err, "%s", out)
		assert.Equal(t, mail.Subject(d, mail.Daily), strings.TrimSpace(string(out)))
	}
}

// fields are all the header fields that a message has.
var fields = []string{"Auto-Submitted", "Content-Type", "Date", "From", "List-Id", "List-Unsubscribe", "Message-Id", "Mime-Version", "Subject", "To"}

// No name in a garden, whatever is in it, makes a header field, a line that is too
// long, or a character that cannot be seen.
func TestNoNameBreaksTheMessage(test *testing.T) {
	pieces := rapid.SampledFrom([]string{"\r\n", "\n", "\r", "\x00", "\x1b[31m", "Bcc: x@example.org", "\r\n\r\n<script>", "🥒", "👩‍🌾", "חצר", "\u202e", "\u2028", "\u200b", "\ufeff",
		"beans", " ", "\t", "=?utf-8?q?x?=", "\"", "\\", "<b>", "&amp;", "{{.}}", "\xff\xfe", "é", strings.Repeat("w", 400), strings.Repeat("ü", 90), ",", ";", ":", "(", ")"})
	rapid.Check(test, func(t *rapid.T) {
		name := func(label string) string { return strings.Join(rapid.SliceOfN(pieces, 1, 6).Draw(t, label), "") }
		d := reporttest.Fixed(test, risk.Metric)
		d.Plans[0].Day.Plantings[0].Hours = nil // no picture: it holds no names and takes its time
		d.Plans[0].Day.Plantings[0].BestHour = -1
		d.Garden.Name = name("garden")
		d.Garden.Plantings[0].Name, d.Garden.Plantings[1].Bed = name("planting"), name("bed")
		kind := rapid.SampledFrom([]mail.Kind{mail.Daily, mail.Weekly}).Draw(t, "kind")
		l := made(t, d, kind)
		wellFormed(t, l.Body)
		header, tree, leaves := opened(t, l.Body)
		var got []string
		for field, values := range header {
			got = append(got, field)
			if len(values) != 1 {
				t.Fatalf("%s stands %d times", field, len(values))
			}
		}
		slices.Sort(got)
		if !slices.Equal(got, fields) {
			t.Fatalf("header fields %q", got)
		}
		if !slices.Equal(tree, []string{"multipart/alternative", "text/plain", "text/html"}) {
			t.Fatalf("parts %q", tree)
		}
		for _, l := range leaves {
			if i := bytes.IndexFunc(l.content, func(r rune) bool {
				return r < ' ' && r != '\n' && r != '\r' || r == '\u202e' || r == '\ufffd' || r == '\u200b'
			}); i >= 0 {
				t.Fatalf("%s holds %q", l.kind, l.content[max(0, i-10):i+4])
			}
		}
		if page := string(leaves[1].content); strings.Contains(page, "<script") {
			t.Fatal("a name became a script")
		}
		subject, err := new(mime.WordDecoder).DecodeHeader(header.Get("Subject"))
		if err != nil || strings.ContainsAny(subject, "\r\n\x00") || subject != mail.Subject(d, kind) {
			t.Fatalf("subject %q, %v", subject, err)
		}
	})
}

// Addresses that would add a header or that no plain server takes are refused with a
// word about it.
func TestAddressesAreRefused(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	for _, bad := range []string{"", "x", "a@b.example\r\nBcc: c@d.example", "A\r\nBcc: c@d.example <a@b.example>", "a@b.example, c@d.example", "müller@example.org", "\u202ea@b.example"} {
		var of *mail.AddressError
		e := envelope(t, d, mail.Daily)
		e.To = bad
		_, err := mail.Make(d, e)
		require.ErrorAs(t, err, &of, "%q", bad)
		assert.NotContains(t, err.Error(), "\n")
		assert.NotEmpty(t, of.Hint())
		_, err = mail.ID("g", mail.Daily, reporttest.Today, bad, "a@b.example")
		require.ErrorAs(t, err, &of)
	}
	for _, bad := range []string{"http://example.org/", "javascript:x", "mailto:x", "https://example.org/\r\nBcc: a@b.example", "mailto:a@b.example>, <c"} {
		e := envelope(t, d, mail.Daily)
		e.Unsubscribe = bad
		_, err := mail.Make(d, e)
		assert.Error(t, err, "%q", bad)
	}
	e := envelope(t, d, mail.Daily)
	e.Unsubscribe = "https://example.org/leave?who=1"
	l, err := mail.Make(d, e)
	require.NoError(t, err)
	header, _, _ := opened(t, l.Body)
	assert.Equal(t, "List-Unsubscribe=One-Click", header.Get("List-Unsubscribe-Post")) // RFC 8058 section 3.1
	_, err = mail.Make(&document.Document{}, e)
	assert.Error(t, err)
}

// An address to write back to is written as the examples of RFC 6068 section 6 (from
// memory): the
// percent sign, the question mark and the ampersand of a local part are escaped.
func TestWriteBack(t *testing.T) {
	for to, want := range map[string]string{
		"Ada <ada+x@example.org>":      "mailto:ada+x@example.org?subject=stop%20my-garden",
		"gorby%kremvax@example.com":    "mailto:gorby%25kremvax@example.com?subject=stop%20my-garden",
		"unlikely?address@example.com": "mailto:unlikely%3Faddress@example.com?subject=stop%20my-garden",
		"Mike&family@example.org":      "mailto:Mike%26family@example.org?subject=stop%20my-garden",
	} {
		got, err := mail.WriteBack(to, "My Garden")
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
}
