package risk

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/heat"
)

// WorkHeat is how hot the hours of a day's work feel, by the heat index of the US
// National Weather Service: of shade and a light wind, so full sun adds to it. The
// zero WorkHeat is none that asks for care, or not known.
type WorkHeat struct {
	Index forecast.Value // degC, the highest of the hours in which a task stands
	Band  heat.Band
	At    time.Time // the hour that has it
}

// workHeat finds the hottest hour of the tasks. A task without a beginning ("by
// 21:00") can be done in its coolest hour and is left out, and so is an hour of
// which warmth or humidity is not known.
func (p *planner) workHeat(tasks []Task) (w WorkHeat) {
	s := p.a.Series
	if s == nil {
		return w
	}
	for i := range tasks {
		t := &tasks[i]
		if t.From.IsZero() || !t.Kind.Work() {
			continue
		}
		from, to := t.From.Truncate(time.Hour), t.To
		if t.Kind == Shade { // put up before the hot hours that it stands over
			to = from.Add(time.Hour)
		}
		lo, hi := s.Slice(from, to)
		for k := lo; k < hi; k++ {
			h := &s.Hours[k]
			temp, ok := h.Temp.Get()
			rh, wet := humidityOf(h).Get()
			if !ok || !wet {
				continue
			}
			if index := heat.Index(temp, rh); index > w.Index.Or(-1) {
				w = WorkHeat{forecast.Known(index), heat.BandOf(index), h.Start}
			}
		}
	}
	if w.Band == heat.None {
		return WorkHeat{}
	}
	return w
}
