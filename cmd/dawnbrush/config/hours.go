package config

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dawnbrush/risk"
)

// noHours is the word for a day off.
const noHours = "none"

// spans reads the hours of one day: "05:30-08:00, 18:00-20:30", a list of such
// texts, or "none". They come back in the order of the clock.
func (in *reader) spans(key string, v *node) ([]risk.Span, bool) {
	texts := []*node{v}
	if v.kind == kindList && !v.header {
		texts = v.items
	}
	before := in.errors
	var out []risk.Span
	for _, t := range texts {
		if t.kind != kindText {
			in.fault(t.offset, "write "+key+` = "05:30-08:00", or "none" for a day off`, "%s must be hours in quotes, not %s", key, t.kind)
			continue
		}
		if strings.EqualFold(strings.TrimSpace(t.text), noHours) {
			continue
		}
		for one := range strings.SplitSeq(t.text, ",") {
			one = strings.TrimSpace(one)
			span, why, hint := parseSpan(one)
			if why != "" {
				in.fault(t.offset, hint, "%s: %s %s", key, said(one), why)
				continue
			}
			out = append(out, span)
		}
	}
	slices.SortFunc(out, func(a, b risk.Span) int { return int(math.Round(60 * (a.From - b.From))) })
	for i := 1; i < len(out); i++ {
		if out[i].From < out[i-1].To {
			in.fault(v.offset, "join them or part them", "%s: %s and %s overlap", key, clock(out[i-1]), clock(out[i]))
		}
	}
	return out, in.errors == before
}

var (
	spanForm = lazily(`^(\d{1,2}):(\d{2})\s*[-–]\s*(\d{1,2}):(\d{2})$`)
	halfDay  = lazily(`(?i)\d\s*[ap]\.?m`)
)

// parseSpan reads "05:30-08:00". Where it cannot, why says what is wrong.
func parseSpan(s string) (span risk.Span, why, hint string) {
	m := spanForm().FindStringSubmatch(s)
	switch {
	case m == nil && halfDay().MatchString(s):
		return span, "is not on the 24-hour clock", "write 18:00 for 6 pm: \"05:30-08:00, 18:00-20:30\""
	case m == nil:
		return span, "is not a stretch of hours", "write \"05:30-08:00\", several with commas between, or \"none\""
	}
	var n [4]int
	for i := range n {
		n[i], _ = strconv.Atoi(m[i+1]) // one or two digits cannot fail
	}
	from, to := 60*n[0]+n[1], 60*n[2]+n[3]
	const day = 24 * 60
	if n[1] > 59 || n[3] > 59 || from > day || to > day {
		return span, "is not a time of day", "hours run from 00:00 to 24:00"
	}
	switch {
	case from == to:
		return span, "has no length", "write \"none\" for a day off"
	case from > to:
		return span, "ends before it begins",
			fmt.Sprintf("turn it round, or cut it at midnight: \"%s-24:00\" here and \"00:00-%s\" on the next day", hhmm(from), hhmm(to))
	}
	return risk.Span{From: float64(from) / 60, To: float64(to) / 60}, "", ""
}

// showHours writes spans as spans reads them.
func showHours(spans []risk.Span) string {
	if len(spans) == 0 {
		return noHours
	}
	texts := make([]string, len(spans))
	for i, s := range spans {
		texts[i] = clock(s)
	}
	return strings.Join(texts, ", ")
}

func clock(s risk.Span) string {
	return hhmm(int(math.Round(60*s.From))) + "-" + hhmm(int(math.Round(60*s.To)))
}

func hhmm(minutes int) string { return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60) }
