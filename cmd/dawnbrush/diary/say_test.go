package diary_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// What a grower reads back, in both systems of units.
func TestSay(t *testing.T) {
	for _, row := range []struct{ typed, metric, us string }{
		{`bees 90s 10 flowers 3 honey cucumber`, `bees 1.5 min 10 flowers 3 visits honey bees "cucumber, north trellis"`, `bees 1.5 min 10 flowers 3 visits honey bees "cucumber, north trellis"`},
		{`rain 0.5in`, `rain 12.7 mm`, `rain 0.5 in`},
		{`rain 0.02in`, `rain 0.508 mm`, `rain 0.02 in`},
		{`water 2 gal bed 2`, `water 7.57 L zucchini`, `water 2 gal zucchini`},
		{`water 45 min drip garden`, `water 45 min drip whole garden`, `water 45 min drip whole garden`},
		{`feed "fish emulsion" 1 oz zucchini`, `feed "fish emulsion" 28.35 g zucchini`, `feed "fish emulsion" 1 oz zucchini`},
		{`picked 12 3 misshapen 2 lb zucchini`, `picked 12 fruit 3 misshapen 0.907 kg zucchini`, `picked 12 fruit 3 misshapen 2 lb zucchini`},
		{`set 7/10 hand of 2026-07-12 zucchini`, `set 7 of 10 by hand of 2026-07-12 zucchini`, `set 7 of 10 by hand of 2026-07-12 zucchini`},
		{`beetles 3 on 5 plants zucchini`, `beetles 3 on 5 plants zucchini`, `beetles 3 on 5 plants zucchini`},
		{`fruits 12 on 4 plants zucchini`, `fruits 12 on 4 plants zucchini`, `fruits 12 on 4 plants zucchini`},
		{`fruits 12 zucchini`, `fruits 12 zucchini`, `fruits 12 zucchini`},
		{`cover off blue squash`, `cover off "blue squash"`, `cover off "blue squash"`},
		{`remark "costs $5"`, `remark "costs \$5"`, `remark "costs \$5"`},
	} {
		e, err := diary.Parse(split(row.typed), in(t))
		require.NoError(t, err, row.typed)
		assert.Equal(t, row.metric, diary.Say(&e, risk.Metric))
		assert.Equal(t, row.us, diary.Say(&e, risk.US))
	}
	gone := memory.Entry{Date: day, Kind: memory.Cover, Planting: "zucchini", Replaces: "1", Removed: true}
	assert.Equal(t, "cover taken back zucchini", diary.Say(&gone, risk.Metric))
}

// A spray brings the caution with it, and the day that its label leaves for
// picking; nothing else does.
func TestCaution(t *testing.T) {
	e, err := diary.Parse(split(`spray "soap" 3 days zucchini`), in(t))
	require.NoError(t, err)
	assert.Equal(t, "the label and local rules come first; never spray open flowers or while bees fly; by the days you gave nothing is picked before Sun 2026-07-19", diary.Caution(&e))
	e.Interval = forecast.Known(0)
	assert.NotContains(t, diary.Caution(&e), "picked")
	e.Kind = memory.Feed
	assert.Empty(t, diary.Caution(&e))
}

// Notes are named by the end of their id; an end that two have is refused.
func TestFindID(t *testing.T) {
	entries := []memory.Entry{{ID: "1m89aaaabc123"}, {ID: "1m89aaaabc124"}, {ID: "1m90aaaaxc124"}}
	for typed, want := range map[string]string{"c123": "1m89aaaabc123", "BC124": "1m89aaaabc124", "1m90aaaaxc124": "1m90aaaaxc124"} {
		got, err := diary.FindID(entries, typed)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	_, err := diary.FindID(entries, "c124")
	assert.EqualError(t, err, "\"c124\" can be 1m89aaaabc124 or 1m90aaaaxc124")
	for _, typed := range []string{"", "23", "zzzz"} {
		_, err = diary.FindID(entries, typed)
		assert.ErrorContains(t, err, "the diary has no note")
	}
	assert.Equal(t, "abc123", diary.ShortID("1m89aaaabc123"))
	assert.Equal(t, "1", diary.ShortID("1"))
}

func TestNamed(t *testing.T) {
	name, err := diary.PlantingNamed(garden(t), day, "east patch")
	require.NoError(t, err)
	assert.Equal(t, "blue squash", name)
	_, err = diary.PlantingNamed(garden(t), day, "tomato")
	assert.EqualError(t, err, `"tomato" can be "tomatoes 2", "tunnel tomatoes" or "roma"`)
	_, err = diary.PlantingNamed(garden(t), day, "basil")
	assert.ErrorContains(t, err, "there is no planting")
	k, err := diary.KindNamed("Harvest")
	require.NoError(t, err)
	assert.Equal(t, memory.Picked, k)
	_, err = diary.KindNamed("raain")
	var refused *diary.Error
	require.ErrorAs(t, err, &refused)
	assert.Equal(t, "did you mean rain?", refused.Hint())
	d, err := diary.DayNamed("Yesterday", day)
	require.NoError(t, err)
	assert.Equal(t, day.AddDays(-1), d)
	_, err = diary.DayNamed("16.7.2026", day)
	assert.Error(t, err)
}

func TestComplete(t *testing.T) {
	assert.Contains(t, diary.Complete(nil, nil), "bees")
	words := diary.Complete([]string{"water", "20", "L"}, garden(t))
	assert.Contains(t, words, "whole garden")
	assert.Contains(t, words, "zucchini")
	assert.NotContains(t, diary.Complete([]string{"rain"}, garden(t)), "zucchini")
	assert.NotContains(t, diary.Complete([]string{"buds", "zucchini"}, garden(t)), "zucchini", "it was typed already")
	assert.Empty(t, diary.Complete([]string{"nothing"}, garden(t)))
}

// One of a thing is said in the singular, and read back the same.
func TestSayOne(t *testing.T) {
	for typed, want := range map[string]string{
		`spray "soap" 1 day zucchini`:             "spray soap 1 day zucchini",
		`spray "soap" 2 days zucchini`:            "spray soap 2 days zucchini",
		`bees 5min 1 flower 1 visit zucchini`:     "bees 5 min 1 flower 1 visit zucchini",
		`beetles 1 on 1 plant zucchini`:           "beetles 1 on 1 plant zucchini",
		`bees 5 min 10 flowers 3 visits zucchini`: "bees 5 min 10 flowers 3 visits zucchini",
	} {
		e, err := diary.Parse(split(typed), in(t))
		require.NoError(t, err, typed)
		assert.Equal(t, want, diary.Say(&e, risk.Metric))
		again, err := diary.Parse(diary.Words(&e), in(t))
		require.NoError(t, err, typed)
		assert.Equal(t, e, again)
	}
}
