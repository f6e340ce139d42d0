package risk

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// benchGarden has ten plantings, benchSeries a week with rain on three days.
func benchGarden(t testing.TB) *Garden {
	set := testCrops(t)
	g := &Garden{Shelter: 1, Place: forecast.Place{Lat: 41, Lon: -93, Zone: time.FixedZone("CDT", -5*3600)}}
	for i := range 10 {
		k := []string{"cucumber", "summer-squash", "pumpkin-winter-squash", "cucumber", "summer-squash", "sweet-corn", "tomato", "cucumber", "pumpkin-winter-squash", "summer-squash"}[i]
		c, ok := set.Find(k)
		require.True(t, ok)
		g.Plantings = append(g.Plantings, Planting{Name: fmt.Sprint(k, i), Crop: c, FirstFemale: forecast.Date{Year: 2026, Month: 7, Day: 1}})
	}
	for d := range g.Work {
		g.Work[d] = []Span{{5, 21}}
	}
	return g
}

func benchSeries(g *Garden, wet bool) *forecast.Series {
	start := time.Date(2026, 7, 12, 0, 0, 0, 0, g.Place.Zone)
	s := sine(start, 8, 25, 6, 15, 3, 0.4, nil)
	for i := range s.Hours {
		s.Hours[i].Origin = forecast.OriginForecast
	}
	if wet {
		for _, d := range []int{1, 3, 4} {
			for b := range 4 {
				at := start.Add(time.Duration(d*24+b*6) * time.Hour)
				s.Blocks = append(s.Blocks, forecast.RainBlock{Start: at.UTC(), End: at.Add(6 * time.Hour).UTC(),
					Amount: forecast.Known(2), Prob: forecast.Known(0.2 + 0.15*float64(b))})
			}
		}
	}
	return s
}

// The model's week: 7 days, ten plantings, from hours to verdicts and flags;
// "fresh" compiles the garden and makes its room anew, "again" reuses both.
func BenchmarkAssessWeek(b *testing.B) {
	g := benchGarden(b)
	first := forecast.Date{Year: 2026, Month: 7, Day: 12}
	for _, wet := range []bool{false, true} {
		s := benchSeries(g, wet)
		name := map[bool]string{false: "dry", true: "three wet days"}[wet]
		b.Run(name+"/fresh", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Assess(g, s, first, 7)
			}
		})
		m := NewModel(g)
		b.Run(name+"/again", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				m.Assess(s, first, 7)
			}
		})
	}
}

// The hour loops alone: 7 days, ten plantings, from worked-out air to verdicts
// and flags; sun, air and bees stand ready.
func BenchmarkJudgeWeek(b *testing.B) {
	g := benchGarden(b)
	first := forecast.Date{Year: 2026, Month: 7, Day: 12}
	for _, wet := range []bool{false, true} {
		m := NewModel(g)
		m.Assess(benchSeries(g, wet), first, 7)
		frames := make([]frame, 7)
		for k := range frames {
			d := first.AddDays(k)
			require.True(b, frames[k].build(m.s, &m.skies, g.Place, d, m.past.index(d)))
		}
		out, slab := make([]PlantingDay, len(g.Plantings)), make([]FlowerHour, openHours*len(g.Plantings))
		b.Run(map[bool]string{false: "dry", true: "three wet days"}[wet], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				clear(m.shared)
				m.flags = m.flags[:0]
				for k := range frames {
					m.frame = frames[k]
					for i := range g.Plantings {
						out[i] = PlantingDay{}
						m.planting(i, &out[i], slab[i*openHours:(i+1)*openHours])
					}
				}
			}
		})
	}
}

func BenchmarkPlanWeek(b *testing.B) {
	g := benchGarden(b)
	a := Assess(g, benchSeries(g, true), forecast.Date{Year: 2026, Month: 7, Day: 12}, 7)
	b.ReportAllocs()
	for b.Loop() {
		Plan(a, forecast.Date{Year: 2026, Month: 7, Day: 12}, 7, PlanOptions{})
	}
}

// A garden that was assessed once is assessed again without a byte of garbage, dry or
// wet: plans and their inquiries run the same hours many times.
func TestAssessingAgainAllocatesNothing(t *testing.T) {
	g := benchGarden(t)
	first := forecast.Date{Year: 2026, Month: 7, Day: 12}
	for _, wet := range []bool{false, true} {
		m, s := NewModel(g), benchSeries(g, wet)
		m.Assess(s, first, 7)
		require.Zero(t, testing.AllocsPerRun(20, func() { m.Assess(s, first, 7) }), "wet %v", wet)
	}
}
