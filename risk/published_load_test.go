package risk

import (
	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// carried is how many fruits a plant carries after so many flowers, opened one
// after the other and all well pollinated, when none is picked: each adds the
// share that the plant keeps.
func (l *lab) carried(key string, flowers float64) (fruits float64) {
	const step = 0.01
	for range int(flowers/step + 0.5) {
		fruits += step * l.crop(key).Load.Kept(fruits)
	}
	return fruits
}

// besideFruit is the set by bees of a planting of one plant on a plain day, with
// so many growing fruits counted that morning and so many picked after.
func (l *lab) besideFruit(key string, at field, w weather, fruits, picked float64) float64 {
	p := Planting{Crop: l.crop(key), Plants: 1, Growing: []FruitNote{{On: at.date, Kind: memory.Fruits, Count: forecast.Known(fruits)}}}
	if picked > 0 {
		p.Growing = append(p.Growing, FruitNote{On: at.date, Kind: memory.Picked, Count: forecast.Known(picked)})
	}
	return l.judge(at, w, 2, p, Bees{}).Set.Mid
}

// loadFindings are the results on fruit that grows beside new fruit.
func (l *lab) loadFindings() []finding {
	num := func(row, col string) float64 { return l.num("load/"+row, col) }
	const pumpkin, squash, melon = "pumpkin-winter-squash", "summer-squash", "watermelon"
	fair := weather{mean: 23, amp: 6, dew: 14, wind: 2, sky: 0.2}
	setDays := func(row string) func() float64 {
		return func() float64 { return l.carried(pumpkin, num("pumpkin/flowers_"+row, "low")) }
	}
	return []finding{
		{id: "load/watermelon/carried", setting: "watermelon, 7 flowers pollinated one after the other: fruits carried", says: "3 to 7 set, 2 to 4 carried",
			rule: between(num("watermelon/carried", "low"), num("watermelon/carried", "high")), as: constructed, must: true,
			model: func() float64 { return l.carried(melon, 7) }},
		{id: "load/watermelon/after_picking", setting: "watermelon with 4 growing fruits: set once one is picked, less set before", says: "more sets can be carried", rule: direction(), as: constructed, must: true,
			model: func() float64 {
				return l.besideFruit(melon, nyField, fair, 4, 1) - l.besideFruit(melon, nyField, fair, 4, 0)
			}},
		{id: "load/pumpkin/fruits_1993", setting: "pumpkin at Ithaca 1993, 5.4 female flowers a plant, all pollinated: fruits a plant", says: "4.0",
			rule: relative(num("pumpkin/fruits_1993", "low")), as: constructed, model: setDays("1993")},
		{id: "load/pumpkin/fruits_1992", setting: "pumpkin at Ithaca 1992, 3.4 female flowers a plant, all pollinated: fruits a plant", says: "1.7",
			rule: relative(num("pumpkin/fruits_1992", "low")), as: unforced, model: setDays("1992"),
			miss: "fewer flowers set a smaller share than the year after, which no load explains: weather, bees or water did"},
		{id: "load/summer_squash/heavy", setting: "summer squash with 8 growing fruits: set, of that on a free plant", says: "the last flowers abort: most", rule: atMost(0.5), as: constructed,
			model: func() float64 {
				n := num("summer_squash/heavy", "low")
				return l.besideFruit(squash, nyField, fair, n, 0) / l.besideFruit(squash, nyField, fair, 0, 0)
			}},
		{id: "load/sweet_pepper/set_falls", setting: "sweet pepper, 10 growing fruits against 4: set lost", says: "set falls with the fruits", rule: direction(), as: constructed,
			model: func() float64 {
				return l.besideFruit("sweet-pepper", nyField, fair, 4, 0) - l.besideFruit("sweet-pepper", nyField, fair, 10, 0)
			}},
	}
}

// loadAsides are the rows on growing fruit that this model cannot be held against.
func loadAsides() []aside {
	return []aside{
		{"what a row of this table was worked out from", []string{"load/pumpkin/flowers_1993", "load/pumpkin/flowers_1992"}},
		{"plants far more crowded than in a garden, picked once: the limit is of single plants", []string{"load/cucumber/once_over"}},
		{"no number to hold against: it stands beside the limit of the crop file", []string{"load/cucumber/pollinated"}},
		{"the limit of the crop file spans pumpkins of all sizes", []string{"load/pumpkin/large"}},
	}
}
