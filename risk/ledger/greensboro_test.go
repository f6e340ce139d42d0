package ledger

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/feedtest"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
	"dawnbrush/risk/water/et0"
)

// A grower waters as the account advises, each morning of a summer of Greensboro,
// and notes it. Then plants want for nothing, the season's account closes, and what
// was given is near what the account would have had given. The water against the
// rule of an inch a week is told beside.
func TestSummerOfGreensboroByAdvice(t *testing.T) {
	place, year := feedtest.Greensboro(t, 2025)
	first, last := forecast.Date{Year: 2025, Month: 5, Day: 10}, forecast.Date{Year: 2025, Month: 8, Day: 20}
	for _, soil := range []risk.Soil{risk.LoamySand, risk.Loam, risk.Clay} {
		g := plot(t, func(b *risk.Bed, p *risk.Planting) {
			b.Soil = soil
			p.Transplanted, p.FirstFemale = first, first.AddDays(35)
		})
		g.Place = place
		s := *year
		s.Hours = year.Hours[120*24 : 250*24]
		entries := []memory.Entry{{Kind: memory.Water, Date: first, At: first.At(7, place.Zone), Amount: forecast.Known(1)}}
		var b *Bed
		waterings, worst := 0, 1.0
		for d := first.AddDays(1); !d.After(last); d = d.AddDays(1) {
			a := Keep(g, &s, entries, d.At(6, place.Zone))
			b = &a.Beds[0]
			day, ok := b.Day(d)
			require.True(t, ok)
			if day.Advice.Verdict == Water {
				waterings++
				entries = append(entries, memory.Entry{Kind: memory.Water, Date: d, At: d.At(7, place.Zone), Amount: forecast.Known(day.Advice.Litres)})
			}
		}
		for k := range b.Days {
			if d := &b.Days[k]; d.Past {
				worst = min(worst, d.Stress.Mid)
				assert.Equal(t, et0.ByHours, d.Way)
				assert.Equal(t, RainStation, d.By)
			}
		}
		rest := balance(t, b)
		var rain, air, drained, given float64
		for k := range b.Days {
			if d := &b.Days[k]; d.Past {
				rain, air, drained, given = rain+d.Caught, air+d.Flux.ET(), drained+d.Flux.Drainage, given+d.Given
			}
		}
		today, _ := b.Day(b.Days[len(b.Days)-1].Date)
		require.NotNil(t, today)
		at, _ := b.Day(last)
		assert.InDelta(t, 0, rain+given-air-drained+at.Lacks.Mid, 1e-9, "the season closes")
		t.Logf("%-10s %3d days: rain %.0f mm, given %.0f mm in %d waterings, into the air %.0f, drained %.0f, lacking %.1f; worst Ks %.2f; litres given %.0f, wanted %.0f, rule %.0f; rest %.1g mm",
			soil, b.Season.Days, rain, given, waterings, air, drained, at.Lacks.Mid, worst, b.Season.Given, b.Season.Wanted, b.Season.Rule, rest)
		assert.GreaterOrEqual(t, worst, 0.9, "a morning's watering comes before plants suffer, but for the morning itself")
		// What is wanted afterwards knows of no rain that was likely and was waited for.
		assert.InDelta(t, 0.9, b.Season.Given/b.Season.Wanted, 0.15)
		assert.True(t, b.Season.Noted)
	}
}
