package document_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/air"
)

func TestGapsAreThoseOfTodayAndTomorrow(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	require.Equal(t, []document.Gap{{Date: reporttest.Today.AddDays(1), Plantings: []string{"cucumbers, north trellis"}, Layers: air.Wind}}, d.Gaps())
	assert.False(t, d.Complete())

	// The same the day after tomorrow is shown and not signalled.
	d.Plans[1].Day.Plantings[0].Missing = 0
	d.Plans[2].Day.Plantings[0].Missing = air.Rain
	assert.Empty(t, d.Gaps())
	assert.True(t, d.Complete())

	d.Forecast.Stale = true
	assert.False(t, d.Complete())
}

// What no forecast could fill is no gap: other air, kinds that need no pollen,
// plantings without flowers.
func TestNoGapWhereNothingIsNeeded(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	p := &d.Plans[1].Day.Plantings[0]
	for _, s := range []risk.State{risk.OtherAir, risk.NeedsNoPollen, risk.NoSun} {
		p.State = s
		assert.Empty(t, d.Gaps(), s.String())
	}
	p.State, p.Bloom = risk.Judged, risk.NoBloom
	assert.Empty(t, d.Gaps())
}

// A logger that measures no humidity will never tell it: no gap; one that does and
// has a hole is one. A logger that is of no use leaves the plan incomplete.
func TestGapsUnderCover(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	for i := range d.Plans {
		for j := range d.Plans[i].Day.Plantings {
			d.Plans[i].Day.Plantings[j].Missing = 0
		}
	}
	require.True(t, d.Complete())
	p := &d.Plans[1].Day.Plantings[0]
	p.Missing, p.Inside = air.Humidity, &risk.Inside{}
	assert.Empty(t, d.Gaps())
	p.Inside.Humidity = true
	assert.Len(t, d.Gaps(), 1)
	p.Missing = 0
	d.Unlogged = true
	assert.False(t, d.Complete())
}

func TestChanceOnlyFrom(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	day, ok := d.ChanceOnlyFrom()
	assert.True(t, ok)
	assert.Equal(t, reporttest.Today.AddDays(2), day)
	d.Plans[2].Day.Weather.Rain = forecast.Known(0)
	_, ok = d.ChanceOnlyFrom()
	assert.False(t, ok)
}

func TestAge(t *testing.T) {
	now := time.Date(2026, 7, 16, 5, 0, 0, 0, time.UTC)
	age, ok := document.Provenance{Issued: now.Add(-time.Hour), Fetched: now}.Age(now)
	assert.True(t, ok)
	assert.Equal(t, time.Hour, age)
	age, ok = document.Provenance{Fetched: now.Add(-time.Minute)}.Age(now)
	assert.True(t, ok)
	assert.Equal(t, time.Minute, age)
	_, ok = document.Provenance{}.Age(now)
	assert.False(t, ok, "an unknown age is not a young one")
}

func TestParamFindsTheLimitBehindEveryFlag(t *testing.T) {
	d := reporttest.Document(t, risk.Metric)
	d.Constants = risk.Params()
	flags := 0
	for i := range d.Assessment.Days {
		day := &d.Assessment.Days[i]
		for _, f := range day.Flags {
			_, ok := d.Param(nil, f.Param)
			assert.True(t, ok, f.Param)
			flags++
		}
		for j := range day.Plantings {
			p := &day.Plantings[j]
			for _, f := range p.Flags {
				param, ok := d.Param(p.Planting, f.Param)
				assert.True(t, ok, "%s of %s", f.Param, p.Planting.Crop.Key)
				assert.NotEmpty(t, d.Citation(param.Key), param.Key)
				flags++
			}
		}
	}
	assert.Greater(t, flags, 10)
}

func TestWork(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	assert.True(t, d.Work())
	d.Plans = d.Plans[1:]
	assert.False(t, d.Work())
	d.Plans = nil
	assert.False(t, d.Work())
}
