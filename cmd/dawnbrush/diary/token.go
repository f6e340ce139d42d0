package diary

import (
	"strconv"
	"strings"
	"unicode"

	"dawnbrush/forecast"
)

// token is one argument of a note. An argument that holds a blank was quoted: it
// is a name or a text and never a number.
type token struct {
	raw    string // as typed, without blanks around
	low    string // lower case, without a comma or stop at its end
	quoted bool
	locked bool // part of a name: neither number nor noun
	used   bool
}

// tokens splits a line into arguments. A line given as one argument is taken
// apart at its blanks.
func tokens(words []string) []token {
	if len(words) == 1 {
		words = strings.Fields(words[0])
	}
	var out []token
	for _, w := range words {
		raw := strings.Join(strings.Fields(w), " ")
		if raw == "" {
			continue
		}
		low := strings.ToLower(raw)
		if short := strings.TrimRight(low, ",;:."); short != "" {
			low = short
		}
		out = append(out, token{raw: raw, low: low, quoted: strings.IndexFunc(w, unicode.IsSpace) >= 0})
	}
	return out
}

// number is a number with the unit that hung on it: "2.5kg".
type number struct {
	value  float64
	suffix string
	fault  string // why it cannot be read
}

// numeral reads a word that begins like a number. ok is false for any other word,
// such as "10-10-10".
func numeral(low string) (n number, ok bool) {
	body := strings.TrimLeft(low, "+-")
	sign := low[:len(low)-len(body)]
	end := strings.IndexFunc(body, func(r rune) bool { return !strings.ContainsRune("0123456789.,/", r) })
	if end < 0 {
		end = len(body)
	}
	figures, suffix := body[:end], body[end:]
	if strings.IndexFunc(figures, unicode.IsDigit) < 0 || len(sign) > 1 {
		return n, false
	}
	if suffix != `"` && strings.IndexFunc(suffix, func(r rune) bool { return !unicode.IsLetter(r) }) >= 0 {
		return n, false
	}
	n.suffix = suffix
	n.value, n.fault = value(figures)
	if sign == "-" && n.fault == "" {
		n.fault = "a number cannot be negative"
	}
	return n, true
}

// value reads figures: 12, 2.5, 2,5 or 1/2. A comma before three figures may mean
// a thousand or a decimal, and is refused.
func value(figures string) (v float64, fault string) {
	over, under, fraction := strings.Cut(figures, "/")
	if fraction {
		a, fault1 := value(over)
		b, fault2 := value(under)
		if fault1 != "" || fault2 != "" || b == 0 {
			return 0, strconv.Quote(figures) + " is not a number"
		}
		return a / b, ""
	}
	whole, part, comma := strings.Cut(figures, ",")
	switch {
	case comma && len(part) == 3 && whole != "" && !strings.ContainsAny(part, ".,"):
		return 0, strconv.Quote(figures) + " can be read two ways; write it without the comma"
	case comma:
		figures = whole + "." + part
	}
	v, err := strconv.ParseFloat(figures, 64)
	if err != nil { // also a number too large to hold
		return 0, strconv.Quote(figures) + " is not a number"
	}
	return v, ""
}

// digits writes a number exactly, without an exponent.
func digits(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// pieces takes a name apart into lower-case words of letters and figures.
func pieces(s string) []string {
	return strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) })
}

// DayNamed reads a day: 2026-07-12, today or yesterday.
func DayNamed(word string, today forecast.Date) (forecast.Date, error) {
	switch strings.ToLower(word) {
	case "today":
		return today, nil
	case "yesterday":
		return today.AddDays(-1), nil
	}
	d, err := forecast.ParseDate(word)
	if err != nil {
		return d, refuse("write it as "+today.String()+", today or yesterday", "%v", err)
	}
	return d, nil
}
