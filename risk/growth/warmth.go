package growth

import (
	"fmt"
	"math"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// warmth reckons a date from degree days since sowing; false when neither book nor
// garden has a sum for the planting, no sowing date or too few temperatures are
// known.
func warmth(ph crop.Phenology, p Planting, sex Sex, days []Day) (Dates, bool) {
	method, base, upper, ok := reckoning(ph, p.Species)
	if !ok || p.Sown.IsZero() {
		return Dates{}, false
	}
	target, reach := bookSum(ph, p.Species, sex)
	by := ""
	if n := p.norms(sex); n != nil && n.Sum.Learned() {
		target, reach, by = n.Sum.Mid, n.Sum.Garden, n.Sum.by()
	}
	if target <= 0 {
		return Dates{}, false
	}
	acc, ok := accumulate(method, base, upper, p.Sown, days)
	if !ok {
		return Dates{}, false
	}
	from, okFrom := acc.reach(reach.Low, 1+rateSlack)
	to, okTo := acc.reach(reach.High, 1-rateSlack)
	if !okFrom || !okTo {
		return Dates{}, false
	}
	words := fmt.Sprintf("%.0f degC days above %g degC since sowing on %s (%s)%s; %.0f so far",
		target, base, p.Sown, method, by, acc.total())
	if acc.unknown > 0 {
		words += fmt.Sprintf("; %d of %d days without temperatures taken as the average day", acc.unknown, len(acc.sums))
	}
	return Dates{From: from, To: to, Basis: FromWarmth, Words: words}, true
}

// whyNoWarmth tells that days were counted although there is a sum.
func whyNoWarmth(ph crop.Phenology, p Planting) string {
	published, _ := bookSum(ph, p.Species, Female)
	n := p.norms(Female)
	if p.Sown.IsZero() || published == 0 && (n == nil || !n.Sum.Learned()) {
		return ""
	}
	return "; too few temperatures are known to reckon with warmth"
}

// degreeDaysOf finds the entry of a species, or the entry for the whole crop.
func degreeDaysOf(ph crop.Phenology, species string) (crop.DegreeDays, bool) {
	for _, dd := range ph.DegreeDays {
		if dd.Species == species || dd.Species == "" {
			return dd, true
		}
	}
	return crop.DegreeDays{}, false
}

// accumulation is the running sum from the day of sowing, one entry a civil day.
type accumulation struct {
	start   forecast.Date
	sums    []float64
	rate    float64 // degC days a day, mean of the last rateDays known days
	unknown int
}

func (a accumulation) total() float64 { return a.sums[len(a.sums)-1] }

// accumulate adds the days from sowing to the last one given. Days without
// temperatures count as the mean of the known ones; false when they are too many.
func accumulate(m Method, base, upper float64, sown forecast.Date, days []Day) (accumulation, bool) {
	if len(days) == 0 || days[len(days)-1].Date.Before(sown) {
		return accumulation{}, false
	}
	n := days[len(days)-1].Date.DaysSince(sown) + 1
	daily := make([]forecast.Value, n)
	for i, d := range days {
		at := d.Date.DaysSince(sown)
		if at < 0 || at >= n {
			continue
		}
		daily[at] = degreesOf(m, base, upper, days, i)
	}
	mean, known := meanOf(daily)
	if float64(known) < minKnown*float64(n) {
		return accumulation{}, false
	}
	rate, _ := meanOf(daily[max(0, n-rateDays):])
	a := accumulation{start: sown, sums: make([]float64, n), rate: rate, unknown: n - known}
	running := 0.0
	for i, v := range daily {
		running += v.Or(mean) // said in the words of the date
		a.sums[i] = running
	}
	return a, true
}

// degreesOf gives the degree days of days[i]; the night after the last day is
// taken like the one before it.
func degreesOf(m Method, base, upper float64, days []Day, i int) forecast.Value {
	lo, okLo := days[i].Min.Get()
	hi, okHi := days[i].Max.Get()
	if !okLo || !okHi {
		return forecast.Value{}
	}
	next := lo
	if i+1 < len(days) && days[i+1].Date == days[i].Date.AddDays(1) {
		next = days[i+1].Min.Or(lo)
	}
	return forecast.Known(m.Day(lo, hi, next, base, upper))
}

func meanOf(daily []forecast.Value) (mean float64, known int) {
	for _, v := range daily {
		if x, ok := v.Get(); ok {
			mean += x
			known++
		}
	}
	if known == 0 {
		return 0, 0
	}
	return mean / float64(known), known
}

// reach gives the first day on which the sum is reached, beyond the known days at
// the last rate times pace; false when it is too cold to get there in a year.
func (a accumulation) reach(target, pace float64) (forecast.Date, bool) {
	for i, s := range a.sums {
		if s >= target {
			return a.start.AddDays(i), true
		}
	}
	left := (target - a.total()) / (a.rate * pace)
	if !(left <= 365) {
		return forecast.Date{}, false
	}
	return a.start.AddDays(len(a.sums) - 1 + int(math.Ceil(left))), true
}
