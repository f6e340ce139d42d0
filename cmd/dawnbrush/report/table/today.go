package table

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

// today is the report of one day while it is written.
type today struct {
	*paper
	words.Words
	d      *document.Document
	plan   *risk.DayPlan
	hinted bool // how to turn a guess into a count was told
}

// Today prints the plan of the first day: what to do in order of the hour, what
// to leave, why, the hours, what is not known, what to mind.
func Today(w io.Writer, d *document.Document) error {
	if len(d.Plans) == 0 {
		return fmt.Errorf("there is no day to report on")
	}
	t := today{newPaper(d.Columns(), d.Colour), d.Words(), d, &d.Plans[0], false}
	t.header()
	t.do()
	t.leave()
	t.why()
	t.strips()
	t.how()
	t.unknown()
	t.mind()
	t.second(t.Words, t.d)
	t.credits(t.d)
	return t.to(w)
}

// demoLine stands under the heading of a demonstration.
const demoLine = "Garden, weather and clock of this demonstration are invented."

// header says where, when, from what and how the day is.
func (t *today) header() {
	head := t.d.Garden.Name + " - " + t.Day(t.plan.Date)
	t.line(t.paint(head, color.Bold))
	t.para("", "Forecast "+provenance(t.Words, t.d)+".")
	if t.d.Demo {
		t.para("", demoLine)
	}
	if day := t.plan.Day; day != nil {
		t.para("", t.weather(day)+".")
	}
}

// provenance says "issued 04:20, 35 min old, from ...".
func provenance(w words.Words, d *document.Document) string {
	f := &d.Forecast
	var parts []string
	if !f.Issued.IsZero() {
		at := w.Clock(f.Issued)
		if d.Now.Sub(f.Issued).Hours() >= 20 || w.Moment(f.Issued)[:6] != w.Moment(d.Now)[:6] {
			at = w.Moment(f.Issued)
		}
		parts = append(parts, "issued "+at)
	}
	if age, ok := f.Age(d.Now); ok {
		parts = append(parts, w.Age(age)+" old")
	} else {
		parts = append(parts, "of unknown age")
	}
	if f.Stale {
		parts = append(parts, "STALE")
	}
	if f.Source != "" {
		parts = append(parts, "from "+f.Source)
	}
	if f.Instead != "" {
		parts = append(parts, "in place of "+f.Instead+", which could not be had")
	}
	return strings.Join(parts, ", ")
}

// weather says the day in one line.
func (t *today) weather(day *risk.Day) string {
	w := &day.Weather
	parts := []string{"High " + t.Degrees(w.Max) + " " + t.TempUnit(), "low " + t.Degrees(w.Min) + " " + t.TempUnit()}
	rain := "rain " + t.PercentNumber(w.RainProb) + " %"
	if !w.RainProb.IsKnown() {
		rain = "chance of rain not known"
	} else if !w.RainFrom.IsZero() {
		rain += " from " + t.Clock(w.RainFrom)
	}
	if mm, ok := w.Rain.Get(); ok && mm >= 0.05 {
		rain += ", " + t.Depth(mm)
	}
	parts = append(parts, rain)
	if v, ok := w.Wind.Get(); ok {
		parts = append(parts, "wind up to "+t.Wind(v)+" before noon")
	} else {
		parts = append(parts, "wind not known")
	}
	if out := words.MorningOut(t.d.Garden, day); out != "" {
		parts = append(parts, "bees out "+out+" h to noon")
	}
	if !day.Sunrise.IsZero() {
		parts = append(parts, "sun "+t.Hours(day.Sunrise, day.Sunset))
	}
	return strings.Join(parts, ", ")
}

// do lists the work in order of the hour.
func (t *today) do() {
	t.heading("Do")
	work := t.d.DayWork(t.plan)
	switch {
	case len(t.d.Garden.Plantings) == 0:
		t.hanging("  ", 2, words.NothingPlanted)
	case len(work) == 0:
		t.line("  nothing today")
	}
	for _, x := range work {
		if x.Task == nil {
			t.water(x.Beds)
			continue
		}
		t.task(x.Task)
	}
	if n := len(t.plan.More); n > 0 {
		var names []string
		for i := range t.plan.More {
			names = append(names, t.DoFor(&t.plan.More[i])+" "+t.plan.More[i].Planting.Name)
		}
		t.para("  if time is left: ", strings.Join(names, ", "))
	}
}

// Columns of the list of work.
const (
	whenWidth = 13 // "  06:30-08:30" and a gap
	doWidth   = 16
	doIndent  = 15
)

func (t *today) task(k *risk.Task) {
	lead := t.pad("  "+t.TaskHours(k), whenWidth+2) + t.paint(t.pad(t.DoFor(k), doWidth-1), color.Bold) + " "
	t.line(lead + t.Where(k.Planting))
	how := t.amount(k)
	indent := strings.Repeat(" ", doIndent)
	if len(how) > 0 {
		t.para(indent, how)
	}
	if reason := t.reason(k); reason != "" {
		t.para(indent, reason)
	}
}

// amount says how many flowers, how long, in what manner. How a guess becomes a
// count is told once.
func (t *today) amount(k *risk.Task) string {
	flowers, minutes := t.Flowers(k), t.Minutes(k)
	if k.Kind == risk.LookFirst {
		flowers, minutes = "", "" // the count itself says both
	}
	if flowers != "" && words.Guessed(k) && !t.hinted {
		flowers, t.hinted = strings.Replace(flowers, "a guess", words.CountHint, 1), true
	}
	var parts []string
	for _, s := range []string{flowers, minutes, t.Manner(k)} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, ", ")
}

// reason says worth, gain, why and how sure in one paragraph.
func (t *today) reason(k *risk.Task) string {
	var parts []string
	worth, gain := t.Worth(k), t.Gain(k)
	switch {
	case worth != "" && gain != "":
		parts = append(parts, worth+": "+gain)
	case worth+gain != "":
		parts = append(parts, worth+gain)
	}
	if why := t.Why(k); why != "" {
		parts = append(parts, why)
	}
	if sure := t.Sure(k); sure != "" {
		parts = append(parts, sure)
	}
	return strings.Join(parts, "; ")
}

// leave lists what needs no work, a line each.
func (t *today) leave() {
	lines := 0
	for i := range t.plan.Rest {
		if lines++; lines == 1 {
			t.heading("Leave")
		}
		k := &t.plan.Rest[i]
		lead := t.pad("  "+t.DoFor(k), 21)
		t.hanging(lead, 4, t.Where(k.Planting)+": "+t.reason(k))
	}
	lines = t.noWater(lines)
	if t.plan.Day == nil {
		return
	}
	for i := range t.plan.Day.Plantings {
		p := &t.plan.Day.Plantings[i]
		if p.Planting == nil || t.mentioned(p.Planting) {
			continue
		}
		if lines++; lines == 1 {
			t.heading("Leave")
		}
		t.idle(p)
	}
}

// idle says why a planting has no task: it does not flower, or nobody told when.
func (t *today) idle(p *risk.PlantingDay) {
	label, text := "no work now", t.Bloom(p.Bloom)
	if p.Bloom == risk.NoBloom {
		label, text = "not in flower", ""
	}
	if p.BloomBasis != "" {
		text = strings.TrimPrefix(text+"; "+p.BloomBasis, "; ")
	}
	t.hanging(t.pad("  "+label, 21), 4, strings.TrimSuffix(t.Where(p.Planting)+": "+text, ": "))
}

func (t *today) mentioned(p *risk.Planting) bool {
	for _, list := range [][]risk.Task{t.plan.Tasks, t.plan.Rest, t.plan.More} {
		for i := range list {
			if list[i].Planting == p || slices.Contains(list[i].Also, p) {
				return true
			}
		}
	}
	return false
}

// how tells once per crop of the day's work how it is done.
func (t *today) how() {
	var texts []string
	crops := map[string][]string{}
	for i := range t.plan.Tasks {
		k := &t.plan.Tasks[i]
		switch k.Kind {
		case risk.HandPollinate, risk.LookFirst:
		default:
			continue // its own line says how
		}
		text, name := t.How(k.Planting.Crop), k.Planting.Crop.Name
		if text == "" || slices.Contains(crops[text], name) {
			continue
		}
		if crops[text] == nil {
			texts = append(texts, text)
		}
		crops[text] = append(crops[text], name)
	}
	for i, text := range texts {
		if i == 0 {
			t.heading("How")
		}
		t.hanging("  ", 4, strings.Join(crops[text], ", ")+": "+text)
	}
}

// unknown says what is missing.
func (t *today) unknown() {
	lines := notKnown(t.Words, t.d)
	if len(lines) == 0 {
		return
	}
	t.heading("Not known")
	for _, l := range lines {
		t.hanging("  ", 4, l)
	}
}

// notKnown says what is stale or missing, and what is to be known of the data.
func notKnown(w words.Words, d *document.Document) []string {
	var lines []string
	if d.Forecast.Stale {
		s := "the forecast is old"
		if d.Forecast.Why != "" {
			s += ": " + d.Forecast.Why
		}
		lines = append(lines, s)
	}
	for _, g := range d.Gaps() {
		if len(g.Plantings) > 0 {
			lines = append(lines, w.Day(g.Date)+", "+words.List(g.Plantings)+": "+w.Layers(g.Layers)+" not known while the flowers are open")
		}
		if len(g.Beds) > 0 {
			lines = append(lines, w.Day(g.Date)+", water of "+words.List(g.Beds)+": "+w.Layers(g.Layers)+" not known in hours to come")
		}
	}
	if names := d.PlantsUntold(); len(names) > 0 {
		lines = append(lines, "how many plants of "+words.List(names)+": one is reckoned, so work may win more than is told")
	}
	return append(lines, d.Notes...)
}

// mind prints the cautions that apply to the day's work.
func (t *today) mind() {
	lines := cautions(t.plan, t.d.Assessment, len(t.d.Waterings(t.plan.Date)) > 0)
	if len(lines) == 0 {
		return
	}
	t.heading("Mind")
	for _, c := range lines {
		t.hanging("  ", 4, t.Caution(c))
		if said := t.WorkHeat(&t.plan.Heat); c == words.MindHeat && said != "" {
			t.hanging("    ", 4, said)
		}
	}
}
