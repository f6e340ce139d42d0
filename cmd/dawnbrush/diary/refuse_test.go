package diary_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// What is refused, why, and what the hint holds.
func TestRefuse(t *testing.T) {
	for _, row := range []struct{ line, message, hint string }{
		{`set 11 of 10 by hand zucchini`, "11 flowers cannot have set of 10 pollinated", "write: note set 7 of 10 by hand zucchini"},
		{`set 7 of 10 zucchini`, "by bees or by hand?", "write: note set 7 of 10 by hand zucchini"},
		{`set 7 by hand zucchini`, "the note does not tell the number of flowers pollinated", "write: note set"},
		{`set 7 of 0 by hand zucchini`, "flowers pollinated must be at least 1", "write: note set"},
		{`set 7 of 10 by hand by bees zucchini`, `the note says both "by hand" and "by bees"`, "write: note set"},
		{`set 7 of 10 by hand of 2026-07-17 zucchini`, "flowers of 2026-07-17 cannot have set by 2026-07-16", "write: note set"},
		{`set 7 of 10 by hand of 2025-07-12 zucchini`, "2025-07-12 is more than 120 days before 2026-07-16", "write: note set"},
		{`picked 3 fruit 4 misshapen cucumber`, "4 misshapen fruit are more than the 3 picked", "write: note picked"},
		{`picked 4 misshapen cucumber`, "it tells misshapen fruit but not how many were picked in all", "write: note picked"},
		{`picked cucumber`, "it tells neither how many fruit nor their weight", "write: note picked"},
		{`picked 0 cucumber`, "fruit picked must be at least 1", "write: note picked"},
		{`picked fruit 12 kg 2.5 cucumber`, "the numbers can be read two ways", "write: note picked"},
		{`bees 0 min 10 flowers 3 cucumber`, "minutes watched must be more than 0", "write: note bees 5min 10 flowers 3 cucumber"},
		{`bees 5min 0 flowers 3 cucumber`, "flowers watched must be at least 1", "write: note bees"},
		{`bees 5min 10 flowers cucumber`, "the note does not tell the number of visits", "write: note bees"},
		{`bees 10 flowers 3 cucumber`, "the note does not tell the number of minutes watched", "write: note bees"},
		{`bees 5min 10 flowers 3 4 cucumber`, "visits are given twice", "write: note bees"},
		{`bees 5min 10 flowrs 3 cucumber`, `"flowrs" is not understood`, "did you mean flowers?"},
		{`bees 5mn 10 flowers 3 cucumber`, `"5 mn" is no unit here`, "did you mean 5 m"},
		{`bees 5min 10 flowers 3 honey bees bumble bees cucumber`, `the note says both "honey bees" and "bumble bees"`, "write: note bees"},
		{`bees 5min 1 flower 9000 visits cucumber`, "9000 visits to 1 flowers in 5 minutes are more than can be counted", "write: note bees"},
		{`bees 300min 10 flowers 3 cucumber`, "minutes watched cannot be 300; the most is 240", "write: note bees"},
		{`bees 5min 2.5 flowers 3 cucumber`, "flowers watched are counted in whole numbers, not 2.5", "write: note bees"},
		{`bees 5min 1,000 flowers 3 cucumber`, `"1,000" can be read two ways; write it without the comma`, "write: note bees"},
		{`bees -5min 10 flowers 3 cucumber`, "a number cannot be negative", "write: note bees"},
		{`bees 5min 10 flowers 3`, "which planting is it about?", `planted are "cucumber, north trellis", "zucchini"`},
		{`buds 12 cucmber`, `there is no planting "cucmber" in the garden`, `did you mean "cucumber, north trellis"? write: note buds 12 cucumber`},
		{`buds 12 tomatoes`, `"tomatoes" can be "tomatoes 2", "tunnel tomatoes" or "roma"`, "name one of them"},
		{`buds 12 basil`, `there is no planting "basil" in the garden`, "planted are"},
		{`bees 3 cucumber flowers 10 5min`, "visits are given twice", "write: note bees"},
		{`feed "tea" 2 gal zucchini`, `"2 gal" is no unit here`, "give the weight in g or oz, or leave the amount out"},
		{`rain trace`, "the note does not tell how much rain, in mm or in", "write: note rain 12mm"},
		{`water 20L kg zucchini`, `"kg" is not understood`, "write: note water"},
		{`opened 3 female male zucchini`, `"male" stands without its number`, "write: note opened"},
		{`brushed 12 cucumber bogus`, `"bogus" is not understood`, "write: note brushed"},
		{`brushed 12 cucumber flwers`, `"flwers" is not understood`, "did you mean flowers?"},
		{`spray "soap" 3 days zucchini whole garden`, `the note says both the whole garden and "zucchini"`, "write: note spray"},
		{`spray 3 days whole garden`, "the note does not tell the product", "put it in quotes"},
		{`opened male female 3 zucchini`, "what does the number 3 count?", "write: note opened"},
		{`buds 12 zucchini cucumber`, `there is no planting "zucchini cucumber" in the garden`, "write: note buds"},
		{`buds 200000 zucchini`, "buds cannot be 200000; the most is 100000", "write: note buds"},
		{`buds 99999999999999999999 zucchini`, "buds cannot be 100000000000000000000; the most is 100000", "write: note buds"},
		{`buds 12 cucumber 2026-07-12`, "a day does not stand among the words of this note", "give the day with --on 2026-07-12"},
		{`brushed 0 cucumber`, "flowers brushed must be at least 1", "write: note brushed 12 cucumber"},
		{`opened 12 zucchini`, "what does the number 12 count?", "write: note opened 20 male 3 female zucchini"},
		{`opened zucchini`, "it tells neither male nor female flowers", "write: note opened"},
		{`rain 12`, "what does the number 12 count?", "write: note rain 12mm"},
		{`rain 3000mm`, "rain cannot be 3000; the most is 2000", "write: note rain"},
		{`rain 12mm zucchini`, `"zucchini" is not understood`, "rain falls on the whole garden"},
		{`rain`, "the note does not tell how much rain, in mm or in", "write: note rain 12mm"},
		{`water 20L bed 7`, `there is no bed "bed 7" in the garden`, "write: note water 20L bed 2"},
		{`picked 3 fruit bed 5`, `a note of picked is about one planting; in bed 5 grow "late corn" and "roma"`, "name one of them. write: note picked"},
		{`set 7 of 10 by hand bed 5`, `a note of set is about one planting; in bed 5 grow "late corn" and "roma"`, "name one of them"},
		{`symptom "yellow leaves" bed 5`, `a note of symptom is about one planting; in bed 5 grow "late corn" and "roma"`, "name one of them"},
		{`water 20L tomatoes`, `"tomatoes" can be "tomatoes 2", "tunnel tomatoes" or "roma"`, "name one of them"},
		{`water 20L`, "which planting is it about?", "write: note water"},
		{`water zucchini`, "it tells the amount of water or the minutes of drip, one of the two", "write: note water"},
		{`water 20L 45 min zucchini`, "it tells the amount of water or the minutes of drip, one of the two", "write: note water"},
		{`water 20L zucchini whole garden`, `the note says both the whole garden and "zucchini"`, "write: note water"},
		{`water 20 buckets zucchini`, `"20 buckets" is no unit here`, "write: note water"},
		{`feed 30 g zucchini`, "the note does not tell the product", "put it in quotes"},
		{`feed "fish emulsion" 30 ml zucchini`, `"30 ml" is no unit here`, "write: note feed"},
		{`spray "soap" zucchini`, "the note does not tell how many days before picking the label asks for (0 days when none)", "write: note spray"},
		{`spray "soap" 3 days`, "which planting is it about?", "write: note spray"},
		{`beetles 3 zucchini`, "the note does not tell the number of plants looked at", "write: note beetles 3 on 5 plants zucchini"},
		{`symptom cucumber`, "the note does not tell what it says", "put it in quotes"},
		{`symptom "yellow leaves" cucmber`, `there is no planting "cucmber" in the garden`, `did you mean "cucumber, north trellis"?`},
		{`remark saw a fox near the zucchini`, "where the text ends and the planting begins can be read two ways", "put the text in quotes"},
		{`cover zucchini`, "on or off?", "write: note cover off squash"},
		{`first zucchini`, "male or female?", "write: note first female zucchini"},
		{`beas 5min 10 flowers 3 cucumber`, `a note does not begin with "beas"`, "did you mean bees? write: note bees"},
		{`xylophone`, `a note does not begin with "xylophone"`, "begin with buds, opened"},
		{``, "the note is empty", "begin with buds"},
	} {
		_, err := diary.Parse(split(row.line), in(t))
		var refused *diary.Error
		require.ErrorAs(t, err, &refused, row.line)
		assert.Equal(t, row.message, refused.Message, row.line)
		assert.Contains(t, refused.Hint(), row.hint, row.line)
	}
}

// The day is today, --on or, with --at, a time of it; what has not come is refused.
func TestDayAndTime(t *testing.T) {
	c := in(t)
	c.Date = day.AddDays(-2)
	_, err := diary.Parse(split("bees 5min 10 flowers 3 cucumber"), c)
	require.EqualError(t, err, "at what time were the bees counted on 2026-07-14?")
	c.Clock = "06:20"
	e, err := diary.Parse(split("bees 5min 10 flowers 3 cucumber"), c)
	require.NoError(t, err)
	assert.Equal(t, "2026-07-14T12:20:00Z", e.At.Format("2006-01-02T15:04:05Z07:00"))
	assert.Equal(t, day.AddDays(-2), e.Date)

	c.Date = day.AddDays(1)
	_, err = diary.Parse(split("buds 2 cucumber"), c)
	require.EqualError(t, err, "2026-07-17 has not come yet; today is 2026-07-16")
	c.Date, c.Clock = forecast.Date{}, "07:36"
	_, err = diary.Parse(split("buds 2 cucumber"), c)
	require.EqualError(t, err, "07:36 on 2026-07-16 has not come yet")
	for _, clock := range []string{"25:00", "7.30", "noon", "7:3", "07:30:00"} {
		c.Clock = clock
		_, err = diary.Parse(split("buds 2 cucumber"), c)
		require.ErrorContains(t, err, "is not a time of day", clock)
	}
	c.Clock, c.Date = "", forecast.Date{Year: 1026, Month: 7, Day: 1}
	_, err = diary.Parse(split("buds 2 cucumber"), c)
	require.EqualError(t, err, "the year 1026 is too long ago")
}

// Clocks of the IANA zone America/New_York in 2026: forward on 8 March at 2 h,
// back on 1 November at 2 h (tz database, northamerica, rule US).
func TestClocksThatChange(t *testing.T) {
	c := in(t)
	c.Garden.Place.Zone = load(t, "America/New_York")
	c.Now = c.Now.AddDate(0, 6, 0)
	c.Date, c.Clock = forecast.Date{Year: 2026, Month: 3, Day: 8}, "02:30"
	_, err := diary.Parse(split("buds 2 cucumber"), c)
	require.EqualError(t, err, "the clocks went forward on 2026-03-08: there was no 02:30")
	c.Date, c.Clock = forecast.Date{Year: 2026, Month: 11, Day: 1}, "01:30"
	e, err := diary.Parse(split("buds 2 cucumber"), c)
	require.NoError(t, err)
	assert.Equal(t, "2026-11-01T05:30:00Z", e.At.Format("2006-01-02T15:04:05Z07:00"), "the first of the two")
}

// A garden without plantings refuses with what to do first.
func TestEmptyGarden(t *testing.T) {
	c := in(t)
	c.Garden.Plantings = nil
	_, err := diary.Parse(split("buds 2 cucumber"), c)
	var refused *diary.Error
	require.ErrorAs(t, err, &refused)
	assert.Contains(t, refused.Hint(), "add a [[planting]] first")
	_, err = diary.Parse(split("rain 3mm"), c)
	assert.NoError(t, err)
}

// Every form's example is understood as it stands, and the forms are those of
// all kinds.
func TestForms(t *testing.T) {
	c := in(t)
	c.Garden.Plantings[2].Name, c.Garden.Plantings[0].Name = "squash", "cucumber"
	var kinds []memory.Kind
	for _, f := range diary.Forms() {
		kinds = append(kinds, f.Kind)
		e, err := diary.Parse(split(f.Example), c)
		require.NoError(t, err, f.Example)
		assert.Equal(t, f.Kind, e.Kind)
		assert.NotEmpty(t, f.Pattern)
		assert.NotEmpty(t, f.Meaning)
	}
	assert.Equal(t, memory.Kinds(), kinds)
}
