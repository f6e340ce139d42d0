package diary

import (
	"math"
	"slices"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
	"dawnbrush/risk/memory"
)

// Exact by definition, in the units entries are kept in. [ISO 80000-3:2019, status memory]
// gives the inch of package unit; the pound is 0.453 592 37 kg, the ounce its
// sixteenth.
const (
	kgPerLb     = 0.45359237
	gPerOz      = kgPerLb * 1000 / 16
	minPerHour  = 60
	daysPerWeek = 7
)

// Bounds beyond which a number is a slip of the finger and not a count.
const (
	mostCount    = 100_000 // [chosen: an acre of sweet corn has some 25,000 plants, see the garden file's own bound]
	mostMinutes  = 240     // [chosen: nobody watches the same flowers for more than four hours]
	mostDrip     = 2880    // [chosen: two days of dripping without a stop]
	mostRain     = 2000    // [chosen: mm, the wettest day ever measured had 1,825 mm, memory]
	mostWater    = 100_000 // [chosen: litres, 100 mm on a thousand square metres]
	mostFeed     = 500_000 // [chosen: g, half a tonne of compost]
	mostWeight   = 100_000 // [chosen: kg, a market plot picks less in a day]
	mostInterval = 365     // [chosen: days, labels ask for days or weeks]
	mostVisits   = 60      // [chosen: visits a flower and minute, one a second cannot be counted]
)

// word is a unit or a noun that says what a number counts, with the factor that
// turns the number into what is kept.
type word struct {
	text   string
	factor float64
}

func nouns(texts ...string) []word {
	out := make([]word, len(texts))
	for i, t := range texts {
		out[i] = word{t, 1}
	}
	return out
}

// slot is one number of a form.
type slot struct {
	of    func(*memory.Entry) *forecast.Value
	what  string // in messages: "minutes watched"
	words []word // the first one is written when an entry is said
	us    word   // written instead in US units; its factor as in words
	lead  string // word before the number: "of", "on"
	bare  bool   // a number without a word is this one
	plain bool   // said without its word: "buds 12"
	must  bool
	whole bool
	least float64
	most  float64
	above bool // more than least, not equal to it
}

func (s *slot) factor(text string) (float64, bool) {
	i := slices.IndexFunc(s.words, func(w word) bool { return w.text == text })
	if i < 0 {
		return 0, false
	}
	return s.words[i].factor, true
}

func minuteWords() []word {
	out := nouns("min", "mins", "minute", "minutes", "m")
	for _, t := range []string{"h", "hr", "hrs", "hour", "hours"} {
		out = append(out, word{t, minPerHour})
	}
	for _, t := range []string{"s", "sec", "secs", "second", "seconds"} {
		out = append(out, word{t, 1.0 / minPerHour})
	}
	return out
}

func scaled(factor float64, texts ...string) []word {
	out := nouns(texts...)
	for i := range out {
		out[i].factor = factor
	}
	return out
}

func join(parts ...[]word) []word { return slices.Concat(parts...) }

func rainWords() []word {
	return join(nouns("mm", "millimetre", "millimetres", "millimeter", "millimeters"), scaled(10, "cm"), scaled(unit.InToMm(1), "in", "inch", "inches", `"`))
}

func waterWords() []word {
	return join(nouns("l", "litre", "litres", "liter", "liters"), scaled(unit.GalToL(1), "gal", "gals", "gallon", "gallons"))
}

func feedWords() []word {
	return join(nouns("g", "gram", "grams", "gr"), scaled(1000, "kg"), scaled(gPerOz, "oz", "ounce", "ounces"), scaled(kgPerLb*1000, "lb", "lbs", "pound", "pounds"))
}

func weightWords() []word {
	return join(nouns("kg", "kilo", "kilos"), scaled(0.001, "g", "gram", "grams"), scaled(kgPerLb, "lb", "lbs", "pound", "pounds"), scaled(kgPerLb/16, "oz", "ounce", "ounces"))
}

// The numbers of entries, each with its column.
func ofMale(e *memory.Entry) *forecast.Value      { return &e.Male }
func ofFemale(e *memory.Entry) *forecast.Value    { return &e.Female }
func ofCount(e *memory.Entry) *forecast.Value     { return &e.Count }
func ofOf(e *memory.Entry) *forecast.Value        { return &e.Of }
func ofMinutes(e *memory.Entry) *forecast.Value   { return &e.Minutes }
func ofFlowers(e *memory.Entry) *forecast.Value   { return &e.Flowers }
func ofVisits(e *memory.Entry) *forecast.Value    { return &e.Visits }
func ofAmount(e *memory.Entry) *forecast.Value    { return &e.Amount }
func ofWeight(e *memory.Entry) *forecast.Value    { return &e.Weight }
func ofMisshapen(e *memory.Entry) *forecast.Value { return &e.Misshapen }
func ofInterval(e *memory.Entry) *forecast.Value  { return &e.Interval }

// numbers lists all numbers of an entry by their names in files.
func numbers() []struct {
	name string
	of   func(*memory.Entry) *forecast.Value
} {
	return []struct {
		name string
		of   func(*memory.Entry) *forecast.Value
	}{
		{"male", ofMale}, {"female", ofFemale}, {"count", ofCount}, {"of", ofOf}, {"minutes", ofMinutes}, {"flowers", ofFlowers},
		{"visits", ofVisits}, {"amount", ofAmount}, {"weight_kg", ofWeight}, {"misshapen", ofMisshapen}, {"interval_days", ofInterval},
	}
}

// fits tells what is wrong with a number of the slot; empty when nothing is.
func (s *slot) fits(v float64) string {
	switch {
	case math.Signbit(v):
		return s.what + " cannot be negative"
	case s.whole && v != math.Trunc(v):
		return s.what + " are counted in whole numbers, not " + digits(v)
	case v < s.least || s.above && v == s.least:
		if s.whole {
			return s.what + " must be at least " + digits(max(s.least, 1))
		}
		return s.what + " must be more than " + digits(s.least)
	case v > s.most:
		return s.what + " cannot be " + digits(v) + "; the most is " + digits(s.most)
	}
	return ""
}
