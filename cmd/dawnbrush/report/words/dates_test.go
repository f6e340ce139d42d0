package words_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// Dates in other languages. The forms are those of the Unicode CLDR, "EEE" and "d
// MMMM" of each language, without the full stop after a short weekday; from memory.
func TestDatesInOtherLanguages(t *testing.T) {
	day, later := forecast.Date{Year: 2026, Month: time.March, Day: 5}, forecast.Date{Year: 2026, Month: time.March, Day: 8}
	for key, want := range map[string][3]string{
		"en":    {"Thu 5 March", "Thu 5", "Thu 5 to Sun 8 March"},
		"en-US": {"Thu March 5", "Thu 5", "Thu March 5 to Sun March 8"},
		"de":    {"Do 5. März", "Do 5", "Do 5 to So 8. März"},
		"fr":    {"jeu 5 mars", "jeu 5", "jeu 5 to dim 8 mars"},
		"es":    {"jue 5 de marzo", "jue 5", "jue 5 to dom 8 de marzo"},
		"cs":    {"čt 5. března", "čt 5", "čt 5 to ne 8. března"},
	} {
		d, ok := words.DatesIn(key)
		require.True(t, ok, key)
		w := words.New(risk.Metric, time.UTC).In(d)
		assert.Equal(t, want, [3]string{w.Day(day), w.ShortDay(day), w.Days(day, later)}, key)
	}
	_, ok := words.DatesIn("xx")
	assert.False(t, ok)
}

// Every language has all its days and months.
func TestDatesAreWhole(t *testing.T) {
	for _, key := range words.DateKeys() {
		d, ok := words.DatesIn(key)
		require.True(t, ok)
		w := words.New(risk.Metric, time.UTC).In(d)
		seen := map[string]bool{}
		first := forecast.Date{Year: 2026, Month: time.January, Day: 1}
		for i := range 365 {
			s := w.Day(first.AddDays(i))
			assert.False(t, seen[s], "%s: %s twice", key, s)
			seen[s] = true
		}
	}
}
