package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// selfOn judges a crop after two weeks of 22/17 degC, temperatures replaced where
// hot says so.
func selfOn(l *lab, key string, cover Cover, hot func(day, hour int) (float64, bool)) (*PlantingDay, DayPlan) {
	w := hotWeather(func(d, h int) float64 {
		if t, ok := hot(d, h); ok {
			return t
		}
		return dayNight(h, 22, 17)
	})
	return l.plan(heatField, w, 16, Planting{Crop: l.crop(key), Cover: cover})
}

func mild(_, _ int) (float64, bool) { return 0, false }

// Heat on a pepper does harm when pollen forms (days -15 to -12) and when the
// flower opens, not between (EriMark02); the worse of the two counts, and the
// flag names its days.
func TestPepperHeatHasTwoSpells(t *testing.T) {
	l := newLab(t)
	at := func(mean float64) float64 { return 1 - 0.11*(mean-25) } // PepArava
	spell := func(from, to int, t float64) func(d, h int) (float64, bool) {
		return func(d, _ int) (float64, bool) { return t, d >= from && d <= to }
	}
	both := func(d, _ int) (float64, bool) {
		if d >= -1 {
			return 28, true
		}
		return 31, d >= -15 && d <= -12
	}
	for _, c := range []struct {
		name     string
		hot      func(d, h int) (float64, bool)
		want     float64
		from, to int // days of the flag; equal: none
	}{
		{"mild", mild, 1, 0, 0},
		{"when it opens", spell(-1, 0, 31), at(31), -1, 0},
		{"when pollen forms", spell(-15, -12, 31), at(31), -15, -12},
		{"between", spell(-11, -2, 31), 1, 0, 0},
		{"both, the early one worse", both, at(31), -15, -12},
	} {
		pd, _ := selfOn(l, "sweet pepper", Open, c.hot)
		share, known := pd.Factor.Get()
		require.True(t, known, c.name)
		assert.InDelta(t, c.want, share, 1e-9, c.name)
		flag, flagged := pd.flag(HotDays)
		require.Equal(t, c.from < c.to, flagged, c.name)
		if flagged {
			assert.Equal(t, heatField.date.AddDays(c.from), flag.Since, c.name)
			assert.Equal(t, heatField.date.AddDays(c.to), flag.Until, c.name)
			assert.Equal(t, "self.mean", flag.Param)
		}
	}
}

// With one spell unknown the other still counts, and the day says that not all is
// known.
func TestPepperHalfKnownHistory(t *testing.T) {
	l := newLab(t)
	hot := chamber(31, 31)
	pd := l.judge(heatField, hot, 5, Planting{Crop: l.crop("sweet pepper")}, Bees{})
	assert.Equal(t, HistoryUnknown, pd.State)
	assert.InDelta(t, 0.34, pd.Factor.Or(-1), 1e-9)
	pd = l.judge(heatField, hot, 16, Planting{Crop: l.crop("sweet pepper")}, Bees{})
	assert.Equal(t, Judged, pd.State)
	assert.InDelta(t, 0.34, pd.Factor.Or(-1), 1e-9)
}

// Beans go by the nights of the six days before they open (KonOfi91, MonWien90)
// and of those in which pollen forms (GroKig94; the days from memory), the worse:
// seed set falls by 6.5 points a degC of the night over 18 (Prasad02), hot days with
// cool nights take little: from midway between 25 and 30 degC (DickBoe84) a twentieth
// by 35, which hardly hindered (Weaver85).
func TestBeansGoByTheNights(t *testing.T) {
	l := newLab(t)
	steady := func(day, night float64) func(d, h int) (float64, bool) {
		return func(_, h int) (float64, bool) { return dayNight(h, day, night), true }
	}
	for _, c := range []struct {
		name string
		hot  func(d, h int) (float64, bool)
		want float64
	}{
		{"mild", mild, 1},
		{"hot days, cool nights", steady(34, 17), 1 - 0.05*6.5/7.5},
		{"mild days, warm nights", steady(24, 24), 1 - 0.065*6},
		{"40/30", steady(40, 30), 0.22 * (1 - 0.05*12.5/7.5)},
		{"when pollen forms (days -12 to -8), with nights of 27", func(d, h int) (float64, bool) { return 27, d >= -13 && d <= -8 }, 1 - 0.065*9},
		{"between the two spells and earlier", func(d, h int) (float64, bool) { return 27, d == -7 || d <= -14 }, 1},
		{"4 h over 45 degC on the day", func(d, h int) (float64, bool) { return 45.5, d == 0 && h >= 12 && h < 16 }, 0},
		{"the same the day before", func(d, h int) (float64, bool) { return 45.5, d == -1 && h >= 12 && h < 16 }, 1},
	} {
		pd, _ := selfOn(l, "bean", Open, c.hot)
		share, known := pd.Factor.Get()
		require.True(t, known, c.name)
		assert.InDelta(t, c.want, share, 1e-9, c.name)
		if flag, ok := pd.flag(HotDays); ok {
			assert.Equal(t, "self.mean_night", flag.Param)
		}
	}
}

// Nobody taps a bean: not in still air, not in rain, not under a roof; rain takes
// nothing from pollen that falls in the bud.
func TestBeansAreLeftAlone(t *testing.T) {
	l := newLab(t)
	for name, cover := range map[string]Cover{"open": Open, "row cover": RowCover, "tunnel": Tunnel, "house": House} {
		_, plan := selfOn(l, "bean", cover, mild)
		assert.Empty(t, plan.Tasks, name)
		leave, ok := plan.find(LeaveToBees)
		require.True(t, ok, name)
		assert.Equal(t, cover == Tunnel || cover == House, leave.Sure == Unsure, name)
	}
	wet := hotWeather(func(_, h int) float64 { return dayNight(h, 22, 17) })
	wet.wind, wet.rain = 0, func(d, _ int) float64 {
		if d == 0 {
			return 2
		}
		return 0
	}
	pd, plan := l.plan(heatField, wet, 16, Planting{Crop: l.crop("bean")})
	dry, _ := selfOn(l, "bean", Open, mild)
	assert.Equal(t, dry.Set, pd.Set)
	_, flagged := pd.flag(PollenWet)
	assert.False(t, flagged)
	assert.Empty(t, plan.Tasks)
	_, nothing := plan.find(NothingToGain)
	assert.False(t, nothing)

	// A pepper under a roof is tapped; outdoors nothing sourced says that it must be.
	_, plan = selfOn(l, "sweet pepper", Tunnel, mild)
	_, tap := plan.find(TapTrusses)
	assert.True(t, tap)
	_, plan = selfOn(l, "sweet pepper", Open, mild)
	_, tap = plan.find(TapTrusses)
	assert.False(t, tap)
}

// Weather before the flower costs the hour loop no room.
func TestSelfingAllocatesNothing(t *testing.T) {
	l := newLab(t)
	for _, key := range []string{"sweet pepper", "bean"} {
		c := l.crop(key)
		s := chamber(31, 24).series(heatField, 16)
		var past history
		past.read(s, forecast.Place{Lat: heatField.lat, Lon: heatField.lon, Zone: heatField.zone})
		m := selfModel{c: c, d: c.Self}
		k := past.index(heatField.date)
		n := testing.AllocsPerRun(100, func() { m.before(&past, k); m.worst(&past, k) })
		assert.Zero(t, n, key)
	}
}
