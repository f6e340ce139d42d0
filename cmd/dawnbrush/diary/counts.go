package diary

import (
	"slices"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// item is a number, or a noun that may say what a number counts.
type item struct {
	token int
	number
	isNumber bool
	adjacent bool // nothing stands between it and the item before
	near     bool // nothing but words of a planting: "10 zucchini flowers"
	lead     string
}

// reading is one way to read the numbers of a note.
type reading struct {
	values []forecast.Value // by slot
	used   []int            // tokens
}

// counts reads numbers with their units and nouns. Numbers come before their
// nouns ("3 female") or after ("female 3"); where both readings hold and differ
// the note is refused.
func (s *sentence) counts() *Error {
	if len(s.spec.slots) == 0 {
		return nil
	}
	items, err := s.items()
	if err != nil {
		return err
	}
	before, err1 := s.numberFirst(items)
	after, err2 := s.nounFirst(items)
	switch {
	case err1 != nil && err2 != nil:
		if err := s.strange(); err != nil {
			return err
		}
		return err1
	case err1 != nil:
		before = after
	case err2 == nil && !slices.Equal(before.values, after.values):
		return refuse(s.spec.write(), "the numbers can be read two ways")
	}
	for i := range s.spec.slots {
		*s.spec.slots[i].of(&s.entry) = before.values[i]
	}
	for _, k := range before.used {
		s.tokens[k].used = true
	}
	return s.asked()
}

// items picks numbers and nouns from the tokens.
func (s *sentence) items() ([]item, *Error) {
	var out []item
	last := -2
	add := func(it item) {
		it.adjacent = last == it.token-1 || len(out) > 0 && out[len(out)-1].token == it.token
		it.near = len(out) > 0 && s.namesOnly(last+1, it.token)
		out = append(out, it)
		last = it.token
	}
	for k := range s.tokens {
		t := &s.tokens[k]
		if t.used || t.locked {
			continue
		}
		lead := ""
		if k > 0 && !s.tokens[k-1].used && !s.tokens[k-1].locked {
			lead = s.tokens[k-1].low
		}
		n, ok := numeral(t.low)
		if k+1 < len(s.tokens) && s.spec.noun(s.tokens[k+1].low) {
			n, ok = spelled(t.low, n, ok)
		}
		if !ok {
			if s.spec.noun(t.low) {
				add(item{token: k, number: number{suffix: t.low}})
			}
			continue
		}
		if over, under, pair := s.pair(t.low); pair {
			add(item{token: k, number: over, isNumber: true})
			add(item{token: k, number: under, isNumber: true, lead: "of"})
			continue
		}
		if n.fault != "" {
			return nil, refuse(s.spec.write(), "%s", n.fault)
		}
		add(item{token: k, number: n, isNumber: true, lead: lead})
	}
	return out, nil
}

// pair takes "7/10" apart where a form counts one number of another.
func (s *sentence) pair(low string) (over, under number, ok bool) {
	if s.spec.Kind != memory.Set {
		return over, under, false
	}
	for i := range low {
		if low[i] != '/' {
			continue
		}
		over, ok1 := numeral(low[:i])
		under, ok2 := numeral(low[i+1:])
		return over, under, ok1 && ok2 && over.fault == "" && under.fault == ""
	}
	return over, under, false
}

// spelledNumbers are those that come easily in writing. They count only before a
// noun: "no visits".
var spelledNumbers = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

func spelled(low string, n number, ok bool) (number, bool) {
	if i := slices.Index(spelledNumbers, low); i >= 0 {
		return number{value: float64(i)}, true
	}
	if low == "zero" {
		return number{}, true
	}
	return n, ok
}

// namesOnly tells whether the tokens between two are words of a planting.
func (s *sentence) namesOnly(from, to int) bool {
	for _, t := range s.tokens[min(from, to):to] {
		if t.used || !t.locked && len(s.place.find(pieces(t.low))) == 0 {
			return false
		}
	}
	return true
}

// opensPair tells whether a noun that stands apart from the number before it has
// a number right behind it, which it may belong to as well.
func opensPair(items []item, noun int) bool {
	return noun+1 < len(items) && items[noun+1].isNumber && items[noun+1].adjacent && items[noun+1].suffix == ""
}

// noun tells whether a word can say what a number of the form counts.
func (s *spec) noun(low string) bool {
	return slices.ContainsFunc(s.slots, func(x slot) bool { _, ok := x.factor(low); return ok })
}

// slotOf finds the slot and factor of a noun or unit, -1 for none.
func (s *spec) slotOf(noun string) (int, float64) {
	for i := range s.slots {
		if f, ok := s.slots[i].factor(noun); ok {
			return i, f
		}
	}
	return -1, 0
}

// give puts a number into a slot, which takes one only.
func (r *reading) give(s *sentence, slot int, v float64) *Error {
	if slot < 0 {
		return refuse(s.spec.write(), "what does the number %s count?", digits(v))
	}
	if r.values[slot].IsKnown() {
		return refuse(s.spec.write(), "%s are given twice", s.spec.slots[slot].what)
	}
	if r.values[slot] = forecast.Known(v); !r.values[slot].IsKnown() {
		return refuse(s.spec.write(), "%s is no amount", digits(v))
	}
	return nil
}

// numberFirst reads "5 min 10 flowers": each number takes the unit that hangs on
// it, the noun that follows, or the word before it ("of 10").
func (s *sentence) numberFirst(items []item) (reading, *Error) {
	r := reading{values: make([]forecast.Value, len(s.spec.slots))}
	var stray, bare []int
	for i := 0; i < len(items); i++ {
		it := items[i]
		if !it.isNumber {
			stray = append(stray, i)
			continue
		}
		r.used = append(r.used, it.token)
		noun, taken := it.suffix, false
		if noun == "" && i+1 < len(items) && !items[i+1].isNumber && (items[i+1].adjacent || items[i+1].near && !opensPair(items, i+1)) {
			noun, taken = items[i+1].suffix, true
		}
		slot, factor := s.spec.slotOf(noun)
		lead := s.spec.ledBy(it.lead)
		switch {
		case noun != "" && slot < 0:
			return r, s.unknownUnit(it.value, noun)
		case lead >= 0 && (slot < 0 || slot == lead):
			if slot < 0 {
				bare = append(bare, lead)
			}
			slot, factor = lead, 1
			r.lead(s, it)
		case noun == "":
			if slot, factor = s.bare(), 1; slot < 0 {
				if err := s.unitAfter(it); err != nil {
					return r, err
				}
			}
			bare = append(bare, slot)
		}
		if err := r.give(s, slot, it.value*factor); err != nil {
			return r, err
		}
		if taken {
			i++
			r.used = append(r.used, items[i].token)
		}
	}
	for _, i := range stray { // "12 cucumber flowers": the noun of a number that stood alone
		slot, _ := s.spec.slotOf(items[i].suffix)
		if !slices.Contains(bare, slot) {
			continue // it may be part of a name
		}
		r.used = append(r.used, items[i].token)
	}
	return r, nil
}

// lead marks the connective before a number as used.
func (r *reading) lead(s *sentence, it item) {
	if k := it.token - 1; k >= 0 && s.tokens[k].low == it.lead {
		r.used = append(r.used, k)
	}
}

// ledBy gives the slot of a connective before a number: "of 10".
func (s *spec) ledBy(word string) int {
	if word == "" {
		return -1
	}
	return slices.IndexFunc(s.slots, func(x slot) bool { return x.lead == word })
}

// bare gives the slot of a number that stands alone. Flowers that are male and
// female in one are simply counted.
func (s *sentence) bare() int {
	if s.spec.Kind == memory.Opened && s.perfect() {
		return slices.IndexFunc(s.spec.slots, func(x slot) bool { return x.what == "female flowers" })
	}
	return slices.IndexFunc(s.spec.slots, func(x slot) bool { return x.bare })
}

// nounFirst reads "male 20 female 3".
func (s *sentence) nounFirst(items []item) (reading, *Error) {
	r := reading{values: make([]forecast.Value, len(s.spec.slots))}
	for i := 0; i < len(items); i += 2 {
		if items[i].isNumber || i+1 == len(items) || !items[i+1].isNumber || items[i+1].suffix != "" || !items[i+1].adjacent {
			return r, refuse(s.spec.write(), "the numbers cannot be read")
		}
		slot, factor := s.spec.slotOf(items[i].suffix)
		if err := r.give(s, slot, items[i+1].value*factor); err != nil {
			return r, err
		}
		r.used = append(r.used, items[i].token, items[i+1].token)
	}
	return r, nil
}

func (s *sentence) unknownUnit(v float64, unit string) *Error {
	var offered []string
	for _, x := range s.spec.slots {
		for _, w := range x.words {
			offered = append(offered, w.text)
		}
	}
	hint := s.spec.write()
	if s.spec.Kind == memory.Feed {
		hint = "give the weight in g or oz, or leave the amount out. " + hint
	}
	if near, ok := config.Nearest(unit, offered); ok {
		hint = "did you mean " + digits(v) + " " + near + "? " + hint
	}
	return refuse(hint, "%s is no unit here", said(digits(v)+" "+unit))
}

// unitAfter takes the word after a number that stands alone for a unit nobody
// knows, unless the word may be part of a name.
func (s *sentence) unitAfter(it item) *Error {
	k := it.token + 1
	if k >= len(s.tokens) {
		return nil
	}
	t := s.tokens[k]
	if t.used || t.locked || s.spec.knows(t.low) || isNumeral(t.low) || len(s.place.find(pieces(t.low))) > 0 {
		return nil
	}
	return s.unknownUnit(it.value, t.low)
}

// asked refuses a note that lacks a number its form asks for.
func (s *sentence) asked() *Error {
	for i := range s.spec.slots {
		x := &s.spec.slots[i]
		if x.must && !x.of(&s.entry).IsKnown() {
			if err := s.strange(); err != nil {
				return err
			}
			return refuse(s.spec.write(), "the note does not tell %s", s.spec.missing(x))
		}
	}
	return nil
}

// missing names a number that was not told.
func (s *spec) missing(x *slot) string {
	switch {
	case s.Kind == memory.Rain:
		return "how much rain, in mm or in"
	case s.Kind == memory.Spray:
		return "how many days before picking the label asks for (0 days when none)"
	}
	return "the number of " + x.what
}

// strange finds a word that neither the form nor any planting knows: it, and not
// the number beside it, is at fault.
func (s *sentence) strange() *Error {
	if s.spec.text != noText {
		return nil
	}
	for _, t := range s.tokens {
		if t.used || t.locked || s.spec.knows(t.low) || isNumeral(t.low) || len(s.place.find(pieces(t.low))) > 0 {
			continue
		}
		if near, ok := config.Nearest(t.low, s.words()); ok {
			return refuse("did you mean "+near+"? "+s.spec.write(), "%s is not understood", said(t.raw))
		}
	}
	return nil
}
