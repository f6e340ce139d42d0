package words

import (
	"fmt"
	"math"

	"dawnbrush/risk"
)

// tenths rounds a share of 0..1 to tenths, within 0 and 10.
func tenths(share float64) int {
	return int(math.Round(10 * math.Max(0, math.Min(1, share))))
}

// wide is how many tenths a range spans before its middle is told too.
// [chosen: "2 to 5 in 10" is a figure one can act on, "2 to 9" is not]
const wide = 4

// OfTen writes a range of shares as growers count: "about 3 in 10 melons", "2 to 5
// in 10 melons", "at most 3 in 10 melons", "hardly any melons", and of a wide one
// its middle too: "about 7 in 10 melons (at least 2)". What they are shares of may be
// left out.
func (w Words) OfTen(r risk.Range, of string) string {
	lo, mid, hi := tenths(r.Lo), tenths(r.Mid), tenths(r.Hi)
	if of != "" {
		of = " " + of
	}
	about := fmt.Sprintf("about %d in 10%s", mid, of)
	switch {
	case hi == 0:
		return "hardly any" + of
	case lo == 10:
		return "nearly all" + of
	case lo == hi:
		return about
	case lo == 0 && hi == 10:
		return about + " (it may be none or all)"
	case lo == 0 && hi < wide:
		return fmt.Sprintf("at most %d in 10%s", hi, of)
	case lo == 0 && mid == 0:
		return fmt.Sprintf("hardly any%s (at most %d in 10)", of, hi)
	case lo == 0:
		return fmt.Sprintf("%s (at most %d)", about, hi)
	case hi == 10 && lo > 10-wide:
		return fmt.Sprintf("at least %d in 10%s", lo, of)
	case hi == 10 && mid == 10:
		return fmt.Sprintf("nearly all%s (at least %d in 10)", of, lo)
	case hi == 10:
		return fmt.Sprintf("%s (at least %d)", about, lo)
	case hi-lo >= wide:
		return fmt.Sprintf("%s (%d to %d)", about, lo, hi)
	}
	return fmt.Sprintf("%d to %d in 10%s", lo, hi, of)
}

// OfTenShort writes the same for a narrow place: "3 in 10", "2-5 in 10".
func (w Words) OfTenShort(r risk.Range) string {
	lo, hi := tenths(r.Lo), tenths(r.Hi)
	if lo == hi {
		return fmt.Sprintf("%d in 10", lo)
	}
	return fmt.Sprintf("%d-%d in 10", lo, hi)
}

// about writes one share: "3 in 10".
func about(share float64) string {
	switch n := tenths(share); n {
	case 0:
		return "hardly any"
	case 10:
		return "nearly all"
	default:
		return fmt.Sprintf("%d in 10", n)
	}
}
