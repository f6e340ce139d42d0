package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/memory"
)

// Fruit leaves the vine at the age at which its type is picked: pickling cucumbers 5 to
// 10 days after pollination (Hawaii), slicing ones after 18 days at most (North Carolina
// and Hawaii), others with the crop after 20 (Encyclopaedia Britannica).
func TestTypesAreGoneWhenTheyArePicked(t *testing.T) {
	set, err := crop.Load()
	require.NoError(t, err)
	c, ok := set.Find("cucumber")
	require.True(t, ok)
	d := forecast.Date{Year: 2026, Month: 7, Day: 20}
	for kind, last := range map[string]int{"": 20, "pickling": 10, "slicing": 18, "european": 20} {
		for age := 1; age <= 25; age++ {
			e := fruitEntry(memory.Set, d.AddDays(-age), 12)
			e.Of, e.FlowersOn = forecast.Known(12), d.AddDays(-age)
			g := Remember(&Garden{Plantings: []Planting{{Name: "p", Crop: c, Plants: 4, Type: kind}}}, []memory.Entry{e}, d)
			l := g.Plantings[0].LoadOn(d)
			assert.Equal(t, age <= last, l.PerPlant.IsKnown(), "%q after %d days", kind, age)
		}
	}
}
