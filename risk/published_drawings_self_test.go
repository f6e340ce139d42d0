package risk

import (
	"math"

	"dawnbrush/risk/crop"
	"dawnbrush/risk/published"
)

func number3(v float64) string { return published.Number(v) }

// otherDrawings are those of corn and of the crops that pollinate themselves.
func (l *lab) otherDrawings() []drawing {
	const setLoss, pollenLoss = "crops/sweet_pepper/heat_set_loss", "crops/sweet_pepper/heat_pollen_loss"
	pepper := drawing{name: "days whose heat counts for pepper", way: "the days at which heat did harm in one paper: about the opening, and on small buds", crops: []string{"sweet-pepper"}, eye: true,
		params: []string{"self.mean_from", "self.mean_to", "self.early_from", "self.early_to"}, rows: []string{setLoss, pollenLoss},
		take: func(c *crop.Crop) []float64 {
			return []float64{c.Self.MeanFrom, c.Self.MeanTo, c.Self.EarlyFrom, c.Self.EarlyTo}
		},
		put: func(c *crop.Crop, v []float64) {
			c.Self.MeanFrom, c.Self.MeanTo, c.Self.EarlyFrom, c.Self.EarlyTo = v[0], v[1], v[2], v[3]
			if math.IsNaN(v[2]) {
				c.Self.EarlyFrom, c.Self.EarlyTo = 0, 0
			}
		}}
	pepper.draw = func(l *lab, left func(string) bool) []float64 {
		v := pepper.take(l.crop("sweet-pepper"))
		none := math.NaN()
		switch {
		case !left(setLoss):
			return []float64{v[2], v[3], none, none}
		case !left(pollenLoss):
			return []float64{v[0], v[1], none, none}
		}
		return v
	}
	return []drawing{l.cornAge(), l.cornShed(), pepper, l.pepperEnd(), l.beanNights(), l.beanDays()}
}

func (l *lab) cornAge() drawing {
	const half, muui = "crops/sweet_corn/pollen_half_life_air", "further/muui_ratio"
	return drawing{name: "ageing of corn pollen", way: "a bound: half of the pollen dies within the published time; where that is left out, in the 3 h that lie between the 2 and 4 for which another paper found it viable, in the middle of its air", crops: []string{"sweet-corn"}, eye: true,
		params: []string{"corn.age_rate"}, rows: []string{half},
		take: func(c *crop.Crop) []float64 { return []float64{c.Corn.AgeRate} },
		put:  func(c *crop.Crop, v []float64) { c.Corn.AgeRate = v[0] },
		draw: func(l *lab, left func(string) bool) []float64 {
			if left(half) {
				return []float64{l.crop("sweet-corn").Corn.AgeRate}
			}
			const t, rh = (26.0 + 23.5) / 2, (75.5 + 50.0) / 2 // degC and % of the two places
			hours := (2 + 2*l.num(muui, "y")) / 2
			return []float64{math.Ln2 / hours / vpdOf(t, rh)}
		}}
}

func (l *lab) cornShed() drawing {
	const peak = "crops/sweet_corn/pollen_shed_peak_local"
	return drawing{name: "begin of corn's shed", way: "by eye: so that half is shed at the middle of the published hours; where those are left out, by half past nine, the mid-morning of another page (Jeschke23)", crops: []string{"sweet-corn"}, eye: true,
		params: []string{"corn.shed_from"}, rows: []string{peak},
		take: func(c *crop.Crop) []float64 { return []float64{c.Corn.ShedFrom} },
		put:  func(c *crop.Crop, v []float64) { c.Corn.ShedFrom = v[0] },
		draw: func(l *lab, left func(string) bool) []float64 {
			from := l.crop("sweet-corn").Corn.ShedFrom
			if !left(peak) {
				from += 9.5 - (l.num(peak, "low")+l.num(peak, "high"))/2
			}
			return []float64{from}
		}}
}

// pepperEnd: the slope is published; that it goes on to nothing is drawn to one row.
func (l *lab) pepperEnd() drawing {
	const row = "crops/sweet_pepper/night_no_set"
	return drawing{name: "end of pepper's curve of heat", way: "drawn on to nothing with the published slope, since one page has no set in hot nights; where that is left out it stays at what the slope leaves at its last point", crops: []string{"sweet-pepper"}, eye: true,
		params: []string{"self.mean"}, rows: []string{row},
		words: func(v []float64) string { return number3(v[0]) + " left from " + number3(v[1]) + " degC" },
		take: func(c *crop.Crop) []float64 {
			p := c.Self.Mean.Points()
			last := p[len(p)-1]
			return []float64{last[1], last[0]}
		},
		put: func(c *crop.Crop, v []float64) {
			p := c.Self.Mean.Points()
			p[len(p)-1] = [2]float64{v[1], v[0]}
			c.Self.Mean = crop.NewCurve(p...)
		},
		draw: func(l *lab, left func(string) bool) []float64 {
			p := l.crop("sweet-pepper").Self.Mean.Points()
			last := p[len(p)-1]
			if !left(row) {
				last[1] = p[len(p)-2][1]
			}
			return []float64{last[1], last[0]}
		}}
}

// beanNights: the published slope was measured in days and nights that rose together;
// that it is told by the nights is drawn to one row and to a page without a row.
func (l *lab) beanNights() drawing {
	return drawing{name: "bean told by its nights", way: "the published slope of set, told by the night since two sources found nights to do more, the paper of the row and a page (UDbean) that stands when it is left out", crops: []string{"common-bean"}, eye: true,
		params: []string{"self.mean_night"}, rows: []string{"crops/common_bean/night_pod_loss"},
		words: func(v []float64) string {
			if v[2] == 1 {
				return rowEnds("degC of the nights")(v)
			}
			return rowEnds("degC of the daily means")(v)
		},
		take: func(c *crop.Crop) []float64 {
			p, night := c.Self.Mean.Points(), 0.0
			if c.Self.ByNight {
				night = 1
			}
			return []float64{p[0][0], p[len(p)-1][0], night}
		},
		put: func(c *crop.Crop, v []float64) {
			p := c.Self.Mean.Points()
			p[0][0], p[len(p)-1][0] = v[0], v[1]
			c.Self.Mean, c.Self.ByNight = crop.NewCurve(p...), v[2] == 1
		},
		draw: func(l *lab, _ func(string) bool) []float64 {
			p := l.crop("common-bean").Self.Mean.Points()
			return []float64{p[0][0], p[len(p)-1][0], 1} // told by the night either way [UDbean, status read]
		}}
}

// beanDays: a limit for hot days was left out for the sake of one row.
func (l *lab) beanDays() drawing {
	const yield = "visits/bean_37"
	return drawing{name: "heat of the day on beans", way: "no limit below 45 degC, since days of 37 degC cost half of the yield and no more; else the rule of ten hours of 35 degC on two days, four days before the flower at the most", crops: []string{"common-bean"}, eye: true,
		params: []string{"self.alone_temp"}, rows: []string{yield},
		words: func(v []float64) string {
			if v[1] == 0 {
				return number3(v[0]) + " degC"
			}
			return number3(v[0]) + " degC, and 35 degC for ten hours on two days"
		},
		take: func(c *crop.Crop) []float64 { return []float64{c.Self.AloneTemp, c.Self.AcuteDays} },
		put: func(c *crop.Crop, v []float64) {
			if v[1] > 0 {
				c.Self.AcuteTemp, c.Self.AcuteHours, c.Self.AcuteDays, c.Self.AcuteReach = 35, 10, v[1], 4
			}
		},
		draw: func(l *lab, left func(string) bool) []float64 {
			alone := l.crop("common-bean").Self.AloneTemp
			if left(yield) {
				return []float64{alone, 0}
			}
			return []float64{alone, 2}
		}}
}
