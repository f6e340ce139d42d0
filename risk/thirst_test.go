package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// Cucumbers that flag at noon set 57 flowers where turgid ones set 93 [Szegedi93,
// status read]; the crop file keeps the ratio to two places.
func TestFlaggingPlantsSetLess(t *testing.T) {
	g := benchGarden(t)
	s := benchSeries(g, true)
	first := forecast.Date{Year: 2026, Month: 7, Day: 12}
	wet := *Assess(g, s, first, 7)
	ks := Range{0, 0.5, 1}
	thirst := Thirst{}
	for i := range g.Plantings {
		thirst[ThirstDay{g.Plantings[i].Name, first.AddDays(2)}] = ks
	}
	dry := *NewModelWith(g, Learned{Thirst: thirst}).Assess(s, first, 7)
	touched := 0
	for k := range wet.Days {
		for i := range wet.Days[k].Plantings {
			a, b := wet.Days[k].Plantings[i], dry.Days[k].Plantings[i]
			if k != 2 || a.Planting.Crop.Need.FlaggingSet == 0 {
				require.Equal(t, a.Set, b.Set)
				require.False(t, b.DrySoil.Known)
				continue
			}
			touched++
			require.True(t, b.DrySoil.Known)
			assert.InDelta(t, 57.0/93*a.Set.Lo, b.Set.Lo, 0.005)
			assert.InDelta(t, (57.0/93+1)/2*a.Fill.Mid, b.Fill.Mid, 0.005)
			assert.InDelta(t, a.Set.Hi, b.Set.Hi, 1e-12)
			assert.InDelta(t, 57.0/93*a.BothSet.Lo, b.BothSet.Lo, 0.005)
		}
	}
	require.Positive(t, touched)
}

// Looking a planting's thirst up costs no allocation.
func TestThirstAllocatesNothing(t *testing.T) {
	g := benchGarden(t)
	m := NewModelWith(g, Learned{Thirst: Thirst{ThirstDay{g.Plantings[0].Name, forecast.Date{Year: 2026, Month: 7, Day: 12}}: Range{0.5, 0.5, 0.5}}})
	m.frame.date = forecast.Date{Year: 2026, Month: 7, Day: 12}
	out := PlantingDay{Bloom: InBloom}
	require.Zero(t, testing.AllocsPerRun(100, func() { m.thirst(&g.Plantings[0], &out) }))
	require.True(t, out.DrySoil.Known)
}

// Days of dry soil just before bloom are counted where the account knows them all,
// and flag nothing.
func TestDryDaysBeforeBloom(t *testing.T) {
	g := benchGarden(t)
	s := benchSeries(g, false)
	first := forecast.Date{Year: 2026, Month: 7, Day: 14}
	var tomato *Planting
	for i := range g.Plantings {
		if g.Plantings[i].Crop.Key == "tomato" {
			tomato = &g.Plantings[i]
		}
	}
	require.NotNil(t, tomato)
	look := func(thirst Thirst) *PlantingDay {
		a := NewModelWith(g, Learned{Thirst: thirst}).Assess(s, first.AddDays(3), 1)
		for i := range a.Days[0].Plantings {
			if p := &a.Days[0].Plantings[i]; p.Planting == tomato {
				return p
			}
		}
		return nil
	}
	require.False(t, look(nil).CatfaceDry.IsKnown())
	thirst := Thirst{}
	for k, ks := range []float64{0.5, 1, 0.8} {
		thirst[ThirstDay{tomato.Name, first.AddDays(k)}] = Range{0, ks, 1}
	}
	dry := look(thirst)
	require.InDelta(t, 2, dry.CatfaceDry.Or(-1), 1e-12)
	require.Equal(t, look(nil).Flags, dry.Flags)
	require.Equal(t, look(nil).Catface, dry.Catface)
}
