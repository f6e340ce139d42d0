package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A vine that carries its load drops new fruit: with the fruits noted, the brush
// that paid is not asked for and picking is; picked and noted, the plan is as it was.
func TestFullVinesThroughTheDiary(t *testing.T) {
	s := newSummer(t)
	s.issue("2026-07-20")
	morning := s.plan("2026-07-20T04:30")
	flat := func(out string) string { return strings.Join(strings.Fields(out), " ") }
	const brush, pick = "hand-pollinate fence cucumbers", "pick fence cucumbers"

	before := flat(s.say(morning...))
	assert.Contains(t, before, brush)
	assert.NotContains(t, before, pick)
	assert.NotContains(t, before, "the plants carry")

	s.say("note", "fruits", "84", "fence cucumbers", "--on", "2026-07-20") // of 14 plants
	full := flat(s.say(morning...))
	assert.NotContains(t, full, brush)
	assert.Contains(t, full, pick)
	assert.Contains(t, full, "the plants carry 6 cucumbers each, about all they can: pick first, new ones will mostly drop")

	week := s.say(append([]string{"week"}, morning[1:]...)...)
	assert.Equal(t, 1, strings.Count(strings.SplitAfter(week, "Mind")[0], "  pick  "), "asked once: what is left after is not known")
	assert.Contains(t, flat(week), "pick: pick, to free the plants for new fruit")
	workings := flat(s.say("workings", "2026-07-20", "fence cucumbers", "--from", s.path("forecast-2026-07-20.json"), "--at", "2026-07-20T04:30"))
	assert.Contains(t, workings, "Growing fruit by the diary: 6.00 a plant;")
	assert.Contains(t, workings, "Limit 2 to 6 fruits per plant [chosen]")
	doc := flat(s.say(append(morning, "--json")...))
	assert.Contains(t, doc, `"load": { "fruits_per_plant": 6, "at_least": false, "limit_low": 2, "limit_high": 6, "new_fruit_kept": 0.2 }`)
	assert.Contains(t, doc, `"kind": "full_load"`)

	s.say("note", "picked", "70", "fence cucumbers", "--on", "2026-07-20")
	assert.Equal(t, before, flat(s.say(morning...)), "picked, the plan is as it was")
}
