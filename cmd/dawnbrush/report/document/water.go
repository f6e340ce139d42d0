package document

import (
	"slices"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
)

// Watering is what a bed wants on a day.
type Watering struct {
	Bed *ledger.Bed
	Day *ledger.Day
}

// Advice is what to do.
func (x Watering) Advice() *ledger.Advice { return &x.Day.Advice }

// At gives the time by which the work is put in order: its beginning, else its end.
func (x Watering) At() time.Time { return startOf(x.Day.Advice.From, x.Day.Advice.To) }

// Work tells whether there is something to do: to water, or to feel the soil.
func (x Watering) Work() bool {
	return x.Day.Advice.Verdict == ledger.Water || x.Day.Advice.Verdict == ledger.LookFirst
}

func startOf(from, to time.Time) time.Time {
	if from.IsZero() {
		return to
	}
	return from
}

// Beds lists what each reckoned bed wants on a date, in the order of the garden
// file, those that want nothing too.
func (d *Document) Beds(date forecast.Date) []Watering {
	var out []Watering
	if d.Water == nil {
		return nil
	}
	for i := range d.Water.Beds {
		b := &d.Water.Beds[i]
		if day, ok := b.Day(date); ok && b.Why == ledger.Reckoned {
			out = append(out, Watering{b, day})
		}
	}
	return out
}

// Waterings lists the beds to water or to look at on a date, in order of the hour.
func (d *Document) Waterings(date forecast.Date) []Watering {
	out := slices.DeleteFunc(d.Beds(date), func(x Watering) bool { return !x.Work() })
	slices.SortStableFunc(out, func(a, b Watering) int { return a.At().Compare(b.At()) })
	return out
}

// Work is one thing to do: a task among the flowers, or water for beds in the same
// hours.
type Work struct {
	Task *risk.Task // nil for water
	Beds []Watering // of one verdict
}

// DayWork gives the work of a day of the plan, tasks and water, in order of the hour.
func (d *Document) DayWork(plan *risk.DayPlan) []Work {
	var out []Work
	water := together(d.Waterings(plan.Date))
	for i := range plan.Tasks {
		t := &plan.Tasks[i]
		for len(water) > 0 && !water[0].Beds[0].At().After(startOf(t.From, t.To)) {
			out, water = append(out, water[0]), water[1:]
		}
		out = append(out, Work{Task: t})
	}
	return append(out, water...)
}

// together puts beds of the same verdict and hours together, in the order of the first
// of them.
func together(beds []Watering) []Work {
	var out []Work
	for _, x := range beds {
		a := x.Advice()
		k := slices.IndexFunc(out, func(w Work) bool {
			b := w.Beds[0].Advice()
			return b.Verdict == a.Verdict && b.From.Equal(a.From) && b.To.Equal(a.To)
		})
		if k < 0 {
			out = append(out, Work{Beds: []Watering{x}})
			continue
		}
		out[k].Beds = append(out[k].Beds, x)
	}
	return out
}

// InFocus tells whether a bed is asked for: by its name, by a planting in it, by a
// crop in it, or as one of all.
func (f Focus) InFocus(b *ledger.Bed) bool {
	switch {
	case f.Bed != "":
		return strings.EqualFold(f.Bed, b.Bed.Name)
	case f.Planting == "" && f.Crop == "":
		return true
	}
	return slices.ContainsFunc(b.Plantings, f.Matches)
}
