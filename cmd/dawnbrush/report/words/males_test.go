package words_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// The brush line names the plantings whose males serve, two at most; where a kind
// has no pollen of its own and the garden tells of no parent, it says to look.
func TestBrushNamesTheMales(t *testing.T) {
	shelf, err := crop.OpenShelf()
	require.NoError(t, err)
	find := func(word string) *crop.Crop {
		c, ok := shelf.Find(word)
		require.True(t, ok, word)
		return c
	}
	w := words.New(risk.Metric, time.UTC)
	at := func(names ...string) (list []*risk.Planting) {
		for _, n := range names {
			list = append(list, &risk.Planting{Name: n})
		}
		return list
	}
	squash := &risk.Planting{Name: "zucchini", Crop: find("zucchini"), Species: "pepo"}
	gynoecious := &risk.Planting{Name: "picklers", Crop: find("cucumber"), Setting: crop.Gynoecious}
	for _, row := range []struct {
		p     *risk.Planting
		males risk.Males
		want  string
	}{
		{squash, risk.Males{}, "gently, with males of the same species (pepo)"},
		{squash, risk.Males{Shut: at("acorn")}, "gently, with males of the same species (pepo)"},
		{squash, risk.Males{Open: at("acorn")}, "gently, with males of the same species (pepo); those of acorn serve"},
		{squash, risk.Males{Open: at("a", "b", "c")}, "gently, with males of the same species (pepo); those of a and b serve"},
		{gynoecious, risk.Males{}, "gently, with males of the pollen parent; look that it is in flower"},
		{gynoecious, risk.Males{Open: at("slicers")}, "gently, with males of the pollen parent; those of slicers serve"},
		{gynoecious, risk.Males{Shut: at("slicers")}, "gently, with males of the pollen parent"}, // the cause says more
	} {
		assert.Equal(t, row.want, w.Manner(&risk.Task{Kind: risk.HandPollinate, Planting: row.p, Males: row.males}))
	}
}

// The cool evenings are told in the grower's unit: 13 C is 55 F, as the source has
// it (50 to 55 F).
func TestCatfaceInBothUnits(t *testing.T) {
	day := forecast.Date{Year: 2026, Month: time.July, Day: 10}
	f := risk.Flag{Kind: risk.Catface, Limit: forecast.Known(13), Value: forecast.Known(3), Since: day, Until: day.AddDays(2)}
	metric, us := words.New(risk.Metric, time.UTC).Flag(&f, nil), words.New(risk.US, time.UTC).Flag(&f, nil)
	assert.Contains(t, metric, "(13 C and under)")
	assert.Contains(t, us, "(55 F and under)")
	assert.Contains(t, us, "some fruit of these flowers may grow cat-faced")
}
