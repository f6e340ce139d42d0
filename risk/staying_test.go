package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/memory"
)

// Bees that leave watermelon with its pollen (DiTrani22) pay fewer visits that bring
// the more: each hour brings what it brought.
func TestBeesLeaveWithThePollen(t *testing.T) {
	l := newLab(t)
	leave := l.plain("watermelon", nyField, clearDay)
	other := *l
	remaining := copyOf(l.crop("watermelon"))
	remaining.Bees.Stay = 1
	other.changed = map[string]*crop.Crop{"watermelon": remaining}
	stay := other.plain("watermelon", nyField, clearDay)
	assert.Less(t, leave.Visits, 0.95*stay.Visits)
	require.Len(t, leave.Hours, len(stay.Hours))
	for i := range leave.Hours {
		assert.InDelta(t, stay.Hours[i].Bees, leave.Hours[i].Bees, 1e-9)
	}
}

// A count of bees is held against the visits still paid in its hour.
func TestCountsOfBeesThatLeft(t *testing.T) {
	l := newLab(t)
	expected := func(stay float64, hour float64) float64 {
		c := copyOf(l.crop("watermelon"))
		c.Bees.Stay = stay
		g := l.garden(nyField, Planting{Crop: c}, Bees{})
		at := nyField.date.Start(nyField.zone).Add(time.Duration(hour * float64(time.Hour)))
		e := memory.Entry{Kind: memory.Bees, Date: nyField.date, At: at, Planting: "trial",
			Visits: forecast.Known(5), Flowers: forecast.Known(10), Minutes: forecast.Known(5)}
		learned := Learn(g, clearDay.series(nyField, 1), []memory.Entry{e}, at)
		require.Equal(t, 1, learned.Counts)
		return learned.Expected
	}
	assert.InDelta(t, expected(1, 8.5), expected(0.1, 8.5), 1e-9, "all the pollen is there")
	late := l.crop("watermelon").Window.Offer.At(12.5 - 5.6433) // sunrise in Newark
	assert.InDelta(t, 0.1+0.9*late, expected(0.1, 12.5)/expected(1, 12.5), 1e-3)
}

// Silks fade from the fourth day to none on the seventh (Strachan, BasWesB).
func TestSilksFade(t *testing.T) {
	m := newCornModel(newLab(t).crop("sweet-corn"))
	for age, want := range map[float64]float64{0: 1, 4: 1, 5.5: 0.5, 7: 0, 9: 0} {
		assert.InDelta(t, want, m.silkTakes(age), 1e-12, "%g days", age)
	}
}

// All pollen comes off in time, in dull damp air too, and never more than all.
func TestPollenComesOffAsTheTasselDries(t *testing.T) {
	m := newCornModel(newLab(t).crop("sweet-corn"))
	before := 0.0
	for hours := 0.0; hours <= 6; hours += 0.25 {
		now := m.comeOff(hours)
		assert.GreaterOrEqual(t, now, before)
		before = now
	}
	assert.InDelta(t, 1, before, 1e-12)
	assert.InDelta(t, 0.3, m.comeOff(1), 1e-12)
	dull := m.drying(beeAir(15, 0, 0))
	assert.InDelta(t, slowestDrying, dull, 1e-12)
	assert.Greater(t, m.comeOff(dull*(m.d.ShedTo-m.d.ShedFrom)), 0.9, "a day of the slowest air")
}
