package brightsky

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/assemble"
)

const (
	// farOff is the distance from which a station's weather is told as another place's.
	farOff = 20 // km [chosen: a shower or a hill apart; the service goes to 50]

	// unlikeHeight is how far apart two sources may lie in height without a word: 100 m are
	// 0.65 K, less than forecasts err by.
	unlikeHeight = 100 // m [chosen: the same as for moving a series to the garden's height]
)

// mainSource gives the source of most forecast records, or of most measured ones; nil when the
// document tells nothing of it.
func (d *document) mainSource(measured bool) *source {
	count := map[int64]int{}
	var best *source
	for i := range d.Weather.records {
		r := &d.Weather.records[i]
		s := d.source(r.SourceID)
		if s == nil || r.measured != measured {
			continue
		}
		if count[s.ID]++; best == nil || count[s.ID] > count[best.ID] {
			best = s
		}
	}
	return best
}

// words names the source to credit.
func (s *source) words() string {
	if s == nil || s.Name == "" {
		return sourceName
	}
	kind := "station"
	if !s.measured() {
		kind = "forecast for"
	}
	return sourceName + ", " + kind + " " + s.place()
}

// place names the source and where it is.
func (s *source) place() string {
	name := s.Name
	if name == "" {
		name = "without a name"
	}
	if km, ok := s.km(); ok {
		return fmt.Sprintf("%s, %.0f km away", name, km)
	}
	return name
}

// km gives the distance from the place that was asked for.
func (s *source) km() (km float64, ok bool) {
	if s.Distance == nil || !(*s.Distance >= 0) {
		return 0, false
	}
	return *s.Distance / 1000, true
}

// point gives where the source lies. Its zone is not in the document.
func (s *source) point() forecast.Place {
	var p forecast.Place
	if s == nil || math.Abs(s.Lat) > 90 || math.Abs(s.Lon) > 180 {
		return p
	}
	p.Lat, p.Lon = s.Lat, s.Lon
	if s.Height != nil {
		p.Elevation = assemble.Elevation(*s.Height)
	}
	return p
}

// use tells what was taken from one source.
type use struct {
	source *source // nil when the document tells nothing of it
	from   taken
	lent   taken // forecasts in measured records
}

// taken counts records and names the quantities in them.
type taken struct {
	records, last int // last: the number of the last one, counted from 1
	words         []string
}

func (t *taken) add(record int, word string) {
	if t.last != record {
		t.records, t.last = t.records+1, record
	}
	if !slices.Contains(t.words, word) {
		t.words = append(t.words, word)
	}
}

// uses lists the sources in order of first use.
func (d *document) uses() []*use {
	var out []*use
	by := map[int64]*use{}
	for i := range d.Weather.records {
		r := &d.Weather.records[i]
		for k := range quantities {
			q := &quantities[k]
			if q.value(r) == nil {
				continue
			}
			id := q.from(&r.Fallback)
			if id == 0 {
				id = r.SourceID
			}
			u := by[id]
			if u == nil {
				u = &use{source: d.source(id)}
				by[id], out = u, append(out, u)
			}
			u.from.add(i+1, q.word)
			if r.measured && u.source != nil && !u.source.measured() {
				u.lent.add(i+1, q.word)
			}
		}
	}
	return out
}

// notes tells what the grower has to know of where the values come from.
func (d *document) notes(si bool) []forecast.Note {
	var out []forecast.Note
	say := func(format string, args ...any) {
		out = append(out, forecast.Note{Text: fmt.Sprintf(format, args...)})
	}
	if d.left > 0 {
		say("hours without a usable time, or told twice, left out: %d", d.left)
	}
	if si {
		say("the document does not name its units; its temperatures can only be in kelvin, so all is read as SI units")
	}
	uses := d.uses()
	for _, u := range uses {
		if u.source == nil {
			say("hours of a source that the document tells nothing of, taken for forecasts: %d", u.from.records)
			continue
		}
		if u.lent.records > 0 {
			say("measured hours with %s from the forecast, which the station lacks: %d", list(u.lent.words), u.lent.records)
		}
		if km, ok := u.source.km(); ok && km > farOff {
			say("hours with %s from %s: %d", list(u.from.words), u.source.place(), u.from.records)
		}
	}
	if low, high := heights(uses); high-low >= unlikeHeight {
		out = append(out, forecast.Note{Layer: "Temp",
			Text: fmt.Sprintf("temperatures come from points between %.0f m and %.0f m above the sea", low, high)})
	}
	return out
}

// heights gives the lowest and the highest source of temperatures.
func heights(uses []*use) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, u := range uses {
		if u.source == nil || !slices.Contains(u.from.words, quantities[0].word) {
			continue
		}
		if m, ok := u.source.point().Elevation.Get(); ok {
			low, high = min(low, m), max(high, m)
		}
	}
	return low, high
}

// list writes words one after the other.
func list(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
