package risk

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// Supersweet corn and the others spoil each other unless they silk 14 days apart
// (ISUcorn98); sugary and sugary enhanced corn need not be kept apart.
func TestMayCross(t *testing.T) {
	corn := newLab(t).crop("sweet-corn")
	july := func(d int) forecast.Date { return forecast.Date{Year: 2026, Month: 7, Day: d} }
	at := func(s Sweetness, silk int) *Planting {
		return &Planting{Crop: corn, Sweetness: s, FirstFemale: july(silk)}
	}
	for _, x := range []struct {
		a, b *Planting
		want bool
	}{
		{at(Supersweet, 1), at(Sugary, 1), true},
		{at(Supersweet, 1), at(SugaryEnhanced, 14), true},
		{at(Supersweet, 1), at(SugaryEnhanced, 15), false},
		{at(Sugary, 1), at(SugaryEnhanced, 1), false},
		{at(Supersweet, 1), at(Supersweet, 1), false},
		{at(Supersweet, 1), at(SweetnessUnknown, 1), false},
		{at(Supersweet, 1), &Planting{Crop: corn, Sweetness: Sugary}, true},
		{at(Supersweet, 31), &Planting{Crop: corn, Sweetness: Sugary, Sown: forecast.Date{Year: 2026, Month: 6, Day: 1}}, true},
		{at(Supersweet, 1), &Planting{Crop: corn, Sweetness: Sugary, Sown: forecast.Date{Year: 2026, Month: 6, Day: 20}}, false},
	} {
		assert.Equal(t, x.want, x.a.MayCross(x.b), "%+v %+v", x.a, x.b)
		assert.Equal(t, x.want, x.b.MayCross(x.a), "the other way round")
	}
}

// Supersweet corn is flagged while it silks, the other kind only where it stands near.
func TestOtherCornIsFlagged(t *testing.T) {
	l := newLab(t)
	corn := l.crop("sweet-corn")
	flags := func(silk int, types ...Sweetness) (out []*Planting) {
		g := l.garden(ohio, Planting{Crop: corn}, Bees{})
		g.Plantings = nil
		for _, s := range types {
			g.Plantings = append(g.Plantings, Planting{Name: string(s), Crop: corn, Rows: 4, Sweetness: s, FirstFemale: ohio.date.AddDays(silk)})
		}
		day := &Assess(g, plainSummer.series(ohio, 1), ohio.date, 1).Days[0]
		for i := range day.Plantings {
			k := slices.IndexFunc(day.Plantings[i].Flags, func(f Flag) bool { return f.Kind == OtherCorn })
			if k >= 0 {
				require.Equal(t, forecast.Known(corn.Corn.Isolation), day.Plantings[i].Flags[k].Limit)
				out = append(out, day.Plantings[i].Planting, day.Plantings[i].Flags[k].Other)
			}
		}
		return out
	}
	require.Len(t, flags(-1, Supersweet), 2)
	assert.Nil(t, flags(-1, Supersweet)[1])
	assert.Empty(t, flags(-1, Sugary))
	assert.Empty(t, flags(-1, SweetnessUnknown))
	assert.Empty(t, flags(-40, Supersweet), "long over")
	both := flags(-1, Supersweet, Sugary)
	require.Len(t, both, 4)
	assert.Equal(t, "su", both[1].Name)
	assert.Equal(t, "sh2", both[3].Name)
}
