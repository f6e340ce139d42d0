package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// fewDays plans 45 days of a squash whose weather is hot on the days told, counted from
// heatField's, and gives for each day 0 to 44 nothing, "new" or "told".
func (l *lab) fewDays(hot func(d int) bool, first forecast.Date) (out []string) {
	const n = 45
	end := heatField
	end.date = end.date.AddDays(n)
	w := hotWeather(func(d, h int) float64 { // the night belongs to the day after it
		if day := d + n + (h+6)/24; hot(day) {
			return dayNight(h, 32, 27)
		}
		return dayNight(h, 25, 16)
	})
	p := Planting{Crop: l.crop("summer-squash"), FirstFemale: first, FirstMale: first}
	a := Assess(l.garden(heatField, p, Bees{}), w.series(end, n+16), heatField.date, n)
	for _, plan := range Plan(a, heatField.date, n, PlanOptions{}) {
		said := ""
		if t, ok := plan.find(FewFemales); ok {
			said = map[bool]string{false: "new", true: "told"}[t.Told]
		}
		out = append(out, said)
	}
	require.Len(l.t, out, n)
	return out
}

// Few females are news on the first day that heat takes buds and on the first day that
// their flowers lack; between and after the plan says that it was told.
func TestFewFemalesAreNewsOnce(t *testing.T) {
	l := newLab(t)
	b := l.crop("summer-squash").Buds
	ahead, now := int(b.Days)-1, int(b.Days)-1+int(b.Lead.Low)
	long := heatField.date.AddDays(-3)
	for _, x := range []struct {
		name string
		hot  func(d int) bool
		news []int
	}{
		{"nine hot days", func(d int) bool { return d >= 0 && d < 9 }, []int{ahead, now}},
		{"a second spell", func(d int) bool { return d >= 0 && d < 9 || d >= 16 && d < 24 }, []int{ahead, now, 16 + ahead, 16 + now}},
		{"mild", func(int) bool { return false }, nil},
	} {
		said := l.fewDays(x.hot, long)
		var news []int
		for d, s := range said {
			if s == "new" {
				news = append(news, d)
			}
		}
		assert.Equal(t, x.news, news, "%s: %v", x.name, said)
		if x.news != nil {
			assert.Equal(t, "told", said[ahead+1], x.name)
			assert.Equal(t, "", said[ahead+3], "%s: the heat is over, its flowers are to come", x.name)
			assert.Equal(t, "told", said[now+1], x.name)
		}
	}
}

// Vines that begin to flower amid the spell are told of it then, for nobody was before.
func TestFewFemalesAreNewsAtFirstFlower(t *testing.T) {
	l := newLab(t)
	said := l.fewDays(func(d int) bool { return d >= 0 && d < 9 }, heatField.date.AddDays(20))
	at := 0
	for said[at] == "" {
		at++
	}
	assert.Equal(t, "new", said[at])
	assert.Greater(t, at, 13, "they flower after the first day on which flowers lack")
	assert.Equal(t, "told", said[at+1])
}
