package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

func TestRemember(t *testing.T) {
	g, _, date := learnGarden(t)
	g.Plantings[0].FirstFemale, g.Plantings[0].Cover = forecast.Date{}, RowCover
	n := forecast.Known
	entries := []memory.Entry{
		{Kind: memory.Buds, Planting: "cucumber", Date: date.AddDays(-1), Female: n(9)},
		{Kind: memory.Buds, Planting: "cucumber", Date: date.AddDays(-2), Female: n(4)},
		{Kind: memory.First, Planting: "cucumber", Date: date.AddDays(-3), Sex: "female"},
		{Kind: memory.First, Planting: "cucumber", Date: date.AddDays(-1), Sex: "female"},
		{Kind: memory.Cover, Planting: "cucumber", Date: date.AddDays(-1), On: false},
		{Kind: memory.Brushed, Planting: "cucumber", Date: date.AddDays(-4), Count: n(5)},
		{Kind: memory.Brushed, Planting: "nowhere", Date: date, Count: n(5)},
		{Kind: memory.Buds, Planting: "cucumber", Date: date.AddDays(1), Female: n(99)},
	}
	got := Remember(g, entries, date)
	p := got.Plantings[0]
	assert.Equal(t, 9, p.Buds)
	assert.Equal(t, date.AddDays(-1), p.BudsOn)
	assert.Equal(t, date.AddDays(-3), p.FirstFemale, "the first one seen")
	assert.Equal(t, Open, p.Cover)
	assert.Equal(t, []forecast.Date{date.AddDays(-4)}, p.Brushed)
	assert.Equal(t, RowCover, g.Plantings[0].Cover, "the garden given stays as it is")
	assert.Empty(t, g.Plantings[0].Brushed)
}

// A note about a bed is about all that grows in it on the day, and about nothing else; a
// planting that is called like the bed keeps the note to itself.
func TestNotesOfABed(t *testing.T) {
	g, _, date := learnGarden(t)
	c := g.Plantings[0].Crop
	in := func(name, bed string) Planting { return Planting{Name: name, Crop: c, Bed: bed, Cover: RowCover} }
	g.Plantings = []Planting{in("a", "bed 5"), in("b", "Bed 5"), in("gone", "bed 5"), in("later", "bed 5"), in("other", "bed 6")}
	g.Plantings[2].Finished, g.Plantings[3].Transplanted = date.AddDays(-9), date.AddDays(2)
	got := Remember(g, []memory.Entry{
		{Kind: memory.Cover, Planting: "bed 5", Date: date.AddDays(-2)},
		{Kind: memory.Spray, Planting: "bed 5", Date: date.AddDays(-1), Product: "soap", Interval: forecast.Known(3)},
	}, date)
	for _, p := range got.Plantings {
		of := p.Name == "a" || p.Name == "b"
		assert.Equal(t, map[bool]Cover{true: Open, false: RowCover}[of], p.Cover, p.Name)
		assert.Equal(t, of, p.PickFrom == date.AddDays(2), p.Name)
	}
	g.Plantings = append(g.Plantings, in("bed 5", "elsewhere"))
	got = Remember(g, []memory.Entry{{Kind: memory.Cover, Planting: "bed 5", Date: date}}, date)
	assert.Equal(t, RowCover, got.Plantings[0].Cover)
	assert.Equal(t, Open, got.Plantings[5].Cover)
}

// A summer lived: forecasts and entries of some days; the plan of a given morning
// differs in the stated way with and without them.
func TestTheDiaryMovesThePlan(t *testing.T) {
	g, s, date := learnGarden(t)
	for d := range g.Work {
		g.Work[d] = []Span{{5, 21}}
	}
	now := date.At(4.5, g.Place.Zone)
	plan := func(entries ...memory.Entry) DayPlan {
		garden := Remember(g, entries, date)
		l := Learn(garden, s, entries, now)
		a := NewModelWith(garden, l).Assess(s, date.AddDays(-3), 5)
		return Plan(a, date, 1, PlanOptions{Now: now})[0]
	}
	find := func(p DayPlan, k TaskKind, planting string) *Task {
		for _, list := range [][]Task{p.Tasks, p.Rest} {
			for i := range list {
				if list[i].Kind == k && list[i].Planting.Name == planting {
					return &list[i]
				}
			}
		}
		return nil
	}
	zone := g.Place.Zone
	nobody := func(day forecast.Date) memory.Entry { return count(day.At(8, zone), zone, "cucumber", 10, 20, 0) }

	without := plan()
	require.Nil(t, find(without, HandPollinate, "cucumber"), "by the book the bees do it on a fair day")
	with := plan(nobody(date.AddDays(-1)), nobody(date.AddDays(-2)),
		memory.Entry{Kind: memory.Buds, Planting: "cucumber", Date: date.AddDays(-1), Female: forecast.Known(17)})
	brush := find(with, HandPollinate, "cucumber")
	require.NotNil(t, brush, "two mornings without a visit: brush")
	assert.Equal(t, 17, brush.Flowers)
	assert.True(t, brush.Counted)
	assert.Less(t, brush.Bees.Mid, 0.5)

	done := plan(nobody(date.AddDays(-1)), memory.Entry{Kind: memory.Brushed, Planting: "cucumber", Date: date, Count: forecast.Known(17), At: now.Add(-time.Hour)})
	assert.Nil(t, find(done, HandPollinate, "cucumber"), "what is done is not asked for again")
	assert.NotNil(t, find(done, LeaveToBees, "cucumber"))

	squash := find(with, HandPollinate, "summer-squash")
	assert.NotNil(t, squash, "few bees at the cucumbers are few bees at the squash")
}
