package mail

import (
	"slices"
	"sort"
	"strings"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/table"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// Columns of names in header fields.
const (
	subjectName  = 32 // [chosen: a phone's list shows about forty]
	subjectEntry = 48 // [chosen: what is done, and such a name]
	senderName   = 60 // [chosen: one word of that length still fits a line of 78]
)

// dated is a task with its day.
type dated struct {
	*risk.Task
	day forecast.Date
}

// Subject says the one or two actions that are worth most, in order of the hour:
// "Mon 20 July: hand-pollinate melons 07:00-08:00 and watermelons 07:00-08:00". Its
// shape never changes, so that a mail program can sort by it.
func Subject(d *document.Document, kind Kind) string {
	w := d.Words()
	head, plans := w.Day(d.Plans[0].Date), d.Plans[:1]
	if kind == Weekly {
		head, plans = w.Days(d.Plans[0].Date, d.Plans[len(d.Plans)-1].Date), d.Plans
	}
	best := mostWorth(plans)
	if kind == Daily && len(best) == 0 && d.Work() {
		parts, _ := table.TodayParts(d) // an error leaves the head alone
		return clean(head + ": " + firstEntries(parts))
	}
	if len(best) == 0 {
		nothing := ": nothing to do"
		if kind == Weekly { // of beds and water the letter itself tells
			nothing = ": no work among the flowers"
		}
		if !d.Complete() {
			nothing += ", as far as is known"
		}
		return clean(head + nothing)
	}
	say := func(t dated) string {
		s := short(t.Planting.Name, subjectName)
		if kind == Weekly {
			s += " " + w.ShortDay(t.day)
		}
		if hours := w.TaskHours(t.Task); hours != "" {
			s += " " + hours
		}
		return s
	}
	out := head + ": " + w.DoFor(best[0].Task) + " " + say(best[0])
	if len(best) > 1 {
		second := w.DoFor(best[1].Task)
		if second == w.DoFor(best[0].Task) {
			return clean(out + " and " + say(best[1]))
		}
		out += "; " + second + " " + say(best[1])
	}
	return clean(out)
}

// firstEntries says the first two pieces of work of a report, for a day whose work is
// not among flowers.
func firstEntries(parts []table.Part) string {
	var out []string
	for i := range parts {
		if p := &parts[i]; p.Kind == table.Entry && len(out) < 2 {
			out = append(out, short(p.Text, subjectEntry)+strings.TrimRight(" "+p.Lead, " "))
		}
	}
	return strings.Join(out, "; ")
}

// mostWorth picks the two tasks worth most, each of another planting, in order of the
// hour.
func mostWorth(plans []risk.DayPlan) []dated {
	var all, out []dated
	for i := range plans {
		for k := range plans[i].Tasks {
			if t := &plans[i].Tasks[k]; t.Kind.Work() {
				all = append(all, dated{t, plans[i].Date})
			}
		}
	}
	order := slices.Clone(all)
	sort.SliceStable(order, func(i, j int) bool { return order[i].Value() > order[j].Value() })
	for i := range order {
		if len(out) < 2 && !slices.ContainsFunc(out, func(t dated) bool { return t.Planting == order[i].Planting }) {
			out = append(out, order[i])
		}
	}
	at := func(t dated) int { return slices.IndexFunc(all, func(x dated) bool { return x.Task == t.Task }) }
	slices.SortFunc(out, func(a, b dated) int { return at(a) - at(b) })
	return out
}
