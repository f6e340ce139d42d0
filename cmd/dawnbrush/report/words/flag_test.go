package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// A night and the limit it passes never read as the same number: "24 C: fruit sets
// badly over 24 C" tells nothing.
func TestNightAndLimitReadApart(t *testing.T) {
	for _, c := range []struct {
		kind       risk.FlagKind
		night, max float64
		units      risk.Units
		want       string
	}{
		{risk.HotNight, 24.4, 23.9, risk.Metric, "warm night, 24.4 C: fruit sets badly over 23.9 C"},
		{risk.HotNight, 24.4, 23.9, risk.US, "warm night, 76 F: fruit sets badly over 75 F"},
		{risk.HotNight, 26, 23.9, risk.Metric, "warm night, 26 C: fruit sets badly over 24 C"},
		{risk.ColdNight, 12.7, 13, risk.Metric, "cold night, 12.7 C: fruit sets badly under 13.0 C"},
		{risk.ColdNight, 12.75, 13, risk.US, "cold night, 55.0 F: fruit sets badly under 55.4 F"},
	} {
		w := words.New(c.units, nil)
		f := risk.Flag{Kind: c.kind, Value: forecast.Known(c.night), Limit: forecast.Known(c.max)}
		assert.Equal(t, c.want, w.Flag(&f, nil))
	}
	unknown := risk.Flag{Kind: risk.HotNight, Limit: forecast.Known(23.9)}
	assert.Equal(t, "warm night: fruit sets badly over 24 C", words.New(risk.Metric, nil).Flag(&unknown, nil))
}
