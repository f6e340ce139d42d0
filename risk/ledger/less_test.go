package ledger

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// A thirsty bed is given less by the rain that is likely, by its chance, yet enough to
// last today and tomorrow should it stay away; by none that is unlikely.
func TestLessByLikelyRain(t *testing.T) {
	g := plot(t, func(_ *risk.Bed, p *risk.Planting) { p.FirstFemale = forecast.Date{Year: 2026, Month: 7, Day: 1} })
	told := func(mm, chance float64) Advice {
		s := sky(g, june1, july20, 3, 30)
		rainAhead(g, s, july20.AddDays(1), 12, 18, mm, chance)
		b := kept(t, g, s, regular(g, 260, 4, 11)...)
		require.Equal(t, Water, today(t, b).Advice.Verdict)
		return today(t, b).Advice
	}
	full := told(0, 0)
	assert.Zero(t, full.Less)
	for mm, chance := range map[float64]float64{10: 0.8, 15: 1} {
		a := told(mm, chance)
		assert.InDelta(t, mm*chance, a.Less, 1e-9)
		assert.InDelta(t, full.MM-a.Less, a.MM, 1e-9)
		assert.InDelta(t, full.Litres*a.MM/full.MM, a.Litres, 1e-9)
		assert.InDelta(t, chance, a.Chance.Or(0), 1e-12)
	}
	assert.Equal(t, full.MM, told(10, 0.5).MM, "an even chance is not likely")
	assert.Equal(t, full.MM, told(3, 1).MM, "less than a day's use")

	// In the evening the day has taken its use too, and the rain is still taken off.
	usual := g.Work
	for i := range g.Work {
		g.Work[i] = []risk.Span{{From: 18, To: 20}}
	}
	late, least := told(0, 0), told(10, 0.8)
	require.Equal(t, 18, least.From.In(g.Place.Zone).Hour())
	assert.Greater(t, late.MM, full.MM)
	assert.InDelta(t, 8, least.Less, 1e-9)
	assert.InDelta(t, late.MM-8, least.MM, 1e-9)
	g.Work = usual

	// A flood to come: still what plants need to last both days without it.
	a := told(200, 1)
	assert.Less(t, a.Less, 200.0)
	s := sky(g, june1, july20, 3, 30)
	b := kept(t, g, s, regular(g, 260, 4, 11)...)
	now, next := today(t, b), day(t, b, july20.AddDays(1))
	lacks := day(t, b, july20.AddDays(-1)).Lacks.Mid + now.Flux.Wanted + next.Flux.Wanted - a.MM
	assert.LessOrEqual(t, lacks, next.RAW+1)
	assert.Greater(t, lacks, next.RAW-15, "and not much more")
}
