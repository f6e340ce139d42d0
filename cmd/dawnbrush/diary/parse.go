package diary

import (
	"slices"
	"strings"
	"time"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/memory"
)

// Context is what a note is read in.
type Context struct {
	Garden *risk.Garden
	Now    time.Time     // the clock
	Date   forecast.Date // the day it is about; today when zero
	Clock  string        // the time of that day, as in 07:35; "" when not told
}

// Today gives the garden's day of the clock.
func (c *Context) Today() forecast.Date { return forecast.DateOf(c.Now, c.zone()) }

func (c *Context) zone() *time.Location {
	if c.Garden.Place.Zone == nil {
		return time.UTC
	}
	return c.Garden.Place.Zone
}

// sentence is a note while it is read.
type sentence struct {
	spec   *spec
	tokens []token
	entry  memory.Entry
	place  gazetteer
	ctx    *Context
}

// Parse reads a note. The entry has neither ID nor time of recording: the store
// gives both. The error is an *Error whose hint holds the form to write.
func Parse(words []string, c Context) (memory.Entry, error) {
	e, err := parse(words, &c)
	if err != nil {
		return memory.Entry{}, err
	}
	return e, nil
}

func parse(words []string, c *Context) (memory.Entry, *Error) {
	ts := tokens(words)
	if len(ts) > 0 && ts[0].low == "note" {
		ts = ts[1:]
	}
	spec, err := kindOf(ts)
	if err != nil {
		return memory.Entry{}, err
	}
	day := c.Date
	if day.IsZero() {
		day = c.Today()
	}
	s := &sentence{spec: spec, tokens: ts[1:], place: gazetteer{c.Garden, day}, ctx: c, entry: memory.Entry{Kind: spec.Kind, Date: day}}
	for _, step := range []func() *Error{s.when, s.lock, s.days, s.choices, s.counts, s.rest, s.settle} {
		if err := step(); err != nil {
			return memory.Entry{}, err
		}
	}
	if faults := Check(&s.entry, c.Today()); len(faults) > 0 {
		return memory.Entry{}, faults[0]
	}
	return s.entry, nil
}

// kindOf takes the first word for what the note is about.
func kindOf(ts []token) (*spec, *Error) {
	var all []string
	for _, k := range memory.Kinds() {
		all = append(all, string(k))
	}
	if len(ts) == 0 {
		return nil, refuse("begin with "+list(all)+". write: note bees 5min 10 flowers 3 cucumber", "the note is empty")
	}
	first, offered := ts[0].low, []string{}
	for _, k := range memory.Kinds() {
		spec := specOf(k)
		if first == string(k) || slices.Contains(spec.also, first) {
			return spec, nil
		}
		offered = append(append(offered, string(k)), spec.also...)
	}
	hint := "begin with " + list(all) + ". write: note bees 5min 10 flowers 3 cucumber"
	if near, ok := config.Nearest(first, offered); ok {
		hint = "did you mean " + near + "?"
		for _, k := range memory.Kinds() {
			if spec := specOf(k); near == string(k) || slices.Contains(spec.also, near) {
				hint += " " + spec.write()
			}
		}
	}
	return nil, refuse(hint, "a note does not begin with %s", said(ts[0].raw))
}

// when settles day and time. A count of bees means nothing without its hour.
func (s *sentence) when() *Error {
	c, e := s.ctx, &s.entry
	today := c.Today()
	if e.Date.After(today) {
		return refuse("write it down when it has happened. "+s.spec.write(), "%s has not come yet; today is %s", e.Date, today)
	}
	switch {
	case c.Clock != "":
		at, err := clockOn(e.Date, c.Clock, c.zone())
		if err != nil {
			return err
		}
		if at.After(c.Now) {
			return refuse("give the time you counted. "+s.spec.write(), "%s on %s has not come yet", c.Clock, e.Date)
		}
		e.At = at
	case e.Kind == memory.Bees && e.Date == today:
		e.At = c.Now.UTC().Truncate(time.Minute)
	case e.Kind == memory.Bees:
		return refuse("add --at 07:35, the time you began", "at what time were the bees counted on %s?", e.Date)
	}
	return nil
}

// clockOn gives the instant of a clock time such as 07:35. Where clocks go back
// and the time comes twice the first one is meant.
func clockOn(d forecast.Date, clock string, zone *time.Location) (time.Time, *Error) {
	t, err := time.Parse("15:04", clock)
	if err != nil {
		return t, refuse("write it as 07:35 or 18:05", "%s is not a time of day", said(clock))
	}
	at := time.Date(d.Year, d.Month, d.Day, t.Hour(), t.Minute(), 0, 0, zone)
	if at.Hour() != t.Hour() || at.Minute() != t.Minute() {
		return at, refuse("give the time the clock showed", "the clocks went forward on %s: there was no %s", d, clock)
	}
	if before := at.Add(-time.Hour); before.In(zone).Hour() == t.Hour() && before.In(zone).Minute() == t.Minute() {
		at = before
	}
	return at.UTC(), nil
}

// lock finds names and beds, so that their words are neither numbers nor nouns.
func (s *sentence) lock() *Error {
	if s.spec.text == remark {
		return nil // a text may hold any word
	}
	for i := range s.tokens {
		if t := &s.tokens[i]; t.quoted {
			t.locked = true
		}
	}
	for i := 0; i < len(s.tokens); i++ {
		for j := len(s.tokens); j > i; j-- {
			if s.isName(s.tokens[i:j]) {
				for k := i; k < j; k++ {
					s.tokens[k].locked = true
				}
				i = j - 1
				break
			}
		}
		if next := i + 1; s.tokens[i].low == "bed" && next < len(s.tokens) && !s.tokens[next].locked {
			s.tokens[i].locked, s.tokens[next].locked = true, true
		}
	}
	return nil
}

// isName tells whether the words together are a whole name or bed. Words that the
// form knows, numbers and days are taken for that when there is nothing else.
func (s *sentence) isName(ts []token) bool {
	var words []string
	strange := false
	for _, t := range ts {
		if t.quoted {
			return false // it stands by itself
		}
		words = append(words, pieces(t.low)...)
		strange = strange || !s.spec.taken(t.low)
	}
	if !strange {
		return false
	}
	exact := s.place.exactly(words)
	_, _, bed := s.place.bed(words, exact)
	return bed || len(exact) > 0
}

func isNumeral(low string) bool {
	_, ok := numeral(low)
	return ok
}

// knows tells whether a word has a meaning of its own in the form.
func (s *spec) knows(low string) bool {
	if slices.Contains(s.noise, low) || slices.Contains(connectives, low) {
		return true
	}
	for _, c := range s.choices {
		for _, p := range c.phrases {
			if slices.Contains(strings.Fields(p), low) {
				return true
			}
		}
	}
	return slices.ContainsFunc(s.slots, func(x slot) bool {
		_, ok := x.factor(low)
		return ok || x.lead == low
	})
}

// connectives stand before a place and mean nothing.
var connectives = []string{"in", "on", "at", "for", "of", "the", "to", "from"}

// days takes the day on which the flowers of a set opened; other days stand in
// --on.
func (s *sentence) days() *Error {
	for i := range s.tokens {
		t := &s.tokens[i]
		if t.locked || s.spec.text == remark {
			continue
		}
		d, err := forecast.ParseDate(t.low)
		if t.low == "yesterday" {
			d, err = s.entry.Date.AddDays(-1), nil
		}
		switch {
		case err != nil:
			continue
		case s.spec.Kind != memory.Set:
			return refuse("give the day with --on "+d.String()+". "+s.spec.write(), "a day does not stand among the words of this note")
		case !s.entry.FlowersOn.IsZero():
			return refuse(s.spec.write()+" of "+d.String(), "two days are given for the flowers")
		}
		s.entry.FlowersOn, t.used = d, true
		if i > 0 && slices.Contains([]string{"of", "from", "on"}, s.tokens[i-1].low) {
			s.tokens[i-1].used = true
		}
	}
	return nil
}

// choices takes phrases such as "by hand"; the longest one goes first.
func (s *sentence) choices() *Error {
	chosen := -1
	for i := 0; i < len(s.tokens); i++ {
		k, n := s.choiceAt(i)
		if n == 0 {
			continue
		}
		if chosen >= 0 && chosen != k {
			return refuse(s.spec.write(), "the note says both %s and %s", said(s.spec.choices[chosen].phrases[0]), said(s.spec.choices[k].phrases[0]))
		}
		chosen = k
		for j := i; j < i+n; j++ {
			s.tokens[j].used = true
		}
		i += n - 1
	}
	switch {
	case chosen >= 0:
		s.spec.choices[chosen].set(&s.entry)
	case s.spec.choose != "" && s.spec.Kind == memory.First && s.perfect():
		s.entry.Sex = "female" // the first flower of a kind whose flowers are both
	case s.spec.choose != "":
		return refuse(s.spec.write(), "%s", s.spec.choose)
	}
	return nil
}

// choiceAt gives the choice whose phrase begins at a token and how many tokens it
// takes.
func (s *sentence) choiceAt(i int) (which, length int) {
	for k, c := range s.spec.choices {
		for _, p := range c.phrases {
			words := strings.Fields(p)
			if len(words) <= length || i+len(words) > len(s.tokens) {
				continue
			}
			same := true
			for j, w := range words {
				t := &s.tokens[i+j]
				same = same && t.low == w && !t.locked && !t.used
			}
			if same {
				which, length = k, len(words)
			}
		}
	}
	return which, length
}

// perfect tells whether the note is about a planting whose flowers are both male
// and female.
func (s *sentence) perfect() bool {
	var words []string
	for _, t := range s.tokens {
		if t.used || !t.locked && (isNumeral(t.low) || slices.Contains(s.spec.noise, t.low) || slices.Contains(connectives, t.low)) {
			continue
		}
		words = append(words, pieces(t.low)...)
	}
	found := s.place.find(words)
	return len(found) == 1 && found[0].Crop.Flowers == crop.Perfect
}

// settle looks at what the form asks for beyond single numbers.
func (s *sentence) settle() *Error {
	e := &s.entry
	for i := range s.spec.slots {
		x := &s.spec.slots[i]
		v, ok := x.of(e).Get()
		if !ok {
			continue
		}
		if fault := x.fits(v); fault != "" {
			return refuse(s.spec.write(), "%s", fault)
		}
		*x.of(e) = forecast.Known(v + 0) // no minus before a zero
	}
	return nil
}
