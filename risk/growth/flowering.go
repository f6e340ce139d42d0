package growth

import (
	"errors"
	"fmt"
	"math"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// Planting is what the grower said of one planting. Dates not given are zero.
type Planting struct {
	Sown, Transplanted   forecast.Date
	SeenMale, SeenFemale forecast.Date // first open flower seen
	Species              string        // key of crop.Species; empty when not told
	Male, Female         *Norms        // what the garden's first flowers taught; nil for the book alone
}

func (p Planting) norms(sex Sex) *Norms {
	if sex == Male {
		return p.Male
	}
	return p.Female
}

// Day is the air of one civil day at the planting, observed or forecast.
type Day struct {
	Date     forecast.Date
	Min, Max forecast.Value // degC
}

// Basis says what a date was reckoned from.
type Basis uint8

// The bases, weakest first.
const (
	FromTransplanting Basis = iota + 1 // days counted from transplanting
	FromSowing                         // days counted from sowing
	FromMale                           // days counted from the first male flower seen
	FromWarmth                         // degree days
	FromSight                          // seen by the grower
)

// Dates is a range of civil days, both ends included, and how it came about.
type Dates struct {
	From, To forecast.Date
	Basis    Basis
	Words    string // a plain clause, lower case, no full stop
}

// Estimate is when a planting flowers: for tomatoes Male and Female are both the
// first flower, for corn tassel and silk.
type Estimate struct {
	Male, Female Dates
	End          Dates // when new female flowers cease
}

// Slack of a date from degree days.
const (
	sumSlack  = 0.10 // [chosen: cultivars of one kind differ by about a tenth in their sums]
	rateSlack = 0.20 // [chosen: a fortnight's mean warmth strays by about a fifth from the last one]
	minKnown  = 0.80 // [chosen: with more than a fifth of the days missing, counting days is no worse]
	rateDays  = 14   // [chosen: long enough to even out one cold or hot spell]
)

// Flowering gives the dates of the first flowers. What was seen comes first, then
// degree days where the crop has published sums and enough days have
// temperatures, else days from sowing or transplanting with their wider range.
// days may be in any number and have gaps but must be in order of date. It is an
// error when nothing at all was told of the planting's dates.
func Flowering(ph crop.Phenology, p Planting, days []Day) (Estimate, error) {
	if p.Sown.IsZero() && p.Transplanted.IsZero() && p.SeenMale.IsZero() && p.SeenFemale.IsZero() {
		return Estimate{}, errors.New("neither sowing nor transplanting date is known, and no flower was seen")
	}
	var e Estimate
	e.Male = firstMale(ph, p, days)
	e.Female = firstFemale(ph, p, days)
	if e.Female.From.IsZero() {
		return Estimate{}, errors.New("the date of the first male flower alone does not tell when females come")
	}
	e.End = Dates{
		From: e.Female.From.AddDays(whole(ph.Bloom.Low)), To: e.Female.To.AddDays(whole(ph.Bloom.High)),
		Basis: e.Female.Basis,
		Words: fmt.Sprintf("%g to %g days of flowering from the first female flower", ph.Bloom.Low, ph.Bloom.High),
	}
	return e, nil
}

// Harvest gives the days on which fruit pollinated on a date is ready.
func Harvest(ph crop.Phenology, pollinated forecast.Date) Dates {
	return after(pollinated, ph.HarvestAfter, FromSight, "pollination")
}

func firstMale(ph crop.Phenology, p Planting, days []Day) Dates {
	if !p.SeenMale.IsZero() {
		return seen(p.SeenMale)
	}
	d, ok := warmth(ph, p, Male, days)
	if !ok {
		d = counted(ph, p, Male)
		d.Words += whyNoWarmth(ph, p)
	}
	return d
}

func firstFemale(ph crop.Phenology, p Planting, days []Day) Dates {
	if !p.SeenFemale.IsZero() {
		return seen(p.SeenFemale)
	}
	if !p.SeenMale.IsZero() && ph.FemaleAfterMale != (crop.Range{}) {
		return after(p.SeenMale, ph.FemaleAfterMale, FromMale, "the first male flower")
	}
	d, ok := warmth(ph, p, Female, days)
	if !ok {
		d = counted(ph, p, Female)
		d.Words += whyNoWarmth(ph, p)
	}
	return d
}

func seen(day forecast.Date) Dates {
	return Dates{From: day, To: day, Basis: FromSight, Words: "seen on " + plainDate(day)}
}

func after(start forecast.Date, days crop.Range, basis Basis, what string) Dates {
	return Dates{
		From: start.AddDays(whole(days.Low)), To: start.AddDays(whole(days.High)), Basis: basis,
		Words: fmt.Sprintf("%s days after %s on %s", rangeWords(days), what, plainDate(start)),
	}
}

func rangeWords(r crop.Range) string {
	if r.Low == r.High {
		return fmt.Sprintf("%g", r.Low)
	}
	return fmt.Sprintf("%g to %g", r.Low, r.High)
}

func whole(v float64) int { return int(math.Round(v)) }

// counted reckons by days alone: those the garden's first flowers taught, else the
// book's. Published days from transplanting speak of female flowers; males come as
// much earlier as they do after sowing.
func counted(ph crop.Phenology, p Planting, sex Sex) Dates {
	none := crop.Range{}
	if n := p.norms(sex); n != nil && n.Days.Learned() {
		return countedHere(p, &n.Days, spanOf(ph, p, sex))
	}
	fromSowing, shiftLow, shiftHigh := ph.SowToFemale, 0.0, 0.0
	if sex == Male {
		fromSowing, shiftLow, shiftHigh = ph.SowToMale, -ph.FemaleAfterMale.High, -ph.FemaleAfterMale.Low
	}
	switch {
	case !p.Sown.IsZero():
		return after(p.Sown, fromSowing, FromSowing, "sowing")
	case p.Transplanted.IsZero():
		return Dates{}
	case ph.TransplantToFirst != none:
		r := crop.Range{
			Low:  math.Max(0, ph.TransplantToFirst.Low+shiftLow),
			High: math.Max(0, ph.TransplantToFirst.High+shiftHigh),
		}
		return after(p.Transplanted, r, FromTransplanting, "transplanting")
	}
	r := crop.Range{Low: fromSowing.Low - ph.TransplantAge.High, High: fromSowing.High - ph.TransplantAge.Low}
	r.Low = math.Max(r.Low, 0)
	d := after(p.Transplanted, r, FromTransplanting, "transplanting")
	if ph.TransplantAge != none {
		d.Words += fmt.Sprintf(", plants taken to be %s days old then", rangeWords(ph.TransplantAge))
	}
	return d
}

// countedHere reckons by the days that the garden's first flowers taught.
func countedHere(p Planting, n *Norm, b span) Dates {
	if b.start.IsZero() {
		return Dates{}
	}
	r := n.after(b)
	start, basis, what := p.Sown, FromSowing, "sowing"
	if p.Sown.IsZero() {
		start, basis, what = p.Transplanted, FromTransplanting, "transplanting"
	}
	r = crop.Range{Low: math.Round(math.Max(0, r.Low-b.age)), High: math.Round(math.Max(0, r.High-b.age))}
	d := after(start, r, basis, what)
	d.Words += n.by()
	return d
}

// plainDate writes a date as one says it: 26 June 2026.
func plainDate(d forecast.Date) string { return fmt.Sprintf("%d %s %d", d.Day, d.Month, d.Year) }
