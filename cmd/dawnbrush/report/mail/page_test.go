package mail_test

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/mail"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

var shown = &mail.Picture{Alt: "what is \"seen\" in it", Width: 720, Height: 900, Light: "cid:l@x", Dark: "cid:d@x"}

func pageOf(t *testing.T, kind mail.Kind, u risk.Units) string {
	t.Helper()
	page, err := mail.HTML(reporttest.Document(t, u), kind, shown)
	require.NoError(t, err)
	return page
}

var (
	inTag      = regexp.MustCompile(`<[^>]*>`)
	styleSheet = regexp.MustCompile(`(?s)<style>.*?</style>`)
	address    = regexp.MustCompile(`(?i)(?:src|href|background|action|data|poster)\s*=\s*"([^"]*)"|url\(([^)]*)\)|@import`)
	heading    = regexp.MustCompile(`<h([1-6])`)
	cellHead   = regexp.MustCompile(`<th(?: [^>]*)?>`)
	img        = regexp.MustCompile(`<img [^>]*>`)
)

func wordsOf(page string) map[string]int {
	out := map[string]int{}
	for _, w := range strings.Fields(html.UnescapeString(inTag.ReplaceAllString(styleSheet.ReplaceAllString(page, ""), " "))) {
		out[w]++
	}
	return out
}

// The page needs nothing from elsewhere and runs nothing.
func TestPageNeedsNothing(t *testing.T) {
	for _, kind := range []mail.Kind{mail.Daily, mail.Weekly} {
		page := pageOf(t, kind, risk.Metric)
		found := address.FindAllStringSubmatch(page, -1)
		assert.Len(t, found, 2)
		for _, m := range found {
			assert.True(t, strings.HasPrefix(m[1], "cid:"), m[0])
		}
		for _, never := range []string{"<script", "<link", "<iframe", "<form", "<object", "<svg", "http:", "https:", "javascript:"} {
			assert.NotContains(t, page, never)
		}
		// WCAG 2.2, 1.1.1, 1.3.1 and 3.1.1: pictures have words, headings are in order
		// and rows and columns are named, the language is told.
		assert.Contains(t, page, `<html lang="en">`)
		for _, i := range img.FindAllString(page, -1) {
			assert.Contains(t, i, `alt="what is &#34;seen&#34; in it"`)
		}
		last := "0"
		assert.Equal(t, 1, strings.Count(page, "<h1"))
		for _, m := range heading.FindAllStringSubmatch(page, -1) {
			assert.LessOrEqual(t, int(m[1][0]), int(last[0])+1, "a level of headings is left out")
			last = m[1]
		}
		heads := cellHead.FindAllString(page, -1)
		assert.NotEmpty(t, heads)
		for _, h := range heads {
			assert.Regexp(t, `scope="(col|row)"`, h)
		}
		assert.Contains(t, page, "prefers-color-scheme: dark")
		// a mail program cuts a page of more than 102 KB [memory, status memory], and a
		// sheet of styles of more than 8 KB
		assert.Less(t, len(page), 100<<10)
		assert.Less(t, len(styleSheet.FindString(page)), 8<<10)
	}
}

// What the text says the page says: every word of it as often, or oftener.
func TestPageSaysWhatTheTextSays(t *testing.T) {
	for _, u := range []risk.Units{risk.Metric, risk.US} {
		text, err := mail.Plain(reporttest.Document(t, u), mail.Daily)
		require.NoError(t, err)
		page := wordsOf(pageOf(t, mail.Daily, u))
		for w, n := range wordsOf(strings.ReplaceAll(text, "<", "&lt;")) {
			assert.GreaterOrEqual(t, page[w], n, w)
		}
	}
	text, err := mail.Plain(reporttest.Document(t, risk.US), mail.Weekly)
	require.NoError(t, err)
	page := wordsOf(pageOf(t, mail.Weekly, risk.US))
	for w := range wordsOf(text) {
		assert.Positive(t, page[strings.TrimSuffix(w, ":")]+page[w]+page[w+":"]+page[w+","], w)
	}
}

// Work comes before the picture of the week in the day's page, the picture first in
// the week's.
func TestPageOrder(t *testing.T) {
	day, week := pageOf(t, mail.Daily, risk.Metric), pageOf(t, mail.Weekly, risk.Metric)
	at := func(page, what string) int {
		i := strings.Index(page, what)
		require.GreaterOrEqual(t, i, 0, what)
		return i
	}
	assert.Less(t, at(day, "<h2>Do</h2>"), at(day, "<h2>The week</h2>"))
	assert.Less(t, at(day, "<h2>The week</h2>"), at(day, "<h2>Leave</h2>"))
	assert.Less(t, at(week, "<h2>The week</h2>"), at(week, "<h2>Day by day</h2>"))
	assert.Less(t, at(week, "<h2>Day by day</h2>"), at(week, "<h2>Plantings</h2>"))
	without, err := mail.HTML(reporttest.Document(t, risk.Metric), mail.Daily, nil)
	require.NoError(t, err)
	assert.NotContains(t, without, "<img")
}

// Each recipient has his own units and language of dates.
func TestOwnUnitsAndDates(t *testing.T) {
	d := reporttest.Fixed(t, risk.US)
	d.Dates, _ = words.DatesIn("de")
	text, err := mail.Plain(d, mail.Daily)
	require.NoError(t, err)
	assert.Contains(t, text, "Do 16. Juli")
	assert.Contains(t, text, "High 106 F")
	page, err := mail.HTML(d, mail.Daily, nil)
	require.NoError(t, err)
	assert.Contains(t, page, "Do 16. Juli")
	assert.Contains(t, page, "High 106 F")
	assert.NotContains(t, page, "Thu 16 July")
	assert.Contains(t, mail.Subject(d, mail.Daily), "Do 16. Juli")
}

// The subject names the one or two actions worth most, in order of the hour.
func TestSubject(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	assert.Equal(t, "Thu 16 July: hand-pollinate cucumbers, north trellis 06:10-08:00; look first zucchini 07:00-08:00", mail.Subject(d, mail.Daily))
	assert.Equal(t, "Thu 16 to Sat 18 July: hand-pollinate cucumbers, north trellis Thu 16 06:10-08:00; look first zucchini Thu 16 07:00-08:00", mail.Subject(d, mail.Weekly))
	d.Plans[0].Tasks[1].Kind = risk.HandPollinate
	d.Plans[0].Tasks[1].Gain = 0.1
	d.Plans[0].Tasks[2].Kind = risk.HandPollinate
	d.Plans[0].Tasks[2].Gain = 5
	assert.Equal(t, "Thu 16 July: hand-pollinate cucumbers, north trellis 06:10-08:00 and butternut by 21:00", mail.Subject(d, mail.Daily))
	d.Plans[0].Tasks = d.Plans[0].Tasks[2:]
	assert.Equal(t, "Thu 16 July: hand-pollinate butternut by 21:00", mail.Subject(d, mail.Daily))
	d.Plans[0].Tasks = nil
	assert.Equal(t, "Thu 16 July: nothing to do, as far as is known", mail.Subject(d, mail.Daily))
	assert.Equal(t, "Thu 16 to Sat 18 July: no work among the flowers, as far as is known", mail.Subject(d, mail.Weekly))
	d.Plans[1].Day.Plantings[0].Missing = 0
	require.True(t, d.Complete())
	assert.Equal(t, "Thu 16 July: nothing to do", mail.Subject(d, mail.Daily))
}

// On a card each number stands beside its unit, which in a table stands over the
// column; an amount in a cell never parts from its unit.
func TestNumbersStandBesideTheirUnits(t *testing.T) {
	for u, want := range map[risk.Units][]string{
		risk.Metric: {`<span>high/low:</span> [0-9?]+/[0-9?]+ C<`, `<span>rain:</span> [0-9]+ %<`, `<span>rain:</span> [0-9.?]+ mm<`, `<span>wind:</span> [0-9]+ km/h<`, `<span>bees out:</span> [0-9-]+ of [0-9]+ h<`},
		risk.US:     {`<span>high/low:</span> [0-9?]+/[0-9?]+ F<`, `<span>rain:</span> [0-9]+ %<`, `<span>rain:</span> [0-9.?]+ in<`, `<span>wind:</span> [0-9]+ mph<`},
	} {
		page := pageOf(t, mail.Weekly, u)
		for _, w := range want {
			assert.Regexp(t, w, page)
		}
		assert.NotRegexp(t, `<span>rain [^<]+:</span>`, page)
		assert.Contains(t, page, `<span class="whole">no gain</span>`)
	}
}
