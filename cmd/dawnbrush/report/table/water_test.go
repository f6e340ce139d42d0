package table_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/mattn/go-runewidth"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
)

func TestGoldenWater(t *testing.T) {
	for _, name := range []string{"today", "quiet", "week", "water"} {
		for _, u := range []risk.Units{risk.Metric, risk.US} {
			for _, width := range []int{80, 60} {
				file := filepath.Join("testdata", fmt.Sprintf("watered_%s_%s_%d.golden", name, u, width))
				d := reporttest.Watered(t, u)
				d.Width = width
				got := text(t, name, d)
				if *update {
					require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
				}
				want, err := os.ReadFile(file)
				require.NoError(t, err)
				assert.Equal(t, string(want), got, "%s: renew with -update and read it", file)
			}
		}
	}
}

// modelWords are the account's own words, which growers do not use.
var modelWords = regexp.MustCompile(`(?i)depletion|evapotranspiration|root zone|\b(ks|kcb|ke|kr|raw|taw|et0|etc|dr)\b|NaN|%!|<nil>`)

// No line is over the width, no word of the account's stands in it, the text is the
// same with colour as without.
func TestWaterInEveryReport(t *testing.T) {
	for _, name := range []string{"today", "week", "water"} {
		for _, u := range []risk.Units{risk.Metric, risk.US} {
			for _, width := range []int{60, 80, 132} {
				d := reporttest.Watered(t, u)
				d.Width = width
				plain := text(t, name, d)
				for _, line := range strings.Split(plain, "\n") {
					if name != "week" || width != 60 {
						assert.LessOrEqual(t, runewidth.StringWidth(line), width, "%s: %q", name, line)
					}
					assert.NotRegexp(t, modelWords, line)
				}
				d = reporttest.Watered(t, u)
				d.Width, d.Colour = width, true
				assert.Equal(t, plain, trimmed(escape.ReplaceAllString(text(t, name, d), "")))
			}
		}
	}
}

func TestWaterInOneSystemOfUnits(t *testing.T) {
	metric, us := regexp.MustCompile(`\d (L|cm|mm|m2)\b`), regexp.MustCompile(`\d (gal|qt|in|sq ft)\b`)
	rule := regexp.MustCompile(`\d in 10`)
	for _, name := range []string{"today", "week", "quiet", "water"} {
		for u, other := range map[risk.Units]*regexp.Regexp{risk.Metric: us, risk.US: metric} {
			flat := strings.Join(strings.Fields(text(t, name, reporttest.Watered(t, u))), " ")
			assert.NotRegexp(t, other, rule.ReplaceAllString(flat, ""), name)
		}
	}
}

// Without beds today and week say nothing of water, and the report of water says how
// to tell of them.
func TestNoBeds(t *testing.T) {
	for _, name := range []string{"today", "week", "quiet"} {
		assert.NotRegexp(t, `(?m)^Water$|  water  |no water|feel the soil|water: `, text(t, name, reporttest.Fixed(t, risk.Metric)), name)
	}
	out := text(t, "water", reporttest.Fixed(t, risk.Metric))
	assert.Contains(t, strings.Join(strings.Fields(out), " "), "tells of no bed, so no water can be reckoned. Add a [[bed]]")
	assert.NotContains(t, out, "Mind")
}

// A day with nothing but water to do has work, on one line for cron.
func TestQuietWater(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	d.Plans[0].Tasks = nil
	require.True(t, d.Work())
	assert.Equal(t, "05:00-08:00  water north trellis: 84 L, 3 h 30; tubs: 24 L, 2.5 cans\nfeel the soil: bed 4; moist, leave it; dry, water it\nInvented weather.\n", text(t, "quiet", d))
	for i := range d.Water.Beds {
		for j := range d.Water.Beds[i].Days {
			d.Water.Beds[i].Days[j].Advice = ledger.Advice{Verdict: ledger.Enough}
		}
	}
	require.False(t, d.Work())
	assert.Empty(t, text(t, "quiet", d))
}

// However much there is to do, cron's mail has seven lines; what does not fit is named
// on the last one.
func TestQuietKeepsSevenLinesWithWater(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	one := d.Plans[0].Tasks[0]
	d.Plans[0].Tasks = nil
	for i := range 7 {
		one.Gain = float64(7 - i)
		d.Plans[0].Tasks = append(d.Plans[0].Tasks, one)
	}
	lines := strings.Split(strings.TrimSpace(text(t, "quiet", d)), "\n")
	require.Len(t, lines, 8, "seven of work, and the credit")
	assert.Equal(t, 4, strings.Count(strings.Join(lines[:6], "\n"), "hand-pollinate cucumbers"))
	assert.Equal(t, "also "+strings.Repeat("hand-pollinate 06:10-08:00 (cucumbers, north trellis), ", 2)+"hand-pollinate 06:10-08:00 (cucumbers, north trellis): see dawnbrush today", lines[6])
}

// Work stands in order of the hour, water among the rest.
func TestWaterStandsByTheHour(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	late := &d.Water.Beds[4].Days[9].Advice
	late.From, late.To = late.From.Add(13*3600e9), late.To.Add(13*3600e9)
	out := text(t, "today", d)
	var at []int
	for _, what := range []string{"05:00-08:00  water           cucumbers, north trellis", "06:10-08:00  hand-pollinate", "18:00-21:00  water           tubs", "by 21:00     save pollen"} {
		at = append(at, strings.Index(out, what))
	}
	assert.IsIncreasing(t, at, out)
	assert.GreaterOrEqual(t, at[0], 0)
}

// One bed or one planting is asked for, and past days as many as asked.
func TestWaterOfOneBed(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	d.Focus.Bed = "BED 4"
	out := text(t, "water", d)
	assert.NotContains(t, out, "tubs")
	assert.Contains(t, out, "bed 4 (zucchini and 1 more)\n  raised bed")
	assert.Contains(t, out, "Thu 9 ")
	assert.NotContains(t, out, "Wed 8 ")
	d.Focus.Back = 2
	assert.NotContains(t, text(t, "water", d), "Thu 9 ")
	d.Focus = document.Focus{Planting: "butternut"}
	assert.Contains(t, text(t, "water", d), "patch (butternut)")
	assert.NotContains(t, text(t, "water", d), "tubs")
}

// Each basis of rain and each fall-back for want of weather is said aloud.
func TestWaterSaysItsDoubts(t *testing.T) {
	out := strings.Join(strings.Fields(text(t, "water", reporttest.Watered(t, risk.Metric))), " ")
	for _, want := range []string{"22 gauge", "6 forecast", "forecast, not measured", "from the high and the low alone, for humidity, wind or sun are not known: less sure",
		"Mon 13 July: not known: taken from the days around", "uneven by our own limit (no paper gives one)", "an inch a week, rain counted", "120 L saved against the rule",
		"no watering is noted, so nothing is compared", "loam", "local watering restrictions come first", "fit to drink or too salty", "rain 70 %; if it does not come, a quarter of its water is left that evening",
		"Not reckoned: no table of crops tells how much"} {
		assert.Contains(t, out, want)
	}
	assert.Contains(t, strings.Join(strings.Fields(text(t, "today", reporttest.Watered(t, risk.Metric))), " "), "water uneven this week by our own limit: bed 4; uneven water is behind blossom-end rot")
	d := reporttest.Watered(t, risk.Metric)
	d.Water.Beds[0].Days[9].Left = risk.Range{Lo: 0.1, Mid: 0.4, Hi: 0.8}
	d.Water.Beds[0].Days[9].Advice.Chance = forecast.Value{}
	assert.Contains(t, strings.Join(strings.Fields(text(t, "today", d)), " "), "two fifths left (a tenth to four fifths)")
}

// Long names do not widen the sheet; a word longer than a line stands uncut.
func TestLongBedNames(t *testing.T) {
	for _, name := range []string{strings.Repeat("x", 40), "Beet am Zaun hinter dem Gewächshaus, ganz links neben der Regentonne", "黄瓜 北棚架", "a"} {
		for _, report := range []string{"today", "week", "water"} {
			for _, width := range []int{60, 80} {
				d := reporttest.Watered(t, risk.Metric)
				d.Width = width
				d.Garden.Beds[0].Name, d.Garden.Beds[4].Name = name, name+" 2"
				for line := range strings.Lines(text(t, report, d)) {
					if report != "week" || width != 60 {
						assert.LessOrEqual(t, runewidth.StringWidth(strings.TrimRight(line, "\n")), width, "%s %s", report, name)
					}
				}
			}
		}
	}
}

// workings shows the terms of the account as they are, each with its equation or table.
func TestWorkingsOfWater(t *testing.T) {
	d := reporttest.Watered(t, risk.US)
	d.Focus.Bed = "north trellis"
	out := strings.Join(strings.Fields(text(t, "workings", d)), " ")
	for _, want := range []string{"Water of cucumbers, north trellis", "ET0 5.20 mm FAO56 eq 53", "TAW 60.00 mm FAO56 eq 82", "RAW 30.00 mm FAO56 eq 83", "p 0.50 FAO56 table 22", "Kcb 1.00 FAO56 table 17, eq 66, eq 70",
		"few 0.30 FAO56 eq 75", "Kr 0.40 FAO56 eq 74", "Ke 0.12 FAO56 eq 71", "Ks 1.00 FAO56 eq 84", "evaporation 0.60 mm", "transpiration 4.40 mm FAO56 eq 80", "drainage DP 0.00 mm FAO56 eq 88",
		"Advice: water: 22 gal", "The root zone takes 12.6 mm over the bed; 84.0 L let out"} {
		assert.Contains(t, out, want)
	}
	assert.NotContains(t, out, "Bloom:", "whoever asks about a bed asks about its water")
	d.Focus = document.Focus{Date: d.Focus.Date, Planting: "tomatoes"}
	out = text(t, "workings", d)
	assert.Contains(t, out, "Water of tubs (tomatoes)")
	assert.NotContains(t, out, "north trellis")
	d.Focus = document.Focus{Date: d.Focus.Date, Bed: "tunnel"}
	assert.Contains(t, text(t, "workings", d), "Not reckoned: no table of crops")
}

// Under a cover every report tells the litres as a range, and that they rest on a share
// of outdoor evaporation; the workings name both pulls and where the share is from.
func TestWaterUnderCoverSaysSo(t *testing.T) {
	d := reporttest.Covered(t, risk.Metric)
	for _, report := range []string{"today", "water"} {
		out := strings.Join(strings.Fields(text(t, report, d)), " ")
		assert.Contains(t, out, "roughly 84 L (70 to 96 L)", report)
		assert.Contains(t, out, "likely, by a share of outdoor evaporation", report)
	}
	out := strings.Join(strings.Fields(text(t, "week", d)), " ")
	assert.Contains(t, out, "70-96 L")
	assert.Contains(t, out, "north trellis: under a cover, by a share of outdoor evaporation")
	out = strings.Join(strings.Fields(text(t, "water", d)), " ")
	assert.Contains(t, out, "the air in the tunnel draws a share of what it draws outdoors, 65 to 82 % by papers that differ")
	d.Focus = document.Focus{Date: d.Focus.Date, Bed: "north trellis"}
	out = strings.Join(strings.Fields(text(t, "workings", d)), " ")
	assert.Contains(t, out, "ET0 outdoors 7.00 mm FAO56 eq 53")
	assert.Contains(t, out, "ET0 5.04 mm 0.72 of it, 0.65 to 0.82 by papers that differ (ledger.tunnel.mid, .least, .most); 4.55 to 5.74")
	d.Water.Beds[0].Days[9].Under.Logged = true
	out = strings.Join(strings.Fields(text(t, "workings", d)), " ")
	assert.Contains(t, out, "FAO56 eq 53 by the logger, in still air")
}

// The workings say why a watering is as much as it is: on a square metre, by what lacks
// beyond the readily available water, by the share that reaches the roots.
func TestWorkingsSayWhyADoseIsSoMuch(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	b := &d.Water.Beds[0]
	b.Bed.Watering = risk.Furrow
	day := &b.Days[9]
	day.Roots, day.RAW, day.Advice.MM, day.Advice.Litres = 0.8, 30, 48, 480
	d.Focus = document.Focus{Date: d.Focus.Date, Bed: b.Bed.Name}
	out := strings.Join(strings.Fields(text(t, "workings", d)), " ")
	for _, want := range []string{"0.60 reaches the roots: ledger.surface_efficiency", "on a square metre 48.0 mm / 0.60 = 80 L let out", "18 mm of it lack beyond RAW",
		"watered in time it would be about 50 L"} {
		assert.Contains(t, out, want)
	}
	day.RAW = 60
	assert.NotContains(t, text(t, "workings", d), "beyond RAW")
	d.Focus = document.Focus{Date: d.Focus.Date, Bed: "tubs"}
	assert.Contains(t, strings.Join(strings.Fields(text(t, "workings", d)), " "), "It is the day's use alone")
}

// The column of what is left reads evenly: all its days have both ends or none has,
// whichever day is in wide doubt.
func TestLeftReadsEvenly(t *testing.T) {
	for _, at := range []int{-1, 2, 9, 11} {
		d := reporttest.Watered(t, risk.Metric)
		d.Focus.Bed = "north trellis"
		b := &d.Water.Beds[0]
		for i := range b.Days {
			x := b.Days[i].Left.Mid
			r := risk.Range{Lo: max(0, x-0.03), Mid: x, Hi: x + 0.03}
			if i == at {
				r = risk.Range{Lo: max(0, x-0.2), Mid: x, Hi: x + 0.2}
			}
			b.Days[i].Left, b.Days[i].Heeded.Left = r, r
		}
		out := text(t, "water", d)
		ranges, all := 0, 0
		for line := range strings.Lines(out) {
			m := dayRow.FindStringSubmatch(strings.TrimRight(line, "\n"))
			if m == nil {
				continue
			}
			all++
			if m[1] != "" {
				ranges++
			}
		}
		require.Equal(t, 11, all, out)
		if at < 0 {
			assert.Zero(t, ranges)
		} else {
			assert.Equal(t, all, ranges, "day %d", at)
		}
	}
}

// dayRow matches a row of a bed's table up to what is left, and there its ends.
var dayRow = regexp.MustCompile(`^  (?:Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d+ .*?(?:\s(\d+-\d+)|\s\d+)(?:\s{2,}(?:water|no water|feel|wait).*)?$`)

// However large a term is, its unit stands beside it.
func TestTermsKeepTheirUnits(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	d.Focus.Bed = "north trellis"
	for i := range d.Water.Beds[0].Days {
		d.Water.Beds[0].Days[i].TAW = 1040
	}
	out := text(t, "workings", d)
	assert.Regexp(t, `(?m)^  TAW +1040\.00 mm  FAO56 eq 82`, out)
	for line := range strings.Lines(out) {
		assert.LessOrEqual(t, len(strings.TrimRight(line, "\n")), 80, line)
	}
}

// Where no hour of work suits for water, that is said once for all beds.
func TestNoHoursForWaterIsSaidOnce(t *testing.T) {
	d := reporttest.Watered(t, risk.Metric)
	beds := 0
	for i := range d.Water.Beds {
		for k := range d.Water.Beds[i].Days {
			a := &d.Water.Beds[i].Days[k].Advice
			if a.Verdict == ledger.Water {
				a.From, a.To = time.Time{}, time.Time{}
				beds++
			}
		}
	}
	require.Greater(t, beds, 1)
	out := strings.Join(strings.Fields(text(t, "today", d)), " ")
	assert.Equal(t, 1, strings.Count(out, "your hours of work hold none more that suit: at the next cool hour you can, best before mid-morning"), out)
}
