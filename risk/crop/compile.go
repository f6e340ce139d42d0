package crop

import (
	"slices"
	"strings"
)

// Units of the model. A crop file must use them.
const (
	afterSunrise = "h after sunrise"
	localHour    = "local hour"
	fromOpening  = "days from opening"
	degC         = "degC"
	share        = "share"
	days         = "days"
	hours        = "h"
	pure         = "1"
)

// crop compiles one file.
func (r *reader) crop(key string, tree *node) *Crop {
	top := section{r: r, n: tree}
	c := &Crop{
		Key: key, Name: top.word("name"), Plural: top.word("plural"),
		Fruit: top.word("fruit"), Fruits: top.word("fruits"),
		Aliases: top.strings("aliases", top.need("aliases")),
	}
	top.take("sources") // merged before
	for _, a := range c.Aliases {
		if a != strings.ToLower(a) {
			r.fault(tree.find("aliases").line, "alias %q must be in lower case", a)
		}
	}
	c.Pollination = pick(top, "pollination", map[string]Pollination{"insect": Insect, "wind": Wind, "self": Self})
	c.Flowers = pick(top, "flowers", map[string]Flowers{
		"separate-sexes": SeparateSexes, "perfect": Perfect, "tassel-silk": TasselSilk,
		"male-and-perfect": MaleAndPerfect})
	c.Settings = top.settings()
	c.Species = top.species()
	c.Types = top.maybe("types").types(c)
	c.PollenFrom = top.strings("pollen_from", top.take("pollen_from"))
	c.FlowerHeight = top.number("flower_height", "m")
	switch c.Pollination {
	case Insect:
		c.Window = top.child("window").window()
		top.maybe("species_window").clocks(c)
		c.Pollen = top.child("pollen").pollen()
		need := top.child("need")
		unit := need.pollenUnit()
		c.Need = need.pollenNeed(unit)
		c.Bees = top.child("bees").bees(unit)
	case Wind:
		c.Corn = top.child("corn").corn()
	case Self:
		c.Self = top.child("self").self()
	}
	if top.has("buds") {
		c.Buds = top.maybe("buds").buds()
	}
	if top.has("load") {
		c.Load = top.maybe("load").load()
	}
	c.Phenology = top.child("phenology").phenology()
	for _, dd := range c.Phenology.DegreeDays {
		if _, ok := c.FindSpecies(dd.Species); dd.Species != "" && !ok {
			r.fault(tree.find("phenology").line, "phenology.degree_days: species %q is not one of this crop", dd.Species)
		}
	}
	c.Hand = top.child("hand").hand(c)
	c.Limits = top.maybe("limits").limits()
	c.Look = top.fact("look")
	top.maybe("evidence").evidence()
	top.done()
	c.Params = r.inFileOrder()
	return c
}

// pick reads a word that must be one of a few.
func pick[T comparable](s section, key string, words map[string]T) T {
	var none T
	n := s.need(key)
	if n == nil {
		return none
	}
	text, _ := n.text()
	v, ok := words[text]
	if !ok {
		var known []string
		for w := range words {
			known = append(known, w)
		}
		slices.Sort(known)
		s.r.fault(n.line, "%s %q must be one of %s", s.dotted(key), text, strings.Join(known, ", "))
	}
	return v
}

func (s section) settings() []Setting {
	var out []Setting
	known := []Setting{Monoecious, Gynoecious, Parthenocarpic, Triploid}
	n := s.take("settings")
	for _, word := range s.strings("settings", n) {
		if !slices.Contains(known, Setting(word)) {
			s.r.fault(n.line, "settings: %q is not one of monoecious, gynoecious, parthenocarpic, triploid", word)
		}
		out = append(out, Setting(word))
	}
	return out
}

func (s section) species() []Species {
	var out []Species
	for _, item := range s.items("species") {
		sp := s.open("species", item)
		out = append(out, Species{Key: sp.word("key"), Latin: sp.word("latin"), Words: sp.word("words")})
		sp.done()
	}
	return out
}

func (s section) window() Window {
	defer s.done()
	w := Window{
		Opens: s.number("opens", afterSunrise), Closes: s.number("closes", afterSunrise),
		OpensAtTemp:     s.number("opens_at_temp", degC),
		Receptive:       s.curve("receptive", afterSunrise, share),
		ReceptiveHot:    s.optionalCurve("receptive_hot", afterSunrise, share),
		HotDay:          s.optionalCurve("hot_day", "degC day maximum", share),
		Offer:           s.curve("offer", afterSunrise, share),
		CloseHeat:       s.optionalCurve("close_heat", degC, share),
		LastUsefulVisit: s.optional("last_useful_visit_local", localHour),
	}
	if !w.CloseHeat.Empty() {
		w.CloseHeatAfter = s.number("close_heat_after", afterSunrise)
	}
	if s.n != nil && w.ReceptiveHot.Empty() != w.HotDay.Empty() {
		s.r.fault(s.n.line, "%s: receptive_hot and hot_day go together", s.name)
	}
	if s.n != nil && w.Opens >= w.Closes {
		s.r.fault(s.n.line, "%s: the flower closes before it opens", s.name)
	}
	return w
}

func (s section) pollen() Pollen {
	defer s.done()
	p := Pollen{
		HeatFull: s.number("heat_full", degC), HeatNil: s.number("heat_nil", degC),
		Coupling:     s.number("coupling", share),
		AgeRate:      s.number("age_rate", "per kPa h"),
		AgeThreshold: s.number("age_threshold", "kPa"),
		TubeFull:     s.number("tube_full", degC), TubeNil: s.number("tube_nil", degC),
		TubeHours: s.number("tube_hours", hours),
	}
	if s.n != nil && (p.HeatFull >= p.HeatNil || p.TubeFull >= p.TubeNil) {
		s.r.fault(s.n.line, "%s: heat_full and tube_full must lie below heat_nil and tube_nil", s.name)
	}
	return p
}

func (s section) buds() *Buds {
	defer s.done()
	return &Buds{
		Days: s.number("days", days), DayTemp: s.number("day_temp", degC), NightTemp: s.number("night_temp", degC),
		NightAlone: s.optional("night_alone", degC), DayAlone: s.optional("day_alone", degC),
		ShareLeft: s.number("share_left", share),
		Lead:      s.span("lead", days),
	}
}

func (s section) load() *FruitLoad {
	defer s.done()
	l := &FruitLoad{Limit: s.span("limit", "fruits per plant"), Left: s.number("left", share)}
	switch word := s.fact("picked").Text; {
	case word == "young":
		l.Young = true
	case s.n != nil && s.has("picked") && word != "ripe":
		s.r.fault(s.n.find("picked").line, "%s %q must be young or ripe", s.dotted("picked"), word)
	}
	if s.n != nil && s.has("limit") && l.Limit.Low >= l.Limit.High {
		s.r.fault(s.n.find("limit").line, "%s: low must lie below high, for set falls between them", s.dotted("limit"))
	}
	return l
}

func (s section) limits() Limits {
	defer s.done()
	return Limits{
		PollenHot: s.optional("pollen_hot", degC), PollenUnfit: s.optional("pollen_unfit", degC),
		DayHigh: s.optional("day_high", degC), NightHigh: s.optional("night_high", degC),
		NightLow: s.optional("night_low", degC),
		RHLow:    s.optional("rh_low", "%"), RHHigh: s.optional("rh_high", "%"),
	}
}
