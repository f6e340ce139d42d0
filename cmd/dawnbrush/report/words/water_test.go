package words_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/water"
	"dawnbrush/risk/water/et0"
)

func TestEveryValueOfTheAccountHasWords(t *testing.T) {
	both(t, func(t *testing.T, w words.Words) {
		seen := map[string]bool{}
		once := func(what, s string) {
			proper(t, what, s)
			assert.False(t, seen[s], "two say %q", s)
			seen[s] = true
		}
		for c := ledger.CauseDry; c <= ledger.CauseUneven; c++ {
			once("cause", w.WaterCause(c))
		}
		for v := ledger.Enough; v <= ledger.LookFirst; v++ {
			once("verdict", w.WaterDo(v))
		}
		for by := ledger.RainGauge; by <= ledger.RainNone; by++ {
			once("rain", w.RainBy(by))
		}
		for y := ledger.Nothing; y <= ledger.NoWeather; y++ {
			once("not reckoned", w.WaterNot(y))
		}
		for s := ledger.StartUnknown; s <= ledger.StartSoaked; s++ {
			once("start", w.WaterStart(s))
		}
		for y := et0.NoWay; y <= et0.ByHoursOfCloud; y++ {
			once("way", w.Pull(y))
		}
		for _, s := range w.WaterCautions() {
			once("caution", s)
		}
		assert.Empty(t, w.WaterDo(ledger.NoVerdict))
		assert.Empty(t, w.WaterNot(ledger.Reckoned))
	})
}

// Amounts as growers measure them out. A US gallon is 3.785411784 l (231 cubic inches,
// memory).
func TestAmounts(t *testing.T) {
	metric, us := words.New(risk.Metric, time.UTC), words.New(risk.US, time.UTC)
	for _, c := range []struct{ want, got string }{
		{"14 L", metric.Litres(13.6)}, {"0.6 L", metric.Litres(0.55)}, {"3 L", metric.Litres(3)}, {"0 L", metric.Litres(0)}, {"490 gal", us.Litres(unit.GalToL(491))}, {"1860 L", metric.Litres(1859)}, {"1000 L", metric.Litres(998)}, {"100 L", metric.Litres(99.6)},
		{"9 gal", us.Litres(unit.GalToL(9))}, {"1.5 gal", us.Litres(unit.GalToL(1.5))}, {"2 qt", us.Litres(unit.GalToL(0.5))}, {"0 gal", us.Litres(0)}, {"1 gal", us.Litres(3.7)},
		{"42 min", metric.Run(42 * time.Minute)}, {"1 min", metric.Run(time.Second)}, {"119 min", metric.Run(119 * time.Minute)}, {"2 h 05 min", metric.Run(123 * time.Minute)},
		{"half a can", metric.Cans(0.2)}, {"1 can", metric.Cans(1.1)}, {"1.5 cans", metric.Cans(1.6)}, {"4 cans", metric.Cans(3.8)}, {"23 cans", metric.Cans(22.6)},
		{"30 cm", metric.Deep(0.31)}, {"4 cm", metric.Deep(0.04)}, {"12 in", us.Deep(0.31)},
	} {
		assert.Equal(t, c.want, c.got)
	}
}

func TestLeft(t *testing.T) {
	var w words.Words
	at := func(lo, mid, hi float64) risk.Range { return risk.Range{Lo: lo, Mid: mid, Hi: hi} }
	assert.Equal(t, "a third of its water left", w.Left(at(0.3, 0.33, 0.36)))
	assert.Equal(t, "half of its water left (a quarter to two thirds)", w.Left(at(0.25, 0.5, 0.67)))
	assert.Equal(t, "hardly any of its water left", w.Left(at(0, 0.02, 0.04)))
	assert.Equal(t, "all of its water left", w.Left(at(1, 1, 1)))
	assert.Equal(t, "33", w.LeftNumber(at(0.3, 0.33, 0.36), false))
	assert.Equal(t, "30-36", w.LeftNumber(at(0.3, 0.33, 0.36), true))
	assert.Equal(t, "33", w.LeftNumber(at(0.33, 0.33, 0.33), true))
	assert.Equal(t, "20-60", w.LeftNumber(at(0.2, 0.33, 0.6), true))
	assert.True(t, w.LeftWide(at(0.2, 0.33, 0.6)))
	assert.False(t, w.LeftWide(at(0.3, 0.33, 0.36)))
}

// The sentences of the sample's day, whole.
func TestAdviceIsSaid(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	w := words.New(risk.Metric, d.Zone())
	line := func(k int) string {
		b := &d.Water.Beds[k]
		day, _ := b.Day(reporttest.Today)
		return w.WaterLine(b, day)
	}
	assert.Equal(t, "05:00-08:00  water cucumbers, north trellis: 84 L, 3 h 30 min of drip, a third of its water left, sure", line(0))
	assert.Equal(t, "05:00-08:00  feel the soil bed 4 (zucchini and 1 more): feel 10 cm down: moist, leave it; dry, give 18 L, 2 cans, 4.5 L a plant; how wet the soil was at first is not known; a reading of the rain gauge would settle it", line(1))
	assert.Equal(t, "no water patch (butternut): rain came", line(2))
	d.Water.Beds[2].Days[9].Advice.Causes, d.Water.Beds[2].Days[9].Advice.Chance = []ledger.Cause{ledger.CauseRainAhead}, forecast.Known(0.65)
	assert.Equal(t, "no water patch (butternut): rain is likely (65 %)", line(2))
	assert.Equal(t, "wait for rain sweet corn, block 2: rain 70 %; if it does not come, a quarter of its water is left that evening: water then", line(3))
}

// What makes an advice unsure is named, and what would settle it.
func TestDoubtIsSaid(t *testing.T) {
	var w words.Words
	b := &ledger.Bed{Bed: &risk.Bed{}, Start: ledger.StartSown}
	sure := func(d ledger.Day) string { return w.WaterSure(b, &d) }
	assert.Equal(t, "sure", sure(ledger.Day{Advice: ledger.Advice{Sure: risk.VerySure}}))
	assert.Equal(t, "not sure: forecast rain, not measured; a reading of the rain gauge would settle it", sure(ledger.Day{By: ledger.RainForecast, Advice: ledger.Advice{Gauge: true}}))
	assert.Equal(t, "not sure: humidity, wind or sun are not known", sure(ledger.Day{Way: et0.ByTemperature, By: ledger.RainAhead}))
	assert.Equal(t, "not sure: whether rain fell is not known", sure(ledger.Day{By: ledger.RainUnknown}))
	assert.Equal(t, "not sure", sure(ledger.Day{}))
	b.Start = ledger.StartUnknown
	wide := ledger.Day{Left: risk.Range{Lo: 0.1, Mid: 0.5, Hi: 0.9}}
	assert.Equal(t, "not sure: how wet the soil was at first is not known, and no watering is noted", sure(wide))
	wide.Advice.Chance = forecast.Known(0.5)
	wide.Advice.Verdict, wide.Advice.IfDry = ledger.WaitForRain, 0.2
	assert.Equal(t, "rain 50 %; if it does not come, a fifth of its water is left that evening: water then", w.WaterRain(&wide))
	wide.Date, wide.Chance = reporttest.Today, forecast.Known(0.1)
	assert.Equal(t, "rain 50 % on Fri 17; if it does not come, a fifth of its water is left on that evening: water then", w.WaterRain(&wide))
}

func TestSeasonIsSaid(t *testing.T) {
	var w words.Words
	s := ledger.Season{Days: 30, Rule: 200, Wanted: 180, Given: 150, Noted: true}
	const rule = "in 30 days the rule of an inch a week, rain counted, would have had you give 200 L, this account 180 L"
	assert.Equal(t, rule+"; you noted 150 L: 50 L saved against the rule", w.Season(s))
	s.Given = 260
	assert.Equal(t, rule+"; you noted 260 L: 60 L more than by the rule, which is short in hot weather", w.Season(s))
	s.Given = 200
	assert.Equal(t, rule+"; you noted 200 L: the same as by the rule", w.Season(s))
	s.Noted = false
	assert.Equal(t, rule+"; no watering is noted, so nothing is compared with it: note what you give (`dawnbrush note water 20 L BED`) and what the gauge reads, and the account can tell", w.Season(s))
	assert.Empty(t, w.Season(ledger.Season{}))
	s.Days = 6 // less than the rule's week
	assert.True(t, strings.HasPrefix(w.Season(s), "no watering is noted: note what you give"))
	s.Noted = true
	assert.Empty(t, w.Season(s))
	assert.Empty(t, w.Evenness(&risk.Bed{}, ledger.Swing{}))
	assert.Contains(t, w.Evenness(&risk.Bed{}, ledger.Swing{Known: true, Share: 1.4, Uneven: true}), "1.4 times what the plants can spare: uneven by our own limit (no paper gives one)")
	assert.NotContains(t, w.Evenness(&risk.Bed{Mulch: risk.Organic}, ledger.Swing{Known: true, Share: 1.4, Uneven: true}), "mulch")
	assert.Contains(t, w.Evenness(&risk.Bed{}, ledger.Swing{Known: true, Share: 1}), "all that the plants can spare")
}

// The second of two waterings of a pot comes in the late afternoon, or where the first
// does, the next morning; what the hours of work do not hold is said.
func TestMannerIsSaid(t *testing.T) {
	w := words.New(risk.Metric, time.UTC)
	pots, bed := &risk.Bed{Kind: risk.Pots, Watering: risk.Can}, &risk.Bed{Kind: risk.GroundBed, Watering: risk.Sprinkler}
	at := func(hour float64) time.Time { return reporttest.Today.At(hour, time.UTC) }
	manner := func(b *risk.Bed, a ledger.Advice) string {
		return w.WaterManner(b, &ledger.Day{RAW: 20, Flux: water.Flux{Wanted: 6}, Advice: a})
	}
	shallow := &ledger.Day{RAW: 5, Flux: water.Flux{Wanted: 6}, Advice: ledger.Advice{Times: 2, From: at(6), To: at(8)}}
	assert.Equal(t, "in two goes, early and in the late afternoon", w.WaterManner(&risk.Bed{Kind: risk.RaisedBed}, shallow), "a shallow bed is no better than a pot")
	assert.Equal(t, "in two goes, early and in the late afternoon", manner(pots, ledger.Advice{Times: 2, From: at(6), To: at(8)}))
	assert.Equal(t, "half now, half early tomorrow", manner(pots, ledger.Advice{Times: 2, From: at(18), To: at(20)}))
	assert.Equal(t, "until it runs out below", manner(pots, ledger.Advice{Times: 1, From: at(6), To: at(8)}))
	assert.Equal(t, "in two goes an hour apart, not from above, for open flowers would get wet, 30 cm deep, longer than your hours last",
		manner(bed, ledger.Advice{Times: 2, NoLeaves: true, Depth: 0.3, Run: 3 * time.Hour, From: at(6), To: at(8)}))
	assert.Equal(t, "20 cm deep, your hours of work hold none more that suit: at the next cool hour you can, best before mid-morning", manner(bed, ledger.Advice{Times: 1, Depth: 0.2}))
}
