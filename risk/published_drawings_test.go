package risk

import (
	"math"
	"slices"

	"dawnbrush/risk/crop"
	"dawnbrush/risk/source"
)

type paramOf = source.Param

// drawings are all numbers of crop files that were drawn to rows.
func (l *lab) drawings() []drawing {
	return slices.Concat(l.needDrawings(), l.grainDrawings(), l.pollenDrawings(), l.clockDrawings(), l.otherDrawings(), l.heatDrawings(), l.beeDrawings())
}

func takeNeed(c *crop.Crop) []float64 { return []float64{c.Need.Set} }

// putNeed changes the need; where what a squash bee and a honey bee bring is reckoned
// from it, they follow.
func putNeed(c *crop.Crop, v []float64) {
	if c.Bees.Squash != nil {
		for _, g := range []*crop.Group{c.Bees.Squash, c.Bees.Honey} {
			g.GrainsPerVisit *= v[0] / c.Need.Set
		}
	}
	c.Need.Set = v[0]
}

// needDrawings are what a flower needs.
func (l *lab) needDrawings() []drawing {
	middle := func(id, lo, hi string) float64 { return (l.num(id, lo) + l.num(id, hi)) / 2 }
	need := func(d drawing) drawing {
		d.params, d.take, d.put = []string{"need.set"}, takeNeed, putNeed
		return d
	}
	return []drawing{
		need(drawing{name: "need of cucumber", way: "the middle of the visits published for marketable fruit; of those of the next source where the first is left out",
			crops: []string{"cucumber"}, rows: []string{"visits/cuke_need"},
			draw: func(_ *lab, left func(string) bool) []float64 {
				if left("visits/cuke_need") {
					return []float64{middle("visits/cuke_need", "x", "y")}
				}
				return []float64{middle("crops/cucumber/visits_needed_alt", "low", "high")}
			}}),
		need(drawing{name: "need of muskmelon", way: "where the ranges of two sources meet: the high end of the one, the low end of the other",
			crops: []string{"muskmelon"}, rows: []string{"visits/revan_need", "crops/muskmelon/visits_needed_alt"},
			draw: func(_ *lab, left func(string) bool) []float64 {
				if left("crops/muskmelon/visits_needed_alt") {
					return []float64{l.num("crops/muskmelon/visits_needed_alt", "low")}
				}
				return []float64{l.num("visits/revan_need", "y")}
			}}),
		need(drawing{name: "need of watermelon", way: "the grains of an evenly shaped melon, which are the high end of those for a marketable one",
			crops: []string{"watermelon"}, rows: []string{"visits/wm_need"},
			draw: func(*lab, func(string) bool) []float64 {
				return []float64{l.num("crops/watermelon_seeded/pollen_grains_uniform", "low")}
			}}),
		need(drawing{name: "need of seedless watermelon", way: "the mean of two figures of one paper, the middle of the visits for the most fruit and the mean visits of open flowers; the one that is left where one is left out",
			crops: []string{"seedless-watermelon"}, rows: []string{"visits/walters_need", "visits/walters_open", "visits/walters_linear"},
			draw: func(_ *lab, left func(string) bool) []float64 {
				sum, n := 0.0, 0.0
				if left("visits/walters_need") {
					sum, n = sum+middle("visits/walters_need", "x", "y"), n+1
				}
				if left("visits/walters_open") {
					sum, n = sum+l.num("visits/walters_open", "x"), n+1
				}
				return []float64{sum / n}
			}}),
		need(drawing{name: "need of squash and pumpkin", way: "by eye, the 2000 grains of one paper within what counts of grains and set ask; moved as the least squares over those counts move (a count that stands in several rows goes with each)",
			crops: []string{"summer-squash", "pumpkin-winter-squash"}, eye: true,
			rows: []string{"visits/pfister_grains", "visits/pfister_b_need", "visits/pfister_a_need", "visits/vidal_set12",
				"crops/pumpkin_winter_squash/pollen_grains_full_set_howden", "visits/ali_nomia", "visits/ali_dorsata", "visits/ali_halictus"},
			draw: drawSquashNeed}),
	}
}

// drawSquashNeed gives the need with the least squares over published pairs of grains
// and set.
func drawSquashNeed(l *lab, left func(string) bool) []float64 {
	pairs := []struct {
		grains, set float64
		rows        []string
	}{
		{l.num("visits/pfister_grains", "x"), 0.95, []string{"visits/pfister_grains", "visits/pfister_b_need", "visits/pfister_a_need"}},
		{l.num("visits/vidal_12", "y"), 1, []string{"visits/vidal_set12", "crops/pumpkin_winter_squash/pollen_grains_full_set_howden"}},
		{376.6, l.num("visits/ali_nomia", "y") / 100, []string{"visits/ali_nomia"}},
		{204.15, l.num("visits/ali_dorsata", "y") / 100, []string{"visits/ali_dorsata"}},
		{177.85, l.num("visits/ali_halictus", "y") / 100, []string{"visits/ali_halictus"}},
	}
	return []float64{best(500, 6000, 10, func(need float64) (sum float64) {
		for _, p := range pairs {
			if slices.ContainsFunc(p.rows, func(row string) bool { return !left(row) }) {
				continue
			}
			miss := 1 - math.Exp(-3*p.grains/need) - p.set
			sum += miss * miss
		}
		return sum
	})}
}

// grainDrawings are what bees bring.
func (l *lab) grainDrawings() []drawing {
	both := []string{"summer-squash", "pumpkin-winter-squash"}
	const vidal, page = "visits/vidal_set12", "crops/summer_squash/visits_needed_ext"
	return []drawing{
		{name: "grains of a honey bee visit to squash and pumpkin", way: "the need over the visits that suffice, twelve by a paper and by a page; the counts of grains, which contradict each other, only bound it", crops: both,
			params: []string{"bees.honey.grains_per_visit"}, rows: []string{vidal, page},
			take: func(c *crop.Crop) []float64 { return []float64{c.Bees.Honey.GrainsPerVisit} },
			put:  func(c *crop.Crop, v []float64) { c.Bees.Honey.GrainsPerVisit = v[0] },
			draw: func(l *lab, left func(string) bool) []float64 {
				sum, n := 0.0, 0.0
				if left(vidal) {
					sum, n = sum+l.num(vidal, "x"), n+1
				}
				if left(page) {
					sum, n = sum+l.num(page, "low"), n+1
				}
				return []float64{l.crop("summer-squash").Need.Set / (sum / n)}
			}},
		{name: "grains of a squash bee visit", way: "the need over the mean of two counts of visits that suffice, which are whole numbers, rounded to a hundred; over the one that is left where one is left out", crops: both,
			params: []string{"bees.squash.grains_per_visit"}, rows: []string{"visits/sampson_6", "visits/cane_male7"},
			take: func(c *crop.Crop) []float64 { return []float64{c.Bees.Squash.GrainsPerVisit} },
			put:  func(c *crop.Crop, v []float64) { c.Bees.Squash.GrainsPerVisit = v[0] },
			draw: func(l *lab, left func(string) bool) []float64 {
				sum, n := 0.0, 0.0
				for _, row := range []string{"visits/sampson_6", "visits/cane_male7"} {
					if left(row) {
						sum, n = sum+l.num(row, "x"), n+1
					}
				}
				return []float64{100 * math.Round(l.crop("summer-squash").Need.Set/(sum/n)/100)}
			}},
	}
}

// clockDrawings are the hours of flowers.
func (l *lab) clockDrawings() []drawing {
	offer := drawing{name: "end of pollen on offer in squash and pumpkin", crops: []string{"summer-squash", "pumpkin-winter-squash"}, eye: true,
		way:    "by eye near the middle of those ends at which most of the rows hold; moved as that middle moves",
		params: []string{"window.offer"},
		rows:   []string{"visits/phil_window", "visits/nicodemo_to9", "visits/nicodemo_after9", "bees/squash_bee/pollen_gone_after"},
		words:  func(v []float64) string { return "none left from " + number3(v[0]) + " h after sunrise" },
		take: func(c *crop.Crop) []float64 {
			p := c.Window.Offer.Points()
			return []float64{p[len(p)-1][0]}
		},
		put: func(c *crop.Crop, v []float64) {
			p := c.Window.Offer.Points()
			p[len(p)-1][0] = v[0]
			c.Window.Offer = crop.NewCurve(p...)
		}}
	offer.draw = func(l *lab, left func(string) bool) []float64 {
		rows := slices.DeleteFunc(slices.Clone(offer.rows), func(row string) bool { return !left(row) })
		most, sum, n := 0, 0.0, 0.0
		for i := 9; i <= 24; i++ { // a curve that begins to fall at 2 h
			end, hits := 0.25*float64(i), 0
			for _, f := range l.with(&offer, []float64{end}).run(rows) {
				if f.hit {
					hits++
				}
			}
			if hits > most {
				most, sum, n = hits, 0, 0
			}
			if hits == most {
				sum, n = sum+end, n+1
			}
		}
		return []float64{sum / n}
	}
	const local, amaral = "crops/pumpkin_winter_squash/flower_close_local", "further/amaral_close"
	closes := func(c *crop.Crop) []float64 { return []float64{c.Window.Closes} }
	return []drawing{offer,
		{name: "closing of pumpkin flowers", way: "by eye near the middle of the hours published, less the sunrise, of two papers; of the one that is left where one is left out", crops: []string{"pumpkin-winter-squash"}, eye: true,
			params: []string{"window.closes"}, rows: []string{local, amaral}, take: closes,
			put: func(c *crop.Crop, v []float64) { c.Window.Closes = v[0] },
			draw: func(l *lab, left func(string) bool) []float64 {
				sum, n := 0.0, 0.0
				if left(local) {
					sum, n = sum+(l.num(local, "low")+l.num(local, "high"))/2-6, n+1 // sunrise near 6
				}
				if left(amaral) {
					sum, n = sum+(l.num(amaral, "x")+l.num(amaral, "y"))/2-5.2, n+1 // and near 5.2 in Piracicaba
				}
				return []float64{sum / n}
			}},
		{name: "opening of muskmelon flowers", way: "the early end of the hours published, less a sunrise at 6; watermelon's where they are left out", crops: []string{"muskmelon"},
			params: []string{"window.opens"}, rows: []string{"crops/muskmelon/perfect_open_local"},
			take: func(c *crop.Crop) []float64 { return []float64{c.Window.Opens} },
			put:  func(c *crop.Crop, v []float64) { c.Window.Opens = v[0] },
			draw: func(l *lab, left func(string) bool) []float64 {
				if left("crops/muskmelon/perfect_open_local") {
					return []float64{l.num("crops/muskmelon/perfect_open_local", "low") - 6}
				}
				return []float64{l.crop("watermelon").Window.Opens}
			}},
		{name: "stigma of cucumber on hot days", way: "a bound: nothing sets after the hour at which hand pollination failed in hot years; no such fall where that is left out", crops: []string{"cucumber"}, eye: true,
			params: []string{"window.receptive_hot"}, rows: []string{"crops/cucumber/stigma_receptive_field_cutoff", "crops/cucumber/stigma_receptive_field_ny"},
			words: func(v []float64) string {
				if math.IsNaN(v[0]) {
					return "as on mild days"
				}
				return rowEnds("h after sunrise")(v)
			},
			take: func(c *crop.Crop) []float64 {
				p := c.Window.ReceptiveHot.Points()
				return []float64{p[0][0], p[len(p)-1][0]}
			},
			put: func(c *crop.Crop, v []float64) {
				if math.IsNaN(v[0]) {
					c.Window.ReceptiveHot, c.Window.HotDay = crop.Curve{}, crop.Curve{}
				}
			},
			draw: func(l *lab, left func(string) bool) []float64 {
				if left("crops/cucumber/stigma_receptive_field_cutoff") {
					p := l.crop("cucumber").Window.ReceptiveHot.Points()
					return []float64{p[0][0], p[len(p)-1][0]}
				}
				return []float64{math.NaN(), math.NaN()}
			}},
		watermelonStigma(),
	}
}

// watermelonStigma is the rise and fall of what the stigma of watermelon takes.
func watermelonStigma() drawing {
	const bee, hand, before = "crops/watermelon_seeded/set_best_hour_bee", "hand/watermelon/best_hour", "crops/watermelon_seeded/stigma_best_before"
	shape := func(c *crop.Crop) []float64 {
		p := c.Window.Receptive.Points()
		return []float64{p[1][0], p[3][1]}
	}
	return drawing{name: "stigma of watermelon through the day", crops: []string{"watermelon", "seedless-watermelon"}, eye: true,
		way:    "by eye: full from the hour up to which set rose after bee visits (an hour later after hand pollination, where that is left out); falls as the bulletin says, else not at all",
		params: []string{"window.receptive"}, rows: []string{bee, hand, before}, take: shape,
		words: func(v []float64) string {
			return "full from " + number3(v[0]) + " h after sunrise, " + number3(v[1]) + " at the end"
		},
		put: func(c *crop.Crop, v []float64) {
			p := c.Window.Receptive.Points()
			p[1][0], p[3][1] = v[0], v[1]
			c.Window.Receptive = crop.NewCurve(p...)
		},
		draw: func(l *lab, left func(string) bool) []float64 {
			v := shape(l.crop("watermelon"))
			if !left(bee) {
				v[0] += l.num(hand, "high") - l.num(bee, "high")
			}
			if !left(before) {
				v[1] = 1
			}
			return v
		}}
}
