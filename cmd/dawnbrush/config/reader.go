package config

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// reader turns nodes into values. Each of its methods reports what is wrong and
// tells by ok whether the value can be used.
type reader struct {
	*collector
	known Known
	given map[string]int  // dotted path of every key found -> offset of its value
	sound map[string]bool // the paths whose value could be used
}

// scope is what a setting reads into or shows: the file and, inside
// [[planting]], [mail] and [[mail.to]], the planting, mail and recipient in hand.
type scope struct {
	file     *File
	planting *risk.Planting
	mail     *Mail
	to       *Recipient
	path     string // "place.", "planting[0]."
}

// table reads the settings of one table in their own order and then reports the
// keys that are none of them.
func (in *reader) table(t *node, settings []setting, s scope, inner ...string) {
	keys := slices.Clone(inner)
	for _, set := range settings {
		keys = append(keys, set.key)
		m := t.find(set.key)
		if m == nil {
			if set.required {
				in.fault(t.offset, "add "+set.key+" = "+set.example+"   # "+set.explain(s), "%s is missing", set.key)
			}
			continue
		}
		in.given[s.path+set.key] = m.value.offset
		if m.value.kind == kindBroken {
			continue
		}
		before := in.errors
		set.read(in, set.key, m.value, s)
		in.sound[s.path+set.key] = in.errors == before
	}
	for _, m := range t.members {
		if !slices.Contains(keys, m.key) {
			in.unknown(m, keys)
		}
	}
}

func (in *reader) unknown(m member, keys []string) {
	hint := "the keys here are " + list(keys)
	if in.errors > mostFaults {
		hint = "" // nobody will see it, and the search takes time
	} else if near, ok := Nearest(m.key, keys); ok {
		hint = "did you mean " + near + "?"
	} else if home := homeOf(m.key); home != "" {
		hint = m.key + " belongs " + home
	}
	what := "key"
	if m.value.header {
		what = "table"
	}
	in.fault(m.offset, hint, "there is no %s %s here", what, plain(m.key))
}

// wrong reports a value of another kind than wanted.
func (in *reader) wrong(key string, v *node, want kind) {
	in.fault(v.offset, kindHint(key, v, want), "%s must be %s, not %s", key, want, v.kind)
}

func kindHint(key string, v *node, want kind) string {
	text := strings.TrimSpace(v.text)
	switch want {
	case kindText:
		if len(v.text) > 0 && len(v.text) <= longestText {
			return "write it in quotes: " + key + " = " + quote(text)
		}
		return "write " + key + ` = "like this"`
	case kindWhole, kindNumber:
		if f, err := strconv.ParseFloat(text, 64); v.kind == kindText && err == nil && !math.IsNaN(f) && !math.IsInf(f, 0) {
			return "write it without quotes: " + key + " = " + strconv.FormatFloat(f, 'f', -1, 64)
		}
		return "write a number without quotes and without a unit"
	case kindDate:
		if d, err := forecast.ParseDate(text); v.kind == kindText && err == nil {
			return "write it without quotes: " + key + " = " + d.String()
		}
		return "write year-month-day without quotes: " + key + " = 2026-05-01"
	case kindYesNo:
		return "write " + key + " = true or " + key + " = false, without quotes"
	}
	return ""
}

// text reads a name or another text for the screen.
func (in *reader) text(key string, v *node) (string, bool) {
	if v.kind != kindText {
		in.wrong(key, v, kindText)
		return "", false
	}
	if why := unfit(v.text); why != "" {
		in.fault(v.offset, textHint(v.text), "%s %s", key, why)
		return "", false
	}
	return v.text, true
}

func textHint(text string) string {
	if strings.ContainsAny(text, "\b\f\t\x1b") {
		return `write a short text on one line; a backslash is written \\`
	}
	return "write a short text on one line, or leave the key out"
}

// word reads one of a few words; case does not count.
func (in *reader) word(key string, v *node, among []string) (string, bool) {
	if v.kind != kindText {
		in.wrong(key, v, kindText)
		return "", false
	}
	for _, w := range among {
		if strings.EqualFold(w, strings.TrimSpace(v.text)) {
			return w, true
		}
	}
	in.fault(v.offset, wordHint(v.text, among), "%s cannot be %s", key, said(v.text))
	return "", false
}

// wordHint names the nearest word, or all where none is near and they are few.
func wordHint(word string, among []string) string {
	if near, ok := Nearest(word, among); ok {
		return "did you mean " + quote(near) + "?"
	}
	const few = 40
	if len(among) > few {
		among = among[:few]
	}
	return "it can be " + list(among)
}

// number reads a whole or broken number within [lo, hi].
func (in *reader) number(key string, v *node, lo, hi float64) (float64, bool) {
	if v.kind != kindWhole && v.kind != kindNumber {
		in.wrong(key, v, kindNumber)
		return 0, false
	}
	f, err := strconv.ParseFloat(strings.ReplaceAll(v.text, "_", ""), 64)
	if err != nil || math.IsNaN(f) || math.IsInf(f, 0) {
		in.fault(v.offset, "write a plain number like 40.7", "%s cannot be %s", key, plain(v.text))
		return 0, false
	}
	if f < lo || f > hi {
		in.fault(v.offset, "it lies between "+decimal(lo)+" and "+decimal(hi), "%s cannot be %s", key, plain(v.text))
		return 0, false
	}
	return f, true
}

// count reads a whole number within [lo, hi].
func (in *reader) count(key string, v *node, lo, hi int) (int, bool) {
	if v.kind == kindNumber {
		in.fault(v.offset, "write a whole number", "%s cannot be %s", key, plain(v.text))
		return 0, false
	}
	if v.kind != kindWhole {
		in.wrong(key, v, kindWhole)
		return 0, false
	}
	n, err := strconv.ParseInt(v.text, 0, 64)
	if err != nil || n < int64(lo) || n > int64(hi) {
		in.fault(v.offset, "it lies between "+strconv.Itoa(lo)+" and "+strconv.Itoa(hi), "%s cannot be %s", key, plain(v.text))
		return 0, false
	}
	return int(n), true
}

// yesNo reads true or false.
func (in *reader) yesNo(key string, v *node) (value, ok bool) {
	if v.kind != kindYesNo {
		in.wrong(key, v, kindYesNo)
		return false, false
	}
	return v.text == "true", true
}

// date reads a day of the calendar.
func (in *reader) date(key string, v *node) (forecast.Date, bool) {
	if v.kind != kindDate {
		in.wrong(key, v, kindDate)
		return forecast.Date{}, false
	}
	d, err := forecast.ParseDate(v.text)
	if err != nil {
		in.fault(v.offset, dateHint(v.text), "%s: %s is not a day of the calendar", key, plain(v.text))
		return forecast.Date{}, false
	}
	return d, true
}

// dateHint tells how long the month is, where only the day is wrong.
func dateHint(s string) string {
	first, err := time.Parse("2006-01", s[:min(len(s), len("2006-01"))])
	if err != nil || len(s) != len(time.DateOnly) {
		return "write year-month-day with two digits each: 2026-05-01"
	}
	return first.Format("January 2006") + " has " + strconv.Itoa(first.AddDate(0, 1, -1).Day()) + " days"
}
