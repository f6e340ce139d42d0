package words_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/memory"
)

// Degree days are differences: 10 C are 18 F, and no 32 is added.
func TestWarmth(t *testing.T) {
	m, us := words.New(risk.Metric, nil), words.New(risk.US, nil)
	assert.Equal(t, "418 C degree days", m.Warmth(418))
	assert.Equal(t, "752 F degree days", us.Warmth(418))
	assert.Equal(t, "10 to 20 C degree days", m.WarmthRange(crop.Range{Low: 10, High: 20}))
	assert.Equal(t, "18 to 36 F degree days", us.WarmthRange(crop.Range{Low: 10, High: 20}))
}

func TestFirstFlowerIsNamedByTheCrop(t *testing.T) {
	set := reporttest.Crops(t)
	for word, want := range map[string][2]string{
		"cucumber": {"first male flower", "first female flower"}, "sweet corn": {"first tassel", "first silk"}, "tomato": {"first flower", "first flower"},
	} {
		c, ok := set.Find(word)
		require.True(t, ok)
		assert.Equal(t, want, [2]string{words.FirstFlower(c, growth.Male), words.FirstFlower(c, growth.Female)})
	}
}

// All that can be taught is said in plain words, in both systems of units.
func TestWhatIsTaughtIsSaid(t *testing.T) {
	taught := reporttest.Taught(t)
	require.Len(t, taught.Kinds, 1)
	k := taught.Kinds[0]
	require.Len(t, k.Verdicts, 4)
	other := regexp.MustCompile(`\d C\b`)
	both(t, func(t *testing.T, w words.Words) {
		for _, f := range k.Firsts {
			book, garden := w.Norms(&f.Norms)
			proper(t, "book", book)
			proper(t, "garden", garden)
		}
		for i := range k.Seen {
			proper(t, "seen", w.Sighting(k.Crop, &k.Seen[i]))
		}
		for i := range k.Verdicts {
			v := k.Verdicts[i]
			proper(t, v.Topic.String(), w.Verdict(k.Crop, &v))
			v.Chance = 0.5
			assert.Contains(t, w.Verdict(k.Crop, &v), "cannot tell yet")
			v.Chance, v.Sum, v.Days = 0.95, 0, 0.2
			proper(t, v.Topic.String(), w.Verdict(k.Crop, &v))
			if w == words.New(risk.US, reporttest.Zone(t)) {
				assert.NotRegexp(t, other, w.Verdict(k.Crop, &k.Verdicts[i]))
			}
		}
		assert.Equal(t, "cannot tell yet whether the brush sets more than bees: too few are counted, 3 of 4 by hand, 27 of 40 by bees, from 1 day on which both were counted", w.BrushAgainstBees(&k))
		sure := k
		sure.Sets.PairHand = memory.Beta{A: 100, B: 1}
		assert.Contains(t, w.BrushAgainstBees(&sure), "the brush sets more than bees (chance 99 %; 99 of 99 by hand")
		sure.Sets.PairHand = memory.Beta{A: 1, B: 100}
		assert.Contains(t, w.BrushAgainstBees(&sure), "bees set more than the brush (chance 99 %; 0 of 99 by hand")
		assert.Empty(t, w.BrushAgainstBees(&risk.Kind{}))
		proper(t, "bees", w.BeesTaught(&taught.Learned))
		proper(t, "no bees", w.BeesTaught(&risk.Learned{Unused: 2}))
		proper(t, "brush", w.HandTaught(&taught.Learned))
		proper(t, "nothing", w.BeesTaught(&risk.Learned{})+w.HandTaught(&risk.Learned{}))
		for f := growth.NoMethod; f <= growth.UnderCover; f++ {
			proper(t, "fault", w.Fault(f))
			assert.Equal(t, f.Teaches(), regexp.MustCompile("^its days alone").MatchString(w.Fault(f)), "%d", f)
		}
		assert.Equal(t, "18 of 20, 73 to 96 %", w.SetShare(memory.Beta{A: 1, B: 1}.Update(18, 20), 20))
	})
}
