package words

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// The kernels are told where the first silk was seen, the pollen of the day elsewhere.
func TestEarsAreSaid(t *testing.T) {
	set, err := crop.Load()
	require.NoError(t, err)
	corn, ok := set.Find("corn")
	require.True(t, ok)
	at := func(x float64) risk.Range { return risk.Range{Lo: x, Mid: x, Hi: x} }
	day := &risk.PlantingDay{Planting: &risk.Planting{Crop: corn}, Ears: risk.Ears{Known: true, Filled: at(0.8), Shaken: at(0.9), Waits: risk.Tip}}
	task := &risk.Task{Kind: risk.ShakeTassels, Planting: day.Planting, Day: day, Bees: at(0.4), Hand: at(0.9)}
	var w Words
	assert.Equal(t, "ears will fill about 8 in 10 kernels, 9 in 10 if shaken; the tips wait for pollen now", w.Worth(task))
	day.Ears.Shaken = at(0.84)
	assert.Equal(t, "ears will fill about 8 in 10 kernels, a little more if shaken; the tips wait for pollen now", w.Worth(task))
	task.Kind = risk.LeaveToBees
	assert.Equal(t, "ears will fill about 8 in 10 kernels", w.Worth(task))
	day.Ears.HeatLeft = at(0.96)
	assert.Equal(t, "ears will fill about 8 in 10 kernels", w.Worth(task))
	day.Ears.HeatLeft = at(0.88)
	assert.Equal(t, "ears will fill about 8 in 10 kernels (heat on the silks takes about 12 %)", w.Worth(task))
	day.Ears = risk.Ears{}
	assert.Equal(t, "the wind brings the silks about 4 in 10 of a good day's pollen", w.Worth(task))
}

// The note on other corn names what to keep off, how far, and what may bring it.
func TestOtherCornIsSaid(t *testing.T) {
	f := &risk.Flag{Kind: risk.OtherCorn, Limit: forecast.Known(76.2), Other: &risk.Planting{Name: "early corn"}}
	p := &risk.PlantingDay{Planting: &risk.Planting{Sweetness: risk.Sugary}}
	metric, us := New(risk.Metric, time.UTC), New(risk.US, time.UTC)
	assert.Equal(t, "pollen of supersweet (sh2) corn within 76 m makes tough, starchy kernels; early corn may shed it in these days", metric.Flag(f, p))
	p.Planting.Sweetness, f.Other = risk.Supersweet, nil
	assert.Equal(t, "pollen of sugary (su), sugary enhanced (se), pop or field corn within 250 ft makes tough, starchy kernels", us.Flag(f, p))
}
