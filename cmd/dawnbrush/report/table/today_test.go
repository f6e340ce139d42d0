package table_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/table"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

var update = flag.Bool("update", false, "renew the golden files")

func text(t *testing.T, name string, d *document.Document) string {
	t.Helper()
	var b bytes.Buffer
	var err error
	switch name {
	case "today":
		err = table.Today(&b, d)
	case "quiet":
		err = table.Quiet(&b, d)
	case "week":
		err = table.Week(&b, d)
	case "water":
		err = table.Water(&b, d)
	case "workings":
		d.Constants, d.Focus.Date = risk.Params(), d.Plans[0].Date
		err = table.Workings(&b, d)
	case "sources":
		d.Constants = risk.Params()
		err = table.Sources(&b, d)
	}
	require.NoError(t, err)
	return b.String()
}

func TestGolden(t *testing.T) {
	for _, name := range []string{"today", "quiet", "week"} {
		for _, u := range []risk.Units{risk.Metric, risk.US} {
			file := filepath.Join("testdata", name+"_"+string(u)+".golden")
			got := text(t, name, reporttest.Fixed(t, u))
			if *update {
				require.NoError(t, os.MkdirAll("testdata", 0o755))
				require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			assert.Equal(t, string(want), got, "%s: renew with -update and read it", file)
		}
	}
}

var (
	escape = regexp.MustCompile("\x1b\\[[0-9;]*m")
	jargon = regexp.MustCompile(`(?i)set share|live grain|flight hour|viabilit|cost.loss|\bp[159]0\b|NaN|%!|<nil>`)
)

// What holds for every report of every document: no line over the width, no word
// of the model's, the same text with colour as without.
func TestEveryReport(t *testing.T) {
	for source, make := range map[string]func(testing.TB, risk.Units) *document.Document{"model": reporttest.Document, "fixed": reporttest.Fixed} {
		for _, name := range []string{"today", "week", "workings", "sources"} {
			for _, u := range []risk.Units{risk.Metric, risk.US} {
				for _, width := range []int{0, 60, 80, 132} {
					d := make(t, u)
					d.Width = width
					plain := text(t, name, d)
					for _, line := range strings.Split(plain, "\n") {
						if name == "today" || name == "week" && width != 60 {
							assert.LessOrEqual(t, runewidth.StringWidth(line), d.Columns(), "%s %s: %q", source, name, line)
						}
						assert.Equal(t, strings.TrimRight(line, " "), line)
						if name == "today" || name == "week" { // the evidence speaks the sources' language
							assert.NotRegexp(t, jargon, line)
						}
					}
					d = make(t, u)
					d.Width, d.Colour = width, true
					coloured := text(t, name, d)
					assert.NotEqual(t, plain, coloured)
					assert.Equal(t, plain, trimmed(escape.ReplaceAllString(coloured, "")))
				}
			}
		}
	}
}

// trimmed drops blanks that colour kept from being trimmed.
func trimmed(s string) string {
	lines := strings.Split(s, "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

// A US sheet has no metric unit and the other way round, except for the
// growers' rule, which stands in both.
func TestOneSystemOfUnits(t *testing.T) {
	metric := regexp.MustCompile(`\d C\b|km/h|\d mm\b`)
	us := regexp.MustCompile(`\d F\b|mph|\d in\b`)
	rule := regexp.MustCompile(`\(growers' rule: 105 F, 40.6 C\)|over 105 F|\d in 10`)
	for _, name := range []string{"today", "week", "quiet"} {
		for u, other := range map[risk.Units]*regexp.Regexp{risk.Metric: us, risk.US: metric} {
			flat := strings.Join(strings.Fields(text(t, name, reporttest.Document(t, u))), " ")
			assert.NotRegexp(t, other, rule.ReplaceAllString(flat, ""), name)
		}
	}
}

func TestQuietIsSilentWithoutWork(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	d.Plans[0].Tasks = nil
	assert.Empty(t, text(t, "quiet", d))
}

func TestQuietHasAtMostSevenLines(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	for len(d.Plans[0].Tasks) < 20 {
		d.Plans[0].Tasks = append(d.Plans[0].Tasks, d.Plans[0].Tasks[0])
	}
	lines := strings.Split(strings.TrimSpace(text(t, "quiet", d)), "\n")
	require.Len(t, lines, 8)
	assert.Equal(t, "Invented weather.", lines[7], "seven of work, and the credit")
}

// Every task says what, where, when, how long, how many, what it is worth, how
// sure, and the crop's way of telling females from males.
func TestTodaySaysEverything(t *testing.T) {
	out := strings.Join(strings.Fields(text(t, "today", reporttest.Fixed(t, risk.Metric))), " ")
	for _, want := range []string{"06:10-08:00 hand-pollinate cucumbers, north trellis", "14 female flowers, counted", "15 min", "gently, with males of the kind",
		"bees will fill 2 to 5 in 10 cucumbers, a brush 9 in 10: about 9 cucumbers more", "wind keeps bees in from 08:00", "sure",
		"a female flower sits on a tiny cucumber", "Fri 17 July, cucumbers, north trellis: wind not known", "the station has no gauge",
		"drink, rest in the shade", "thunder: indoors", "stings:", "sprays:", "by 21:00 save pollen", "chance of rain 80 %", "keeps 8 h at most", "Invented weather.",
		"not in flower sweet corn, block 2: 60 to 70 days after sowing", "nothing to gain tomatoes"} {
		assert.Contains(t, out, want)
	}
}

func TestWeekShowsUnknownAsUnknown(t *testing.T) {
	out := text(t, "week", reporttest.Fixed(t, risk.Metric))
	assert.Regexp(t, `Sat 18 +29/18 +10 +\? `, out)
	assert.Contains(t, out, "rain amount not forecast from Sat 18 July on; chance only")
}

// Hours of the clock on a day of 23 and one of 25 hours: the strip and the table
// of hours keep the garden's clock. New York changed its clocks on 8 March and 1
// November 2026. [tz database, rule US, memory]
func TestChangeOfClocks(t *testing.T) {
	for day, hours := range map[forecast.Date]int{{Year: 2026, Month: 3, Day: 8}: 23, {Year: 2026, Month: 11, Day: 1}: 25} {
		g := reporttest.Garden(t)
		from, to := day.Span(g.Place.Zone)
		s := forecast.New(from, to)
		for i := range s.Hours {
			s.Hours[i].Temp, s.Hours[i].Origin = forecast.Known(20), forecast.OriginForecast
		}
		a := risk.Assess(g, s, day, 1)
		d := &document.Document{Garden: g, Assessment: a, Plans: risk.Plan(a, day, 1, risk.PlanOptions{}), Now: from, Crops: reporttest.Crops(t)}
		out := text(t, "workings", d)
		assert.Equal(t, hours, strings.Count(out, "  forecast\n"))
		assert.Equal(t, map[int]int{23: 0, 25: 2}[hours], strings.Count(out, "\n  "+map[int]string{23: "02:00", 25: "01:00"}[hours]+"  "), "hours of the skipped or doubled hour")
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, os.ErrClosed }

func TestFailedWriteIsTold(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	assert.ErrorIs(t, table.Today(broken{}, d), os.ErrClosed)
	assert.ErrorIs(t, table.Quiet(broken{}, d), os.ErrClosed)
	assert.ErrorIs(t, table.Week(broken{}, d), os.ErrClosed)
}

// The longest of names neither cuts nor widens the sheet.
func TestLongNames(t *testing.T) {
	for _, name := range []string{"pumpkin-winter-squash", strings.Repeat("x", 60), "Gurken am Zaun hinter dem Gewächshaus", "黄瓜 北棚架", "a"} {
		d := reporttest.Fixed(t, risk.Metric)
		d.Garden.Plantings[0].Name = name
		out := text(t, "week", d)
		for line := range strings.Lines(out) {
			assert.LessOrEqual(t, runewidth.StringWidth(strings.TrimRight(line, "\n")), 80, name)
		}
		flat := strings.NewReplacer(" ", "", "\n", "").Replace(regexp.MustCompile(`(?m)^  (\S.{0,23}?)(  .*)?$`).ReplaceAllString(out, "$1"))
		assert.Contains(t, flat, strings.ReplaceAll(name, " ", ""), "no letter is lost")
	}
}

// Nobody told how many plants there are: one is reckoned, and today and week say so.
func TestPlantsUntoldAreSaid(t *testing.T) {
	for _, report := range []string{"today", "week"} {
		d := reporttest.Fixed(t, risk.Metric)
		assert.NotContains(t, text(t, report, d), "how many plants", report)
		p := d.Plans[0].Day.Plantings[0].Planting
		require.Equal(t, "cucumbers, north trellis", p.Name)
		p.Plants, p.Open, p.Buds = 0, 0, 0
		assert.Contains(t, strings.Join(strings.Fields(text(t, report, d)), " "), "how many plants of cucumbers, north trellis: one is reckoned, so work may win more than is told", report)
		for i := range d.Plans {
			for j := range d.Plans[i].Day.Plantings {
				if x := &d.Plans[i].Day.Plantings[j]; x.Planting == p {
					x.State = risk.NeedsNoPollen
				}
			}
		}
		assert.NotContains(t, text(t, report, d), "how many plants", "no work hangs on it: %s", report)
	}
}
