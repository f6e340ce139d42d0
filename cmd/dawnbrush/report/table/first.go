package table

import (
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// firsts tells what dates the first flowers of a planting: the book's value, the
// garden's, and from how many first flowers.
func (k *workings) firsts(p *risk.PlantingDay) {
	for _, f := range k.d.Assessment.FirstFlowersOf(p.Planting) {
		book, garden := k.Norms(&f.Norms)
		text := words.FirstFlower(p.Planting.Crop, f.Sex) + ". The book: " + book + ". The garden: " + garden
		if f.Norms.Days.Learned() {
			text += "; of the book's spread cultivars are given " + k.cited(nil, "growth.cultivar_share") + ", sowings " + k.cited(nil, "growth.sowing_share")
		}
		if f.Unused > 0 {
			text += "; " + words.Count(f.Unused, "other", "others") + " not used"
		}
		if f.Seen != (forecast.Date{}) {
			text += ". Seen here on " + k.Day(f.Seen) + ", which goes before all"
		}
		k.hanging("  ", 4, text+".")
	}
}
