package words_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

func TestLoggerNotes(t *testing.T) {
	last := time.Date(2026, 7, 16, 12, 0, 0, 0, time.UTC)
	soon, late := last.Add(6*time.Hour), last.Add(100*time.Hour)
	sound := risk.Difference{Known: true, Days: 14, Way: risk.BySun, Errors: [risk.Ways]float64{5, 2, 1}}
	for name, c := range map[string]struct {
		in   risk.Inside
		now  time.Time
		want string // of the first note; "" for none
		bad  bool
	}{
		"sound":      {risk.Inside{Difference: sound}, soon, "", false},
		"old":        {risk.Inside{Difference: sound}, late, "worked out from the outside", true},
		"short":      {risk.Inside{Difference: risk.Difference{Days: 3}}, soon, "not known before 7 days", false},
		"holes":      {risk.Inside{Difference: sound, Holes: 30}, soon, "lacks 30 hours", false},
		"clock":      {risk.Inside{Difference: risk.Difference{Fault: "clock", ClockBy: -6}}, soon, "6 hours slow", true},
		"fahrenheit": {risk.Inside{Difference: risk.Difference{Fault: "fahrenheit", MeanDifference: 45}}, soon, "degrees Fahrenheit", true},
	} {
		t.Run(name, func(t *testing.T) {
			both(t, func(t *testing.T, w words.Words) {
				in := c.in
				in.Logger, in.Last = "tunnel.csv", last
				notes, bad := w.LoggerNotes(&in, c.now)
				assert.Equal(t, c.bad, bad)
				if c.want == "" {
					assert.Empty(t, notes)
					return
				}
				require.NotEmpty(t, notes)
				assert.Contains(t, notes[0], c.want)
				for _, n := range notes {
					proper(t, name, n)
				}
			})
		})
	}
}

func TestWithoutLogger(t *testing.T) {
	s := words.New(risk.Metric, nil).WithoutLogger([]string{"tunnel tomatoes", "house cucumbers"})
	proper(t, "without", s)
	assert.True(t, strings.HasPrefix(s, "tunnel tomatoes and house cucumbers: "))
}

// What is said of the air inside comes in whole sentences, in the grower's units,
// and tells apart what is known from what is not.
func TestInsideSentences(t *testing.T) {
	tomato, ok := reporttest.Crops(t).Find("tomato")
	require.True(t, ok)
	in := &risk.Inside{Logger: "tunnel.csv", Measured: 300, Last: time.Date(2026, 7, 16, 12, 0, 0, 0, time.UTC),
		Difference: risk.Difference{Known: true, Days: 12, Way: risk.BySun, Errors: [risk.Ways]float64{5, 2, 1}}}
	p := risk.PlantingDay{Planting: &risk.Planting{Crop: tomato, Cover: risk.Tunnel}}
	metric, us := words.New(risk.Metric, reporttest.Zone(t)), words.New(risk.US, reporttest.Zone(t))
	assert.Empty(t, metric.Inside(&p), "nothing in the open")
	p.State, p.HotOutside = risk.OtherAir, true
	without := strings.Join(metric.Inside(&p), " ")
	for _, s := range []string{"Not known: how warm", "What still holds", "tap them", "4.2 C", "25 C outside", "too hot even outside"} {
		assert.Contains(t, without, s)
	}
	assert.Contains(t, strings.Join(us.Inside(&p), " "), "7.6 F")
	p.Inside, p.State = in, risk.Judged
	with := strings.Join(us.Inside(&p), " ")
	for _, s := range []string{"300 hours", "12 days", "errs by 1.8 F", "3.6 F", "9.0 F", "no humidity"} {
		assert.Contains(t, with, s)
	}
	assert.NotContains(t, with, "Not known")
	p.State, p.Inside = risk.OtherAir, &risk.Inside{Logger: "tunnel.csv", Difference: risk.Difference{Fault: "clock", ClockBy: 8}}
	broken := metric.Inside(&p)
	assert.Contains(t, broken[0], "8 hours fast")
	assert.Contains(t, strings.Join(broken, " "), "What still holds")
}
