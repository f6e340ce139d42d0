// Package picture draws the week: days down, hours across, and in each day rows for
// open flowers, bees, live pollen, rain and the hours of work by hand. A letter says
// what colour says, a capital for fully and a small one for partly, as in the plan of
// the day on lines; Alt says it in words.
package picture

import (
	"math"
	"time"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/air"
	"dawnbrush/risk/crop"
)

// Week is what the picture shows.
type Week struct {
	First int // the first hour of the clock that is shown
	Hours int // how many are shown
	Rows  []Row
	Days  []Day
}

// Row is one of the rows that every day has.
type Row struct {
	Name          string
	Full, Part    string // the letters
	saying, never string // for Alt: "rain possible", "no rain likely"
	kind          rowKind
}

type rowKind uint8

const (
	rowFlowers rowKind = iota
	rowBees
	rowWind
	rowPollen
	rowRain
	rowHand
)

// Day is one day of the picture.
type Day struct {
	Short, Long string // its date: "Thu 16", "Thu 16 July"
	Marks       [][]words.Level
}

// Bounds of the hours shown; a morning is always whole. [chosen]
const (
	firstHour, lastHour = 3, 22 // the most
	fromHour, toHour    = 5, 13 // the least
)

// Of gathers the picture of a document's days. The flowers are those of the plantings
// that bees serve; where no such planting flowers, those of corn, then those that set
// by themselves. A row is full where two thirds of these plantings are. Bees are told
// while flowers are open. What some hour's weather is not known for is not known. It is
// nil where nothing flowers.
func Of(d *document.Document) *Week {
	kind, any := served(d)
	if !any {
		return nil
	}
	w := &Week{First: firstHour, Hours: lastHour - firstHour + 1, Rows: rows(kind)}
	say := d.Words()
	for i := range d.Plans {
		plan := &d.Plans[i]
		day := Day{Short: say.ShortDay(plan.Date), Long: say.Day(plan.Date)}
		g := gatherer{d, plan, w, plantings(plan, kind)}
		for _, r := range w.Rows {
			day.Marks = append(day.Marks, g.row(r.kind))
		}
		w.Days = append(w.Days, day)
	}
	w.crop(daybreak(d))
	return w
}

// daybreak gives the hour of the clock before the earliest sunrise: what is open
// before it nobody sees, and no bee.
func daybreak(d *document.Document) int {
	first := lastHour
	for i := range d.Plans {
		if day := d.Plans[i].Day; day != nil && !day.Sunrise.IsZero() {
			first = min(first, day.Sunrise.In(d.Zone()).Hour()-1)
		}
	}
	if first == lastHour { // the sun does not rise, or nobody knows
		return firstHour
	}
	return max(firstHour, first)
}

// served picks the kind of pollination that the picture is about.
func served(d *document.Document) (crop.Pollination, bool) {
	for _, kind := range []crop.Pollination{crop.Insect, crop.Wind, crop.Self} {
		for i := range d.Plans {
			if len(plantings(&d.Plans[i], kind)) > 0 {
				return kind, true
			}
		}
	}
	return 0, false
}

// plantings lists those of a kind in flower that a verdict is about.
func plantings(plan *risk.DayPlan, kind crop.Pollination) (out []*risk.PlantingDay) {
	if plan.Day == nil {
		return nil
	}
	for i := range plan.Day.Plantings {
		p := &plan.Day.Plantings[i]
		if p.Planting.Crop.Pollination == kind && p.Bloom != risk.NoBloom && p.Bloom != risk.MalesOnly && p.State.Known() && len(p.Hours) > 0 {
			out = append(out, p)
		}
	}
	return out
}

func rows(kind crop.Pollination) []Row {
	flowers := Row{"flowers", "O", "o", "flowers open", "no flowers open", rowFlowers}
	pollen := Row{"pollen", "P", "p", "pollen alive", "no pollen alive", rowPollen}
	rain := Row{"rain", "R", "r", "rain possible", "no rain likely", rowRain}
	hand := Row{"by hand", "X", "x", "work by hand", "no work by hand", rowHand}
	switch kind {
	case crop.Wind:
		flowers.Name, flowers.saying, flowers.never = "tassels", "tassels shedding", "no tassels shedding"
		return []Row{flowers, {"wind", "W", "w", "wind that carries pollen", "no wind that carries pollen", rowWind}, pollen, rain, hand}
	case crop.Self:
		return []Row{flowers, rain, hand}
	}
	return []Row{flowers, {"bees", "B", "b", "bees at open flowers", "no bees at open flowers", rowBees}, pollen, rain, hand}
}

// gatherer fills the rows of one day.
type gatherer struct {
	d    *document.Document
	plan *risk.DayPlan
	w    *Week
	of   []*risk.PlantingDay
}

func (g *gatherer) row(kind rowKind) []words.Level {
	out := make([]words.Level, g.w.Hours)
	for k := range out {
		switch {
		case g.plan.Day == nil:
		case kind == rowRain:
			out[k] = g.rain(g.w.First + k)
		case kind == rowHand:
			out[k] = g.hand(g.w.First + k)
		default:
			out[k] = g.flower(kind, g.w.First+k)
		}
	}
	return out
}

// flower gives the level of an hour over the plantings.
func (g *gatherer) flower(kind rowKind, clock int) words.Level {
	if len(g.of) == 0 && g.plan.Day.Missing&air.Temp != 0 {
		return words.NotKnown
	}
	sum, most := 0.0, words.NotAtAll
	for _, p := range g.of {
		for i := range p.Hours {
			h := &p.Hours[i]
			if h.Start.In(g.d.Zone()).Hour() != clock {
				continue
			}
			if h.Air != nil && h.Air.Missing&kind.needs() != 0 {
				return words.NotKnown
			}
			switch kind {
			case rowFlowers:
				sum += h.Open * h.Receptive
			case rowPollen:
				sum += h.Alive * h.Heat
			case rowWind:
				sum += p.Planting.Crop.Corn.Carry.At(h.Air.Wind2)
			case rowBees:
				most = max(most, words.BeesLevel(h, words.Visitors(p.Planting.Crop, g.d.Garden.Bees)))
			}
		}
	}
	if kind == rowBees {
		return most
	}
	return words.LevelOf(sum / math.Max(1, float64(len(g.of))))
}

// needs lists the weather that a row is made of.
func (k rowKind) needs() air.Layers {
	return [...]air.Layers{rowFlowers: air.Temp, rowBees: air.Temp | air.Wind | air.Light, rowWind: air.Wind, rowPollen: air.Temp | air.Humidity, rowRain: 0, rowHand: 0}[k]
}

func (g *gatherer) rain(clock int) (level words.Level) {
	if g.d.Assessment == nil || g.d.Assessment.Series == nil {
		return words.NotKnown
	}
	s := g.d.Assessment.Series
	lo, hi := s.Day(g.plan.Date, g.d.Zone())
	for i := lo; i < hi; i++ {
		if s.Hours[i].Start.In(g.d.Zone()).Hour() == clock {
			level = max(level, words.RainLevel(&s.Hours[i]))
		}
	}
	return level
}

// hand tells how much of an hour the plan wants for work by hand, on any planting.
func (g *gatherer) hand(clock int) words.Level {
	level := words.NotAtAll
	for i := range g.plan.Tasks {
		t := &g.plan.Tasks[i]
		if !words.ByHand(t.Kind) || t.From.IsZero() {
			continue
		}
		from, to := g.clockOf(t.From), g.clockOf(t.To)
		within := math.Min(to, float64(clock)+1) - math.Max(from, float64(clock))
		switch {
		case within >= 0.5:
			level = words.Fully
		case within > 0:
			level = max(level, words.Partly)
		}
	}
	return level
}

// clockOf gives the time of day in hours, past 24 where it is another day.
func (g *gatherer) clockOf(t time.Time) float64 {
	local := t.In(g.d.Zone())
	days := forecast.DateOf(t, g.d.Zone()).DaysSince(g.plan.Date)
	return float64(24*days+local.Hour()) + float64(local.Minute())/60
}

// crop cuts the hours in which nothing happens from both ends, and those before
// daybreak.
func (w *Week) crop(daybreak int) {
	from, to := fromHour, toHour
	for _, day := range w.Days {
		for r, row := range day.Marks {
			if k := w.Rows[r].kind; k == rowRain || k == rowBees { // they go on before and after
				continue
			}
			for k, level := range row {
				clock := w.First + k
				if w.Rows[r].kind != rowHand {
					clock = max(daybreak, clock)
				}
				if level > words.NotAtAll {
					from, to = min(from, clock), max(to, clock)
				}
			}
		}
	}
	for i := range w.Days {
		for r := range w.Days[i].Marks {
			w.Days[i].Marks[r] = w.Days[i].Marks[r][from-w.First : to-w.First+1]
		}
	}
	w.First, w.Hours = from, to-from+1
}
