package words_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/heat"
)

// all lists the values of an enumeration: those whose String does not panic.
func all[E ~uint8](name func(E) string) (out []E) {
	defer func() { _ = recover() }()
	for e := E(0); ; e++ {
		if name(e) == "" {
			return out
		}
		out = append(out, e)
	}
}

func both(t *testing.T, test func(t *testing.T, w words.Words)) {
	for _, u := range []risk.Units{risk.Metric, risk.US} {
		t.Run(string(u), func(t *testing.T) { test(t, words.New(u, reporttest.Zone(t))) })
	}
}

// jargon never stands on a screen: these are the model's words, not the grower's.
var jargon = regexp.MustCompile(`(?i)set share|live grain|flight hour|viabilit|cost.loss|\bp10\b|\bp50\b|\bp90\b|NaN|Inf\b|%!|<nil>|_`)

func proper(t *testing.T, what, s string) {
	t.Helper()
	assert.NotEmpty(t, s, what)
	assert.NotRegexp(t, jargon, s, what)
	assert.NotContains(t, s, "  ", what)
	assert.False(t, strings.HasSuffix(s, "."), "%s: %q ends with a full stop", what, s)
	for _, r := range s {
		assert.Less(t, r, rune(128), "%s: %q is not ASCII", what, s)
	}
}

func TestEveryValueHasWords(t *testing.T) {
	both(t, func(t *testing.T, w words.Words) {
		kinds := all(risk.FlagKind.String)
		require.GreaterOrEqual(t, len(kinds), 15)
		seen := map[string]bool{}
		for _, k := range kinds {
			for _, f := range flagsOf(k) {
				proper(t, "flag "+k.String(), w.Flag(&f, nil))
				proper(t, "flag "+k.String(), w.Flag(&f, open()))
				proper(t, "short flag "+k.String(), w.FlagShort(&f))
				assert.False(t, seen[w.Flag(&f, nil)], "two flags say %q", w.Flag(&f, nil))
				seen[w.Flag(&f, nil)] = true
			}
			bare := risk.Flag{Kind: k} // nothing measured: no number may appear
			s := w.Flag(&bare, nil)
			proper(t, "bare flag "+k.String(), s)
			if k != risk.Hot105 { // which names the rule
				assert.NotRegexp(t, `\d`, s, "a number out of nothing")
			}
		}
		causes := all(risk.Cause.String)
		require.GreaterOrEqual(t, len(causes), 24)
		said := map[string]risk.Cause{}
		for _, c := range causes {
			s := w.Cause(c)
			proper(t, "cause "+c.String(), s)
			other, twice := said[s]
			assert.False(t, twice, "%s and %s are both %q", c, other, s)
			said[s] = c
		}
		for _, s := range all(risk.State.String) {
			proper(t, "state "+s.String(), w.State(s))
		}
		for _, b := range all(risk.Bloom.String) {
			proper(t, "bloom "+b.String(), w.Bloom(b))
		}
		for f := range bee.Factors {
			proper(t, "factor", w.KeepsIn(bee.Factor(f)))
		}
		for c := range words.Cautions {
			proper(t, "caution", w.Caution(words.Caution(c)))
			assert.LessOrEqual(t, len(w.Caution(words.Caution(c))), 78, "a caution takes one line")
		}
		for topic := range words.Topics {
			proper(t, "topic", words.Topic(topic).String())
		}
		for _, c := range []risk.Cover{risk.Open, risk.RowCover, risk.Tunnel, risk.House} {
			proper(t, "cover", w.Cover(c))
		}
	})
}

// flagsOf makes a flag with everything known, one per factor where it has one.
func flagsOf(k risk.FlagKind) []risk.Flag {
	f := risk.Flag{Kind: k, From: at(7), To: at(9), Value: forecast.Known(33), Limit: forecast.Known(31), Prob: forecast.Known(0.6),
		Since: reporttest.Today.AddDays(-6), Until: reporttest.Today.AddDays(-3)}
	if k != risk.BeesIn {
		return []risk.Flag{f}
	}
	var out []risk.Flag
	for factor := range bee.Factors {
		f.Factor = bee.Factor(factor)
		out = append(out, f)
	}
	return out
}

// at is a time of the sample's day; Eastern daylight time is four hours behind.
func at(hour float64) time.Time {
	return reporttest.Today.At(hour, time.FixedZone("EDT", -4*3600))
}

// open is a flower's day from 06:00 to 12:00.
func open() *risk.PlantingDay {
	p := &risk.PlantingDay{Opens: at(6), Closes: at(12), Planting: &risk.Planting{Name: "fence"}}
	for h := range 6 {
		p.Hours = append(p.Hours, risk.FlowerHour{Start: at(6 + float64(h)), Open: 1, Receptive: 1})
	}
	return p
}

func TestEveryTaskHasWords(t *testing.T) {
	set := reporttest.Crops(t)
	kinds := all(risk.TaskKind.String)
	require.GreaterOrEqual(t, len(kinds), 12)
	both(t, func(t *testing.T, w words.Words) {
		for _, k := range kinds {
			proper(t, k.String(), w.Do(k))
			for _, c := range set.Crops() {
				task := taskOf(k, c)
				what := k.String() + " " + c.Key
				proper(t, what, w.DoFor(&task))
				proper(t, what, w.Short(&task))
				assert.NotRegexp(t, jargon, w.Worth(&task)+w.Gain(&task)+w.Why(&task)+w.Sure(&task)+w.Line(&task)+w.Manner(&task)+w.How(c), what)
				assert.Contains(t, w.Line(&task), "fence (bed 3)", what)
				if k.Work() {
					assert.Contains(t, w.Line(&task), "07:00", what)
					proper(t, what, w.Manner(&task))
				}
			}
		}
	})
}

// Beans go by the nights, and are told so.
func TestHeatBeforeIsSaidOfNightsWhereNightsCount(t *testing.T) {
	set, err := crop.Load()
	require.NoError(t, err)
	c, ok := set.Find("bean")
	require.True(t, ok)
	day := risk.PlantingDay{Planting: &risk.Planting{Crop: c}}
	assert.Contains(t, words.Words{}.CauseOn(risk.CauseHotDays, &day), "warm nights before")
}

// A tomato has trusses to tap, a pepper has none.
func TestTapIsSaidOfWhatTheCropHas(t *testing.T) {
	set, err := crop.Load()
	require.NoError(t, err)
	w := words.Words{}
	for key, want := range map[string][2]string{"tomato": {"tap trusses", "each truss"}, "sweet pepper": {"tap plants", "each plant"}} {
		c, ok := set.Find(key)
		require.True(t, ok)
		task := risk.Task{Kind: risk.TapTrusses, Planting: &risk.Planting{Crop: c}}
		assert.Equal(t, want[0], w.DoFor(&task))
		day := risk.PlantingDay{Planting: task.Planting}
		assert.Contains(t, w.CauseOn(risk.CauseHotDays, &day), "hot days before")
		assert.Contains(t, w.Manner(&task), want[1])
	}
}

func taskOf(k risk.TaskKind, c *crop.Crop) risk.Task {
	day := open()
	return risk.Task{Kind: k, Planting: &risk.Planting{Name: "fence", Bed: "bed 3", Crop: c}, Day: day, From: at(7), To: at(8.5),
		Causes: []risk.Cause{risk.CauseFewBees}, Flowers: 12, Minutes: 15, Bees: risk.Range{Lo: 0.2, Mid: 0.3, Hi: 0.5},
		Hand: risk.Range{Lo: 0.9, Mid: 0.9, Hi: 0.9}, Gain: 7, Sure: risk.Likely, StoreFor: 8, Tagged: reporttest.Today.AddDays(-4),
		Look: risk.Look{At: at(7), Minutes: 5, Flowers: 10, Fewer: 4, Groups: [bee.Groups]bool{true, true, false}}}
}

func TestSentences(t *testing.T) {
	c, ok := reporttest.Crops(t).Find("cucumber")
	require.True(t, ok)
	metric, us := words.New(risk.Metric, reporttest.Zone(t)), words.New(risk.US, reporttest.Zone(t))
	brush := taskOf(risk.HandPollinate, c)
	look := taskOf(risk.LookFirst, c)
	brushOf := func(word string) risk.Task {
		c, ok := reporttest.Crops(t).Find(word)
		require.True(t, ok, word)
		task := taskOf(risk.HandPollinate, c)
		if len(c.Settings) > 0 {
			task.Planting.Setting = c.Settings[0]
		}
		return task
	}
	melon, seedless := brushOf("cantaloupe"), brushOf("triploid watermelon")
	wind := risk.Flag{Kind: risk.BeesIn, Factor: bee.Wind, From: at(8), To: at(12), Value: forecast.Known(6)}
	hot := risk.Flag{Kind: risk.HotPollen, From: at(11), To: at(12), Value: forecast.Known(41)}
	for _, row := range [][2]string{
		{metric.Worth(&brush), "bees will fill 2 to 5 in 10 cucumbers, a brush 9 in 10"},
		{metric.Gain(&brush), "about 7 cucumbers more"},
		{metric.Flowers(&brush), "about 12 female flowers (a guess)"},
		{metric.Look(&look.Look), "watch 10 flowers for 5 minutes at 07:00; brush if you count fewer than 4 visits of honey bees and bumble bees"},
		{metric.Flag(&wind, open()), "wind keeps bees in from 08:00 (22 km/h over the crop)"},
		{us.Flag(&wind, open()), "wind keeps bees in from 08:00 (13 mph over the crop)"},
		{metric.Flag(&hot, open()), "too hot for pollen from 11:00, up to 41 C"},
		{us.Flag(&hot, open()), "too hot for pollen from 11:00, up to 106 F"},
		{metric.Temp(40.6), "41 C"},
		{us.Temp(unit.FtoC(105)), "105 F"},
		{us.Depth(unit.InToMm(0.24)), "0.24 in"},
		{metric.Depth(6), "6 mm"},
		{metric.Percent(0.002), "1 %"},
		{metric.Percent(0.999), "99 %"},
		{metric.Percent(1), "100 %"},
		{metric.Degrees(forecast.Value{}), "?"},
		{metric.DepthNumber(forecast.Value{}), "?"},
		{metric.Day(reporttest.Today), "Thu 16 July"},
		{metric.Hours(at(6.5), at(24)), "06:30-24:00"},
		{metric.Hours(time.Time{}, at(21)), "by 21:00"},
		{metric.Layers(air.Rain | air.Wind), "rain and wind"},
		{metric.Age(35 * time.Minute), "35 min"},
		{metric.OfTen(risk.Range{Lo: 0.31, Mid: 0.32, Hi: 0.33}, ""), "about 3 in 10"},
		{metric.OfTen(risk.Range{Lo: 0, Mid: 0.2, Hi: 0.3}, ""), "at most 3 in 10"},
		{metric.OfTen(risk.Range{Lo: 0.6, Mid: 0.9, Hi: 1}, ""), "about 9 in 10 (at least 6)"},
		{metric.OfTen(risk.Range{}, "melons"), "hardly any melons"},
		{metric.OfTen(risk.Range{Lo: 0.2, Mid: 0.7, Hi: 1}, "melons"), "about 7 in 10 melons (at least 2)"},
		{metric.OfTen(risk.Range{Lo: 0.02, Mid: 0.3, Hi: 0.6}, "melons"), "about 3 in 10 melons (at most 6)"},
		{metric.OfTen(risk.Range{Lo: 0, Mid: 0.6, Hi: 1}, "melons"), "about 6 in 10 melons (it may be none or all)"},
		{metric.OfTen(risk.Range{Lo: 0.2, Mid: 0.6, Hi: 0.9}, "melons"), "about 6 in 10 melons (2 to 9)"},
		{metric.OfTen(risk.Range{Lo: 0.5, Mid: 1, Hi: 1}, "melons"), "nearly all melons (at least 5 in 10)"},
		{metric.OfTen(risk.Range{Lo: 0, Mid: 0.04, Hi: 0.5}, "melons"), "hardly any melons (at most 5 in 10)"},
		{metric.WorkHeat(&risk.WorkHeat{}), ""},
		{metric.WorkHeat(&risk.WorkHeat{Index: forecast.Known(36), Band: heat.ExtremeCaution, At: at(12)}), "it feels like 36 C at 12:00 (heat index: extreme caution), more in the sun: take breaks in the shade"},
		{metric.WorkHeat(&risk.WorkHeat{Index: forecast.Known(43), Band: heat.Danger, At: at(15)}), "it feels like 43 C at 15:00 (heat index: danger), more in the sun: put the work off or keep it short, and not alone"},
		{metric.Flowers(&melon), "about 12 perfect flowers (a guess)"},
		{metric.Manner(&melon), "gently, with males of the kind"},
		{metric.Worth(&melon), "bees will fill 2 to 5 in 10 melons, a brush 9 in 10"},
		{metric.Flowers(&seedless), "about 12 female flowers (a guess)"},
		{metric.Manner(&seedless), "gently, with males of the seeded pollen parent: its own pollen is dead; look that it is in flower"},
		{metric.Gain(&seedless), "about 7 watermelons more"},
	} {
		assert.Equal(t, row[1], row[0])
	}
}

// What these check does not hang on the program: the Fahrenheit scale
// (t/F = 9/5 t/C + 32), the mile of 1609.344 m, the inch of 25.4 mm. [memory, status memory]
func TestUnitsAgainstDefinitions(t *testing.T) {
	us := words.New(risk.US, time.UTC)
	for c := -40; c <= 60; c++ {
		want := fmt.Sprintf("%.0f F", float64(c)*9/5+32)
		assert.Equal(t, strings.Replace(want, "-0 F", "0 F", 1), us.Temp(float64(c)))
	}
	assert.Equal(t, "-40 F", us.Temp(-40))
	assert.Equal(t, "60 mph", us.Wind(60*1609.344/3600))
	assert.Equal(t, "1 in", us.Depth(25.4))
}

func TestSureness(t *testing.T) {
	c, ok := reporttest.Crops(t).Find("cucumber")
	require.True(t, ok)
	w := words.New(risk.Metric, reporttest.Zone(t))
	task := taskOf(risk.HandPollinate, c)
	for _, s := range all(risk.Sureness.String) {
		task.Sure = s
		proper(t, s.String(), w.Sure(&task))
	}
	task.Sure = risk.Unsure
	task.Day.Missing = air.Wind
	assert.Equal(t, "not sure: wind not known", w.Sure(&task))
}

func TestTaskHoursRoundInwards(t *testing.T) {
	w := words.New(risk.Metric, reporttest.Zone(t))
	task := risk.Task{From: at(6).Add(9*time.Minute + 20*time.Second), To: at(7).Add(3 * time.Minute)}
	assert.Equal(t, "06:10-07:00", w.TaskHours(&task))
	task = risk.Task{From: at(6).Add(9 * time.Minute), To: at(6).Add(12 * time.Minute)}
	assert.Equal(t, "06:10-06:12", w.TaskHours(&task), "never past its own end")
}
