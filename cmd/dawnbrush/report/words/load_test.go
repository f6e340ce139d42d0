package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// What the plants carry is said in fruits of the crop, and what frees them by how
// it is picked.
func TestLoadIsSaid(t *testing.T) {
	both(t, func(t *testing.T, w words.Words) {
		say := func(name string, perPlant, kept float64, least bool) string {
			c, ok := reporttest.Crops(t).Find(name)
			require.True(t, ok)
			p := &risk.PlantingDay{Planting: &risk.Planting{Name: "p", Crop: c}, Load: risk.Load{PerPlant: forecast.Known(perPlant), Kept: kept, AtLeast: least}}
			return w.CauseOn(risk.CauseFullLoad, p)
		}
		assert.Equal(t, "the plants carry 6 cucumbers each, about all they can: pick first, new ones will mostly drop", say("cucumber", 6, 0.2, false))
		assert.Equal(t, "the plants carry at least 3.5 melons each, about all they can: new ones will mostly drop until one is ripe and picked", say("muskmelon", 3.5, 0.3, true))
		assert.Equal(t, "the plants carry 1 watermelon each, near all they can: some new ones will drop until one is ripe and picked", say("watermelon", 1, 0.9, false))
		unknown := &risk.PlantingDay{}
		assert.Equal(t, w.Cause(risk.CauseFullLoad), w.CauseOn(risk.CauseFullLoad, unknown))
	})
}
