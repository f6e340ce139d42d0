package growth

import (
	"math"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// Sex tells the two first flowers of a planting apart; for corn Male is the
// tassel and Female the silk.
type Sex uint8

// The sexes.
const (
	Male Sex = iota
	Female
)

// String gives the word used in the diary and in JSON.
func (s Sex) String() string {
	if s == Male {
		return "male"
	}
	return "female"
}

// Sighting is a first flower that somebody saw and what the plant took to bring
// it.
type Sighting struct {
	Planting, Cultivar string
	Species            string
	Sex                Sex
	Start, Seen        forecast.Date  // Start is the sowing, or the one that the transplants' usual age gives
	Days               float64        // from Start
	Book               crop.Range     // days from Start that the book gives
	Aged               float64        // spread of the logarithm of Days where the plants' age was taken, else 0
	Sum                forecast.Value // degC day from sowing; unknown where Fault says why
	Fault              Fault          // what it cannot teach, and why
}

// Fault is why a sighting teaches less than all.
type Fault uint8

// The faults. From NoStart on a sighting teaches nothing; those before leave its
// days.
const (
	Whole            Fault = iota
	NoMethod               // the crop has no way to reckon degree days
	NotSown                // transplants whose sowing is not told: no sum from sowing
	TooFewTemps            // too many days of the span have no temperatures
	NoStart                // neither sowing nor transplanting was told
	BeforeStart            // seen before it was sown or planted: of another year, or a slip
	OutOfAllReason         // under a third or over three times the book's days: a slip
	NothingInTheBook       // the book has no days to hold it against
	UnderCover             // in a tunnel or house, whose air is not the garden's
)

// Teaches tells whether a sighting with the fault teaches anything.
func (f Fault) Teaches() bool { return f < NoStart }

const (
	// mostUnknown is the share of a span's days that may lack temperatures. What
	// is learned stays, so it is stricter than a date reckoned for today.
	mostUnknown = 0.10 // [chosen: a tenth of average days moves a sum by a few per cent at most]

	// reasonable bounds the days a first flower may take, as a multiple of the
	// book's middle and its inverse.
	reasonable = 3.0 // [chosen: the widest range of the crop files is 1.7 from end to end]
)

// span is the time from sowing to a first flower by the book.
type span struct {
	start forecast.Date
	days  crop.Range // from start
	aged  float64    // as Sighting.Aged
	age   float64    // days from start to transplanting where start was taken from it, else 0
}

// spanOf gives the book's days from sowing. Where only transplanting was told the
// start is the day on which plants of the usual age were sown.
func spanOf(ph crop.Phenology, p Planting, sex Sex) span {
	s := span{start: p.Sown, days: ph.SowToFemale}
	if sex == Male {
		s.days = ph.SowToMale
	}
	if !p.Sown.IsZero() || p.Transplanted.IsZero() {
		return s
	}
	s.age = (ph.TransplantAge.Low + ph.TransplantAge.High) / 2
	s.start = p.Transplanted.AddDays(-whole(s.age))
	if ph.TransplantToFirst != (crop.Range{}) {
		s.days = crop.Range{Low: ph.TransplantToFirst.Low + s.age, High: ph.TransplantToFirst.High + s.age}
		if sex == Male {
			s.days.Low -= ph.FemaleAfterMale.High
			s.days.High -= ph.FemaleAfterMale.Low
		}
	}
	if mid, _ := middle(s.days); mid > 0 {
		s.aged = (ph.TransplantAge.High - ph.TransplantAge.Low) / bothTails / mid
	}
	return s
}

// bothTails is the width of the middle 90 % of a normal law in standard
// deviations: 2 x 1.645. [AS64 table 26.1]
const bothTails = 2 * 1.6448536269514722

// middle reads a range of the book as the middle 90 % of a law whose logarithm is
// normal: its median and the standard deviation of its logarithm. Zero for a
// range that has no logarithm.
// [chosen: books print what is usual, and one planting in ten is not]
func middle(r crop.Range) (median, sd float64) {
	if !(r.Low > 0) || r.High < r.Low {
		return 0, 0
	}
	return math.Sqrt(r.Low * r.High), math.Log(r.High/r.Low) / bothTails
}

// See works out what a first flower seen on a day tells. days are those of the
// history, in order, as Flowering takes them.
func See(ph crop.Phenology, p Planting, sex Sex, seen forecast.Date, days []Day) Sighting {
	b := spanOf(ph, p, sex)
	s := Sighting{Species: p.Species, Sex: sex, Start: b.start, Seen: seen, Book: b.days, Aged: b.aged}
	if b.start.IsZero() {
		s.Fault = NoStart
		return s
	}
	s.Days = float64(seen.DaysSince(b.start))
	mid, _ := middle(b.days)
	switch {
	case s.Days <= 0, s.Days < b.age:
		s.Fault = BeforeStart
	case mid == 0:
		s.Fault = NothingInTheBook
	case s.Days*reasonable < mid, s.Days > reasonable*mid:
		s.Fault = OutOfAllReason
	default:
		s.Sum, s.Fault = sumTo(ph, p, seen, days)
	}
	return s
}

// sumTo gives the degree days from sowing to a flower seen on a day: halfway
// between the sums of the evening before and of that evening, for the flower that
// was seen first may have opened at any time between two looks.
func sumTo(ph crop.Phenology, p Planting, seen forecast.Date, days []Day) (forecast.Value, Fault) {
	m, base, upper, ok := reckoning(ph, p.Species)
	switch {
	case !ok:
		return forecast.Value{}, NoMethod
	case p.Sown.IsZero():
		return forecast.Value{}, NotSown
	}
	n := len(days)
	for n > 0 && days[n-1].Date.After(seen) {
		n--
	}
	if n == 0 || days[n-1].Date != seen {
		return forecast.Value{}, TooFewTemps
	}
	a, ok := accumulate(m, base, upper, p.Sown, days[:n])
	last := len(a.sums) - 1
	if !ok || last < 1 || float64(a.unknown) > mostUnknown*float64(len(a.sums)) {
		return forecast.Value{}, TooFewTemps
	}
	sum := (a.sums[last-1] + a.sums[last]) / 2
	if !(sum > 0) {
		return forecast.Value{}, TooFewTemps
	}
	return forecast.Known(sum), Whole
}

// key makes one word of a cultivar's name however it is written.
func key(cultivar string) string { return strings.ToLower(strings.Join(strings.Fields(cultivar), " ")) }

// SameCultivar tells whether two names mean one cultivar; names not told mean none.
func SameCultivar(a, b string) bool { return key(a) != "" && key(a) == key(b) }
