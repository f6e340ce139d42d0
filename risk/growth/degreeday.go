// Package growth reckons the warmth a crop has had and from it when it flowers.
//
// The degree-day formulas take the day's extremes in any one unit and give
// degree days in that unit. Two formulas know only a lower limit (simple average,
// and the sine and triangle with an upper limit of +Inf); with an upper limit the
// sine and triangle use the horizontal cutoff: warmth above it counts as much as
// at it. Left out, since no crop file asks for them: the intermediate and
// vertical cutoffs, and hourly sums.
package growth

import (
	"fmt"
	"math"
)

// Method is a way to reckon degree days from the extremes of a day.
type Method uint8

// The methods.
const (
	SimpleAverage  Method = iota + 1 // mean of the extremes less the base
	Clipped                          // both extremes first put inside the limits
	SingleTriangle                   // straight lines between the day's extremes
	DoubleTriangle                   // the same, second half down to the next night
	SingleSine                       // a sine through the day's extremes
	DoubleSine                       // the same, second half down to the next night
	ReducedCeiling                   // the maximum alone, taken back by what it exceeds the limit
)

var methodWords = [...]string{
	SimpleAverage: "simple average", Clipped: "clipped", SingleTriangle: "single triangle",
	DoubleTriangle: "double triangle", SingleSine: "single sine", DoubleSine: "double sine",
	ReducedCeiling: "reduced ceiling",
}

// String gives the word used in crop files.
func (m Method) String() string {
	if int(m) >= len(methodWords) || m == 0 {
		return "no method"
	}
	return methodWords[m]
}

// ParseMethod reads the word of a method.
func ParseMethod(word string) (Method, error) {
	for m := SimpleAverage; m <= ReducedCeiling; m++ {
		if methodWords[m] == word {
			return m, nil
		}
	}
	return 0, fmt.Errorf("degree-day method %q is not known", word)
}

// Day gives the degree days of one day: tmin and tmax are its extremes, nextMin
// the next night's minimum (only the double methods look at it), base and upper
// the limits; upper may be +Inf. The order of tmin and tmax does not matter.
// Never negative.
func (m Method) Day(tmin, tmax, nextMin, base, upper float64) float64 {
	switch m {
	case SimpleAverage:
		return math.Max(0, (tmin+tmax)/2-base) // [McMWil97 method 1, status quoted]
	case Clipped:
		lo := math.Min(math.Max(tmin, base), upper)
		hi := math.Min(math.Max(tmax, base), upper)
		return (lo+hi)/2 - base // [McMWil97 method 2, status quoted]
	case SingleTriangle:
		return triangle(tmin, tmax, base) - triangle(tmin, tmax, upper) // [Zalom83, status quoted]
	case DoubleTriangle:
		return (SingleTriangle.Day(tmin, tmax, 0, base, upper) + SingleTriangle.Day(nextMin, tmax, 0, base, upper)) / 2
	case SingleSine:
		return sine(tmin, tmax, base) - sine(tmin, tmax, upper) // [Zalom83, status quoted]
	case DoubleSine:
		return (SingleSine.Day(tmin, tmax, 0, base, upper) + SingleSine.Day(nextMin, tmax, 0, base, upper)) / 2
	case ReducedCeiling:
		if tmax > upper {
			tmax = 2*upper - tmax // [PerWeh96]
		}
		return math.Max(0, tmax-base) // [PerWeh96]
	}
	return 0
}

// triangle gives the degree days above a limit under straight lines between the
// extremes. [Zalom83, status quoted]
func triangle(tmin, tmax, limit float64) float64 {
	lo, hi := math.Min(tmin, tmax), math.Max(tmin, tmax)
	switch {
	case hi <= limit:
		return 0
	case lo >= limit:
		return (lo+hi)/2 - limit
	}
	return (hi - limit) * (hi - limit) / (2 * (hi - lo))
}

// sine gives the degree days above a limit under a sine through the extremes.
// [BasEmi69, status quoted]
func sine(tmin, tmax, limit float64) float64 {
	lo, hi := math.Min(tmin, tmax), math.Max(tmin, tmax)
	switch {
	case hi <= limit:
		return 0
	case lo >= limit:
		return (lo+hi)/2 - limit
	}
	mean, half := (lo+hi)/2, (hi-lo)/2
	theta := math.Asin((limit - mean) / half)
	return ((mean-limit)*(math.Pi/2-theta) + half*math.Cos(theta)) / math.Pi
}
