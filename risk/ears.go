package risk

import (
	"math"
	"slices"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/crop"
)

// EarPart is a third of the ear, from the stalk up. Its silks come out in this order.
// [BasWesA, status read]
type EarPart uint8

// The parts of an ear.
const (
	Butt EarPart = iota
	Middle
	Tip
	earParts = iota
)

var earPartNames = [earParts]string{"butt", "middle", "tip"}

// String gives the word used in JSON.
func (p EarPart) String() string { return earPartNames[p] }

// Ears is what becomes of the ears of a planting of corn: the kernels that their
// silks' days of pollen fill. The zero Ears is not known.
type Ears struct {
	Known  bool            // the first silk was seen and silks of it still take pollen
	Filled Range           // share of the kernels filled in the end, left alone
	Shaken Range           // the same with tassels shaken on this day
	Part   [earParts]Range // Filled of each part of the ear
	Open   float64         // share of all silks that are out and wait for pollen this morning, middle
	Waits  EarPart         // the part most of them belong to
	// Heat is the degree days of heat on the ears while silks take pollen, HeatLeft the
	// share of kernels that they leave beside the pollen they kill. Lo is the most heat.
	Heat, HeatLeft Range
	Dark           int // days of shed whose weather is not known: they count from nothing to a good day
}

// Wins gives the share of kernels that shaking on this day wins, middle.
func (e *Ears) Wins() float64 { return e.Shaken.Mid - e.Filled.Mid }

// winsMost gives the most that it wins at either end or the middle of the range.
func (e *Ears) winsMost() float64 {
	return max(e.Shaken.Lo-e.Filled.Lo, e.Wins(), e.Shaken.Hi-e.Filled.Hi)
}

const (
	mostCohorts = 16 // days on which silks come out, at most
	mostEarDays = 32 // days on which silks take pollen, at most
)

// pollenDay is the pollen that reaches the silks on a day, of a good day's at the height of shed.
type pollenDay struct {
	alone, shaken Range
	shed          float64 // share of the tassels' best day
	known         bool
}

// cohort is the silks of one day.
type cohort struct {
	got, more Range   // exponents of staying empty in the end, left alone and shaken
	have      float64 // the same before this morning, middle
}

// add adds times another range: poor days are taken to come together.
func (r *Range) add(x Range, times float64) {
	r.Lo, r.Mid, r.Hi = r.Lo+times*x.Lo, r.Mid+times*x.Mid, r.Hi+times*x.Hi
}

// filled gives the chance that a silk's kernel fills, by the exponent of staying empty.
func (r Range) filled() Range {
	return Range{1 - math.Exp(-r.Lo), 1 - math.Exp(-r.Mid), 1 - math.Exp(-r.Hi)}
}

// cohorts is on how many days silks come out: the middle of the published days.
func (m *cornModel) cohorts() int {
	return min(mostCohorts, max(1, int(math.Round((m.d.SilksOut.Low+m.d.SilksOut.High)/2))))
}

// earDays is how many days from the first silk on some silk takes pollen.
func (m *cornModel) earDays() int {
	return min(mostEarDays, m.cohorts()-1+int(math.Ceil(m.d.SilkDays)))
}

// ears works a planting's ears out as seen on the morning of day now, from the pollen
// of the days since the first silk. Silks come out evenly over the published days and
// take pollen for the published days; one stays empty with the chance exp(-fill_rate
// times its sum of pollen). [chosen: the form that set has elsewhere, and the crop file's fill_rate]
func (m *cornModel) ears(days []pollenDay, now int) (e Ears) {
	if now < 0 || now >= len(days) {
		return Ears{}
	}
	var all [mostCohorts]cohort
	n := m.cohorts()
	for d := range days {
		day := &days[d]
		if !day.known && day.shed > 0 {
			e.Dark++
		}
		shaken := day.alone
		if d == now {
			shaken = day.shaken
		}
		for c := 0; c < n && c <= d; c++ {
			takes := m.silkTakes(float64(d-c)) * day.shed * m.d.FillRate
			if d < now {
				all[c].have += takes * day.alone.Mid
			}
			all[c].got.add(day.alone, takes)
			all[c].more.add(shaken, takes)
		}
	}
	e.Known = true
	m.sum(&e, all[:n], now)
	return e
}

// sum adds the silks of all days up.
func (m *cornModel) sum(e *Ears, all []cohort, now int) {
	n := float64(len(all))
	var waits, silks [earParts]float64
	for c := range all {
		part := EarPart(c * earParts / len(all))
		silks[part]++
		e.Filled.add(all[c].got.filled(), 1/n)
		e.Shaken.add(all[c].more.filled(), 1/n)
		e.Part[part].add(all[c].got.filled(), 1)
		if age := float64(now - c); age >= 0 && m.silkTakes(age) > 0 {
			waits[part] += math.Exp(-all[c].have)
		}
	}
	for part := range e.Part {
		if s := silks[part]; s > 0 {
			r := e.Part[part]
			e.Part[part] = Range{r.Lo / s, r.Mid / s, r.Hi / s}
		}
		e.Open += waits[part] / n
		if waits[part] > waits[e.Waits] {
			e.Waits = EarPart(part)
		}
	}
}

// shedShare gives the pollen a planting has on a day, of its best: it begins on the
// day of the first tassel, seen or reckoned back from the first silk.
func (m *cornModel) shedShare(p *Planting, date forecast.Date) float64 {
	first := p.FirstMale
	if first.IsZero() {
		first = p.FirstFemale.AddDays(-int(math.Round(m.d.SilkAfterTassel.Or(0))))
	}
	return m.d.Shed.At(float64(date.DaysSince(first)))
}

// fillEars works the ears of every planting of corn out, once all days are. Days of
// the series before and after those asked for count too.
func (m *Model) fillEars() {
	for i := range m.models {
		p, corn := m.models[i].p, &m.models[i].corn
		if p.Crop.Pollination != crop.Wind || p.FirstFemale.IsZero() || !m.silking(p.FirstFemale, corn.earDays()) {
			continue
		}
		var room [mostEarDays]pollenDay
		days := room[:corn.earDays()]
		for d := range days {
			date := p.FirstFemale.AddDays(d)
			days[d] = m.pollenOf(i, date)
			days[d].shed = corn.shedShare(p, date)
			if slices.Contains(p.Brushed, date) { // the diary says it was shaken
				days[d].alone = days[d].shaken
			}
		}
		heat := m.heatOn(p, corn)
		for k := range m.out.Days {
			day := &m.out.Days[k]
			if day.Plantings[i].State != OtherAir {
				e := corn.ears(days, day.Date.DaysSince(p.FirstFemale))
				if e.Known {
					e.heat(heat)
				}
				day.Plantings[i].Ears = e
			}
		}
	}
}

// silking tells whether any day asked for falls into the n days from the first silk.
func (m *Model) silking(first forecast.Date, n int) bool {
	return slices.ContainsFunc(m.out.Days, func(d Day) bool {
		k := d.Date.DaysSince(first)
		return k >= 0 && k < n
	})
}

// pollenOf gives a day's pollen that reaches the silks of planting i. A day that is
// not known may be anything up to a good one.
func (m *Model) pollenOf(i int, date forecast.Date) pollenDay {
	p := m.models[i].p
	var pd *PlantingDay
	if day, held := m.out.Day(date); held {
		pd = &day.Plantings[i]
	} else if !p.inside() {
		pd = m.beyond(i, date)
	}
	switch {
	case pd != nil && pd.State == Judged:
		return pollenDay{alone: pd.Fill, shaken: pd.Both, known: true}
	case pd != nil && pd.State == StaysShut:
		return pollenDay{known: true}
	}
	good := rowShare(p.cornRows())
	dark := Range{0, good / 2, good}
	return pollenDay{alone: dark, shaken: dark}
}

// beyond judges corn on a day of the series that was not asked for; nil where the
// series does not tell. The result holds until the next call.
func (m *Model) beyond(i int, date forecast.Date) *PlantingDay {
	f, model := &m.frame, &m.models[i]
	if !f.build(m.s, &m.skies, m.g.Place, date, m.past.index(date)) || f.polar || !f.hasLast ||
		!model.inReach(f) || f.missingIn(model.span(f)).Has(air.Temp) {
		return nil
	}
	m.aside = PlantingDay{}
	model.corn.judge(f, model.p, &m.aside, m.asideHours[:])
	return &m.aside
}
