package config

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestText bounds a name: it has to fit into a subject line.
// [chosen: RFC 5322 asks for lines of at most 78 characters]
const longestText = 78

// unfit tells what is wrong with a text that may end in a mail header or on a
// terminal; empty when nothing is.
func unfit(s string) string { return unfitWithin(s, longestText) }

// unfitWithin is unfit for a text that may be longer or must be shorter.
func unfitWithin(s string, most int) string {
	if i := strings.IndexFunc(s, hidden); i >= 0 {
		r, _ := utf8.DecodeRuneInString(s[i:])
		return fmt.Sprintf("holds a line break or a character that cannot be seen (%U)", r)
	}
	if s != strings.TrimSpace(s) {
		return "begins or ends with a space"
	}
	if s == "" {
		return "is empty"
	}
	if n := utf8.RuneCountInString(s); n > most {
		return fmt.Sprintf("is %d characters long, the most is %d", n, most)
	}
	return ""
}

// hidden tells control characters, line and paragraph separators, blanks of no
// width and the marks that turn the direction of writing around.
func hidden(r rune) bool {
	const blanks = "\u200b\u2060\ufeff\ufffd"
	return unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp, unicode.Bidi_Control) || strings.ContainsRune(blanks, r)
}

var bareKey = lazily(`^[A-Za-z0-9_.+:-]{1,40}$`)

// plain makes a word of the file fit for a message: bare keys as they are,
// anything else quoted, escaped and cut short.
func plain(s string) string {
	if bareKey().MatchString(s) {
		return s
	}
	return said(s)
}

// said quotes what the file says, escaped and cut short.
func said(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "..."
	}
	return strconv.Quote(s)
}

// list writes "a, b or c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
