package ledger

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// A bed names the rows that its account rests on and no others: the coefficients of its
// own account, those of the crop that lends, the soil where none was measured, the
// share wetted where a table has one.
func TestRowsOfABed(t *testing.T) {
	rows := func(change func(b *risk.Bed, p *risk.Planting)) string {
		g := plot(t, change)
		b := &Keep(g, sky(g, june1, july20, 1, 25), nil, at(g, july20, 6)).Beds[0]
		require.Equal(t, Reckoned, b.Why)
		var names []string
		seen := map[string]bool{}
		for _, e := range b.Rows {
			name := e.Param().Name
			require.False(t, seen[name], name)
			seen[name] = true
			names = append(names, name)
		}
		return strings.Join(names, "\n")
	}
	full := rows(nil)
	for _, want := range []string{"table17.tomato.kcb_mid", "table12.tomato.max_height", "table22.tomato.root_depth_max", "table11.tomato.l_ini", "table19.loam.available_water", "table20.trickle.fw"} {
		assert.Contains(t, full, want)
	}
	assert.NotContains(t, full, ".kc_mid")
	assert.NotContains(t, full, "l_total")
	assert.Equal(t, 4, strings.Count(full, "table11"), "one row of stages")

	simple := rows(func(b *risk.Bed, _ *risk.Planting) { b.Account = risk.SimpleAccount })
	assert.Contains(t, simple, "table12.tomato.kc_mid")
	assert.NotContains(t, simple, "table17")

	okra := rows(func(_ *risk.Bed, p *risk.Planting) { p.Crop = &crop.Crop{Key: "okra"} })
	assert.Contains(t, okra, "eggplant.kcb_mid")
	berries := rows(func(_ *risk.Bed, p *risk.Planting) { p.Crop = &crop.Crop{Key: "strawberry"} })
	assert.Contains(t, berries, "table17.strawberry.kcb_mid")
	assert.Contains(t, berries, "table11.sweet_pepper.l_mid")
	assert.NotContains(t, berries, "table17.sweet_pepper")

	measured := rows(func(b *risk.Bed, _ *risk.Planting) {
		b.FieldCapacity, b.WiltingPoint = forecast.Known(0.3), forecast.Known(0.15)
	})
	assert.NotContains(t, measured, "table19")
	pots := rows(func(b *risk.Bed, _ *risk.Planting) {
		*b = risk.Bed{Name: "bed 1", Kind: risk.Pots, Pots: 4, PotVolume: 20, Watering: risk.Drip}
	})
	assert.NotContains(t, pots, "table19")
	assert.NotContains(t, rows(func(b *risk.Bed, _ *risk.Planting) { b.Watering = risk.Can }), "table20")
}
