package et0

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/feedtest"
)

// year adds up the reference of all days and of May to September, and counts the
// ways it was reached.
func yearOf(p forecast.Place, hours []forecast.Hour) (all, season float64, ways map[Way]int) {
	c := NewClock(OfPlace(p), 1)
	ways = map[Way]int{}
	for i := 0; i+24 <= len(hours); i += 24 {
		d := c.DayOf(hours[i : i+24])
		ways[d.Way]++
		mm := d.MM.Or(math.NaN())
		all += mm
		if m := hours[i].Start.In(p.Zone).Month(); m >= time.May && m <= time.September {
			season += mm
		}
	}
	return all, season, ways
}

// without gives a copy of hours that lack what drop takes away.
func without(hours []forecast.Hour, drop func(i int, h *forecast.Hour)) []forecast.Hour {
	out := append([]forecast.Hour(nil), hours...)
	for i := range out {
		drop(i, &out[i])
	}
	return out
}

// The sum of the hours and the step of the day's means agree over a year and a
// season of Greensboro within 5 %; the cheaper ways are told beside.
func TestSeasonOfGreensboro(t *testing.T) {
	p, year := feedtest.Greensboro(t, 2005)
	hours := year.Hours
	all, season, ways := yearOf(p, hours)
	require.Equal(t, map[Way]int{ByHours: 365}, ways)
	tell := func(name string, a, s float64, w map[Way]int) {
		t.Logf("%-34s year %6.1f mm (%+5.1f %%), May to September %6.1f mm (%+5.1f %%) %v", name, a, 100*(a/all-1), s, 100*(s/season-1), w)
	}
	tell("hours", all, season, ways)
	// Every fifth hour lacks its wind, so that no day has all of its hours.
	a, s, w := yearOf(p, without(hours, func(i int, h *forecast.Hour) {
		if i%5 == 0 {
			h.Wind = forecast.Value{}
		}
	}))
	require.Equal(t, map[Way]int{ByMeans: 365}, w)
	tell("means, mean humidity", a, s, w)
	assert.InDelta(t, 1, a/all, 0.05)
	assert.InDelta(t, 1, s/season, 0.05)
	a, s, w = yearOf(p, without(hours, func(_ int, h *forecast.Hour) { h.Radiation = forecast.Value{} }))
	require.Equal(t, map[Way]int{ByHoursOfCloud: 365}, w)
	tell("hours, sun from cloud cover", a, s, w)
	a, s, w = yearOf(p, without(hours, func(_ int, h *forecast.Hour) { h.Wind = forecast.Value{} }))
	require.Equal(t, map[Way]int{ByTemperature: 365}, w)
	tell("temperatures alone (Hargreaves)", a, s, w)
	_, _, w = yearOf(p, without(hours, func(_ int, h *forecast.Hour) { h.Temp = forecast.Value{} }))
	require.Equal(t, map[Way]int{NoWay: 365}, w)
}

// The clock and the loop over whole days are one calculation.
func TestClockAgreesWithRun(t *testing.T) {
	w, site := made(20), NewSite(41.6, -93.6, 290, -6)
	out := make([]float64, len(w.Temp))
	site.Run(out, w, 150, FirstNight)
	c := NewClock(site, 1)
	start := time.Date(2025, 1, 1, 6, 0, 0, 0, time.UTC).AddDate(0, 0, 149)
	for i := range out {
		f := forecast.Hour{Start: start.Add(time.Duration(i) * time.Hour), Temp: forecast.Known(w.Temp[i]), RH: forecast.Known(w.RH[i]),
			Wind: forecast.Known(w.Wind2[i] / 0.7479507), Radiation: forecast.Known(w.Radiation[i])}
		got, ok := c.Next(&f).MM.Get()
		require.True(t, ok)
		require.InDelta(t, out[i], got, 1e-6, "hour %d", i)
	}
}

// Over any hours, known or not, the reference is finite, and known only where its
// layers are; no hour costs an allocation.
func TestClockWithGaps(t *testing.T) {
	c := NewClock(NewSite(60, 25, 10, 2), 0.5)
	h := forecast.Hour{Start: time.Date(2026, 6, 21, 9, 0, 0, 0, time.UTC)}
	require.False(t, c.Next(&h).MM.IsKnown())
	h.Temp, h.RH, h.Wind = forecast.Known(20), forecast.Known(60), forecast.Known(3)
	require.False(t, c.Next(&h).MM.IsKnown(), "by day without radiation or cloud")
	h.Sky = forecast.Known(0.3)
	got := c.Next(&h)
	require.True(t, got.MM.IsKnown() && got.FromCloud)
	h.RH, h.DewPoint = forecast.Value{}, forecast.Known(11.9)
	dewy, ok := c.Next(&h).MM.Get()
	require.True(t, ok)
	require.InDelta(t, got.MM.Or(0), dewy, 0.005, "60 % at 20 degC is a dew point of 12")
	require.Zero(t, testing.AllocsPerRun(100, func() { c.Next(&h) }))
}
