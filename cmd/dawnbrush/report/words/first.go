package words

import (
	"fmt"
	"math"

	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/memory"
)

// Warmth writes degree days given on the Celsius scale: "418 C degree days", "752 F
// degree days".
func (w Words) Warmth(c float64) string { return w.warmthNumber(c) + " " + w.WarmthUnit() }

// WarmthRange writes a range of degree days: "390 to 450 C degree
// days".
func (w Words) WarmthRange(r crop.Range) string {
	return w.warmthNumber(r.Low) + " to " + w.warmthNumber(r.High) + " " + w.WarmthUnit()
}

// WarmthUnit is the unit of degree days.
func (w Words) WarmthUnit() string { return w.TempUnit() + " degree days" }

func (w Words) warmthNumber(c float64) string {
	if w.us() {
		c = unit.CdToFd(c)
	}
	return whole(c)
}

// DaysRange writes a range of days after sowing: "33 to 55 days".
func DaysRange(r crop.Range) string { return whole(r.Low) + " to " + whole(r.High) + " days" }

// FirstFlower names the first flower of a crop: "first female flower", "first silk".
func FirstFlower(c *crop.Crop, sex growth.Sex) string {
	switch {
	case c.Flowers == crop.Perfect:
		return "first flower"
	case c.Flowers == crop.TasselSilk && sex == growth.Male:
		return "first tassel"
	case c.Flowers == crop.TasselSilk:
		return "first silk"
	}
	return "first " + sex.String() + " flower"
}

// Kind names a crop, and its species where it has several: "winter squash (maxima)".
func Kind(c *crop.Crop, species string) string {
	if species == "" {
		return c.Name
	}
	return c.Name + " (" + species + ")"
}

// Norms tells what the book says of a first flower, what the garden makes of it
// and from how many: for the workings and for what the diary taught.
func (w Words) Norms(n *growth.Norms) (book, garden string) {
	book = DaysRange(n.Days.Book) + " from sowing"
	if none := (crop.Range{}); n.Sum.Book == none {
		book += ", no degree days published"
	} else {
		book = w.WarmthRange(n.Sum.Book) + "; " + book
	}
	if !n.Days.Learned() {
		return book, "no first flower noted yet"
	}
	garden = fmt.Sprintf("%s days (%s), n %s", whole(n.Days.Mid), DaysRange(n.Days.Garden), counted(&n.Days))
	if n.Sum.Learned() {
		garden = fmt.Sprintf("%s (%s), n %s; ", w.Warmth(n.Sum.Mid), w.WarmthRange(n.Sum.Garden), counted(&n.Sum)) + garden
	}
	return book, garden
}

func counted(n *growth.Norm) string {
	if n.Own == 0 || n.Own == n.N {
		return fmt.Sprint(n.N)
	}
	return fmt.Sprintf("%d, %d of them of this cultivar", n.N, n.Own)
}

// Fault says why a first flower teaches less than all; "" when it teaches all.
func (w Words) Fault(f growth.Fault) string {
	switch f {
	case growth.Whole:
		return ""
	case growth.NoMethod:
		return "its days alone count: no way to reckon degree days is known"
	case growth.NotSown:
		return "its days alone count: the day of sowing is not told"
	case growth.TooFewTemps:
		return "its days alone count: too few temperatures are known"
	case growth.NoStart:
		return "not used: neither sowing nor transplanting is told"
	case growth.BeforeStart:
		return "not used: seen before it was sown or planted; of an earlier year?"
	case growth.OutOfAllReason:
		return "not used: far from all the book gives; are the dates right?"
	case growth.NothingInTheBook:
		return "not used: the book gives no days for it"
	case growth.UnderCover:
		return "not used: a tunnel or house has other air"
	}
	return "not used"
}

// Sighting says one first flower: "first female flower on Wed 24 June, 34 days
// after sowing, 402 C degree days".
func (w Words) Sighting(c *crop.Crop, s *growth.Sighting) string {
	out := FirstFlower(c, s.Sex) + " on " + w.Day(s.Seen)
	if s.Fault.Teaches() {
		from := "sowing"
		if s.Fault == growth.NotSown {
			from = "the sowing that the plants' usual age gives"
		}
		out += fmt.Sprintf(", %s days after %s", whole(s.Days), from)
	}
	if v, ok := s.Sum.Get(); ok {
		out += ", " + w.Warmth(v)
	}
	if why := w.Fault(s.Fault); why != "" {
		out += "; " + why
	}
	return out
}

// BeesTaught says what the counts of bees teach.
func (w Words) BeesTaught(l *risk.Learned) string {
	if l.Counts == 0 && l.Unused == 0 {
		return "no count noted yet"
	}
	out := "no count could be used"
	if l.Counts > 0 {
		out = fmt.Sprintf("%s: %.1f visits where the book expects %.1f, older counts weighing less", Count(l.Counts, "count", "counts"), l.Visits, l.Expected)
	}
	if l.Unused > 0 {
		out += fmt.Sprintf("; %d not used, for no weather is known for them, no bees fly then, or the planting is not in the garden", l.Unused)
	}
	return out
}

// HandTaught says what the counts of flowers set by hand teach.
func (w Words) HandTaught(l *risk.Learned) string {
	if l.HandOf <= 0 {
		return "no count noted yet"
	}
	return fmt.Sprintf("%s of hand-pollinated flowers set (%s to %s), the book and %.0f flowers counted", w.Percent(l.Hand.Mean()),
		w.Percent(l.Hand.Quantile(0.05)), w.Percent(l.Hand.Quantile(0.95)), l.HandOf)
}

// BrushAgainstBees compares the brush with bees in a sentence, "" where no day has
// both.
func (w Words) BrushAgainstBees(k *risk.Kind) string {
	chance, ok := k.BrushBeats()
	if !ok {
		return ""
	}
	s := &k.Sets
	counts := fmt.Sprintf("%s by hand, %s by bees, from %s on which both were counted", w.setCount(s.PairHand), w.setCount(s.PairBees), Count(s.Days, "day", "days"))
	switch {
	case !k.BrushTold():
		return "cannot tell yet whether the brush sets more than bees: too few are counted, " + counts
	case chance < 0.5:
		return "bees set more than the brush (chance " + w.verdictChance(1-chance) + "; " + counts + ")"
	}
	return "the brush sets more than bees (chance " + w.verdictChance(chance) + "; " + counts + ")"
}

// verdictChance writes the chance of a verdict, which is never certain.
func (w Words) verdictChance(p float64) string { return w.Percent(min(p, 0.99)) }

// setCount writes the flowers behind a belief with a flat prior.
func (w Words) setCount(b memory.Beta) string { return fmt.Sprintf("%.0f of %.0f", b.A-1, b.A+b.B-2) }

// SetShare writes flowers that set: "14 of 20, 53 to 84 %", "" when none was counted.
func (w Words) SetShare(b memory.Beta, of float64) string {
	if of <= 0 {
		return ""
	}
	return fmt.Sprintf("%.0f of %.0f, %s to %s", b.A-1, of, percentNumber(b.Quantile(0.05)), w.Percent(b.Quantile(0.95))) // the prior is flat: A began at 1
}

// Verdict compares two cultivars in a sentence, or says that n is too small.
func (w Words) Verdict(c *crop.Crop, v *risk.Verdict) string {
	by := map[risk.Topic]string{risk.SetByBees: "by bees", risk.SetByHand: "by hand"}[v.Topic]
	first := FirstFlower(c, growth.Female)
	if v.Topic == risk.FirstMaleEarlier {
		first = FirstFlower(c, growth.Male)
	}
	switch {
	case !v.Told() && by != "" && v.Paired == 0:
		return fmt.Sprintf("cannot tell yet which sets better %s, %s or %s: never counted on the same day", by, v.Better, v.Other)
	case !v.Told() && by != "":
		return fmt.Sprintf("cannot tell yet which sets better %s, %s or %s: too few are counted, %s and %s%s", by, v.Better, v.Other,
			fmt.Sprint(v.N[0]), Count(v.N[1], "flower", "flowers"), paired(v))
	case !v.Told():
		return fmt.Sprintf("cannot tell yet which brings the %s earlier, %s or %s: too few are seen, %d and %d", first, v.Better, v.Other, v.N[0], v.N[1])
	case by != "":
		return fmt.Sprintf("%s sets better %s than %s (chance %s%s)", v.Better, by, v.Other, w.verdictChance(v.Chance), paired(v))
	}
	size := "about " + Count(int(math.Max(1, math.Round(v.Days))), "day", "days")
	if v.Sum > 0 {
		size = "about " + w.Warmth(v.Sum)
	}
	return fmt.Sprintf("%s brings the %s earlier than %s, by %s (chance %s)", v.Better, first, v.Other, size, w.verdictChance(v.Chance))
}

func paired(v *risk.Verdict) string {
	return ", from " + Count(v.Paired, "day", "days") + " on which both were counted"
}
