package ledger

import (
	"fmt"
	"testing"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// seasonGarden is a garden of fifteen beds over a season: planted out on 1 April,
// today 30 September, a week of forecast, a watering every other day.
func seasonGarden(t testing.TB) (*risk.Garden, *forecast.Series, []memory.Entry, forecast.Date) {
	g := plot(t, nil)
	planted, today := forecast.Date{Year: 2026, Month: 4, Day: 1}, forecast.Date{Year: 2026, Month: 9, Day: 30}
	bed, p := g.Beds[0], g.Plantings[0]
	p.Transplanted, p.FirstFemale = planted, planted.AddDays(50)
	g.Beds, g.Plantings = nil, nil
	for i := range 15 {
		bed.Name = fmt.Sprint("bed ", i)
		p.Name, p.Bed, p.Crop = fmt.Sprint("planting ", i), bed.Name, crops(t).Crops()[i%10]
		g.Beds, g.Plantings = append(g.Beds, bed), append(g.Plantings, p)
	}
	var entries []memory.Entry
	for d := planted; d.Before(today); d = d.AddDays(2) {
		entries = append(entries, watered(g, d, 7, 1500))
	}
	return g, sky(g, planted, today, 7, 24), entries, today
}

// Keep of fifteen beds over half a year and a week ahead.
func BenchmarkKeepSeason(b *testing.B) {
	g, s, entries, today := seasonGarden(b)
	now := at(g, today, 6)
	b.ReportAllocs()
	for b.Loop() {
		Keep(g, s, entries, now)
	}
}
