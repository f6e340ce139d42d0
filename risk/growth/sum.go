package growth

import (
	"fmt"
	"math"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// Sum is the warmth from sowing to a first flower as a garden's own plantings took
// it, in degC days by the crop's way of reckoning. The zero Sum knows nothing.
type Sum struct {
	Middle    float64
	Low, High float64 // one planting in ten takes less than Low, one more than High
	Plantings int     // first flowers seen that it rests on
}

// Known tells whether there is a sum.
func (s Sum) Known() bool { return s.Plantings > 0 }

// SumTo gives the degree days that a planting of the crop had from sowing to the
// end of a day, the first flower's. days may have gaps but must be in order of date.
// It is an error, in the grower's words, when they cannot be reckoned.
func SumTo(ph crop.Phenology, species string, sown, seen forecast.Date, days []Day) (float64, error) {
	dd, ok := degreeDaysOf(ph, species)
	method, err := ParseMethod(dd.Method)
	base, okBase := dd.Base.Get()
	switch {
	case !ok || err != nil || !okBase:
		return 0, fmt.Errorf("no way of reckoning degree days is known for it")
	case sown.IsZero():
		return 0, fmt.Errorf("its sowing date is not told")
	case !sown.Before(seen):
		return 0, fmt.Errorf("it was sown on the day of its first flower or later")
	}
	n := 0
	for n < len(days) && !days[n].Date.After(seen) {
		n++
	}
	if n == 0 || days[n-1].Date.Before(seen) {
		return 0, fmt.Errorf("temperatures are not known up to its first flower")
	}
	acc, ok := accumulate(method, base, dd.Upper.Or(math.Inf(1)), sown, days[:n])
	if !ok || acc.total() <= 0 {
		return 0, fmt.Errorf("too few temperatures are known from its sowing to its first flower")
	}
	return acc.total(), nil
}

// BookSum gives the published degree days to the first male and female flower,
// unknown where there are none.
func BookSum(ph crop.Phenology, species string) (male, female forecast.Value) {
	dd, _ := degreeDaysOf(ph, species)
	return dd.ToMale, dd.ToFemale
}
