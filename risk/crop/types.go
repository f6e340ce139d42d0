package crop

import "strings"

// Type is one type of a crop by the trade's terms, with what was published of it. What
// was not published for a type stays the crop's.
type Type struct {
	Key          string   // word for the garden file: "pickling"
	Words        string   // what growers know it by
	Aliases      []string // other words that mean it, in lower case
	Sets         Setting  // how it usually sets fruit; "" as the crop does
	Length       Range    // cm of a fruit to pick; zero where none was found
	Width        Range    // cm of a fruit to pick, across; zero where none was found
	HarvestAfter Range    // days from flower to picking; zero: the crop's
	PickEvery    Range    // days from one picking to the next; zero where none was found
	VisitsNeeded Range    // honey bee visits a flower, where they were counted on this type; zero: the crop's
}

// types reads the types of a crop, an object with one member a type.
func (s section) types(c *Crop) []Type {
	if s.n == nil {
		return nil
	}
	var out []Type
	taken := map[string]bool{}
	for i := range s.n.members {
		m := &s.n.members[i]
		one := s.maybe(m.key)
		t := Type{Key: m.key, Words: one.word("words"), Aliases: one.strings("aliases", one.take("aliases")),
			Length: one.optionalSpan("length", "cm"), Width: one.optionalSpan("width", "cm"),
			HarvestAfter: one.optionalSpan("harvest_after", days), PickEvery: one.optionalSpan("pick_every", days),
			VisitsNeeded: one.optionalSpan("visits_needed", "visits")}
		one.optionalFact("flowers")
		if one.has("sets") {
			t.Sets = Setting(one.fact("sets").Text)
			if !c.Allows(t.Sets) {
				s.r.fault(one.n.find("sets").line, "%s %q is not one of the crop's settings", one.dotted("sets"), t.Sets)
			}
		}
		one.done()
		for _, word := range append([]string{t.Key}, t.Aliases...) {
			if taken[plain(word)] {
				s.r.fault(m.line, "%s: %q means two types", s.name, word)
			}
			taken[plain(word)] = true
		}
		out = append(out, t)
	}
	return out
}

// FindType looks a type up by its key or another word for it; the crop's name behind
// it, case, hyphens and blanks make no difference.
func (c *Crop) FindType(word string) (*Type, bool) {
	w := plain(word)
	for _, name := range []string{c.Name, c.Plural} {
		w = strings.TrimSuffix(w, " "+plain(name))
	}
	for i := range c.Types {
		t := &c.Types[i]
		for _, known := range append([]string{t.Key}, t.Aliases...) {
			if w == plain(known) {
				return t, true
			}
		}
	}
	return nil, false
}

// TypeOf gives the type of a key, which a garden's plantings hold.
func (c *Crop) TypeOf(key string) (*Type, bool) {
	if key != "" {
		for i := range c.Types {
			if t := &c.Types[i]; t.Key == key {
				return t, true
			}
		}
	}
	return nil, false
}

// TypeWords gives every word that FindType knows, the keys first.
func (c *Crop) TypeWords() []string {
	var out []string
	for i := range c.Types {
		out = append(out, c.Types[i].Key)
	}
	for i := range c.Types {
		out = append(out, c.Types[i].Aliases...)
	}
	return out
}

// HarvestAfter gives the days from flower to picking of a type, by its key, and the
// name of the number behind them: the crop's own where none was published for the
// type, or where it was not told.
func (c *Crop) HarvestAfter(kind string) (span Range, param string) {
	if t, ok := c.TypeOf(kind); ok && t.HarvestAfter != (Range{}) {
		return t.HarvestAfter, TypeParam(t.Key, "harvest_after")
	}
	return c.Phenology.HarvestAfter, "phenology.harvest_after"
}

// TypeParam is the name of a number of a type.
func TypeParam(kind, key string) string { return "types." + kind + "." + key }
