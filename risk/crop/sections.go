package crop

import (
	"math"

	"dawnbrush/risk/source"
)

// pollenUnit is what a crop counts pollen in: grains where a paper counted them,
// else single visits of honey bees.
func (s section) pollenUnit() string {
	const grains, visits = "grains", "honey bee visits"
	if !s.has("set") {
		return grains // need.set is reported missing
	}
	set := s.n.find("set")
	unit := ""
	if m := set.node.find("unit"); m != nil {
		unit, _ = m.node.text()
	}
	if unit != grains && unit != visits {
		s.r.fault(set.line, "need.set: unit %q must be %q or %q", unit, grains, visits)
		return grains
	}
	return unit
}

func (s section) pollenNeed(unit string) Need {
	defer s.done()
	return Need{
		Set: s.number("set", unit), Straight: s.straight(), FillFactor: s.number("fill_factor", pure),
		BrushGrains:  s.optional("brush_grains", unit),
		FlaggingSet:  s.number("flagging_set", share),
		WithoutBees:  s.optional("without_bees", share),
		VisitsNeeded: s.span("visits_needed", "visits"),
		PollenSpoils: s.optionalFact("pollen_spoils"),
	}
}

// straight reads the form in which set rises with pollen. A file without it has the
// bent one, 1 - exp(-3 grains/need).
func (s section) straight() bool {
	n := s.take("rise")
	if n == nil {
		return false
	}
	if word := s.factOf("rise", n).Text; word != "straight" && word != "bent" {
		s.r.fault(n.line, "%s %q must be bent or straight", s.dotted("rise"), word)
	} else {
		return word == "straight"
	}
	return false
}

func (s section) bees(unit string) Bees {
	defer s.done()
	b := Bees{Honey: s.group("honey", unit), Bumble: s.group("bumble", unit), Squash: s.group("squash", unit), WithoutSquash: 1, Stay: 1}
	if s.has("stay") {
		if b.Stay = s.number("stay", share); b.Stay <= 0 || b.Stay > 1 {
			s.r.fault(s.n.line, "%s: stay must lie above 0 and not above 1", s.name)
		}
	}
	if b.Squash != nil {
		b.WithoutSquash = s.number("without_squash", pure)
	}
	if s.n != nil && b.Honey == nil && b.Bumble == nil && b.Squash == nil {
		s.r.fault(s.n.line, "%s: no bee group here", s.name)
	}
	return b
}

func (s section) group(key, unit string) *Group {
	if !s.has(key) {
		return nil
	}
	g := s.maybe(key)
	defer g.done()
	return &Group{
		GrainsPerVisit: g.number("grains_per_visit", unit+" per visit"),
		VisitRate:      g.number("visit_rate", "visits per flower and hour"),
		Shape:          g.number("shape", pure),
	}
}

func (s section) phenology() Phenology {
	defer s.done()
	return Phenology{
		SowToMale: s.span("sow_to_male", days), SowToFemale: s.span("sow_to_female", days),
		TransplantToFirst: s.optionalSpan("transplant_to_first", days),
		TransplantAge:     s.optionalSpan("transplant_age", days),
		FemaleAfterMale:   s.optionalSpan("female_after_male", days),
		DegreeDays:        s.degreeDays(),
		Bloom:             s.span("bloom", days),
		FlowerLife:        s.optional("flower_life", days),
		HarvestAfter:      s.span("harvest_after", days),
		SowToHarvest:      s.span("sow_to_harvest", days),
	}
}

func (s section) degreeDays() []DegreeDays {
	var out []DegreeDays
	for _, item := range s.items("degree_days") {
		d := s.open("degree_days", item)
		one := DegreeDays{
			Method: d.fact("method").Text,
			Base:   d.optional("base", degC), Upper: d.optional("upper", degC),
			ToMale: d.optional("to_male", "degC day"), ToFemale: d.optional("to_female", "degC day"),
		}
		if d.has("species") {
			one.Species = d.word("species")
		}
		d.done()
		out = append(out, one)
	}
	return out
}

func (s section) hand(c *Crop) Hand {
	defer s.done()
	h := Hand{
		WithinOpening:  s.optional("within_opening", hours),
		FemalesPerMale: s.optionalSpan("females_per_male", "flowers"),
		FemalesPerDay:  s.number("flowers_per_day", "flowers per plant"),
		Set:            s.optional("set", share),
		LookAfter:      s.span("look_after", days),
		Tool:           s.fact("tool"),
		BagBefore:      s.optionalFact("bag_before"),
		BitterSeed:     s.optionalFact("bitter_seed"),
	}
	if c.Self == nil || c.Self.Tapped() { // else there is no work to time
		h.Best, h.MinutesPerFlower = s.span("best", localHour), s.number("minutes_per_flower", "min")
	}
	if c.Flowers.MalesApart() {
		h.Tell = s.fact("tell")
	} else {
		h.Tell = s.optionalFact("tell")
	}
	h.Store = s.child("store").store()
	return h
}

func (s section) store() Store {
	defer s.done()
	st := Store{Hours: s.optional("hours", hours), Method: s.fact("method")}
	n := s.need("ok")
	if n == nil {
		return st
	}
	ok, isBool := n.value.(bool)
	if !isBool {
		s.r.fault(n.line, "%s must be true or false", s.dotted("ok"))
	}
	st.OK = ok
	return st
}

func (s section) corn() *Corn {
	defer s.done()
	c := &Corn{
		ShedFrom: s.number("shed_from", afterSunrise), ShedTo: s.number("shed_to", afterSunrise),
		ShedDrying: s.number("shed_drying", "mm/h"),
		RHLimit:    s.number("rh_limit", "%"),
		HeatFull:   s.number("heat_full", degC), HeatNil: s.number("heat_nil", degC),
		HeatLoss: s.number("heat_loss", "per degC day"), HeatLossDry: s.number("heat_loss_dry", "per degC day"), HeatAbove: s.number("heat_above", degC),
		AgeRate: s.number("age_rate", "per kPa h"), AgeThreshold: s.number("age_threshold", "kPa"),
		AgeHours:  s.number("age_hours", hours),
		Carry:     s.curve("carry", "m/s at 2 m", share),
		Isolation: s.number("isolation", "m"), IsolationDays: s.number("isolation_days", days),
		FillRate:  s.number("fill_rate", "per good day"),
		Shed:      s.curve("shed", "days from the first tassel", share),
		SilkFresh: s.number("silk_fresh", days), SilkDays: s.number("silk_days", days), SilksOut: s.span("silks_out", days),
		GoodDays: s.number("good_days", days), ShedDays: s.span("shed_days", days),
		SilkDelayDrought: s.span("silk_delay_drought", days),
		Fertilisation:    s.span("fertilisation", hours),
		SilkAfterTassel:  s.optional("silk_after_tassel", days),
	}
	sum := 0.0
	for _, p := range s.curve("weights", "dry hour of shed", share).Points() {
		c.Weights = append(c.Weights, p[1])
		sum += p[1]
	}
	if len(c.Weights) > 0 && math.Abs(sum-1) > 1e-9 {
		s.r.fault(s.n.find("weights").line, "corn.weights: the shares add up to %g, not 1", sum)
	}
	if c.SilkFresh >= c.SilkDays && s.n != nil {
		s.r.fault(s.n.line, "%s: silk_fresh must lie below silk_days", s.name)
	}
	if c.HeatFull >= c.HeatNil && s.n != nil {
		s.r.fault(s.n.line, "%s: heat_full must lie below heat_nil", s.name)
	}
	return c
}

func (s section) self() *SelfFruit {
	defer s.done()
	f := &SelfFruit{
		MeanFrom: s.number("mean_from", fromOpening), MeanTo: s.number("mean_to", fromOpening),
		MeanCoolPollen: s.optionalCurve("mean_cool_pollen", "degC mean of daily means", share),
		Night:          s.curve("night", "degC night minimum", share),
		Day:            s.optionalCurve("day", "degC mean of day maxima", share),
		Heat:           s.optionalCurve("heat", "degC in an hour of shed", share),
		ShedFrom:       s.number("shed_from", localHour), ShedTo: s.number("shed_to", localHour),
		WithoutBees: s.optional("without_bees", share),
		Visits:      s.optionalSpan("visits", "visits"),
		RHLow:       s.optional("rh_low", "%"), RHHigh: s.optional("rh_high", "%"),
	}
	if f.ByNight = s.has("mean_night"); f.ByNight {
		f.Mean = s.curve("mean_night", "degC mean of night minima", share)
	} else {
		f.Mean = s.curve("mean", "degC mean of daily means", share)
	}
	if s.has("early_from") || s.has("early_to") {
		f.EarlyFrom, f.EarlyTo = s.number("early_from", fromOpening), s.number("early_to", fromOpening)
	}
	if s.has("acute_temp") {
		f.AcuteTemp, f.AcuteHours, f.AcuteDays = s.number("acute_temp", degC), s.number("acute_hours", hours), s.number("acute_days", days)
	}
	if s.has("alone_temp") {
		f.AloneTemp, f.AloneHours = s.number("alone_temp", degC), s.number("alone_hours", hours)
	}
	if f.AcuteDays > 0 || f.AloneHours > 0 {
		f.AcuteReach = s.number("acute_reach", days)
	}
	if s.has("tap") {
		f.Tap, f.TapOne, f.TapMany = s.span("tap", localHour), s.word("tap_one"), s.word("tap_many")
	}
	if s.has("catface_evening") {
		f.Catface = &Catface{Evening: s.span("catface_evening", degC), Days: s.number("catface_days", days), Lead: s.span("catface_lead", "days before bloom")}
	}
	if s.n != nil && (f.MeanFrom > f.MeanTo || f.EarlyFrom > f.EarlyTo || f.Early() && f.EarlyTo >= f.MeanFrom) {
		s.r.fault(s.n.line, "%s: early_from, early_to, mean_from and mean_to must follow each other", s.name)
	}
	return f
}

// evidence takes published numbers of any name, kind and unit.
func (s section) evidence() {
	if s.n == nil {
		return
	}
	for i := range s.n.members {
		m := &s.n.members[i]
		m.used = true
		s.param(m.key, m.node, kindOf(m.node), anyUnit)
	}
}

func kindOf(n *node) source.Kind {
	switch {
	case n.find("text") != nil:
		return source.Words
	case n.find("curve") != nil:
		return source.Points
	case n.find("value") == nil:
		return source.Span
	}
	return source.Number
}
