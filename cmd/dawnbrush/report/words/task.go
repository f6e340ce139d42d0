package words

import (
	"fmt"
	"slices"
	"strings"

	"dawnbrush/risk"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
)

// Do names a task in two or three words: "hand-pollinate".
func (w Words) Do(k risk.TaskKind) string {
	switch k {
	case risk.LeaveToBees:
		return "leave to the bees"
	case risk.LookFirst:
		return "look first"
	case risk.HandPollinate:
		return "hand-pollinate"
	case risk.SavePollen:
		return "save pollen"
	case risk.BagFlowers:
		return "shut flowers"
	case risk.Shade:
		return "shade"
	case risk.ShakeTassels:
		return "shake tassels"
	case risk.TapTrusses:
		return "tap trusses"
	case risk.UncoverCrop:
		return "uncover"
	case risk.LookAtTagged:
		return "look at fruit"
	case risk.NothingToGain:
		return "nothing to gain"
	case risk.FewFemales:
		return "few females"
	case risk.PickFruit:
		return "pick"
	}
	return ""
}

// DoFor is Do in the words of the task's crop and causes: wind, not bees, finishes
// corn, a pepper has no trusses, and where the weather is not known nobody can tell what there is to gain.
func (w Words) DoFor(t *risk.Task) string {
	if unknowable(t) {
		return "no verdict"
	}
	switch {
	case t.Kind == risk.TapTrusses && tapped(t):
		return "tap " + cropOf(t).Self.TapMany
	case t.Kind != risk.LeaveToBees:
		return w.Do(t.Kind)
	case pollination(t) == crop.Wind:
		return "leave to the wind"
	case pollination(t) == crop.Self, needsNone(t):
		return "leave alone"
	}
	return w.Do(t.Kind)
}

// unknowable tells whether there is no verdict for want of weather or of a sun.
func unknowable(t *risk.Task) bool {
	return t.Kind == risk.NothingToGain && len(t.Causes) > 0 && (t.Causes[0] == risk.CauseUnknown || t.Causes[0] == risk.CauseNoSun)
}

// needsNone tells whether the planting fills its fruit without pollen.
func needsNone(t *risk.Task) bool { return slices.Contains(t.Causes, risk.CauseNeedsNoPollen) }

// Where names the planting with its bed: "cucumbers on the fence (bed 3)".
func (w Words) Where(p *risk.Planting) string {
	if p.Bed == "" || strings.Contains(strings.ToLower(p.Name), strings.ToLower(p.Bed)) {
		return p.Name
	}
	return p.Name + " (" + p.Bed + ")"
}

// Flowers says how many flowers a task is about: "14 female flowers, counted",
// "about 12 female flowers (a guess: count tonight's buds showing colour)"; ""
// where the number does not matter.
func (w Words) Flowers(t *risk.Task) string {
	if t.Flowers <= 0 {
		return ""
	}
	one, many := "flower", "flowers"
	c := cropOf(t)
	switch {
	case t.Kind == risk.SavePollen:
		one, many = "male bud", "male buds"
	case c == nil:
	case c.Flowers == crop.SeparateSexes:
		one, many = "female flower", "female flowers"
	case c.Flowers == crop.MaleAndPerfect:
		one, many = "perfect flower", "perfect flowers"
	case c.Flowers == crop.TasselSilk:
		one, many = "tassel", "tassels"
	}
	fits := ""
	if len(t.Also) > 0 && Evening(t.Kind) {
		fits = fmt.Sprintf(" on %d plantings", len(t.Also)+1)
	}
	if t.Fits > 0 {
		fits = fmt.Sprintf(", time for about %d", t.Fits)
	}
	if t.Counted {
		return Count(t.Flowers, one, many) + fits + ", counted"
	}
	return "about " + Count(t.Flowers, one, many) + fits + " (a guess)"
}

// CountHint says how to turn a guess at the number of flowers into a count.
const CountHint = "a guess: count as you go, and tonight's buds for tomorrow"

// Guessed tells whether Flowers says that its number is a guess.
func Guessed(t *risk.Task) bool { return t.Flowers > 0 && !t.Counted }

// Minutes says how long the work takes, "" where that does not matter.
func (w Words) Minutes(t *risk.Task) string {
	switch m := t.Minutes; {
	case m <= 0:
		return ""
	case m < 100:
		return fmt.Sprintf("%d min", m)
	default:
		return fmt.Sprintf("%d h %02d min", m/60, m%60)
	}
}

// Manner says in a few words how to do it; the whole of it stands in How.
func (w Words) Manner(t *risk.Task) string {
	switch t.Kind {
	case risk.HandPollinate:
		return w.brushManner(t)
	case risk.LookFirst:
		return w.Look(&t.Look) + w.also(t)
	case risk.SavePollen:
		return w.saveManner(t) + w.also(t)
	case risk.BagFlowers:
		fruiting := "female"
		if c := cropOf(t); c != nil && c.Flowers == crop.MaleAndPerfect {
			fruiting = "perfect"
		}
		return "tie or clip tomorrow's buds shut, male and " + fruiting + ", so that they stay dry and wait for you; no bee gets in: brush them in the morning and tie them again" + w.also(t)
	case risk.Shade:
		if t.Planting != nil && t.Planting.Cover == risk.RowCover {
			return "shade cloth over the hot hours, put up before them" + w.also(t)
		}
		return "shade cloth over the hot hours, put up before them and open at the sides so that bees get in" + w.also(t)
	case risk.ShakeTassels:
		return "once they are dry, over the silks of the neighbours; again the next two mornings"
	case risk.TapTrusses:
		what := "truss"
		if tapped(t) {
			what = cropOf(t).Self.TapOne
		}
		return "tap each " + what + " or its stake; two or three times a week is enough"
	case risk.UncoverCrop:
		return "take the cover off while the flowers are open, so that bees get in; tuck it in again afterwards"
	case risk.LookAtTagged:
		return w.tagged(t) + w.also(t)
	case risk.PickFruit:
		return w.pickManner(t)
	}
	return ""
}

func (w Words) brushManner(t *risk.Task) string {
	c := cropOf(t)
	switch {
	case c == nil, c.Flowers == crop.Perfect:
		return "gently"
	case len(c.Species) > 0 && t.Planting.Species != "":
		return "gently, with males of the same species (" + t.Planting.Species + ")" + malesOf(t)
	case len(c.Species) > 0:
		return "gently, with males of the same species"
	case t.Planting.Setting == crop.Triploid:
		return "gently, with males of the seeded pollen parent: its own pollen is dead" + malesOf(t)
	case t.Planting.Setting == crop.Gynoecious:
		return "gently, with males of the pollen parent" + malesOf(t)
	}
	return "gently, with males of the kind"
}

// saveManner tells how pollen is kept, for each crop that does it in its own way.
func (w Words) saveManner(t *risk.Task) string {
	var ways, names []string
	for _, p := range append([]*risk.Planting{t.Planting}, t.Also...) {
		if p == nil || p.Crop == nil {
			continue
		}
		way := p.Crop.Hand.Store.Method.Text
		if h, ok := p.Crop.Hand.Store.Hours.Get(); ok {
			way = strings.TrimPrefix(way+"; keeps "+whole(h)+" h at most", "; ")
		}
		if way != "" && !slices.Contains(ways, way) {
			ways, names = append(ways, way), append(names, p.Crop.Name)
		}
	}
	if len(ways) > 1 {
		for i := range ways {
			ways[i] = names[i] + ": " + ways[i]
		}
	}
	return strings.Join(ways, "; ")
}

func (w Words) tagged(t *risk.Task) string {
	of := ""
	if !t.Tagged.IsZero() {
		of = " of " + w.Day(t.Tagged)
	}
	s := "the flowers" + of + ": green and swelling, it took" + w.ready(t)
	if c := cropOf(t); c != nil && c.Look.Text != "" {
		return s + "; if not: " + c.Look.Text
	}
	return s + "; yellow or shrivelled, it did not"
}

// Look tells the count that settles whether to brush.
func (w Words) Look(l *risk.Look) string {
	s := fmt.Sprintf("watch %s for %s", Count(l.Flowers, "flower", "flowers"), Count(l.Minutes, "minute", "minutes"))
	if !l.At.IsZero() {
		s += " at " + w.Clock(l.At)
	}
	var who []string
	for g, in := range l.Groups {
		if in {
			who = append(who, bee.Group(g).String())
		}
	}
	visits := "visits"
	if len(who) > 0 {
		visits += " of " + List(who)
	}
	switch l.Fewer {
	case 0:
		return s + ", and count the " + visits
	case 1:
		return s + "; brush if none of them gets a visit"
	}
	return fmt.Sprintf("%s; brush if you count fewer than %d %s", s, l.Fewer, visits)
}

// also names the other plantings that a count settles, or that the same work is
// done for.
func (w Words) also(t *risk.Task) string {
	var names []string
	for _, p := range t.Also {
		names = append(names, p.Name)
	}
	if len(names) == 0 {
		return ""
	}
	if t.Kind == risk.LookFirst {
		return "; the same count tells for " + List(names)
	}
	return "; the same for " + List(names)
}

// How tells in full how a crop is pollinated by hand, females from males first;
// "" where there is nothing to tell.
func (w Words) How(c *crop.Crop) string {
	if c == nil {
		return ""
	}
	var parts []string
	for _, text := range []string{c.Hand.Tell.Text, c.Hand.Tool.Text} {
		if text != "" {
			parts = append(parts, text)
		}
	}
	return strings.Join(parts, "; ")
}

func cropOf(t *risk.Task) *crop.Crop {
	if t.Planting == nil {
		return nil
	}
	return t.Planting.Crop
}

func tapped(t *risk.Task) bool {
	c := cropOf(t)
	return c != nil && c.Self != nil && c.Self.Tapped()
}

func pollination(t *risk.Task) crop.Pollination {
	if c := cropOf(t); c != nil {
		return c.Pollination
	}
	return crop.Insect
}
