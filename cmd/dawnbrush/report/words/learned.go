package words

import (
	"fmt"
	"math"
	"strings"

	"dawnbrush/risk"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/memory"
)

// told is how sure a difference between two cultivars has to be to be told.
const told = 0.9 // [chosen: nine in ten, as for every range on the screen]

// LearnedBees says what the counts of bees make of the book's.
func (w Words) LearnedBees(l *risk.Learned, view risk.SupplyView) string {
	if l.Counts == 0 {
		return "no count yet: `dawnbrush note bees 5min 10 flowers 3 PLANTING`"
	}
	middle, book := 0.0, 0.0
	for g := range view.Garden {
		middle, book = middle+view.Garden[g], book+view.Book[g]
	}
	if book == 0 {
		return Count(l.Counts, "count", "counts") + ", of no planting that bees pollinate"
	}
	x := middle / book
	return fmt.Sprintf("%.2g times the book's visits (%.2g to %.2g, nine in ten), by %s, the last on %s", x, x*view.Lo, x*view.Hi, Count(l.Counts, "count", "counts"), w.Day(l.Latest))
}

// LearnedHand says what the counts of hand-pollinated flowers make of the book's.
func (w Words) LearnedHand(l *risk.Learned, book float64) string {
	if l.HandOf == 0 {
		return fmt.Sprintf("no count yet: `dawnbrush note set 7 of 10 by hand PLANTING`; the book has %.0f in 10", 10*book)
	}
	return fmt.Sprintf("%.1f in 10 set (%.1f to %.1f, nine in ten), by %.0f flowers; the book has %.1f", 10*l.Hand.Mean(), 10*l.Hand.Quantile(0.05), 10*l.Hand.Quantile(0.95), l.HandOf, 10*book)
}

// Warmth writes a sum of degree days.
func (w Words) Warmth(sum float64) string { return w.sum(sum) + " degree days " + w.TempUnit() }

// sum writes a sum of degree days without its unit.
func (w Words) sum(sum float64) string {
	if w.us() {
		sum *= 1.8
	}
	return fmt.Sprintf("%.0f", sum)
}

// FirstFlower says what a first flower took, or why that is not known.
func (w Words) FirstFlower(f *risk.FirstFlower) string {
	kind := "first flower"
	if f.Female {
		kind = "first female flower"
		if f.Planting.Crop.Flowers == crop.MaleAndPerfect {
			kind = "first perfect flower"
		}
	}
	s := f.Planting.Name + ": " + kind + " on " + w.Day(f.Seen)
	if f.Sum <= 0 {
		return s + ", not used: " + f.Why
	}
	return fmt.Sprintf("%s, %d days and %s after sowing", s, f.Seen.DaysSince(f.Planting.Sown), w.Warmth(f.Sum))
}

// Sum says what the next sowing is expected to take.
func (w Words) Sum(s growth.Sum) string {
	return fmt.Sprintf("the next sowing is expected to take %s (%s to %s, eight in ten)", w.Warmth(s.Middle), w.sum(s.Low), w.sum(s.High))
}

// CultivarName names a cultivar beside its crop.
func (w Words) CultivarName(v *risk.CultivarView) string {
	if v.Cultivar == "" {
		return v.Crop.Name + ", no cultivar told"
	}
	return v.Crop.Name + ", " + v.Cultivar
}

// Cultivar says what is known of one cultivar.
func (w Words) Cultivar(v *risk.CultivarView) string {
	var parts []string
	if v.Seen > 0 {
		parts = append(parts, fmt.Sprintf("%s, about %s", Count(v.Seen, "first female flower", "first female flowers"), w.Warmth(math.Exp(v.Sum.Mean))))
	}
	share := func(by string, of float64, b memory.Beta) {
		if of > 0 {
			parts = append(parts, fmt.Sprintf("%s %.1f in 10 set (%.1f to %.1f, nine in ten; %.0f counted)", by, 10*b.Mean(), 10*b.Quantile(0.05), 10*b.Quantile(0.95), of))
		}
	}
	share("by bees", v.Shares.BeesOf, v.Shares.Bees)
	share("by hand", v.Shares.HandOf, v.Shares.Hand)
	if p, ok := v.Shares.HandBeats(); ok {
		parts = append(parts, fmt.Sprintf("on %s with both, the brush set more with a chance of %s", Count(v.Shares.Days, "day", "days"), w.Percent(p)))
	}
	return strings.Join(parts, "; ")
}

// Versus says in what two cultivars of a crop differ, or that it cannot be told yet.
func (w Words) Versus(a, b *risk.CultivarView) string {
	name := func(v *risk.CultivarView) string {
		if v.Cultivar == "" {
			return "the one without a name"
		}
		return v.Cultivar
	}
	var parts []string
	better := func(how string, x, y memory.Beta) {
		switch p := x.Beats(y); {
		case p >= told:
			parts = append(parts, name(a)+" sets better "+how)
		case p <= 1-told:
			parts = append(parts, name(b)+" sets better "+how)
		}
	}
	if a.Shares.BeesOf > 0 && b.Shares.BeesOf > 0 {
		better("by bees", a.Shares.Bees, b.Shares.Bees)
	}
	if a.Shares.HandOf > 0 && b.Shares.HandOf > 0 {
		better("by hand", a.Shares.Hand, b.Shares.Hand)
	}
	if a.Sum.Known() && b.Sum.Known() {
		apart := w.Warmth(math.Abs(math.Exp(a.Sum.Mean) - math.Exp(b.Sum.Mean)))
		switch p := a.Sum.Under(b.Sum); {
		case p >= told:
			parts = append(parts, name(a)+" flowers earlier, by about "+apart)
		case p <= 1-told:
			parts = append(parts, name(b)+" flowers earlier, by about "+apart)
		}
	}
	if len(parts) == 0 {
		return name(a) + " and " + name(b) + ": cannot tell yet"
	}
	return strings.Join(parts, "; ")
}
