package words

import (
	"slices"
	"strings"

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
		return "in flower or fruit: want of water shows in the fruit now"
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

// mostWaterCauses is how many reasons a watering tells beside what is left.
// [chosen: a third line convinces nobody]
const mostWaterCauses = 2

// causes lists the reasons, those left out that the sentence says in another way.
func (w Words) waterCauses(a *ledger.Advice, but ...ledger.Cause) []string {
	var out []string
	for _, c := range a.Causes {
		if s := w.WaterCause(c); s != "" && !slices.Contains(but, c) && len(out) < mostWaterCauses {
			out = append(out, s)
		}
	}
	return out
}

// WaterManner says in what way to give it: "at the foot, 12 in deep"; "in two goes,
// early and in the late afternoon".
func (w Words) WaterManner(b *risk.Bed, a *ledger.Advice) string {
	var parts []string
	switch {
	case b.Kind == risk.Pots && a.Times > 1:
		parts = append(parts, "in two goes, early and in the late afternoon, until it runs out below")
	case b.Kind == risk.Pots:
		parts = append(parts, "until it runs out below")
	case a.Times > 1:
		parts = append(parts, "in two goes an hour apart, for the soil does not take it at once")
	}
	switch {
	case a.NoLeaves && b.Watering == risk.Sprinkler:
		parts = append(parts, "not from above: open flowers would get wet; at the foot")
	case a.NoLeaves:
		parts = append(parts, "at the foot, off open flowers")
	case b.Watering != risk.Drip && b.Watering != risk.Soaker && b.Kind != risk.Pots:
		parts = append(parts, "at the foot")
	}
	if a.Depth > 0 && b.Kind != risk.Pots {
		parts = append(parts, "it should reach "+w.Deep(a.Depth)+" down")
	}
	return strings.Join(parts, ", ")
}

// WaterWhy says why a bed wants what it wants: what is left, the causes, how sure.
func (w Words) WaterWhy(b *ledger.Bed, d *ledger.Day) string {
	a := &d.Advice
	var parts []string
	if !slices.Contains(a.Causes, ledger.CauseSoilless) {
		parts = append(parts, w.Left(d.Left))
	}
	parts = append(parts, w.waterCauses(a, ledger.CauseDry)...)
	if a.Days == 0 && d.Stress.Mid >= 1 {
		parts = append(parts, "without it they go short today")
	}
	if sure := w.WaterSure(b, d); sure != "" {
		parts = append(parts, sure)
	}
	return strings.Join(parts, "; ")
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
	default:
		s = "not sure"
		if why := w.WaterDoubt(b, d); why != "" {
			s += ": " + why
		}
	}
	if a.Gauge {
		s += "; a reading of the rain gauge would settle it"
	}
	return s
}

// WaterDoubt says what makes a day of the account uncertain, "" for nothing.
func (w Words) WaterDoubt(b *ledger.Bed, d *ledger.Day) string {
	switch {
	case b.Start == ledger.StartUnknown && d.Left.Hi-d.Left.Lo > wideLeft && !b.Season.Noted:
		return "how wet the soil was at first is not known, and no watering is noted"
	case b.Start == ledger.StartUnknown && d.Left.Hi-d.Left.Lo > wideLeft:
		return "how wet the soil was at first is not known"
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

// WaterRain says what hangs on rain to come: "rain 75 %; if it does not come, a
// quarter of its water is left tonight: water then".
func (w Words) WaterRain(d *ledger.Day) string {
	a := &d.Advice
	s := "rain is likely"
	if p, ok := a.Chance.Get(); ok {
		s = "rain " + w.Percent(p)
	}
	s += "; if it does not come, " + w.Fraction(a.IfDry) + " of its water is left tonight: "
	if a.Days <= 0 {
		return s + "water then"
	}
	return s + "water the next morning"
}

// WaterText says an advice in one sentence without the bed's name: how much, in what
// way, why.
func (w Words) WaterText(b *ledger.Bed, d *ledger.Day) string {
	a := &d.Advice
	switch a.Verdict {
	case ledger.Water:
		return w.Dose(b.Bed, a) + ", " + strings.TrimPrefix(strings.Join([]string{w.WaterManner(b.Bed, a), w.WaterWhy(b, d)}, "; "), "; ")
	case ledger.WaitForRain:
		return w.WaterRain(d)
	case ledger.LookFirst:
		return w.WaterLook(b, d)
	case ledger.Enough:
		return strings.Join(w.waterCauses(a), "; ")
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
	return s
}

// NoteHint says how an account learns what was given.
const NoteHint = "note what you give (`dawnbrush note water 20 L bed 2`), and the account can tell"

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
	return s + ": " + w.Dose(b.Bed, a) + ", " + w.Left(d.Left) + ", " + w.WaterSure(b, d)
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
