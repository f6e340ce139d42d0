package ledger

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// First flowers that the diary of this garden tells of move the stages of water of
// another planting of the crop as they move its bloom, by as many days: earlier ones
// bring full cover forward, later ones put it off, and a crop without any keeps its
// tables.
func TestTaughtFirstFlowersMoveTheStages(t *testing.T) {
	earlier := forecast.Date{Year: 2026, Month: 5, Day: 1}
	taught := func(crop string, days int) *Bed {
		g := plot(t, func(_ *risk.Bed, p *risk.Planting) {
			p.Crop, p.Sown, p.Transplanted = cropOf(t, "cucumber"), june1, forecast.Date{}
		})
		g.Plantings = append(g.Plantings, risk.Planting{Name: "others", Crop: cropOf(t, crop), Bed: "elsewhere", Sown: earlier})
		s := sky(g, earlier, july20, 20, 22)
		var entries []memory.Entry
		if days > 0 {
			entries = []memory.Entry{{Kind: memory.First, Date: earlier.AddDays(days), Planting: "others", Sex: "female"}}
		}
		firsts := risk.LearnFirsts(g, s, entries, july20)
		b := &KeepTaught(g, s, nil, firsts, at(g, july20, 6)).Beds[0]
		full := june1.AddDays(int(math.Round(b.Stages.Ini + b.Stages.Dev)))
		if crop == "cucumber" && days > 0 { // the model's first flowers fall around the day of full cover
			a := risk.NewModelWith(g, risk.Learned{Firsts: firsts}).Assess(s, full, 1)
			require.Len(t, a.Days, 1, full.String())
			assert.Equal(t, risk.MaybeBloom, a.Days[0].Plantings[0].Bloom, full.String())
		}
		return b
	}
	grown := func(b *Bed) float64 { return b.Stages.Ini + b.Stages.Dev }
	book := taught("cucumber", 0)
	early := taught("cucumber", 32)
	late := taught("cucumber", 75)
	other := taught("tomato", 75)
	require.Equal(t, Reckoned, book.Why)
	t.Logf("days to full cover: book %.0f, early %.0f, late %.0f", grown(book), grown(early), grown(late))
	assert.Less(t, grown(early), grown(late))
	assert.Less(t, grown(early), grown(book))
	assert.Greater(t, grown(late), grown(book))
	assert.InDelta(t, grown(book), grown(other), 1e-9)
	assert.NotEqual(t, today(t, early).Flux.Kcb, today(t, late).Flux.Kcb)
}
