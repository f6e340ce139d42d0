package words

import (
	"strings"

	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// mostMales is how many plantings with pollen are named.
// [chosen: two are enough to go to]
const mostMales = 2

// malesOf names the other plantings whose males serve: "; those of the zucchini
// serve too". "" where the garden has none in flower.
func malesOf(t *risk.Task) string {
	var names []string
	for _, p := range t.Males.Open {
		if len(names) < mostMales {
			names = append(names, p.Name)
		}
	}
	switch {
	case len(names) > 0:
		return "; those of " + strings.Join(names, " and ") + " serve"
	case !t.Males.Told() && ownPollenless(t):
		return "; look that it is in flower"
	}
	return ""
}

// ownPollenless tells whether the planting has no pollen of its own.
func ownPollenless(t *risk.Task) bool {
	return t.Planting.Setting == crop.Gynoecious || t.Planting.Setting == crop.Triploid
}
