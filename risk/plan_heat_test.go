package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
	"dawnbrush/risk/heat"
)

// The hours of work feel as the National Weather Service's chart says: 100 degF at
// 40 % feels like 109, danger; 90 at 50 % like 95, extreme caution; 80 at 40 % like
// 80. The chart is good to a degree.
func TestWorkHeatIsTheChartsOfTheHours(t *testing.T) {
	for _, c := range []struct {
		temp, rh, want float64
		band           heat.Band
	}{{100, 40, 109, heat.Danger}, {90, 50, 95, heat.ExtremeCaution}, {75, 50, 0, heat.None}} {
		l := newLab(t)
		m := l.brushed()
		for i := range m.series.Hours {
			m.series.Hours[i].Temp, m.series.Hours[i].RH = forecast.Known(unit.FtoC(c.temp)), forecast.Known(c.rh)
		}
		p := planner{a: Assess(m.garden(), m.series, heatField.date, 1)}
		at := heatField.date.At(10, heatField.zone)
		got := p.workHeat([]Task{{Kind: HandPollinate, From: at, To: at.Add(time.Hour)}})
		assert.Equal(t, c.band, got.Band)
		if c.band == heat.None {
			assert.False(t, got.Index.IsKnown())
			continue
		}
		assert.InDelta(t, c.want, unit.CtoF(got.Index.Or(-99)), 1.01)
		assert.True(t, at.Equal(got.At))
	}
}

// Only the hours of work count; a cloth is put up before the hours it stands over;
// what is not known asks for nothing.
func TestWorkHeatOfOtherHours(t *testing.T) {
	l := newLab(t)
	m := l.brushed()
	at := func(h float64) Task {
		from := heatField.date.At(h, heatField.zone)
		return Task{Kind: HandPollinate, From: from, To: from.Add(time.Hour)}
	}
	for i := range m.series.Hours {
		h := &m.series.Hours[i]
		local := h.Start.In(heatField.zone).Hour()
		h.Temp, h.RH = forecast.Known(22), forecast.Known(50)
		if local == 13 {
			h.Temp = forecast.Known(38)
		}
		if local == 15 {
			h.Temp, h.RH, h.DewPoint = forecast.Known(40), forecast.Value{}, forecast.Value{}
		}
	}
	p := planner{a: Assess(m.garden(), m.series, heatField.date, 1)}
	shade := at(12)
	shade.Kind, shade.To = Shade, heatField.date.At(16, heatField.zone)
	leave := at(13)
	leave.Kind = LeaveToBees
	for name, task := range map[string]Task{"morning": at(8), "shade": shade, "no work": leave, "humidity not known": at(15), "any hour": {Kind: SavePollen, To: heatField.date.At(21, heatField.zone)}} {
		assert.Zero(t, p.workHeat([]Task{task}), name)
	}
	assert.GreaterOrEqual(t, p.workHeat([]Task{at(8), at(13)}).Band, heat.ExtremeCaution)
	assert.True(t, p.workHeat([]Task{at(8), at(13)}).Index.IsKnown())
}
