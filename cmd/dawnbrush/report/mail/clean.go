package mail

import (
	"fmt"
	"hash/fnv"
	"strings"
	"unicode"

	"github.com/mattn/go-runewidth"
)

// clean makes one line of a name, whatever is in it: no line break, no character that
// cannot be seen, none that turns the direction of writing around, blanks single.
func clean(s string) string { return strings.Join(strings.Fields(visible(s, false)), " ") }

// cleanLines does it for a text of several lines, whose blanks stay.
func cleanLines(s string) string { return visible(s, true) }

func visible(s string, lines bool) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' && lines:
			return r
		case r == unicode.ReplacementChar, unicode.Is(unicode.Bidi_Control, r):
			return -1
		case unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp):
			return ' '
		case r == '\u200b', r == '\u2060', r == '\ufeff':
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
}

// short cuts a name for a header field to a number of columns; letters that belong
// together stay so. What a mail program would take for encoded letters is parted.
// [RFC 2047 section 2: they begin with =?]
func short(s string, columns int) string {
	c := runewidth.Condition{}
	return c.Truncate(strings.ReplaceAll(clean(s), "=?", "= ?"), columns, "...")
}

func ascii(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return r > unicode.MaxASCII }) < 0
}

// label makes a garden's name a part of a domain name: letters, digits and hyphens.
func label(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	const most = 40 // [chosen: a part of a domain name holds 63]
	if out := strings.Trim(b.String()[:min(b.Len(), most)], "-"); out != "" && ascii(name) {
		return out
	}
	h := fnv.New32a() // letters were lost: two gardens must not become one
	h.Write([]byte(name))
	return fmt.Sprintf("garden-%08x", h.Sum32())
}
