package words

import (
	"fmt"
	"math"
	"strings"
	"time"

	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
)

// Litres writes an amount of water given in litres: "14 L", "0.6 L", "9 gal", of
// less than a gallon "2 qt".
func (w Words) Litres(l float64) string {
	if !w.us() {
		return tidy(l) + " L"
	}
	if gal := unit.LToGal(l); gal >= leastGallons || l <= 0 {
		return tidy(gal) + " gal"
	}
	return tidy(quarts*unit.LToGal(l)) + " qt"
}

const (
	quarts       = 4    // in a gallon
	leastGallons = 0.95 // what is written as a gallon and more
)

// LitresNumber writes it without its unit, for a column that names it.
func (w Words) LitresNumber(l float64) string {
	if w.us() {
		l = unit.LToGal(l)
	}
	return tidy(l)
}

// LitresUnit is the unit that LitresNumber leaves out.
func (w Words) LitresUnit() string {
	if w.us() {
		return "gal"
	}
	return "L"
}

// tidy writes a number to a tenth under ten, whole from there on, and in steps of
// five and ten from 100 and 1000 on: nobody measures out 491 gallons.
func tidy(x float64) string {
	switch x = max(0, x); {
	case x < 9.95:
		return strings.TrimSuffix(fmt.Sprintf("%.1f", x), ".0")
	case x < 99.5:
		return whole(x)
	case x < 997.5:
		return whole(5 * math.Round(x/5))
	}
	return whole(10 * math.Round(x/10))
}

// Run writes how long water runs: "42 min", "2 h 05 min", to five minutes from two
// hours on.
func (w Words) Run(d time.Duration) string {
	m := int(math.Ceil(d.Minutes() - 1e-9))
	if m >= 120 {
		m = (m + 2) / 5 * 5
	}
	if m < 120 {
		return fmt.Sprintf("%d min", m)
	}
	if m%60 == 0 {
		return fmt.Sprintf("%d h", m/60)
	}
	return fmt.Sprintf("%d h %02d min", m/60, m%60)
}

// runShort writes it for a narrow place: "42 min", "2 h 05".
func (w Words) runShort(d time.Duration) string {
	if s := w.Run(d); strings.Contains(s, " h ") {
		return strings.TrimSuffix(s, " min")
	}
	return w.Run(d)
}

// Cans writes a number of watering cans, to halves under ten: "14 cans", "1.5 cans",
// "half a can".
func (w Words) Cans(n float64) string {
	half := math.Round(2*n) / 2
	if n >= 10 {
		half = math.Round(n)
	}
	switch {
	case half <= 0.5:
		return "half a can"
	case half == 1:
		return "1 can"
	case half == math.Trunc(half):
		return whole(half) + " cans"
	default:
		return fmt.Sprintf("%.1f cans", half)
	}
}

// Deep writes a depth of soil given in m: "30 cm", "12 in".
func (w Words) Deep(m float64) string {
	if w.us() {
		return whole(unit.MmToIn(1000*m)) + " in"
	}
	if cm := 100 * m; cm < 10 {
		return whole(cm) + " cm"
	}
	return whole(5*math.Round(20*m)) + " cm"
}

// fractions of what is left, as they are said.
var fractions = [...]struct {
	share float64
	words string
}{{0, "hardly any"}, {0.1, "a tenth"}, {0.2, "a fifth"}, {0.25, "a quarter"}, {1.0 / 3, "a third"}, {0.4, "two fifths"}, {0.5, "half"},
	{0.6, "three fifths"}, {2.0 / 3, "two thirds"}, {0.75, "three quarters"}, {0.8, "four fifths"}, {0.9, "nearly all"}, {1, "all"}}

// Fraction writes a share of 0..1 by the nearest fraction that growers say: "a third".
func (w Words) Fraction(share float64) string {
	best := 0
	for i := range fractions {
		if math.Abs(fractions[i].share-share) < math.Abs(fractions[best].share-share) {
			best = i
		}
	}
	return fractions[best].words
}

// wideLeft is how far apart the ends of what is left have to lie to be told.
// [chosen: a fifth of the store is a day or two of its plants]
const wideLeft = 0.2

// Left says how much of the plants' water is left: "a third of its water left",
// with its ends where they lie far apart: "half of its water left (a quarter to
// two thirds)".
func (w Words) Left(r risk.Range) string {
	s := w.Fraction(r.Mid) + " of its water left"
	if lo, hi := w.Fraction(r.Lo), w.Fraction(r.Hi); r.Hi-r.Lo > wideLeft && lo != hi {
		s += " (" + lo + " to " + hi + ")"
	}
	return s
}

// LeftWide tells whether the ends of what is left lie far apart.
func (w Words) LeftWide(r risk.Range) bool { return r.Hi-r.Lo > wideLeft }

// LeftNumber writes it in per cent for a column: "33", or with its ends "20-60". A
// column that has one entry with ends has all with them, or it would seem to jump.
func (w Words) LeftNumber(r risk.Range, ends bool) string {
	lo, hi := whole(100*r.Lo), whole(100*r.Hi)
	switch {
	case !ends:
		return whole(100 * r.Mid)
	case lo == hi:
		return lo
	}
	return lo + "-" + hi
}

// runs says what runs.
var runs = map[risk.Watering]string{risk.Drip: "of drip", risk.Soaker: "of soaker hose", risk.Hose: "with the hose", risk.Sprinkler: "of sprinkler",
	risk.Furrow: "in the furrow", risk.Flood: "of flooding"}

// Dose says how much water a bed gets: "14 L, 42 min of drip"; "24 L, 2.5 cans, 3 L a
// pot"; a plant's part where it is given by hand.
func (w Words) Dose(b *risk.Bed, a *ledger.Advice) string {
	parts := []string{w.roughly(a)}
	if s := w.measure(b, a); s != "" {
		parts = append(parts, s)
	}
	switch {
	case a.EachPot > 0:
		parts = append(parts, w.Litres(a.EachPot)+" a pot")
	case a.PerPlant > 0 && (b.Watering == risk.Can || b.Watering == risk.Hose || b.Watering == ""):
		parts = append(parts, w.Litres(a.PerPlant)+" a plant")
	}
	return strings.Join(parts, ", ")
}

// roughly writes the litres of an advice, with their ends where they are not sure:
// "roughly 20 L (18 to 23)".
func (w Words) roughly(a *ledger.Advice) string {
	s := w.Litres(a.Litres)
	if lo, hi := w.LitresNumber(a.Span.Lo), w.LitresNumber(a.Span.Hi); lo != hi {
		return "roughly " + s + " (" + lo + " to " + hi + " " + w.LitresUnit() + ")"
	}
	return s
}

// measure says how long or how many cans, "" where neither is told.
func (w Words) measure(b *risk.Bed, a *ledger.Advice) string {
	switch {
	case a.Run > 0:
		return strings.TrimSpace(w.Run(a.Run) + " " + runs[b.Watering])
	case a.Cans > 0:
		return w.Cans(a.Cans)
	}
	return ""
}

// DoseShort writes it for a narrow place, an entry a line: "9 gal", "42 min".
func (w Words) DoseShort(b *risk.Bed, a *ledger.Advice) []string {
	out := []string{w.Litres(a.Litres)}
	if lo, hi := w.LitresNumber(a.Span.Lo), w.LitresNumber(a.Span.Hi); lo != hi {
		out[0] = lo + "-" + hi + " " + w.LitresUnit()
	}
	switch {
	case a.Run > 0:
		out = append(out, w.runShort(a.Run))
	case a.Cans > 0:
		out = append(out, w.Cans(a.Cans))
	}
	return out
}

// Bed names a bed with what grows in it: "bed 1 (tomatoes)", "south patch (melons
// and 2 more)"; the planting's name alone where it holds the bed's.
func (w Words) Bed(b *ledger.Bed) string {
	name := b.Bed.Name
	first := b.Lead
	if first == nil && len(b.Plantings) > 0 {
		first = b.Plantings[0]
	}
	switch {
	case first == nil, strings.EqualFold(first.Name, name):
		return name
	case len(b.Plantings) > 1:
		return fmt.Sprintf("%s (%s and %d more)", name, first.Name, len(b.Plantings)-1)
	case strings.Contains(strings.ToLower(first.Name), strings.ToLower(name)):
		return first.Name
	}
	return name + " (" + first.Name + ")"
}
