package risk

import (
	"math"

	"dawnbrush/risk/pollen"
)

// cornFindings are the results on maize in visits.csv and crops.csv.
func (l *lab) cornFindings() []finding {
	const corn = "sweet-corn"
	num := func(row, col string) float64 { return l.num("crops/sweet_corn/"+row, col) }
	model := func() cornModel { return newCornModel(l.crop(corn)) }
	top := func(most float64) weather { return weather{mean: most - 9, amp: 9, dew: 14, wind: 3, sky: 0.1} }
	// hot is the share of kernels that eleven days of one kind about silking leave among
	// days of 28 degC.
	hot := func(at field, most float64) float64 {
		sine := func(most float64, h int) float64 { return most - 9 + 9*math.Sin(2*math.Pi*(float64(h)+0.5-9)/24) }
		return l.kernels(at, top(28), func(d, h int) float64 {
			if d >= -3 && d <= 7 {
				return sine(most, h)
			}
			return sine(28, h)
		})
	}
	heat := func(t float64) float64 {
		m := model()
		return pollen.HeatShare(t, m.d.HeatFull, m.d.HeatNil)
	}
	return []finding{
		{id: "visits/silk_7", setting: "maize silks of 7 days: share that takes pollen", says: "no kernels (middle and base of the ear)", rule: atMost(0), as: constructed, must: true,
			model: func() float64 {
				m := model()
				return m.silkTakes(l.num("visits/silk_7", "x"))
			}},
		{id: "visits/maize_40", setting: "maize in northern Mexico, 11 days of 40 degC about silking: kernels lost against days of 28 degC", says: "83 to 95 % of the yield", rule: between(0.83, 0.95), as: unforced,
			model: func() float64 { return 1 - hot(laguna, 40)/hot(laguna, 28) },
			miss:  "by day 40 degC are over at the hour of shed, and beside the pollen the model takes what irrigated sweet corn loses by degree days (DhaWil22). A chamber at 40/30 degC for 15 days cost 30.4 % (Wang20d), a third of what this field lost: heat of the flowering days alone does not make it, and what did (dry air, hot nights, filling of the grain) the abstract does not tell apart"},
		{id: "crops/sweet_corn/pollen_shed_peak_local", setting: "maize in Ohio on a clear day: local hour at which half of the pollen is shed", says: "9 to 11 h", rule: between(num("pollen_shed_peak_local", "low"), num("pollen_shed_peak_local", "high")), as: fitted,
			model: l.shedMiddle},
		{id: "crops/sweet_corn/pollen_half_life_air", setting: "maize pollen at 26 degC and 60 %: minutes until half is dead", says: "60 to 240 min outdoors", rule: between(num("pollen_half_life_air", "low"), num("pollen_half_life_air", "high")), as: fitted,
			model: func() float64 { return l.cornHalfLife(26, 60) }},
		{id: "crops/sweet_corn/shed_falls_above", setting: "maize at 33 degC: share of shed lost", says: "shed falls above 30 degC", rule: direction(), as: unforced,
			model: func() float64 { return 1 - heat(33) },
			miss:  "the model lets pollen fall off from 35 degC on (UNLheat); the seed company's 30 stands beside it"},
		{id: "crops/sweet_corn/heat_desiccates", setting: "maize at 38 degC: share of shed lost", says: "pollen dries at 37.8 degC", rule: direction(), as: unforced,
			model: func() float64 { return 1 - heat(38) }},
		{id: "crops/sweet_corn/heat_day_loss", setting: "maize, one day of 36 degC among days of 28 degC: kernels against no such day, worst day of silk", says: "a single day costs no yield", rule: atLeast(0.9), as: unforced,
			model: func() float64 { return l.kernelsAfter(ohio, top(28), top(36)) }},
	}
}

// kernels gives the share of kernels that a block fills whose first silks come out on
// the field's day, in weather whose days count from there.
func (l *lab) kernels(at field, w weather, temp func(day, hour int) float64) float64 {
	end := at
	end.date = at.date.AddDays(14)
	w.temp = func(d, h int) float64 { return temp(d+14, h) }
	p := Planting{Crop: l.crop("sweet-corn"), FirstFemale: at.date}
	return Assess(l.garden(at, p, Bees{}), w.series(end, 16), at.date, 1).Days[0].Plantings[0].Ears.Filled.Mid
}

// kernelsAfter gives the kernels of a block in steady weather with one other day, of
// those without it, for the day of silk on which that costs most.
func (l *lab) kernelsAfter(at field, steady, other weather) float64 {
	filled := func(odd int) float64 {
		return l.kernels(at, steady, func(d, h int) float64 {
			mean, amp := steady.mean, steady.amp
			if d == odd {
				mean, amp = other.mean, other.amp
			}
			return mean + amp*math.Sin(2*math.Pi*(float64(h)+0.5-9)/24)
		})
	}
	least := 1.0
	for day := range 8 {
		least = min(least, filled(day)/filled(-9))
	}
	return least
}

// shedMiddle gives the local hour at which half of a clear day's pollen has come off.
func (l *lab) shedMiddle() float64 { return l.shedMiddleIn(clearDay) }

// shedMiddleIn gives it for other weather.
func (l *lab) shedMiddleIn(w weather) float64 {
	pd := l.plain("sweet-corn", ohio, w)
	total, sum := 0.0, 0.0
	for i := range pd.Hours {
		total += pd.Hours[i].Offer
	}
	for i := range pd.Hours {
		h := &pd.Hours[i]
		if sum+h.Offer >= total/2 {
			return float64(ohio.local(h)) + (total/2-sum)/h.Offer
		}
		sum += h.Offer
	}
	return 0
}

func (l *lab) cornHalfLife(t, rh float64) float64 {
	m := newCornModel(l.crop("sweet-corn"))
	return 60 * bisect(0, 100, func(h float64) bool { return m.ageing.AfterHours(vpdOf(t, rh), 1, h) > 0.5 })
}

// tomatoFindings are the results on tomato in visits.csv and crops.csv.
func (l *lab) tomatoFindings() []finding {
	v := func(id, col string) float64 { return l.num("visits/"+id, col) }
	num := func(row, col string) float64 { return l.num("crops/tomato/"+row, col) }
	day := func(w weather) *PlantingDay {
		return l.judge(tomatoField, w, 16, Planting{Crop: l.crop("tomato")}, Bees{})
	}
	left := func(w weather) float64 {
		share, known := day(w).Factor.Get()
		if !known {
			l.t.Error("the days before are not known")
		}
		return share
	}
	// steady gives 28/22 but for the hours that hot says.
	steady := func(hot func(day, hour int) (float64, bool)) weather {
		w := chamber(28, 22)
		w.temp = func(d, h int) float64 {
			if t, ok := hot(d, h); ok {
				return t
			}
			return dayNight(h, 28, 22)
		}
		return w
	}
	hotHours := func(t float64, from, to, hours int) weather {
		return steady(func(d, h int) (float64, bool) { return t, d >= from && d <= to && h >= 12 && h < 12+hours })
	}
	self := l.crop("tomato").Self
	return []finding{
		{id: "visits/morandin_0", setting: "tomato in still air without bees: set, of that with the lightest visits", says: "30.2 of 83.3 %", rule: share(v("morandin_0", "y") / v("morandin_1", "y")), as: constructed,
			model: func() float64 {
				m := selfModel{c: l.crop("tomato"), d: self}
				return m.calmShare(0)
			}},
		{id: "visits/peet_25", setting: "tomato grown at 28/22 degC (mean 25): fruit, of its own", says: "100 %", rule: share(v("peet_25", "y") / 100), as: constructed,
			model: func() float64 { return left(chamber(28, 22)) }},
		{id: "visits/peet_29", setting: "tomato grown at 32/26 degC (mean 29): fruit, of that at 25", says: "10 %", rule: between(0.05, 0.15), as: constructed, must: true,
			model: func() float64 { return left(chamber(32, 26)) }},
		{id: "visits/peet_29_wt", setting: "the same, weight of fruit", says: "6.4 %", rule: share(v("peet_29_wt", "y") / 100), as: constructed,
			model: func() float64 { return left(chamber(32, 26)) }},
		{id: "visits/peet_29_cool_pollen", setting: "the same with pollen from plants at 25 degC (the crop file's curve; no result uses it yet)", says: "73 %", rule: share(v("peet_29_cool_pollen", "y") / 100), as: constructed,
			model: func() float64 { return self.MeanCoolPollen.At(v("peet_29_cool_pollen", "x")) }},
		{id: "crops/tomato/mean_daily_linear", setting: "tomato at a mean of 27 degC, half way: fruit", says: "a straight fall from 25 to 29, so 0.55", rule: share(0.55), as: constructed,
			model: func() float64 { return left(chamber(30, 24)) }},
		{id: "crops/tomato/mean_daily_upper", setting: "tomato: mean at which a tenth of the fruit is lost, degC", says: "proper set up to 25 to 26", rule: between(num("mean_daily_upper", "low"), num("mean_daily_upper", "high")), as: unforced,
			model: func() float64 {
				return bisect(20, 30, func(mean float64) bool { return left(chamber(mean+3, mean-3)) > 0.9 })
			}},
		{id: "crops/tomato/pollen_fail_day", setting: "tomato, two weeks of 35 degC days and 27 degC nights: share lost", says: "pollen harmed", rule: direction(), as: unforced,
			model: func() float64 { return 1 - left(chamber(35, 27)) }},
		{id: "crops/tomato/pollen_germ_fail", setting: "tomato, pollen shed at 38.5 degC after mild weeks: germinates", says: "germination severely reduced over 37.8 degC", rule: atMost(0.5), as: unforced,
			model: func() float64 { return l.hourOf(day(hotHours(38.5, 0, 0, 4)), tomatoField, 13).Heat }},
		{id: "crops/tomato/acute_fail", setting: "tomato, 4 h of 40.5 degC on two days running: set left", says: "3 h over 40 degC on two days: fails", rule: atMost(0.10), as: constructed,
			model: func() float64 { return left(hotHours(40.5, -1, 0, 4)) }},
		{id: "crops/tomato/acute_fail_alt", setting: "tomato, 3 h of 39.7 degC on two days running: set left", says: "3 h of 39.4 degC or more on two days: fails", rule: atMost(0.10), as: unforced,
			model: func() float64 { return left(hotHours(39.7, -1, 0, 3)) },
			miss:  "the model's limit is 40 degC (PurdTom, 104 degF); this column says 103 degF"},
		{id: "crops/tomato/acute_abort", setting: "tomato, 4 h of 40.5 degC on one day: set left", says: "4 h over 40 degC: aborts", rule: atMost(0.10), as: unforced,
			model: func() float64 { return left(hotHours(40.5, 0, 0, 4)) },
			miss:  "the model wants two such days running (PurdTom)"},
		{id: "crops/tomato/heat_window_japan", setting: "tomato, 42 degC for 3 h on the five days before the flower: share lost", says: "harm, worst from 5 days before to 1 day after", rule: direction(), as: unforced,
			model: func() float64 { return 1 - left(hotHours(42, -5, -1, 3)) },
			miss:  "the acute rule looks at the flower's own day and the day before, the mean at days -13 to -8: what lies between counts for nothing"},
		{id: "crops/tomato/heat_relief", setting: "tomato at 32/26 degC, the last 10 days at 28/22: set left", says: "restored", rule: share(1), as: unforced,
			model: func() float64 {
				return left(steady(func(d, h int) (float64, bool) { return dayNight(h, 32, 26), d < -10 }))
			},
			miss: "the mean is taken over days -13 to -8 (from memory), three of which were hot"},
		{id: "crops/tomato/hot_day_cool_night_ok", setting: "tomato at 30/11 degC over 24/17, equal mean: gain of set", says: "more and better pollen", rule: direction(), as: unforced,
			model: func() float64 { return day(chamber(30, 11)).Set.Mid - day(chamber(24, 17)).Set.Mid },
			miss:  "the model takes off for nights under 15.6 degC and gives nothing for warm days"},
		{id: "crops/tomato/rh_viability", setting: "tomato at a mean of 28 degC, then 1.25 degC cooler and moister: gain of set", says: "viability improved", rule: direction(), as: unforced,
			model: func() float64 { return left(chamber(29.75, 23.75)) - left(chamber(31, 25)) }},
	}
}
