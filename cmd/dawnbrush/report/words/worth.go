package words

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// Worth compares what comes with and without the work: "bees will fill 2 to 5 in
// 10 cucumbers, a brush 9 in 10".
func (w Words) Worth(t *risk.Task) string {
	c, none := cropOf(t), risk.Range{}
	switch {
	case c == nil, t.Bees == none && t.Hand == none, needsNone(t), t.Day != nil && !t.Day.State.Known():
		return ""
	case t.Kind == risk.UncoverCrop, t.Kind == risk.LookAtTagged, t.Kind == risk.PickFruit, t.Kind == risk.NothingToGain && t.Bees == none:
		return "" // the ranges stand for another day, another cover or other vines
	}
	alone := ""
	switch c.Pollination {
	case crop.Wind:
		if t.Day != nil && t.Day.Ears.Known {
			return w.ears(t)
		}
		alone = "the wind brings the silks " + w.OfTen(t.Bees, "of a good day's pollen")
	case crop.Self:
		alone = w.OfTen(t.Bees, "flowers") + " set when left alone"
	default:
		alone = "bees will fill " + w.OfTen(t.Bees, c.Fruits)
	}
	if Evening(t.Kind) {
		return "tomorrow " + alone // what kept flowers and pollen add is not worked out
	}
	if tool := tools[t.Kind]; tool != "" && t.Hand != none {
		return alone + ", " + tool + " " + strings.TrimPrefix(w.OfTen(t.Hand, ""), "about ")
	}
	return alone
}

// Evening tells whether a task is an evening's work for the flowers of the
// morning after, so that its ranges and causes are those of tomorrow.
func Evening(k risk.TaskKind) bool { return k == risk.SavePollen || k == risk.BagFlowers }

// tools names what the work adds to the bees.
var tools = map[risk.TaskKind]string{
	risk.HandPollinate: "a brush", risk.LookFirst: "a brush", risk.Shade: "with shade", risk.ShakeTassels: "shaking",
	risk.TapTrusses: "a tap",
}

// Gain says what the work brings: "about 5 cucumbers more"; "" where the model
// gives no number.
func (w Words) Gain(t *risk.Task) string {
	c := cropOf(t)
	if c == nil || t.Gain <= 0 || t.Flowers <= 0 || c.Pollination != crop.Insect || needsNone(t) || !t.Kind.Work() && t.Kind != risk.LeaveToBees {
		return "" // elsewhere the gain is no number of fruits, or not to be had
	}
	one, many := c.Fruit, c.Fruits
	if len(t.Also) > 0 && Evening(t.Kind) {
		one, many = "fruit", "fruits" // of all the plantings together
	}
	gain := "about " + Count(int(math.Round(t.Gain)), one, many) + " more"
	if t.Gain < 0.75 {
		gain = "less than one " + one + " more"
	}
	if t.Kind == risk.LeaveToBees {
		return "a brush would win " + gain
	}
	return gain
}

// Sure says how sure a task is: "sure", "likely", "not sure: rain is not known";
// "" where that makes no difference.
func (w Words) Sure(t *risk.Task) string {
	if t.Kind == risk.LookAtTagged || t.Kind == risk.FewFemales && t.Told {
		return "" // looking needs no certainty, and it was told
	}
	switch t.Sure {
	case risk.VerySure:
		return "sure"
	case risk.Likely:
		if t.Kind == risk.LookFirst {
			return "the count decides"
		}
		return "likely"
	}
	if why := w.unsureWhy(t); !strings.Contains(w.Why(t), why) {
		return "not sure: " + why
	}
	return "not sure" // the reason is among the causes
}

func (w Words) unsureWhy(t *risk.Task) string {
	for _, c := range t.Causes {
		if c == risk.CauseUnknown || c == risk.CauseHistory || c == risk.CauseOtherAir || c == risk.CauseNoSun {
			if c == risk.CauseUnknown && t.Day != nil && t.Day.Missing != 0 {
				break
			}
			return w.Cause(c)
		}
	}
	switch {
	case t.Lead > 0:
		return fmt.Sprintf("the forecast was made %d days before", t.Lead)
	case t.Day != nil && t.Day.Missing != 0:
		return w.Layers(t.Day.Missing) + " not known"
	case t.Kind == risk.LookFirst:
		return "it hangs on how many bees come"
	case t.Day != nil && t.Day.Bloom == risk.MaybeBloom:
		return "it may not be in flower yet"
	}
	return "the bees here may be many or few"
}

// Why joins the causes of a task with their hours, at most three; "" for none.
func (w Words) Why(t *risk.Task) string {
	if t.Kind == risk.FewFemales {
		return w.fewWhy(t)
	}
	var parts []string
	for _, c := range t.Causes {
		if t.Kind == risk.LeaveToBees && c != risk.CauseNeedsNoPollen && c != risk.CauseHistory && c != risk.CauseLookElsewhere && c != risk.CauseDone && c != risk.CauseOutsideHours && c != risk.CausePollenSpoils && c != risk.CauseParentShut && c != risk.CauseParentMaybe {
			continue // what stands against the bees does not stop them
		}
		s := w.CauseOn(c, t.Day)
		if Evening(t.Kind) {
			s = w.Cause(c)
		}
		if s != "" && len(parts) < mostCauses && !contains(parts, s) {
			parts = append(parts, s)
		}
	}
	if r, ok := t.Rain.Get(); ok {
		parts = append(parts, "chance of rain "+w.Percent(r))
	}
	return strings.Join(parts, "; ")
}

// fewWhy says the flags behind "few females": the heat and the days it tells on; the days
// alone where the heat was told the day before.
func (w Words) fewWhy(t *risk.Task) string {
	if t.Day == nil {
		return w.Cause(risk.CauseFewBuds)
	}
	var parts, short []string
	for i := range t.Day.Flags {
		switch f := &t.Day.Flags[i]; f.Kind {
		case risk.HeatOnBuds:
			parts, short = append(parts, w.Flag(f, t.Day)), append(short, "now")
		case risk.FewAhead:
			parts, short = append(parts, w.Flag(f, t.Day)), append(short, strings.TrimSpace(w.days(" ", f)))
		}
	}
	if t.Told {
		slices.Reverse(short) // what is now before what is to come
		return "as before: few female flowers " + strings.Join(short, " and ")
	}
	return strings.Join(parts, "; ")
}

// TaskHours writes when a task is due, to five minutes: nobody sets out at 06:09.
func (w Words) TaskHours(t *risk.Task) string {
	const step = 5 * time.Minute
	from, to := t.From, t.To
	if up := from.Truncate(step).Add(step); !from.IsZero() && !from.Equal(from.Truncate(step)) && up.Before(to) {
		from = up
	}
	if down := to.Truncate(step); down.After(from) {
		to = down
	}
	return w.Hours(from, to)
}

// mostCauses is how many reasons a task tells. [chosen: a fourth convinces nobody]
const mostCauses = 3

// contains tells whether a part begins with the beginning of s.
func contains(parts []string, s string) bool {
	for _, p := range parts {
		if strings.HasPrefix(p, s) {
			return true
		}
	}
	return false
}
