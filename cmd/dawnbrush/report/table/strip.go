package table

import (
	"slices"
	"strings"
	"time"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// strip is the hours of one planting's day, drawn: rows standing under each
// other over the same hours.
type strip struct {
	title string
	hours []time.Time
	rows  []stripRow
}

type stripRow struct {
	label string
	marks []byte // one an hour: capital fully, small partly, dot not, ? not known, blank not looked at
}

const (
	stripLabel = 9
	stripHour  = 3
	stripGap   = 2
)

func mark(l words.Level, full, part byte) byte {
	return [...]byte{words.NotKnown: '?', words.NotAtAll: '.', words.Partly: part, words.Fully: full}[l]
}

// strips draws every planting in flower, side by side where the width allows.
func (t *today) strips() {
	if t.plan.Day == nil {
		return
	}
	var all []strip
	for i := range t.plan.Day.Plantings {
		p := &t.plan.Day.Plantings[i]
		if self := p.Planting.Crop.Self; self != nil && !self.Tapped() {
			continue // its flowers pollinate themselves in the bud, at no hour to speak of
		}
		if p.Bloom != risk.NoBloom && p.Bloom != risk.MalesOnly && p.State != risk.NeedsNoPollen && len(p.Hours) > 0 {
			all = join(all, t.strip(t.plan.Day, p))
		}
	}
	if len(all) == 0 {
		return
	}
	t.heading("Hours")
	t.para("  ", "capital: fully (X: best hour), small: partly, dot: not, ?: not known")
	for i := range all {
		t.noteStrip(&all[i])
	}
	for len(all) > 0 {
		n, used := 1, t.stripWidth(&all[0])
		for n < len(all) && used+stripGap+t.stripWidth(&all[n]) <= t.width-2 {
			used += stripGap + t.stripWidth(&all[n])
			n++
		}
		t.side(all[:n])
		all = all[n:]
	}
}

// join adds a strip, or its title to one that shows the same.
func join(all []strip, s strip) []strip {
	for i := range all {
		if slices.Equal(all[i].hours, s.hours) && slices.EqualFunc(all[i].rows, s.rows, func(a, b stripRow) bool {
			return a.label == b.label && string(a.marks) == string(b.marks)
		}) {
			all[i].title += " / " + s.title
			return all
		}
	}
	return append(all, s)
}

func (t *today) stripWidth(s *strip) int {
	return max(t.columns(s.title), stripLabel+stripHour*len(s.hours))
}

// side prints strips beside each other.
func (t *today) side(strips []strip) {
	most := 0
	for i := range strips {
		most = max(most, len(strips[i].rows))
	}
	for r := -2; r < most; r++ {
		line := "  "
		for i := range strips {
			if i > 0 {
				line += strings.Repeat(" ", stripGap)
			}
			line += t.stripLine(&strips[i], r)
		}
		t.put(line)
	}
}

// stripLine gives the title (-2), the hours (-1) or a row of a strip.
func (t *today) stripLine(s *strip, r int) string {
	switch {
	case r == -2:
		return t.paint(t.pad(s.title, t.stripWidth(s)), color.Bold)
	case r >= len(s.rows):
		return strings.Repeat(" ", t.stripWidth(s))
	}
	var b strings.Builder
	if r == -1 {
		b.WriteString(t.pad("hour", stripLabel))
		for _, h := range s.hours {
			b.WriteString(" " + h.Format("15"))
		}
		return t.pad(b.String(), t.stripWidth(s))
	}
	row := s.rows[r]
	b.WriteString(t.pad(row.label, stripLabel))
	for _, m := range row.marks {
		b.WriteString("  " + t.paint(string(m), markColours[m]...))
	}
	return b.String() + strings.Repeat(" ", t.stripWidth(s)-stripLabel-stripHour*len(s.hours))
}

// markColours repeat what the letters say.
var markColours = map[byte][]color.Attribute{'X': {color.FgGreen, color.Bold}, 'x': {color.FgGreen}, 'R': {color.FgBlue, color.Bold}, 'r': {color.FgBlue},
	'?': {color.FgYellow}}

func (t *today) strip(day *risk.Day, p *risk.PlantingDay) strip {
	s := strip{title: p.Planting.Name}
	zone := t.d.Zone()
	from := p.Hours[0].Start
	if !day.Sunrise.IsZero() {
		// The hour before sunrise: squash bees are out, and one gets up.
		if early := day.Sunrise.Truncate(time.Hour).Add(-time.Hour); early.Before(from) && from.Sub(early) <= 3*time.Hour {
			from = early
		}
	}
	to := lastUseful(p)
	for h := from; h.Before(to); h = h.Add(time.Hour) {
		s.hours = append(s.hours, h.In(zone))
	}
	at := func(label string, mark func(h *risk.FlowerHour) byte) {
		s.rows = append(s.rows, stripRow{label, s.flowerMarks(p, '.', mark)})
	}
	groups := words.Visitors(p.Planting.Crop, t.d.Garden.Bees)
	switch p.Planting.Crop.Pollination {
	case crop.Wind:
		at("shedding", func(h *risk.FlowerHour) byte { return mark(words.LevelOf(h.Open), 'O', 'o') })
		at("wind", func(h *risk.FlowerHour) byte {
			return mark(words.LevelOf(p.Planting.Crop.Corn.Carry.At(h.Air.Wind2)), 'W', 'w')
		})
	case crop.Self:
		at("flowers", func(h *risk.FlowerHour) byte { return mark(words.LevelOf(h.Open*h.Receptive), 'O', 'o') })
	default:
		at("flowers", func(h *risk.FlowerHour) byte { return mark(words.LevelOf(h.Open*h.Receptive), 'O', 'o') })
		s.rows = append(s.rows, stripRow{"bees", s.flowerMarks(p, ' ', func(h *risk.FlowerHour) byte { return mark(words.BeesLevel(h, groups), 'B', 'b') })}) // worked out for open flowers only
	}
	if p.Planting.Crop.Pollination != crop.Self {
		at("pollen", func(h *risk.FlowerHour) byte { return mark(words.LevelOf(h.Alive*h.Heat), 'P', 'p') })
	}
	s.rows = append(s.rows, stripRow{"rain", s.rain(t.d.Assessment.Series)})
	s.rows = append(s.rows, stripRow{brushLabel(p.Planting.Crop.Pollination), s.flowerMarks(p, '.', func(h *risk.FlowerHour) byte { return brushMark(p, h) })})
	return s
}

func brushLabel(p crop.Pollination) string {
	switch p {
	case crop.Wind:
		return "shake"
	case crop.Self:
		return "tap"
	}
	return "brush"
}

// flowerMarks sets a mark in the hours of the flower, another before and after.
func (s *strip) flowerMarks(p *risk.PlantingDay, outside byte, mark func(h *risk.FlowerHour) byte) []byte {
	out := []byte(strings.Repeat(string(outside), len(s.hours)))
	for i := range p.Hours {
		h := &p.Hours[i]
		if k := int(h.Start.Sub(s.hours[0]) / time.Hour); k >= 0 && k < len(out) {
			out[k] = mark(h)
		}
	}
	return out
}

// brushMark is a capital in the best hour and small in the others advised.
func brushMark(p *risk.PlantingDay, h *risk.FlowerHour) byte {
	switch {
	case p.BestHour < 0:
		return '.'
	case p.Hours[p.BestHour].Start.Equal(h.Start):
		return 'X'
	case words.LevelOf(h.Hand) > words.NotAtAll:
		return 'x'
	}
	return '.'
}

// rain marks the chance of rain as the forecaster gives it, or rain that fell.
func (s *strip) rain(series *forecast.Series) []byte {
	out := make([]byte, len(s.hours))
	for i, t := range s.hours {
		out[i] = mark(words.NotKnown, 'R', 'r')
		if k, ok := series.Index(t); ok {
			out[i] = mark(words.RainLevel(&series.Hours[k]), 'R', 'r')
		}
	}
	return out
}

// lastUseful is the end of the last hour in which flowers take pollen.
func lastUseful(p *risk.PlantingDay) time.Time {
	end := p.Hours[0].Start.Add(time.Hour)
	for i := range p.Hours {
		if h := &p.Hours[i]; h.Open > 0 && h.Receptive > 0 {
			end = h.Start.Add(time.Hour)
		}
	}
	return end
}
