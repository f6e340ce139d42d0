package document

import (
	"slices"

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// Second is another service's forecast of the same hours. It is compared, never
// mixed in: where two forecasts part, their mean is the weather of neither.
type Second struct {
	Forecast    Provenance
	Differences []forecast.Difference // A is the plan's forecast, B this one
	Plans       []risk.DayPlan        // today and tomorrow by this one
}

// Parting is a planting whose day goes another way by the second forecast.
type Parting struct {
	Date        forecast.Date
	Planting    *risk.Planting
	Here, There []string // cells of the week
}

// Partings lists the plantings whose day goes another way. say gives the words of a
// planting's day, verb the one of them that tells what is done.
func (d *Document) Partings(say func(*risk.DayPlan, *risk.Planting) []string, verb func(string) string) []Parting {
	if d.Second == nil {
		return nil
	}
	var out []Parting
	for i := range d.Second.Plans {
		there := &d.Second.Plans[i]
		if i >= len(d.Plans) || d.Plans[i].Date != there.Date {
			continue
		}
		for j := range d.Garden.Plantings {
			p := &d.Garden.Plantings[j]
			q := namesake(there, p)
			if q == nil || q.State == risk.OtherAir { // no forecast tells of the air in there
				continue
			}
			x := Parting{Date: there.Date, Planting: p, Here: say(&d.Plans[i], p), There: say(there, q.Planting)}
			if !sameVerbs(x.Here, x.There, verb) {
				out = append(out, x)
			}
		}
	}
	return out
}

// namesake finds the day of the planting of that name in another assessment.
func namesake(plan *risk.DayPlan, p *risk.Planting) *risk.PlantingDay {
	if plan.Day == nil {
		return nil
	}
	for i := range plan.Day.Plantings {
		if q := &plan.Day.Plantings[i]; q.Planting.Name == p.Name {
			return q
		}
	}
	return nil
}

func sameVerbs(a, b []string, verb func(string) string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if verb(a[i]) != verb(b[i]) {
			return false
		}
	}
	return true
}

// Credits lists the lines that the licences of the data ask for, each once.
func (d *Document) Credits() []string {
	var out []string
	add := func(line string) {
		if line != "" && !slices.Contains(out, line) {
			out = append(out, line)
		}
	}
	add(d.Forecast.Attribution)
	if d.Second != nil {
		add(d.Second.Forecast.Attribution)
	}
	for _, line := range d.Measured {
		add(line)
	}
	return out
}
