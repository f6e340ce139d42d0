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

// OfTen writes a range of shares as growers count: "about 3 in 10", "2 to 5 in
// 10", "at most 3 in 10", "hardly any", "nearly all".
func (w Words) OfTen(r risk.Range) string {
	lo, hi := tenths(r.Lo), tenths(r.Hi)
	switch {
	case hi == 0:
		return "hardly any"
	case lo == 10:
		return "nearly all"
	case lo == hi:
		return fmt.Sprintf("about %d in 10", lo)
	case lo == 0 && hi == 10:
		return "anything from none to all"
	case lo == 0:
		return fmt.Sprintf("at most %d in 10", hi)
	case hi == 10:
		return fmt.Sprintf("at least %d in 10", lo)
	}
	return fmt.Sprintf("%d to %d in 10", lo, hi)
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
