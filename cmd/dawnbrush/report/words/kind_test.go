package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

// What to pick is said as extension services print it: pickling cucumbers of 2 to 4
// in, slicing ones of 6 to 8 in and 1.5 to 2 in across, both every 2 to 3 days (Iowa
// State); pickling ones 5 to 10 days from pollination (Hawaii).
func TestTypesAreSaid(t *testing.T) {
	c, ok := reporttest.Crops(t).Find("cucumber")
	require.True(t, ok)
	metric, us := words.New(risk.Metric, reporttest.Zone(t)), words.New(risk.US, reporttest.Zone(t))
	say := func(w words.Words, k risk.TaskKind, kind string) string {
		task := taskOf(k, c)
		task.Planting.Type = kind
		return w.Manner(&task)
	}
	for _, row := range [][2]string{
		{say(us, risk.PickFruit, "pickling"), "everything that is big enough (2 to 4 in long), and what was overlooked and has grown too big; then note how many; again every 2 to 3 days"},
		{say(metric, risk.PickFruit, "pickling"), "everything that is big enough (5 to 10 cm long), and what was overlooked and has grown too big; then note how many; again every 2 to 3 days"},
		{say(us, risk.PickFruit, "slicing"), "everything that is big enough (6 to 8 in long, 1.5 to 2 in across), and what was overlooked and has grown too big; then note how many; again every 2 to 3 days"},
		{say(us, risk.PickFruit, "european"), "everything that is big enough (12 to 14 in long), and what was overlooked and has grown too big; then note how many"},
		{say(us, risk.PickFruit, ""), "everything that is big enough, and what was overlooked and has grown too big; then note how many"},
		{metric.CropType(&risk.Planting{Crop: c, Type: "beit-alpha"}), "cucumber (beit-alpha)"},
		{metric.CropType(&risk.Planting{Crop: c}), "cucumber"},
	} {
		assert.Equal(t, row[1], row[0])
	}
	assert.Contains(t, say(metric, risk.LookAtTagged, "pickling"), "it took, cucumbers ready to pick Fri 17 to Wed 22 July; if not: ")
	assert.NotContains(t, say(metric, risk.LookAtTagged, "european"), "ready to pick", "no days were published for the type")
}
