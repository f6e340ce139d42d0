package config

import (
	"errors"
	"regexp"
	"strings"
	"sync"
	"unicode"

	"github.com/pelletier/go-toml/v2/unstable"
)

// lazily compiles a pattern that only faults need, at its first use: a run
// without faults starts sooner.
func lazily(pattern string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(pattern) })
}

// startOfLine recognises where reading can go on after a fault: a header or a
// key with its equals sign (or the colon that was typed for it).
var startOfLine = lazily(`^[ \t]*(?:\[{1,2}[ \t]*([A-Za-z0-9_-]+)|([A-Za-z0-9_-]+)[ \t]*[=:])`)

// syntaxFault reports a line that is not TOML and returns the offset where
// reading can go on. after is the end of what was understood before it.
func (b *builder) syntaxFault(err error, after int) int {
	start := b.startOfExpression(after)
	at := start
	var pe *unstable.ParserError
	if errors.As(err, &pe) {
		// The highlight shares the document's memory: its capacity runs to
		// the document's end.
		at = max(start, cap(b.doc)-cap(pe.Highlight))
	}
	text := b.lineText(start)
	key, header := "", ""
	if m := startOfLine().FindStringSubmatch(text); m != nil {
		header, key = m[1], m[2]
	}
	message, hint := inPlainWords(err.Error(), key, text)
	if neverEnds(err.Error()) {
		at = start // the end of the file says nothing about where it began
	}
	b.fault(at, hint, "%s", message)
	switch {
	case header != "":
		b.header([]part{{header, start + strings.Index(text, header)}}, many(header))
	case key != "" && b.current.find(key) == nil:
		b.current.add(key, start, &node{kind: kindBroken, offset: start})
	}
	return b.nextLine(start)
}

// startOfExpression skips blank lines, comments and the rest of the line that
// was understood.
func (b *builder) startOfExpression(after int) int {
	n := b.line(after)
	if after > b.starts[n-1] {
		rest := strings.TrimLeft(b.lineText(after)[after-b.starts[n-1]:], " \t]")
		if rest != "" && rest[0] != '#' {
			return after // something stands behind a value on the same line
		}
		n++
	}
	for ; n < len(b.starts); n++ {
		text := strings.TrimSpace(b.lineText(b.starts[n-1]))
		if text != "" && text[0] != '#' {
			break
		}
	}
	return b.starts[min(n, len(b.starts))-1]
}

// nextLine gives the offset of the first line below that begins a header or a
// key, or the end of the document.
func (b *builder) nextLine(from int) int {
	for n := b.line(from); n < len(b.starts); n++ {
		if startOfLine().MatchString(b.lineText(b.starts[n])) {
			return b.starts[n]
		}
	}
	return len(b.doc)
}

func neverEnds(message string) bool {
	return strings.Contains(message, "incomplete") || strings.Contains(message, "not terminated")
}

// inPlainWords says what the parser found in the grower's words.
func inPlainWords(parser, key, line string) (message, hint string) {
	of := "this line"
	if key != "" {
		of = key
	}
	has := func(part string) bool { return strings.Contains(parser, part) }
	switch {
	case strings.ContainsAny(line, "“”„‘’«»"):
		return of + " has typeset quotes", `use the straight ones: ` + assign(key, `"like this"`)
	case has("leading zero"):
		return "the number of " + of + " begins with a 0 too many", "leave the 0 in front away"
	case has("start of value") && valueOf(line) == "":
		return of + " has no value", "give it one, or put a # in front of the line"
	case has("expected '=' after key") && key == "":
		return "this line has no equals sign", `write one "key = value" a line; a note begins with #`
	case has("expected '=' after key"):
		return "there is no equals sign after " + of, `write one "key = value" a line; a note begins with #`
	case has("incomplete"):
		return "the list or table of " + of + " is never closed", "close it with ] or }"
	case has("not terminated"):
		return "the text of " + of + " is never closed", "close it with the same three quotes it begins with"
	case has("cannot have new lines"), has("unterminated"):
		return "the text of " + of + " has no closing quote", `write ` + assign(key, `"like this"`)
	case has("expected ']"):
		return "the square brackets of a table are not closed", "write [place] or [[planting]] on a line of its own"
	case has("array value"), has("inline table key-value"):
		return "a comma or a closing bracket is missing", `write ` + assign(key, `["05:30-08:00", "18:00-20:30"]`)
	case has("start of value"), has("keyword"), has("expected value"):
		return "the value of " + of + " is not text, a number, a date, true or false", `put text in double quotes: ` + assign(key, quotedValue(line))
	case has("escape"):
		return "the text of " + of + " holds a backslash that means nothing", `write \\ for a backslash`
	case has("expected newline"):
		return "something stands behind the value of " + of + " that does not belong there", behindHint(key, valueOf(line))
	}
	return "not understood: " + strings.Map(printable, strings.TrimPrefix(parser, "toml: ")), `write one "key = value" a line; text in double quotes`
}

// valueOf gives what stands between the equals sign and a note.
func valueOf(line string) string {
	_, value, _ := strings.Cut(line, "=")
	value, _, _ = strings.Cut(value, "#")
	return strings.TrimSpace(value)
}

var (
	commaNumber   = lazily(`^([+-]?\d+),(\d+)$`)
	numberAndUnit = lazily(`^([+-]?\d+(?:\.\d+)?)\s*(\p{L}+)$`)
	slashedDate   = lazily(`^\d{1,4}[/.]\d{1,2}[/.]\d{1,4}$`)
)

// behindHint knows the usual ways in which a value goes on too long.
func behindHint(key, value string) string {
	if m := commaNumber().FindStringSubmatch(value); m != nil {
		return "write a point for the comma: " + assign(key, m[1]+"."+m[2])
	}
	if m := numberAndUnit().FindStringSubmatch(value); m != nil {
		if u := strings.ToUpper(m[2]); (u == "W" || u == "S") && !strings.HasPrefix(m[1], "-") {
			m[1] = "-" + strings.TrimPrefix(m[1], "+")
		}
		return "write the number alone: " + assign(key, m[1])
	}
	if slashedDate().MatchString(value) {
		return "write dates as year-month-day: " + assign(key, "2026-05-01")
	}
	return "one value a line: text in double quotes, numbers like 40.7, dates like 2026-05-01"
}

// quotedValue puts the value of a line into the quotes it lacks.
func quotedValue(line string) string {
	value := valueOf(line)
	if unfit(value) != "" || strings.ContainsAny(value, `"'[]{}`) {
		return `"like this"`
	}
	return quote(value)
}

func printable(r rune) rune {
	if unicode.IsPrint(r) {
		return r
	}
	return '?'
}

func assign(key, value string) string {
	if key == "" {
		key = "key"
	}
	return key + " = " + value
}
