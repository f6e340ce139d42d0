package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// chamberEars gives the ears of a block on the day of first silk, in steady days and nights.
func (l *lab) chamberEars(day, night float64, shaken ...int) Ears {
	w := chamber(day, night)
	w.dew = 20
	return l.ears(4, w, shaken...)
}

// A degree day is a day at one degree above: half a day at 32 and half under 30 is one
// [DhaWil22, status read], and for each the ears lose half a percent of what the regression
// on the logarithm leaves.
func TestDegreeDaysOnTheEars(t *testing.T) {
	l := newLab(t)
	days := float64(newCornModelOf(l).earDays())
	for _, x := range []struct{ day, night, each float64 }{{30, 22, 0}, {32, 22, 1}, {32, 29, 1}, {34, 22, 2}, {34, 32, 3}} {
		e := l.chamberEars(x.day, x.night)
		assert.InDelta(t, x.each*days, e.Heat.Mid, 1e-9, "%v", x)
		assert.InDelta(t, math.Pow(math.Exp(-0.005), x.each*days), e.HeatLeft.Mid, 1e-9, "%v", x)
		assert.Equal(t, e.Heat.Lo, e.Heat.Hi, "all days are known")
	}
	one := Ears{Filled: Range{1, 1, 1}}
	rate := newCornModelOf(l).heatLoss(nil, &Planting{}, ohio.date)
	one.heat(earHeat{Range{1, 1, 1}, rate})
	assert.InDelta(t, 0.995, one.Filled.Mid, 0.0005, "irrigated")
	assert.InDelta(t, 0.995, one.Filled.Hi, 0.0005)
	assert.InDelta(t, 0.98, one.Filled.Lo, 0.0005, "not irrigated, for nobody keeps an account of the water")
}

func newCornModelOf(l *lab) *cornModel {
	m := newCornModel(l.crop("sweet-corn"))
	return &m
}

// Heat around noon takes kernels of ears that get fresh pollen too [Cicchino10, status read]:
// tassels shaken day by day at 34 degC, which takes nothing from the pollen, do not make up for it.
func TestHeatTakesKernelsThatGotPollen(t *testing.T) {
	l := newLab(t)
	every := []int{0, 1, 2, 3, 4, 5, 6, 7, 8}
	mild, hot := l.chamberEars(30, 22, every...), l.chamberEars(34, 24, every...)
	assert.Less(t, hot.Filled.Mid, 0.95*mild.Filled.Mid)
	assert.InDelta(t, hot.HeatLeft.Mid, hot.Filled.Mid/mild.Filled.Mid, 0.02)
	assert.InDelta(t, hot.Open, mild.Open, 0.02, "silks wait for pollen, heat or not")
}

// Days beyond the forecast may be as hot as those known, or mild.
func TestHeatOfUnknownDays(t *testing.T) {
	l := newLab(t)
	w := chamber(34, 22)
	w.dew = 20
	e := l.judge(ohio, w, 1, Planting{Crop: l.crop("sweet-corn"), Rows: 4, FirstFemale: ohio.date}, Bees{}).Ears
	require.True(t, e.Known)
	known := l.chamberEars(34, 22)
	assert.InDelta(t, known.Heat.Mid, e.Heat.Lo, 1e-9)
	assert.Less(t, e.Heat.Hi, e.Heat.Mid)
	assert.Less(t, e.Heat.Mid, e.Heat.Lo)
	assert.Less(t, e.HeatLeft.Lo, e.HeatLeft.Hi)
}

// The account of a bed's water tells what a degree day takes: 0.5 % where corn wants for
// nothing, 2 % where nothing is left [DhaWil22, status read], straight between.
func TestWaterTellsWhatHeatTakes(t *testing.T) {
	l := newLab(t)
	m, p := newCornModelOf(l), &Planting{Name: "corn"}
	for ks, want := range map[float64]float64{1: 0.005, 0: 0.02, 0.5: 0.0125} {
		rate := m.heatLoss(Thirst{{"corn", ohio.date}: {ks, ks, ks}}, p, ohio.date)
		assert.InDelta(t, want, rate.Lo, 1e-12)
		assert.InDelta(t, want, rate.Mid, 1e-12)
		assert.InDelta(t, want, rate.Hi, 1e-12)
	}
	g, s, d := clearForecast(t, "sweet-corn")
	hot := sine(s.Start().In(g.Place.Zone), 5, 29, 6, 18, 3, 0.25, nil)
	ears := func(ks Range) Ears {
		thirst := Thirst{}
		for k := range 20 {
			thirst[ThirstDay{"sweet-corn", g.Plantings[0].FirstFemale.AddDays(k)}] = ks
		}
		day, ok := NewModelWith(g, Learned{Thirst: thirst}).Assess(hot, d, 1).Day(d)
		require.True(t, ok)
		return day.Plantings[0].Ears
	}
	wet, dry := ears(Range{1, 1, 1}), ears(Range{0.2, 0.3, 0.4})
	assert.Less(t, dry.Filled.Mid, wet.Filled.Mid)
	assert.Less(t, dry.HeatLeft.Hi, wet.HeatLeft.Hi)
	kept := mattersOf(g, hot, d, Learned{Thirst: Thirst{{"sweet-corn", d}: {1, 1, 1}}})
	assert.Zero(t, kept.input(t, "corn.heat_loss").Moves, "told by the account")
}

// How much a degree day takes, by whether the field was watered, moves what is told of hot days.
func TestCornHangsOnHeat(t *testing.T) {
	g, s, d := clearForecast(t, "sweet-corn")
	m := mattersOf(g, s, d, Learned{})
	assert.Zero(t, m.input(t, "corn.heat_loss").Moves, "24 degC and 6 about it are no heat")
	hot := sine(s.Start().In(g.Place.Zone), 5, 29, 6, 18, 3, 0.25, nil)
	m = mattersOf(g, hot, d, Learned{})
	loss := m.input(t, "corn.heat_loss")
	assert.True(t, loss.Moved())
	assert.Less(t, loss.To.Bees, loss.From.Bees, "2 % a degree day against 0.5")
}
