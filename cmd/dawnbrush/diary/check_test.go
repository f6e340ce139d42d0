package diary_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// An entry is held against its form whoever wrote it: what does not belong there
// would be lost or misread.
func TestCheck(t *testing.T) {
	brushed := func(fill func(e *memory.Entry)) memory.Entry {
		return entry(memory.Brushed, "zucchini", func(e *memory.Entry) {
			e.Count = known(3)
			fill(e)
		})
	}
	for _, row := range []struct {
		want  string
		entry memory.Entry
	}{
		{"there is no kind of note", entry("harvest", "zucchini", nil)},
		{`"a b" is no identity`, brushed(func(e *memory.Entry) { e.ID = "a b" })},
		{"is no identity", brushed(func(e *memory.Entry) { e.Replaces = strings.Repeat("x", 65) })},
		{"the entry replaces itself", brushed(func(e *memory.Entry) { e.ID, e.Replaces = "a", "a" })},
		{"holds nothing else", brushed(func(e *memory.Entry) { e.Replaces, e.Removed = "a", true })},
		{"its date does not exist", brushed(func(e *memory.Entry) { e.Date.Month = 14 })},
		{"the year 1850 is too long ago", brushed(func(e *memory.Entry) { e.Date.Year = 1850 })},
		{"is not on 2026-07-16", brushed(func(e *memory.Entry) { e.At = now.AddDate(0, 0, 2) })},
		{"only a count of set", brushed(func(e *memory.Entry) { e.FlowersOn = day })},
		{"the day of the flowers does not exist", entry(memory.Set, "zucchini", func(e *memory.Entry) {
			e.Count, e.Of, e.By, e.FlowersOn = known(1), known(2), "hand", forecast.Date{Year: 2026, Month: 2, Day: 30}
		})},
		{"weight_kg does not belong to a note of brushed", brushed(func(e *memory.Entry) { e.Weight = known(1) })},
		{"flowers brushed cannot be negative", brushed(func(e *memory.Entry) { e.Count = known(-3) })},
		{"it does not tell the planting", brushed(func(e *memory.Entry) { e.Planting = "" })},
		{"a note of rain is about the whole garden", entry(memory.Rain, "zucchini", func(e *memory.Entry) { e.Amount = known(3) })},
		{"planting is 79 characters long", brushed(func(e *memory.Entry) { e.Planting = strings.Repeat("x", 79) })},
		{"planting has more blanks than it needs", brushed(func(e *memory.Entry) { e.Planting = "zucchini " })},
		{"a product does not belong", brushed(func(e *memory.Entry) { e.Product = "soap" })},
		{"a text does not belong", brushed(func(e *memory.Entry) { e.Text = "soap" })},
		{"group does not belong", brushed(func(e *memory.Entry) { e.Group = "honey_bee" })},
		{"sex does not belong", brushed(func(e *memory.Entry) { e.Sex = "male" })},
		{"on does not belong", brushed(func(e *memory.Entry) { e.On = true })},
		{`sex cannot be "queen"; it is male or female`, entry(memory.First, "zucchini", func(e *memory.Entry) { e.Sex = "queen" })},
		{"it does not tell the text", entry(memory.Remark, "", nil)},
		{"the text holds a line break", entry(memory.Remark, "", func(e *memory.Entry) { e.Text = "a\u202eb" })},
		{"the text holds a line break", entry(memory.Remark, "", func(e *memory.Entry) { e.Text = "a\xffb" })},
		{"the text is 501 characters long, the most is 500", entry(memory.Remark, "", func(e *memory.Entry) { e.Text = strings.Repeat("é", 501) })},
		{"at what time the bees were counted", entry(memory.Bees, "zucchini", func(e *memory.Entry) { e.Minutes, e.Flowers, e.Visits = known(5), known(10), known(3) })},
	} {
		faults := diary.Check(&row.entry, day)
		require.NotEmpty(t, faults, row.want)
		var messages []string
		for _, f := range faults {
			messages = append(messages, f.Message)
			assert.NotEmpty(t, f.Hint())
		}
		assert.Contains(t, strings.Join(messages, "\n"), row.want)
	}
	good := brushed(func(e *memory.Entry) { e.At = now })
	assert.Empty(t, diary.Check(&good, day))
}

// A count of bees made just after midnight belongs to the new day.
func TestCountAtMidnight(t *testing.T) {
	c := in(t)
	c.Now = time.Date(2026, 7, 17, 0, 0, 30, 0, zone)
	e, err := diary.Parse(split("bees 5min 10 flowers 0 zucchini"), c)
	require.NoError(t, err)
	assert.Equal(t, day.AddDays(1), e.Date)
	assert.Equal(t, c.Now.Truncate(time.Minute).UTC(), e.At)
}
