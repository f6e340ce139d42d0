package document_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/risk"
)

// Only plantings whose day goes another way are told, by what is done, not by the
// hour; what grows in other air is left out.
func TestPartings(t *testing.T) {
	d := reporttest.Fixed(t, risk.Metric)
	d.Second.Plans = append([]risk.DayPlan{}, d.Plans[:2]...)
	words := map[*risk.DayPlan]string{}
	say := func(plan *risk.DayPlan, p *risk.Planting) []string { return []string{words[plan]} }
	verb := func(cell string) string { return cell[:min(5, len(cell))] }
	words[&d.Plans[0]], words[&d.Second.Plans[0]] = "brush 05", "brush 06"
	words[&d.Plans[1]], words[&d.Second.Plans[1]] = "bees", "bees"
	assert.Empty(t, d.Partings(say, verb), "another hour is no other way")
	words[&d.Second.Plans[0]] = "bees"
	got := d.Partings(say, verb)
	require.NotEmpty(t, got)
	for _, x := range got {
		assert.Equal(t, reporttest.Today, x.Date)
		assert.Equal(t, [2][]string{{"brush 05"}, {"bees"}}, [2][]string{x.Here, x.There})
	}
	day := *d.Second.Plans[0].Day
	day.Plantings = append([]risk.PlantingDay{}, day.Plantings...)
	for i := range day.Plantings {
		day.Plantings[i].State = risk.OtherAir
	}
	d.Second.Plans[0].Day = &day
	assert.Empty(t, d.Partings(say, verb))
	d.Second = nil
	assert.Empty(t, d.Partings(say, verb))
}

func TestCreditsStandOnce(t *testing.T) {
	d := document.Document{Forecast: document.Provenance{Attribution: "A"}, Measured: []string{"A", "B", ""}, Second: &document.Second{Forecast: document.Provenance{Attribution: "C"}}}
	assert.Equal(t, []string{"A", "C", "B"}, d.Credits())
}
