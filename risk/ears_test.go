package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"dawnbrush/forecast"
)

// plainSummer is the weather that fill_rate is set in: fair, a light breeze.
var plainSummer = weather{mean: 23, amp: 6, dew: 14, wind: 3, sky: 0.3}

// ears gives the ears of a block on the day its first silk is seen, after and before
// days of the weather that the silks wait through.
func (l *lab) ears(rows int, w weather, shaken ...int) Ears {
	last := ohio
	last.date = ohio.date.AddDays(14)
	p := Planting{Crop: l.crop("sweet-corn"), Rows: rows, FirstFemale: ohio.date}
	for _, d := range shaken {
		p.Brushed = append(p.Brushed, ohio.date.AddDays(d))
	}
	a := Assess(l.garden(ohio, p, Bees{}), w.series(last, 16), ohio.date, 1)
	require.Len(l.t, a.Days, 1)
	e := a.Days[0].Plantings[0].Ears
	require.True(l.t, e.Known)
	return e
}

// Four rows in plain summer weather fill 95 of 100 kernels: the one check that
// fill_rate is chosen by. A single row fills badly (common practice).
func TestRowsFillEars(t *testing.T) {
	l := newLab(t)
	last := 0.0
	for rows := 1; rows <= 6; rows++ {
		e := l.ears(rows, plainSummer)
		t.Logf("%d rows: %.3f, butt %.2f, middle %.2f, tip %.2f, shaken once %.3f", rows, e.Filled.Mid, e.Part[Butt].Mid, e.Part[Middle].Mid, e.Part[Tip].Mid, e.Shaken.Mid)
		assert.GreaterOrEqual(t, e.Filled.Mid, last)
		last = e.Filled.Mid
	}
	assert.InDelta(t, 0.95, l.ears(4, plainSummer).Filled.Mid, 0.01)
	assert.Less(t, l.ears(1, plainSummer).Filled.Mid, 0.7)
	assert.Zero(t, l.ears(4, plainSummer).Dark)
}

// The upper part of the ear is what may lack pollen (StrMak92), for its silks come
// last (BasWesA).
func TestTheTipFillsWorst(t *testing.T) {
	e := newLab(t).ears(4, plainSummer)
	assert.GreaterOrEqual(t, e.Part[Butt].Mid, e.Part[Middle].Mid)
	assert.Greater(t, e.Part[Middle].Mid, e.Part[Tip].Mid)
}

// rowShare at its limits: a tenth of a block for one row or one plant, all from four
// rows on, an acre included; more rows are never worse.
func TestRowShare(t *testing.T) {
	assert.InDelta(t, 0.1, rowShare(1), 1e-12)
	for _, rows := range []int{fewRows, 80, 0} {
		assert.InDelta(t, 1, rowShare(rows), 1e-12)
	}
	for rows := 1; rows < 10; rows++ {
		assert.LessOrEqual(t, rowShare(rows), rowShare(rows+1))
	}
	for _, x := range []struct{ rows, plants, want int }{{4, 1, 1}, {0, 1, 1}, {0, 3, 3}, {0, 54, 0}, {3, 54, 3}, {4, 0, 4}, {0, 0, 0}} {
		p := Planting{Rows: x.rows, Plants: x.plants}
		assert.Equal(t, x.want, p.cornRows(), "%+v", x)
	}
}

// In two of four field experiments 5 to 6 days of pollination gave the most grain
// (StrMak92): covering the ears after six days costs no more than one in twenty here.
func TestSixDaysOfPollinationFillTheEar(t *testing.T) {
	l := newLab(t)
	model := newCornModel(l.crop("sweet-corn"))
	p := &Planting{FirstFemale: ohio.date}
	filled := func(n int) float64 {
		days := make([]pollenDay, model.earDays())
		for d := range days {
			days[d] = pollenDay{known: true, shed: model.shedShare(p, ohio.date.AddDays(d))}
			if d < n {
				good := l.plain("sweet-corn", ohio, plainSummer).Fill
				days[d].alone, days[d].shaken = good, good
			}
		}
		return model.ears(days, 0).Filled.Mid
	}
	assert.GreaterOrEqual(t, filled(6), 0.95*filled(99))
	assert.Less(t, filled(2), 0.8*filled(99), "the effect was stronger the earlier the ears were covered")
	assert.Zero(t, filled(0), "no pollen, no kernel")
}

// Days that nobody knows count from nothing to a good day.
func TestEarsOfUnknownDays(t *testing.T) {
	l := newLab(t)
	e := l.judge(ohio, plainSummer, 1, Planting{Crop: l.crop("sweet-corn"), Rows: 4, FirstFemale: ohio.date}, Bees{}).Ears
	require.True(t, e.Known)
	assert.Positive(t, e.Dark)
	known := l.ears(4, plainSummer)
	assert.Less(t, e.Filled.Lo, known.Filled.Lo)
	assert.GreaterOrEqual(t, e.Filled.Hi, known.Filled.Hi)
	late := l.judge(ohio, plainSummer, 1, Planting{Crop: l.crop("sweet-corn"), Rows: 4}, Bees{}).Ears
	assert.Equal(t, Ears{}, late, "without a first silk nothing is known")
}

// Days of the series before today count as they were, and so does a shaking of the diary.
func TestEarsRememberTheDiary(t *testing.T) {
	l := newLab(t)
	once, again := l.ears(1, plainSummer), l.ears(1, plainSummer, 1, 2)
	assert.Greater(t, again.Filled.Mid, once.Filled.Mid)
}

// Shares stay within 0 and 1, shaking and more pollen are never worse.
func TestEarsProperties(t *testing.T) {
	model := newCornModel(newLab(t).crop("sweet-corn"))
	p := &Planting{FirstFemale: forecast.Date{Year: 2026, Month: 7, Day: 19}}
	rapid.Check(t, func(t *rapid.T) {
		share := rapid.Float64Range(0, 1)
		days, more := make([]pollenDay, model.earDays()), make([]pollenDay, model.earDays())
		up := func(r Range, by float64) Range { return Range{r.Lo + by, r.Mid + by, r.Hi + by} }
		for d := range days {
			lo := share.Draw(t, "pollen")
			r := Range{lo, lo + share.Draw(t, "mid")/2, lo + 0.5 + share.Draw(t, "hi")/2}
			days[d] = pollenDay{alone: r, shaken: up(r, share.Draw(t, "shaken")), shed: model.shedShare(p, p.FirstFemale.AddDays(d)), known: true}
			more[d] = days[d]
			more[d].alone, more[d].shaken = up(days[d].alone, 0.1), up(days[d].shaken, 0.1)
		}
		now := rapid.IntRange(0, len(days)-1).Draw(t, "now")
		e, better := model.ears(days, now), model.ears(more, now)
		for _, r := range append(e.Part[:], e.Filled, e.Shaken) {
			if r.Lo < 0 || r.Hi > 1+1e-12 || r.Lo > r.Mid || r.Mid > r.Hi {
				t.Fatalf("%+v", e)
			}
		}
		if e.Wins() < -1e-12 || e.Open < 0 || e.Open > 1+1e-12 || better.Filled.Mid < e.Filled.Mid-1e-12 || better.Filled.Lo < e.Filled.Lo-1e-12 {
			t.Fatalf("%+v, with more %+v", e, better)
		}
	})
}
