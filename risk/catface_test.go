package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// coolEvenings is 22/17 degC weather with evenings of t degC on the days from..to.
func coolEvenings(from, to int, t float64) weather {
	return hotWeather(func(d, h int) float64 {
		if h >= 18 && d >= from && d <= to {
			return t
		}
		return dayNight(h, 22, 17)
	})
}

// Long cool weather at bloom makes cat-faced fruit (Johnson 2007), evenings of 50
// to 55 degF (garden blog 2017); the weeks before are remembered, not read. A mild
// evening between, a degree more, or a spell that the flower was not made in gives
// no warning, and the warning never takes from the set.
func TestCatfaceAfterCoolEvenings(t *testing.T) {
	l := newLab(t)
	tomato := l.crop("tomato")
	at := tomato.Self.Catface
	low, high := l.num("crops/tomato/catface_temp", "low"), l.num("crops/tomato/catface_temp", "high")
	assert.Equal(t, [2]float64{low, high}, [2]float64{at.Evening.Low, at.Evening.High})
	bare, self := *tomato, *tomato.Self // the same crop that knows nothing of it
	self.Catface, bare.Self = nil, &self
	for _, c := range []struct {
		name         string
		from, to     int
		temp         float64
		look         CatfaceLook
		since, until int
	}{
		{"mild throughout", 0, -1, 0, CatfaceClear, 0, 0},
		{"at bloom", -3, -1, high, CatfaceCool, -3, -1},
		{"at bloom, a degree warmer", -3, -1, high + 1, CatfaceClear, 0, 0},
		{"two evenings only", -2, -1, low, CatfaceClear, 0, 0},
		{"while the flower is made", -18, -16, low, CatfaceCool, -18, -16},
		{"between the two", -12, -5, low, CatfaceClear, 0, 0},
		{"both: the one at bloom is named", -21, -1, low, CatfaceCool, -3, -1},
	} {
		pd := l.judge(heatField, coolEvenings(c.from, c.to, c.temp), 23, Planting{Crop: tomato}, Bees{})
		assert.Equal(t, c.look, pd.Catface, c.name)
		f, flagged := pd.flag(Catface)
		require.Equal(t, c.look == CatfaceCool, flagged, c.name)
		if flagged {
			assert.Equal(t, heatField.date.AddDays(c.since), f.Since, c.name)
			assert.Equal(t, heatField.date.AddDays(c.until), f.Until, c.name)
		}
		without := l.judge(heatField, coolEvenings(c.from, c.to, c.temp), 23, Planting{Crop: &bare}, Bees{})
		assert.Equal(t, without.Set, pd.Set, c.name)
		assert.Equal(t, CatfaceNotAsked, without.Catface, c.name)
	}
}

// Without the evenings it is not known yet; a spell that was seen is told with the
// rest unknown.
func TestCatfaceIsNotKnownWithoutHistory(t *testing.T) {
	l := newLab(t)
	p := Planting{Crop: l.crop("tomato")}
	pd := l.judge(heatField, coolEvenings(0, -1, 0), 16, p, Bees{})
	assert.Equal(t, CatfaceUnknown, pd.Catface, "three weeks before are missing")
	pd = l.judge(heatField, coolEvenings(-3, -1, 11), 16, p, Bees{})
	assert.Equal(t, CatfaceCool, pd.Catface)

	s := coolEvenings(-3, -1, 11).series(heatField, 23)
	s.Hours[(23-2)*24+20].Temp = forecast.Value{}
	p.FirstFemale = heatField.date.AddDays(-5)
	a := Assess(l.garden(heatField, p, Bees{}), s, heatField.date, 1)
	assert.Equal(t, CatfaceUnknown, a.Days[0].Plantings[0].Catface, "an hour of an evening is missing")

	pd = l.judge(heatField, coolEvenings(-3, -1, 11), 23, Planting{Crop: l.crop("common-bean")}, Bees{})
	assert.Equal(t, CatfaceNotAsked, pd.Catface, "a fault of tomatoes")
}
