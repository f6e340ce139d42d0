package risk

import (
	"math"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// heatDrawings are curves of warm and cool days and nights, and how silks fade.
func (l *lab) heatDrawings() []drawing {
	return []drawing{l.melonHeat(), l.silkFading(), l.tomatoNights(), l.pepperNights(), l.beanHotDays(), l.squashByHand(), l.visitsThatStay()}
}

func (l *lab) melonHeat() drawing {
	const range_, one = "crops/muskmelon/pollen_germ_opt", "crops/muskmelon/pollen_germ_opt_alt"
	return drawing{name: "heat that muskmelon pollen germinates in", way: "the middle of the best range of one paper, of which another found the low end better than the high one; the high end of the one or the figure of the other where only that is left", crops: []string{"muskmelon"},
		params: []string{"pollen.heat_full"}, rows: []string{range_, one},
		take: func(c *crop.Crop) []float64 { return []float64{c.Pollen.HeatFull} },
		put:  func(c *crop.Crop, v []float64) { c.Pollen.HeatFull = v[0] },
		draw: func(l *lab, left func(string) bool) []float64 {
			switch {
			case !left(one):
				return []float64{l.num(range_, "high")}
			case !left(range_):
				return []float64{l.num(one, "low")}
			}
			return []float64{(l.num(range_, "low") + l.num(range_, "high")) / 2}
		}}
}

// silkFading: without the one page all silks take pollen up to the day from which none does.
func (l *lab) silkFading() drawing {
	const row = "further/strachan_silk"
	return drawing{name: "fading of silks", way: "straight to none at the published day, through a half at the middle of the days for which silks stay receptive; all of them up to that day where those are left out", crops: []string{"sweet-corn"},
		params: []string{"corn.silk_fresh"}, rows: []string{row},
		take: func(c *crop.Crop) []float64 { return []float64{c.Corn.SilkFresh} },
		put:  func(c *crop.Crop, v []float64) { c.Corn.SilkFresh = v[0] },
		draw: func(l *lab, left func(string) bool) []float64 {
			last := l.crop("sweet-corn").Corn.SilkDays
			if !left(row) {
				return []float64{math.Nextafter(last, 0)}
			}
			return []float64{l.further("strachan_silk", "x") + l.further("strachan_silk", "y") - last}
		}}
}

// spanOf gives the places of two points of a curve.
func spanOf(c crop.Curve, first, last int) []float64 {
	p := c.Points()
	return []float64{p[first][0], p[last][0]}
}

// pointsMoved puts two points elsewhere.
func pointsMoved(c crop.Curve, first, last int, v []float64) crop.Curve {
	p := c.Points()
	p[first][0], p[last][0] = v[0], v[1]
	return crop.NewCurve(p...)
}

func (l *lab) tomatoNights() drawing {
	const row = "further/charles_cool"
	return drawing{name: "cool nights of tomato", way: "whole from the lower end of the best nights (UNLtom, PurdTom), as 12.8 degC was found to set few; from the growers' limit of 12.8 where that is left out", crops: []string{"tomato"},
		params: []string{"self.night"}, rows: []string{row}, words: rowEnds("degC of the night"),
		take: func(c *crop.Crop) []float64 { return spanOf(c.Self.Night, 0, 1) },
		put:  func(c *crop.Crop, v []float64) { c.Self.Night = pointsMoved(c.Self.Night, 0, 1, v) },
		draw: func(l *lab, left func(string) bool) []float64 {
			v := spanOf(l.crop("tomato").Self.Night, 0, 1)
			if v[1] = l.num("crops/tomato/night_opt", "low"); !left(row) {
				v[1] = l.num("crops/tomato/night_low_limit", "low")
			}
			return v
		}}
}

func (l *lab) pepperNights() drawing {
	const row = "further/umn_drop"
	const limit = 24 // degC of the night [AVRDCchili, status read]
	return drawing{name: "nights of pepper", way: "whole between the nights under and over which blossoms drop, 60 degF on two pages and 75 degF on one; the 24 degC of a third page over which they drop where the latter is left out", crops: []string{"sweet-pepper"},
		params: []string{"self.night"}, rows: []string{row}, words: rowEnds("degC of the night"),
		take: func(c *crop.Crop) []float64 { return spanOf(c.Self.Night, 1, 2) },
		put:  func(c *crop.Crop, v []float64) { c.Self.Night = pointsMoved(c.Self.Night, 1, 2, v) },
		draw: func(l *lab, left func(string) bool) []float64 {
			v := spanOf(l.crop("sweet-pepper").Self.Night, 1, 2)
			if !left(row) {
				v[1] = limit
			}
			return v
		}}
}

// beanHotDays: a second paper's loss of 37 degC, beside what the nights take, ends the
// curve where the one that sets its height is left out.
func (l *lab) beanHotDays() drawing {
	const begin, height, yield = "crops/common_bean/pollen_damage_day", "crops/common_bean/heat_no_loss_35", "visits/bean_37"
	shape := func(c *crop.Crop) []float64 {
		p := c.Self.Day.Points()
		return []float64{p[0][0], (p[0][1] - p[1][1]) / (p[1][0] - p[0][0])}
	}
	return drawing{name: "hot days of bean", way: "begun midway between the days that left pollen whole and those that did not (growers' limit where that is left out); as steep as one paper's days of 35 degC that hardly hindered, taken as a twentieth (another's loss of yield at 37 less what its nights take, where that is left out)", crops: []string{"common-bean"}, eye: true,
		params: []string{"self.day"}, rows: []string{begin, height}, take: shape,
		words: func(v []float64) string {
			return "from " + number3(v[0]) + " degC, " + number3(100*v[1]) + " % a degC"
		},
		put: func(c *crop.Crop, v []float64) {
			c.Self.Day = crop.NewCurve([2]float64{v[0], 1}, [2]float64{v[0] + 15, 1 - 15*v[1]})
		},
		draw: func(l *lab, left func(string) bool) []float64 {
			from := (25 + l.num(begin, "low")) / 2 // 25 degC left it whole [DickBoe84, status read]
			if !left(begin) {
				from = l.crop("bean").Limits.DayHigh.Or(math.NaN())
			}
			slope := 0.05 / (35 - from)
			if !left(height) {
				nights := l.crop("bean").Self.Mean
				slope = (1 - l.num(yield, "y")/100/(nights.At(26)/nights.At(20))) / (l.num(yield, "x") - from)
			}
			return []float64{from, slope}
		}}
}

func (l *lab) squashByHand() drawing {
	const fresh, lobe = "visits/zuc_fresh", "further/tepedino_lobe"
	return drawing{name: "what summer squash sets by hand", way: "the middle of two counts; the one that is left where one is left out", crops: []string{"summer-squash"},
		params: []string{"hand.set"}, rows: []string{fresh, lobe},
		take: func(c *crop.Crop) []float64 { return []float64{handSet(c)} },
		put:  func(c *crop.Crop, v []float64) { c.Hand.Set = forecast.Known(v[0]) },
		draw: func(l *lab, left func(string) bool) []float64 {
			sum, n := 0.0, 0.0
			for _, row := range []string{fresh, lobe} {
				if left(row) {
					sum, n = sum+l.num(row, "y")/100, n+1
				}
			}
			return []float64{sum / n}
		}}
}

// visitsThatStay: a number of which one row tells the size and three others only that
// visits go with the morning.
func (l *lab) visitsThatStay() drawing {
	const early = "bees/honey_bee/hour_peak_watermelon_tropic_share"
	return drawing{name: "visits to watermelon without pollen", way: "those that one paper did not find early in the morning; a half, by judgement, where it is left out, since three others found visits to fall", crops: []string{"watermelon", "seedless-watermelon"},
		params: []string{"bees.stay"}, rows: []string{early},
		take: func(c *crop.Crop) []float64 { return []float64{c.Bees.Stay} },
		put:  func(c *crop.Crop, v []float64) { c.Bees.Stay = v[0] },
		draw: func(l *lab, left func(string) bool) []float64 {
			if !left(early) {
				return []float64{0.5}
			}
			return []float64{1 - l.num(early, "low")/100}
		}}
}
