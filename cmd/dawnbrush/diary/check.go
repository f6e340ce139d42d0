package diary

import (
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

const (
	longestText  = 500  // [chosen: characters, a note, not a letter]
	longestName  = 78   // [chosen: as names in the garden file]
	firstYear    = 1900 // [chosen: before it a year is a slip of the finger]
	longestID    = 64   // [chosen: twice what any maker of identities needs]
	dayAround    = 15 * time.Hour
	mostSetDelay = 120 // [chosen: days, a fruit of these crops is ripe or gone by then]
)

// Check tells everything that is wrong with an entry by itself, whoever wrote it;
// nil when nothing is. Whether the planting is in the garden is not looked at.
func Check(e *memory.Entry, today forecast.Date) []*Error {
	s := specOf(e.Kind)
	if s == nil {
		return []*Error{refuse("it can be "+list(kinds()), "there is no kind of note %s", said(string(e.Kind)))}
	}
	c := &checker{spec: s, e: e}
	c.identity()
	c.days(today)
	if e.Removed {
		c.removal()
		return c.faults
	}
	c.numbers()
	c.words()
	c.relations()
	return c.faults
}

func kinds() []string {
	var out []string
	for _, k := range memory.Kinds() {
		out = append(out, string(k))
	}
	return out
}

type checker struct {
	spec   *spec
	e      *memory.Entry
	faults []*Error
}

func (c *checker) fault(format string, args ...any) {
	c.faults = append(c.faults, refuse(c.spec.write(), format, args...))
}

func (c *checker) identity() {
	for _, id := range []string{c.e.ID, c.e.Replaces} {
		if len(id) > longestID || strings.IndexFunc(id, func(r rune) bool { return r <= ' ' || r > '~' }) >= 0 {
			c.fault("%s is no identity", said(id))
		}
	}
	switch {
	case c.e.ID != "" && c.e.ID == c.e.Replaces:
		c.fault("the entry replaces itself")
	case c.e.Removed && c.e.Replaces == "":
		c.fault("the entry takes something back but does not say what")
	}
}

func (c *checker) days(today forecast.Date) {
	e := c.e
	switch {
	case e.Date.IsZero():
		c.fault("the entry has no date")
		return
	case !e.Date.Exists():
		c.fault("its date does not exist")
		return
	case e.Date.Year < firstYear:
		c.fault("the year %d is too long ago", e.Date.Year)
	case e.Date.After(today):
		c.fault("%s has not come yet; today is %s", e.Date, today)
	}
	if at := e.At; !at.IsZero() {
		from, to := e.Date.Span(time.UTC)
		if at.Before(from.Add(-dayAround)) || at.After(to.Add(dayAround)) {
			c.fault("the time %s is not on %s", at.UTC().Format(time.RFC3339), e.Date)
		}
	}
	if d := e.FlowersOn; !d.IsZero() {
		switch {
		case c.spec.Kind != memory.Set:
			c.fault("only a count of set says on which day flowers opened")
		case !d.Exists():
			c.fault("the day of the flowers does not exist")
		case d.After(e.Date):
			c.fault("flowers of %s cannot have set by %s", d, e.Date)
		case e.Date.DaysSince(d) > mostSetDelay:
			c.fault("%s is more than %d days before %s", d, mostSetDelay, e.Date)
		}
	}
}

// removal wants nothing in an entry but what it takes back.
func (c *checker) removal() {
	bare := memory.Entry{ID: c.e.ID, Recorded: c.e.Recorded, Date: c.e.Date, At: c.e.At, Kind: c.e.Kind, Planting: c.e.Planting, Replaces: c.e.Replaces, Removed: true}
	if *c.e != bare {
		c.fault("an entry that takes another back holds nothing else")
	}
}

func (c *checker) numbers() {
	for _, n := range numbers() {
		v, ok := n.of(c.e).Get()
		x := c.slot(n.of)
		switch {
		case !ok && x != nil && x.must:
			c.fault("it does not tell %s", c.spec.missing(x))
		case !ok:
		case x == nil:
			c.fault("%s does not belong to a note of %s", n.name, c.spec.Kind)
		default:
			if fault := x.fits(v); fault != "" {
				c.fault("%s", fault)
			}
		}
	}
}

// slot finds the form's slot of a number; nil when the form has none.
func (c *checker) slot(of func(*memory.Entry) *forecast.Value) *slot {
	for i := range c.spec.slots {
		if x := &c.spec.slots[i]; x.of(c.e) == of(c.e) {
			return x
		}
	}
	return nil
}

// words looks at what is no number.
func (c *checker) words() {
	e, k := c.e, c.spec.Kind
	c.text("planting", e.Planting, longestName, false)
	switch where := c.spec.where; {
	case where == nowhere && e.Planting != "":
		c.fault("a note of %s is about the whole garden", k)
	case (where == inPlanting || where == inBed) && e.Planting == "":
		c.fault("it does not tell the planting")
	}
	c.text("the product", e.Product, longestText, c.spec.text == product)
	c.text("the text", e.Text, longestText, c.spec.text == remark)
	if c.spec.text != product && e.Product != "" {
		c.fault("a product does not belong to a note of %s", k)
	}
	if c.spec.text != remark && e.Text != "" {
		c.fault("a text does not belong to a note of %s", k)
	}
	c.oneOf("group", e.Group, k == memory.Bees, "", honeyBee, bumbleBee, squashBee)
	c.oneOf("by", e.By, k == memory.Set, memory.ByBees, memory.ByHand)
	c.oneOf("sex", e.Sex, k == memory.First, "male", "female")
	if e.On && k != memory.Cover {
		c.fault("on does not belong to a note of %s", k)
	}
}

func (c *checker) oneOf(what, value string, belongs bool, allowed ...string) {
	switch {
	case !belongs && value != "":
		c.fault("%s does not belong to a note of %s", what, c.spec.Kind)
	case belongs && !slices.Contains(allowed, value):
		c.fault("%s cannot be %s; it is %s", what, said(value), list(slices.DeleteFunc(allowed, func(s string) bool { return s == "" })))
	}
}

// text wants a text that can be shown on one line.
func (c *checker) text(what, s string, most int, must bool) {
	switch {
	case s == "" && must:
		c.fault("it does not tell %s", what)
	case s == "":
	case !utf8.ValidString(s) || strings.IndexFunc(s, hidden) >= 0:
		c.fault("%s holds a line break or a character that cannot be seen", what)
	case s != strings.Join(strings.Fields(s), " "):
		c.fault("%s has more blanks than it needs", what)
	case utf8.RuneCountInString(s) > most:
		c.fault("%s is %d characters long, the most is %d", what, utf8.RuneCountInString(s), most)
	}
}

// hidden tells characters that would not show or would turn a line around.
func hidden(r rune) bool {
	const blanks = "\u200b\u2060\ufeff\ufffd"
	return unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp, unicode.Bidi_Control) || strings.ContainsRune(blanks, r)
}

// relations looks at numbers beside one another.
func (c *checker) relations() {
	e := c.e
	n, counted := e.Count.Get()
	of, ofKnown := e.Of.Get()
	crooked, crookedKnown := e.Misshapen.Get()
	minutes, flowers, visits := e.Minutes.Or(0), e.Flowers.Or(0), e.Visits.Or(0)
	switch c.spec.Kind {
	case memory.Set:
		if counted && ofKnown && n > of {
			c.fault("%s flowers cannot have set of %s pollinated", digits(n), digits(of))
		}
	case memory.Picked:
		switch {
		case crookedKnown && !counted:
			c.fault("it tells misshapen fruit but not how many were picked in all")
		case !counted && !e.Weight.IsKnown():
			c.fault("it tells neither how many fruit nor their weight")
		case crookedKnown && crooked > n:
			c.fault("%s misshapen fruit are more than the %s picked", digits(crooked), digits(n))
		}
	case memory.Opened:
		if !e.Male.IsKnown() && !e.Female.IsKnown() {
			c.fault("it tells neither male nor female flowers")
		}
	case memory.Water:
		if e.Amount.IsKnown() == e.Minutes.IsKnown() {
			c.fault("it tells the amount of water or the minutes of drip, one of the two")
		}
	case memory.Bees:
		if minutes > 0 && visits > mostVisits*flowers*minutes {
			c.fault("%s visits to %s flowers in %s minutes are more than can be counted", digits(visits), digits(flowers), digits(minutes))
		}
		if e.At.IsZero() {
			c.fault("it does not tell at what time the bees were counted")
		}
	}
}
