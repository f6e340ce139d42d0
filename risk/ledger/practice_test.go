package ledger

import (
	"bytes"
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/feedtest"
	"dawnbrush/risk"
	"dawnbrush/risk/water/et0"
)

// figure is one of practice, as wide as its source puts it.
type figure struct{ low, high float64 }

// practice reads the figures that growers are told; each stands with its source.
func practice(t *testing.T) map[string]figure {
	t.Helper()
	f, err := os.Open("testdata/practice.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	out := map[string]figure{}
	for _, r := range rows[1:] {
		var v figure
		var errs [2]error
		v.low, errs[0] = strconv.ParseFloat(r[1], 64)
		v.high, errs[1] = strconv.ParseFloat(r[2], 64)
		require.NoError(t, errs[0])
		require.NoError(t, errs[1])
		require.True(t, r[4] != "quoted" || r[5] != "", r[0])
		out[r[0]] = v
	}
	return out
}

// july2020 gives the mean reference, mm a day, of the stations whose names begin so, by
// measured sun, warmth and humidity (NOAA, Climate Reference Network) and the wind of
// 2 m/s that the paper takes where none is known.
func july2020(t *testing.T, names ...string) float64 {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(feedtest.Recording(t, "stations/uscrn_daily_2020_11stations.csv"))).ReadAll()
	require.NoError(t, err)
	col := map[string]int{}
	for i, k := range rows[0] {
		col[k] = i
	}
	sum, n := 0.0, 0
	for _, r := range rows[1:] {
		wanted := false
		for _, name := range names {
			wanted = wanted || strings.HasPrefix(r[0], name)
		}
		date, err := time.Parse("2006-01-02", r[col["lst_date"]])
		require.NoError(t, err)
		if !wanted || date.Month() != time.July {
			continue
		}
		whole := true
		get := func(k string) float64 {
			v, err := strconv.ParseFloat(r[col[k]], 64)
			whole = whole && err == nil && v > -90
			return v
		}
		lat, tmax, tmin, sun := get("latitude"), get("t_daily_max"), get("t_daily_min"), get("solarad_daily")
		ea := et0.VapourFromRange(tmax, tmin, get("rh_daily_max"), get("rh_daily_min"))
		if whole {
			site := et0.NewSite(lat, 0, 0, 0)
			sum, n = sum+site.FromMeans(tmax, tmin, ea, 2, sun, et0.Ra(lat, date.YearDay())), n+1
		}
	}
	require.GreaterOrEqual(t, n, 28)
	return sum / float64(n)
}

// spell is a long one of the same weather: a series whose reference is about mm a day.
func spell(t *testing.T, g *risk.Garden, mm float64) *forecast.Series {
	t.Helper()
	lo, hi := 5.0, 45.0
	for range 40 { // the mean temperature that gives it
		mean := (lo + hi) / 2
		if newWeather(g, sky(g, july20, july20, 1, mean), at(g, july20, 6)).days[0].et0.Or(0) < mm {
			lo = mean
		} else {
			hi = mean
		}
	}
	return sky(g, june1, july20, 25, (lo+hi)/2)
}

// grown is a bed of plants in full cover that was filled this morning's eve.
func grown(t *testing.T, key string, change func(b *risk.Bed)) *risk.Garden {
	return plot(t, func(b *risk.Bed, p *risk.Planting) {
		p.Crop, p.Plants, p.FirstFemale = cropOf(t, key), 20, july20.AddDays(-15)
		if change != nil {
			change(b)
		}
	})
}

func soaked(t *testing.T, g *risk.Garden, mm float64) *Bed {
	t.Helper()
	return &Keep(g, spell(t, g, mm), regular(g, 1e4, 1, 1), at(g, july20, 6)).Beds[0]
}

// used gives the mm that a bed uses in the days from today, watered as advised.
func used(t *testing.T, b *Bed, days int) (mm float64) {
	t.Helper()
	for k := range days {
		mm += day(t, b, july20.AddDays(k)).Heeded.Used
	}
	return mm
}

// interval gives the days from yesterday's filling to the first watering, and that watering.
func interval(t *testing.T, b *Bed) (days int, first *Day) {
	t.Helper()
	for k := 0; ; k++ {
		if d := day(t, b, july20.AddDays(k)); d.Advice.Verdict == Water {
			return k + 1, d
		}
	}
}

// Doses stand beside what growers are told: litres a plant, millimetres a week, a pot's
// store, days between waterings, depth and minutes, by figures of testdata/practice.csv.
// Those that the account misses are told with the reason, and a miss that is none any
// more fails as well.
func TestDosesAgainstPractice(t *testing.T) {
	told := practice(t)
	humid, arid, valley := july2020(t, "Chillicothe", "Chatham", "Millbrook"), july2020(t, "Tucson", "Yuma"), july2020(t, "Merced")
	mulched := func(b *risk.Bed) { b.Mulch = risk.Organic }
	got := map[string]float64{}

	tomatoes := grown(t, "tomato", mulched)
	tomatoes.Beds[0].Area = canopies["tomato"] * 20
	b := soaked(t, tomatoes, valley)
	got["tomato_a_day"] = used(t, b, 10) * tomatoes.Beds[0].Area / 20 / 0.9 / 10
	got["week_humid"] = used(t, soaked(t, tomatoes, humid), 7)
	got["week_arid"] = used(t, soaked(t, tomatoes, arid), 7)

	pots := grown(t, "tomato", func(b *risk.Bed) {
		*b = risk.Bed{Name: "bed 1", Kind: risk.Pots, Pots: 20, PotVolume: 19, Soil: risk.PottingSoil, Watering: risk.Can}
	})
	b = soaked(t, pots, humid)
	got["pot_store"] = today(t, b).TAW * b.Canopy
	days, first := interval(t, b)
	got["pot_days"] = float64(days)
	_, hot := interval(t, soaked(t, pots, arid))
	got["pot_times"] = float64(hot.Advice.Times)
	assert.InDelta(t, first.Advice.Litres, 10*first.Advice.Cans, 1e-9, "cans of ten litres")
	assert.InDelta(t, first.Advice.Litres, 20*first.Advice.EachPot, 1e-9)

	b = soaked(t, grown(t, "tomato", func(b *risk.Bed) { b.Soil = risk.Sand }), humid)
	days, first = interval(t, b)
	got["sand_days"], got["sand_at_once"] = float64(days), first.Advice.MM
	days, first = interval(t, soaked(t, grown(t, "tomato", nil), humid))
	got["loam_days"], got["depth"] = float64(days), first.Advice.Depth
	_, first = interval(t, soaked(t, grown(t, "muskmelon", nil), humid))
	got["depth_cucurbits"] = first.Advice.Depth

	drip := grown(t, "tomato", func(b *risk.Bed) { b.Flow = 10 * 2 / 0.3 }) // 10 m2 of lines a metre apart
	_, first = interval(t, soaked(t, drip, humid))
	got["drip_rate"] = first.Advice.MM / 0.9 / first.Advice.Run.Hours()

	misses := map[string]string{
		"week_humid":   "a little over: the coefficient of tomatoes is 1.10 and more, the arithmetic of the figure has 1",
		"sand_at_once": "roots of grown tomatoes reach 0.7 m by table 22; the figure suits roots half as deep",
	}
	for name, want := range told {
		x, ok := got[name]
		require.True(t, ok, name)
		in := x >= want.low-1e-9 && x <= want.high+1e-9
		t.Logf("%-16s %6.2f told %6.2f to %6.2f", name, x, want.low, want.high)
		if why := misses[name]; why != "" {
			t.Logf("%-16s missed: %s", "", why)
			assert.False(t, in, "%s is no miss any more", name)
		} else {
			assert.True(t, in, "%s: %.2f, told %.2f to %.2f", name, x, want.low, want.high)
		}
	}
	assert.Len(t, told, len(got))
	t.Logf("reference of July 2020, mm a day: humid %.1f, arid %.1f, Central Valley %.1f", humid, arid, valley)
}
