package risk

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
)

// Course is one way the rain of a day may go, as the model reckoned with it.
type Course struct {
	Weight float64   // its share of the chance, 0..1; all courses of a day sum to 1
	Harsh  bool      // unknown layers were filled harshly, else kindly or not at all
	Wet    []WetHour // none in a dry course
}

// WetHour is an hour with rain in a Course.
type WetHour struct {
	Start time.Time
	Rain  float64 // mm
}

// Courses lists the courses of rain that the verdicts of a day rest on, as they
// were drawn: for workings, not for planning.
func Courses(a *Assessment, d forecast.Date) []Course {
	m := NewModel(a.Garden)
	s := whole(a.Series, a.Garden.Place.Zone, d, 1)
	m.read(s)
	if !m.frame.build(s, &m.skies, a.Garden.Place, d, m.past.index(d)) {
		return nil
	}
	f := &m.frame
	var out []Course
	for j := range f.worlds {
		w := &f.worlds[j]
		c := Course{Weight: w.weight, Harsh: w.doubt == air.Harsh}
		for i := range f.n {
			if w.rain[i] > 0 {
				c.Wet = append(c.Wet, WetHour{f.hourStart(i), w.rain[i]})
			}
		}
		out = append(out, c)
	}
	return out
}
