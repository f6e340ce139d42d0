package words

import (
	"slices"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/water/et0"
)

// WaterDo names what a bed wants: "water", "feel the soil".
func (w Words) WaterDo(v ledger.Verdict) string {
	switch v {
	case ledger.Enough:
		return "no water"
	case ledger.Water:
		return "water"
	case ledger.WaitForRain:
		return "wait for rain"
	case ledger.LookFirst:
		return "feel the soil"
	}
	return ""
}

// WaterHours writes when to water, to five minutes.
func (w Words) WaterHours(a *ledger.Advice) string {
	return w.TaskHours(&risk.Task{From: a.From, To: a.To})
}

// WaterCause says why a bed wants water, or none, in a clause.
func (w Words) WaterCause(c ledger.Cause) string {
	switch c {
	case ledger.CauseDry:
		return "little of its water is left"
	case ledger.CauseHot:
		return "a day that dries fast"
	case ledger.CauseFlower:
		return "want of water shows in the fruit now"
	case ledger.CauseSmall:
		return "a pot holds little"
	case ledger.CauseSoilless:
		return "nothing stores water there: give what the day takes"
	case ledger.CauseRainCame:
		return "rain came"
	case ledger.CauseGiven:
		return "it was watered"
	case ledger.CauseRainAhead:
		return "rain is likely"
	case ledger.CauseYoung:
		return "the roots are short yet"
	case ledger.CauseUneven:
		return "its water swung widely this week"
	}
	return ""
}

// waterCauses lists the reasons, n at most, that of what is left apart where the
// sentence says it in full.
func (w Words) waterCauses(a *ledger.Advice, n int, but ...ledger.Cause) []string {
	var out []string
	for _, c := range a.Causes {
		s := w.WaterCause(c)
		if p, ok := a.Chance.Get(); ok && c == ledger.CauseRainAhead {
			s += " (" + w.Percent(p) + ")"
		}
		if s != "" && !slices.Contains(but, c) && len(out) < n {
			out = append(out, s)
		}
	}
	return out
}

// lateGo is the hour from which the second of a day's two waterings is the next
// morning's. [chosen: late in the afternoon]
const lateGo = 16

// WaterManner says in what way to give it: "30 cm deep"; "in two goes, early and in
// the late afternoon". That water goes to the foot of plants is told among the cautions.
func (w Words) WaterManner(b *risk.Bed, d *ledger.Day) string {
	a := &d.Advice
	small := b.Kind == risk.Pots || d.Flux.Wanted >= d.RAW // even full it would not last the day
	var parts []string
	switch {
	case small && a.Times > 1 && !a.From.IsZero() && a.From.In(w.location()).Hour() >= lateGo:
		parts = append(parts, "half now, half early tomorrow")
	case small && a.Times > 1:
		parts = append(parts, "in two goes, early and in the late afternoon")
	case b.Kind == risk.Pots:
		parts = append(parts, "until it runs out below")
	case a.Times > 1:
		parts = append(parts, "in two goes an hour apart")
	}
	if a.NoLeaves && b.Watering == risk.Sprinkler {
		parts = append(parts, "not from above, for open flowers would get wet")
	}
	if a.Depth > 0 && b.Kind != risk.Pots {
		parts = append(parts, w.Deep(a.Depth)+" deep")
	}
	if p, ok := a.Chance.Get(); ok && a.Less > 0 {
		parts = append(parts, "less by the rain that is likely ("+w.Percent(p)+")")
	}
	switch span := a.To.Sub(a.From); {
	case a.From.IsZero():
		parts = append(parts, noHours)
	case a.Run > span:
		parts = append(parts, "longer than your hours last")
	}
	return strings.Join(parts, ", ")
}

// WaterWhy says why a bed wants what it wants: what is left, at most n causes, how
// sure.
func (w Words) WaterWhy(b *ledger.Bed, d *ledger.Day, n int) string {
	a := &d.Advice
	var parts []string
	if !b.NoStore {
		parts = append(parts, w.Left(d.Left))
	}
	parts = append(parts, w.waterCauses(a, n, ledger.CauseDry)...)
	if a.Days == 0 {
		parts = append(parts, "without it they go short today")
	}
	if sure := w.WaterSure(b, d); sure != "" {
		parts = append(parts, sure)
	}
	return strings.Join(parts, "; ")
}

// noHours says that no hour of work suits for water.
const noHours = "your hours of work hold none more that suit: at the next cool hour you can, best before mid-morning"

// WaterBrief says of one of several beds how much, in what way and what is left.
func (w Words) WaterBrief(b *ledger.Bed, d *ledger.Day) string {
	if d.Advice.Verdict == ledger.LookFirst {
		return w.WaterLook(b, d)
	}
	s := w.Dose(b.Bed, &d.Advice)
	if manner := strings.TrimSuffix(strings.TrimSuffix(w.WaterManner(b.Bed, d), noHours), ", "); manner != "" { // WaterWhyAll says it of all
		s += ", " + manner
	}
	if !b.NoStore {
		s += "; " + strings.Replace(w.Left(d.Left), " of its water", "", 1)
	}
	return s
}

// WaterWhyAll says once what holds for several beds: the causes of all, that they go
// short, the least of their sureness.
func (w Words) WaterWhyAll(v ledger.Verdict, b *ledger.Bed, days []*ledger.Day) string {
	if v != ledger.Water || len(days) == 0 {
		return ""
	}
	all := func(ok func(a *ledger.Advice) bool) bool {
		return !slices.ContainsFunc(days, func(d *ledger.Day) bool { return !ok(&d.Advice) })
	}
	var parts []string
	if all(func(a *ledger.Advice) bool { return a.From.IsZero() }) {
		parts = append(parts, noHours)
	}
	for _, c := range days[0].Advice.Causes {
		if c != ledger.CauseDry && all(func(a *ledger.Advice) bool { return slices.Contains(a.Causes, c) }) {
			parts = append(parts, w.WaterCause(c))
		}
	}
	if all(func(a *ledger.Advice) bool { return a.Days == 0 }) {
		parts = append(parts, "without it they go short today")
	}
	least := slices.MinFunc(days, func(a, b *ledger.Day) int { return int(a.Advice.Sure) - int(b.Advice.Sure) })
	return strings.Join(append(parts, w.WaterSure(b, least)), "; ")
}

// WaterOrder says in one sentence how much, in what way and why, with at most n causes.
func (w Words) WaterOrder(b *ledger.Bed, d *ledger.Day, n int) string {
	s := w.Dose(b.Bed, &d.Advice)
	if manner := w.WaterManner(b.Bed, d); manner != "" {
		s += ", " + manner
	}
	return s + "; " + w.WaterWhy(b, d, n)
}

// WaterSure says how sure an advice is, and what would settle it.
func (w Words) WaterSure(b *ledger.Bed, d *ledger.Day) string {
	a := &d.Advice
	s := ""
	switch a.Sure {
	case risk.VerySure:
		s = "sure"
	case risk.Likely:
		s = "likely"
		if b.Cover != "" {
			s += ", by a share of outdoor evaporation"
		}
	default:
		s = "not sure"
		if why := w.WaterDoubt(b, d); why != "" {
			s += ": " + why
		}
	}
	return s + w.gauge(a)
}

// gauge says where a reading would settle the doubt.
func (w Words) gauge(a *ledger.Advice) string {
	if !a.Gauge {
		return ""
	}
	return "; a reading of the rain gauge would settle it"
}

// WaterDoubt says what makes a day of the account uncertain, "" for nothing.
func (w Words) WaterDoubt(b *ledger.Bed, d *ledger.Day) string {
	switch {
	case b.Start == ledger.StartUnknown && d.Left.Hi-d.Left.Lo > wideLeft && !b.Season.Noted:
		return "how wet the soil was at first is not known, and no watering is noted"
	case b.Start == ledger.StartUnknown && d.Left.Hi-d.Left.Lo > wideLeft:
		return "how wet the soil was at first is not known"
	case b.Cover != "" && d.Left.Hi-d.Left.Lo > wideLeft:
		return "what evaporates in there is a share of what does outdoors, and papers differ on it"
	case d.Gap:
		return "the weather of days before is not known"
	case d.By == ledger.RainForecast:
		return "forecast rain, not measured"
	case d.By == ledger.RainUnknown:
		return "whether rain fell is not known"
	case d.Way == et0.ByTemperature:
		return "humidity, wind or sun are not known"
	case d.By == ledger.RainAhead && d.Advice.Verdict == ledger.WaitForRain:
		return "it hangs on the rain"
	}
	return ""
}

// WaterRain says what hangs on rain to come, on the day itself or on the one after:
// "rain 75 %; if it does not come, a quarter of its water is left that evening: water
// then".
func (w Words) WaterRain(d *ledger.Day) string {
	a := &d.Advice
	s, then := "rain is likely", "that evening"
	if p, ok := a.Chance.Get(); ok {
		s = "rain " + w.Percent(p)
	}
	if day := RainDay(d); day != d.Date {
		s, then = s+" on "+w.ShortDay(day), "on that evening"
	}
	return s + "; if it does not come, " + w.Fraction(a.IfDry) + " of its water is left " + then + ": water then"
}

// RainDay gives the day whose rain an advice waits for: its own, or the one after.
func RainDay(d *ledger.Day) forecast.Date {
	if p, ok := d.Advice.Chance.Get(); ok && d.Chance.Or(p) != p {
		return d.Date.AddDays(1)
	}
	return d.Date
}

// allCauses is more than an advice has.
const allCauses = 99

// WaterText says an advice in one sentence without the bed's name: how much, in what
// way, and all that is known of why.
func (w Words) WaterText(b *ledger.Bed, d *ledger.Day) string {
	a := &d.Advice
	switch a.Verdict {
	case ledger.Water:
		return w.WaterOrder(b, d, allCauses)
	case ledger.WaitForRain:
		return w.WaterRain(d)
	case ledger.LookFirst:
		return w.WaterLook(b, d)
	case ledger.Enough:
		return strings.Join(w.waterCauses(a, 1), "; ")
	}
	return ""
}

// WaterLook says what to feel for and what to do then: "a finger 10 cm down: if it is
// dry there, give 14 L".
func (w Words) WaterLook(b *ledger.Bed, d *ledger.Day) string {
	a := &d.Advice
	where := "dig a finger in"
	if a.Depth > 0 {
		where = "feel " + w.Deep(a.Depth) + " down"
	}
	s := where + ": moist, leave it; dry"
	if a.Litres > 0 {
		s += ", give " + w.Dose(b.Bed, a)
	} else {
		s += ", water it"
	}
	if why := w.WaterDoubt(b, d); why != "" {
		s += "; " + why
	}
	return s + w.gauge(a)
}

// NoteHint says how an account learns what was given.
func (w Words) NoteHint() string {
	amount := "20 L"
	if w.us() {
		amount = "5 gal"
	}
	return "note what you give (`dawnbrush note water " + amount + " BED`) and what the gauge reads, and the account can tell"
}

// WaterLine says a watering on one line: when, what, where, how much, how sure.
func (w Words) WaterLine(b *ledger.Bed, d *ledger.Day) string {
	a := &d.Advice
	s := w.WaterDo(a.Verdict) + " " + w.Bed(b)
	if hours := w.WaterHours(a); hours != "" {
		s = hours + "  " + s
	}
	if a.Verdict != ledger.Water {
		return s + ": " + w.WaterText(b, d)
	}
	s += ": " + w.Dose(b.Bed, a)
	if !b.NoStore {
		s += ", " + w.Left(d.Left)
	}
	return s + ", " + w.WaterSure(b, d)
}

// WaterCell gives the words for a bed on a day of the week's table: how much and how
// long, "rain?" to wait, "feel" to look, "-" for nothing, Unknown for no verdict.
func (w Words) WaterCell(b *ledger.Bed, d *ledger.Day) []string {
	a := &d.Advice
	switch a.Verdict {
	case ledger.Water:
		return w.DoseShort(b.Bed, a)
	case ledger.WaitForRain:
		return []string{"wait"}
	case ledger.LookFirst:
		return []string{"feel"}
	case ledger.Enough:
		return []string{"-"}
	}
	return []string{Unknown}
}

// WaterCells explains the words of the week's table that stand in it.
func (w Words) WaterCells(used func(ledger.Verdict) bool) string {
	var parts []string
	for _, c := range []struct {
		verdict ledger.Verdict
		text    string
	}{{ledger.Water, "how much for the whole bed, and how long or how many cans"}, {ledger.WaitForRain, "wait: rain is likely"},
		{ledger.LookFirst, "feel: the account cannot tell, feel the soil"}, {ledger.Enough, "-: no water"}} {
		if used(c.verdict) {
			parts = append(parts, c.text)
		}
	}
	return strings.Join(parts, "; ")
}
