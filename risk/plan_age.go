package risk

import (
	"math"
	"time"

	"dawnbrush/forecast"
)

// A forecast issued this long before a day leaves no task sure, and much longer
// before it none likely. [chosen, status chosen] errors of temperature and chance of
// rain grow by the day; how fast they grow here is not worked out yet.
const (
	sureLead   = 36 * time.Hour
	likelyLead = 5 * 24 * time.Hour
)

// issue gives when the forecast was issued, else the latest it can have been.
func (o PlanOptions) issue(s *forecast.Series) time.Time {
	for _, t := range []time.Time{s.Issued, o.Asked} {
		if !t.IsZero() {
			return t
		}
	}
	return o.Now
}

// lead is how long before the day's noon the forecast was issued, or at the least
// when its issue is not told; 0 where the day was measured or nothing is known.
func (p *planner) lead(d *Day) time.Duration {
	if p.issued.IsZero() || !d.Forecast {
		return 0
	}
	return d.Date.At(12, p.zone).Sub(p.issued)
}

// age lowers how sure a task is by the age of the forecast it stands on.
func (t *Task) age(lead time.Duration) {
	if t.Day == nil || !t.Day.State.weatherDecides() || len(t.Causes) == 1 && (t.Causes[0] == CauseDone || t.Causes[0] == CauseOver) {
		return // no weather decides
	}
	switch {
	case lead > likelyLead && t.Sure != Unsure:
		t.Sure, t.Lead = Unsure, int(math.Round(lead.Hours()/24))
	case lead > sureLead && t.Sure == VerySure:
		t.Sure = Likely
	}
}

// weatherDecides tells whether a verdict rests on the day's weather.
func (s State) weatherDecides() bool { return s == Judged || s == HistoryUnknown || s == StaysShut }
