package ledger

import (
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
	"dawnbrush/risk/water/dose"
)

// afternoon is the hour from which a watering counts for the next morning: the
// account takes a day's use after its water, and most of it is over by then.
// [chosen: two thirds of a day's use falls before 15 h]
const afternoon = 15

// given is what the diary tells of a bed's waterings on a day.
type given struct {
	net, gross float64 // mm, litres
	unsure     bool    // minutes of a flow that is not told
}

// diary is what was noted of waterings.
type diary struct {
	first forecast.Date   // of the first note; zero when none is
	beds  []map[int]given // by bed of the garden file and day of the weather
}

// waterings reads the notes. Once the diary notes a watering it is taken to note
// all: before, what was given is not known.
func (w *weather) waterings(entries []memory.Entry, grounds []ground) diary {
	d := diary{beds: make([]map[int]given, len(w.g.Beds))}
	for i := range entries {
		e := &entries[i]
		if e.Kind != memory.Water || e.Removed || e.Date.After(w.today) || e.At.After(w.now) || w.index(e.Date) < 0 {
			continue
		}
		amount, litres := e.Amount.Get()
		minutes, timed := e.Minutes.Get()
		if !litres && !timed {
			continue
		}
		if d.first.IsZero() || e.Date.Before(d.first) {
			d.first = e.Date
		}
		beds := w.bedsOf(e.Planting)
		all := 0.0
		for _, k := range beds {
			all += w.areaOf(k, grounds)
		}
		for _, k := range beds {
			area := w.areaOf(k, grounds)
			if area <= 0 {
				continue
			}
			day := w.dayOf(e)
			if d.beds[k] == nil {
				d.beds[k] = map[int]given{}
			}
			g, bed := d.beds[k][day], &w.g.Beds[k]
			out := 0.0
			switch {
			case litres:
				out = amount * area / all
			case bed.Flow > 0:
				out = minutes / 60 * bed.Flow
			default:
				g.unsure = true
			}
			g.gross += out
			g.net += out / area * float64(efficiencyOf(bed.Watering))
			d.beds[k][day] = g
		}
	}
	return d
}

// dayOf gives the day that a watering counts for.
func (w *weather) dayOf(e *memory.Entry) int {
	k := w.index(e.Date)
	if !e.At.IsZero() && e.Date.Before(w.today) && e.At.In(w.g.Place.Zone).Hour() >= afternoon {
		k++
	}
	return k
}

// bedsOf gives the beds that a name in the diary stands for: a planting's, a bed's
// own, or with no name all.
func (w *weather) bedsOf(name string) (out []int) {
	bed := name
	for i := range w.g.Plantings {
		if p := &w.g.Plantings[i]; name != "" && strings.EqualFold(p.Name, name) {
			bed = p.Bed
		}
	}
	for k := range w.g.Beds {
		if name == "" || strings.EqualFold(w.g.Beds[k].Name, bed) {
			out = append(out, k)
		}
	}
	return out
}

// areaOf gives the m2 that a bed's water is spread over.
func (w *weather) areaOf(k int, grounds []ground) float64 {
	if a := grounds[k].area; a > 0 {
		return a
	}
	bed := &w.g.Beds[k]
	if bed.Kind == risk.Pots {
		return mouthOf(bed.PotVolume) * float64(max(1, bed.Pots))
	}
	return bed.Area
}

// gross gives the litres to let out for a net depth of mm.
func (g *ground) gross(mm float64) float64 {
	litres, err := dose.Gross(dose.Litres(mm, g.area), g.efficiency)
	if err != nil {
		return 0
	}
	return litres
}
