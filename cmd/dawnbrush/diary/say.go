package diary

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// Words writes an entry as the words that Parse makes the same entry of, in
// metric units and with every digit. A name or text that could be taken for
// something else ends in a blank, which marks it as quoted.
func Words(e *memory.Entry) []string {
	s := specOf(e.Kind)
	if s == nil {
		return nil
	}
	return (&sayer{s, e, digits, risk.Metric, true}).words()
}

// Say writes an entry for people, as it could be typed, in a system of units and
// rounded to what a garden can tell.
func Say(e *memory.Entry, u risk.Units) string {
	s := specOf(e.Kind)
	if s == nil {
		return string(e.Kind)
	}
	if e.Removed {
		return strings.TrimSpace(string(e.Kind) + " taken back " + e.Planting)
	}
	return Line((&sayer{s, e, rounded, u, false}).words())
}

// Line joins words as a shell would want them typed.
func Line(words []string) string {
	var out []string
	for _, w := range words {
		if w == "" || strings.ContainsFunc(w, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("\"'$`\\&;()<>|*?![]{}#~", r) }) {
			w = `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, `$`, `\$`, "`", "\\`").Replace(w) + `"`
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

// rounded keeps two decimals, and three significant figures of what is smaller.
func rounded(v float64) string {
	if v != 0 && math.Abs(v) < 1 {
		p := math.Pow(10, 2-math.Floor(math.Log10(math.Abs(v))))
		return digits(math.Round(v*p) / p)
	}
	return digits(math.Round(v*100) / 100)
}

type sayer struct {
	spec  *spec
	e     *memory.Entry
	write func(float64) string
	units risk.Units
	exact bool
}

func (y *sayer) words() []string {
	out := []string{string(y.spec.Kind)}
	for _, t := range []string{y.e.Product, y.e.Text} {
		if t != "" {
			out = append(out, y.text(t))
		}
	}
	for i := range y.spec.slots {
		out = append(out, y.number(&y.spec.slots[i])...)
	}
	if y.e.Kind == memory.Water && y.e.Minutes.IsKnown() {
		out = append(out, "drip")
	}
	for _, c := range y.spec.choices {
		if c.is(y.e) {
			out = append(out, strings.Fields(c.phrases[0])...)
		}
	}
	if !y.e.FlowersOn.IsZero() {
		out = append(out, "of", y.e.FlowersOn.String())
	}
	switch {
	case y.e.Planting != "":
		out = append(out, y.name(y.e.Planting))
	case y.spec.where == somewhere && y.exact:
		out = append(out, wholeGarden[0])
	case y.spec.where == somewhere:
		out = append(out, strings.Fields(wholeGarden[0])...)
	}
	return out
}

// number says one number with its word.
func (y *sayer) number(x *slot) []string {
	v, ok := x.of(y.e).Get()
	if !ok {
		return nil
	}
	var out []string
	if x.lead != "" {
		out = append(out, x.lead)
	}
	unit := x.words[0].text
	switch {
	case v == 1 && len(x.words) > 1 && x.words[1].factor == 1 && x.words[0].text == x.words[1].text+"s":
		unit = x.words[1].text // 1 day
	case y.units == risk.US && x.us.text != "":
		v, unit = v/x.us.factor, x.us.text
	case unit == "l":
		unit = "L"
	}
	if !x.plain {
		return append(out, y.write(v), unit)
	}
	return append(out, y.write(v))
}

// text says a text so that it is always taken for one.
func (y *sayer) text(t string) string {
	if y.exact && !strings.Contains(t, " ") {
		return t + " "
	}
	return t
}

// name says a planting's name.
func (y *sayer) name(n string) string {
	if y.exact && !strings.Contains(n, " ") && (y.spec.taken(strings.ToLower(n)) || strings.TrimRight(n, ",;:.") != n) {
		return n + " "
	}
	return n
}

// taken tells whether one word may mean something else in the form.
func (s *spec) taken(low string) bool {
	_, err := forecast.ParseDate(low)
	return s.knows(low) || isNumeral(low) || err == nil || low == "yesterday" || slices.Contains(wholeGarden, low)
}

// named writes a day that is looked for in a calendar: "Sun 2026-07-19".
func named(d forecast.Date) string { return d.Weekday().String()[:3] + " " + d.String() }

// Caution is what to mind with an entry; empty for most.
func Caution(e *memory.Entry) string {
	if e.Kind != memory.Spray || e.Removed {
		return ""
	}
	out := "the label and local rules come first; never spray open flowers or while bees fly"
	if days, ok := e.Interval.Get(); ok && days > 0 {
		out += "; by the days you gave nothing is picked before " + named(e.Date.AddDays(int(days)))
	}
	return out
}
