package risk

// selfLab judges a self-pollinated planting after sixteen days of usual weather,
// other temperatures where hot says so.
type selfLab struct {
	*lab
	key        string
	day, night float64 // degC, the usual days and nights
}

func (s selfLab) on(hot func(day, hour int) (float64, bool)) *PlantingDay {
	w := chamber(s.day, s.night)
	w.temp = func(d, h int) float64 {
		if t, ok := hot(d, h); ok {
			return t
		}
		return dayNight(h, s.day, s.night)
	}
	return s.judge(tomatoField, w, 16, Planting{Crop: s.crop(s.key)}, Bees{})
}

// steady gives what all days and nights of one kind leave of the fruit.
func (s selfLab) steady(day, night float64) float64 {
	return s.set(func(_, h int) (float64, bool) { return dayNight(h, day, night), true })
}

// between gives the same for such days from one to another only.
func (s selfLab) between(from, to int, day, night float64) float64 {
	return s.set(func(d, h int) (float64, bool) { return dayNight(h, day, night), d >= from && d <= to })
}

func (s selfLab) set(hot func(day, hour int) (float64, bool)) float64 {
	pd := s.on(hot)
	if !pd.Factor.IsKnown() {
		s.t.Error("the days before are not known")
	}
	return pd.Set.Mid
}

// pepperFindings are the results on pepper in crops.csv.
func (l *lab) pepperFindings() []finding {
	num := func(row, col string) float64 { return l.num("crops/sweet_pepper/"+row, col) }
	p := selfLab{l, "sweet pepper", 25, 18}
	hot := num("heat_set_loss", "low")
	return []finding{
		{id: "crops/sweet_pepper/heat_set_loss", setting: "sweet pepper, 48 h at 33 degC when the flower opens: share of set lost", says: "less set", rule: direction(), as: fitted,
			model: func() float64 { return 1 - p.between(-1, 0, hot, hot) }},
		{id: "crops/sweet_pepper/heat_pollen_loss", setting: "sweet pepper, 120 h at 33 degC on buds under 2.5 mm (days -15 to -11): share lost", says: "less live pollen", rule: direction(), as: fitted,
			model: func() float64 { return 1 - p.between(-15, -11, hot, hot) }},
		{id: "crops/sweet_pepper/late_bud_ok", setting: "sweet pepper, 33 degC on late buds (days -8 to -4): share left", says: "no effect", rule: atLeast(0.8), as: constructed,
			model: func() float64 { return p.between(-8, -4, hot, hot) }},
		{id: "crops/sweet_pepper/yield_slope", setting: "bell pepper between means of 26 and 27 degC: share lost a degC", says: "11 % of the yield", rule: relative(num("yield_slope", "low") / 100), as: constructed,
			model: func() float64 { return p.steady(29, 23) - p.steady(30, 24) }},
		{id: "crops/sweet_pepper/long_heat_buds", setting: "sweet pepper, weeks of 34/21 degC: share lost", says: "many buds drop", rule: direction(), as: unforced,
			model: func() float64 { return 1 - p.steady(num("long_heat_buds", "low"), 21) }},
		{id: "crops/sweet_pepper/set_best_range", setting: "bell pepper at 26.7/21.1 degC: share left", says: "most fruit sets at 70 to 80 degF", rule: atLeast(0.9), as: unforced,
			model: func() float64 { return p.steady(num("set_best_range", "high"), num("set_best_range", "low")) }},
		{id: "crops/sweet_pepper/night_no_set", setting: "pepper, days of 36 and nights of 31 degC: share left", says: "none with nights above 30 degC", rule: atMost(0.10), as: fitted,
			model: func() float64 { return p.steady(36, num("night_no_set", "low")+1) }},
		{id: "crops/sweet_pepper/low_night_ovules", setting: "hot pepper at 25/10 degC over 25/20: share of set lost", says: "least set, 60 % fewer ovules", rule: direction(), as: constructed,
			model: func() float64 { return p.steady(25, 20) - p.steady(25, 10) }},
		{id: "crops/sweet_pepper/low_night_pollen", setting: "pepper at 24/12 degC over 30/20: share lost", says: "less fertile pollen, fewer seeds", rule: direction(), as: unforced,
			model: func() float64 { return p.steady(30, 20) - p.steady(24, num("low_night_pollen", "low")) }},
		{id: "crops/sweet_pepper/low_night_parthenocarpy", setting: "sweet pepper, nights of 9 over nights of 18 degC: gain of set", says: "more fruit, seedless", rule: direction(), as: unforced,
			model: func() float64 { return p.steady(22, 9) - p.steady(22, 18) },
			miss:  "the model takes the later study, in which cool nights gave least set; seedless fruit is no gain it knows"},
	}
}

// beanFindings are the results on common bean in visits.csv and crops.csv.
func (l *lab) beanFindings() []finding {
	num := func(row, col string) float64 { return l.num("crops/common_bean/"+row, col) }
	b := selfLab{l, "bean", 22, 17}
	dropped := num("acute_drop", "low") / 100
	return []finding{
		{id: "visits/bean_37", setting: "dry beans at 37/26 degC: yield, of that at 25/20", says: "7.46 of 16.39 g a plant, 45.5 %", rule: share(l.num("visits/bean_37", "y") / 100), as: fitted, must: true,
			model: func() float64 { return b.steady(l.num("visits/bean_37", "x"), 26) / b.steady(25, 20) }}, // the slope is Prasad02's, but a limit for hot days (acute_drop) was left out for this row

		{id: "crops/common_bean/seed_set_slope", setting: "kidney bean from 31/21 to 34/24 degC: share lost a degC", says: "6.5 points", rule: relative(num("seed_set_slope", "low") / 100), as: constructed,
			model: func() float64 { return (b.steady(31, 21) - b.steady(34, 24)) / 3 }},
		{id: "crops/common_bean/night_pod_loss", setting: "snap bean at 27/27 degC: pods, of those at 27/17", says: "strongly reduced", rule: atMost(0.5), as: fitted, must: true,
			model: func() float64 {
				return b.steady(27, num("night_pod_loss", "high")) / b.steady(27, num("night_pod_loss", "low"))
			}},
		{id: "crops/common_bean/day_small_effect", setting: "snap bean at 32/17 degC: pods, of those at 22/17", says: "small, unsteady effects", rule: atLeast(0.8), as: constructed,
			model: func() float64 {
				return b.steady(num("day_small_effect", "high"), 17) / b.steady(num("day_small_effect", "low"), 17)
			}},
		{id: "crops/common_bean/acute_drop", setting: "bean, 10 h of 35.5 degC on two days, 4 and 3 days before opening: share lost", says: "82 % dropped (at 35)", rule: share(dropped), as: unforced,
			model: func() float64 {
				return 1 - b.set(func(d, h int) (float64, bool) { return 35.5, d >= -4 && d <= -3 && h >= 8 && h < 18 })/b.steady(22, 17)
			},
			miss: "hot days alone count for little: three studies with days of 34 to 37 degC lost far less (Prasad02, Silva20, Weaver85)"},
		{id: "crops/common_bean/heat_at_opening", setting: "bean, 32/27 degC for the 5 days up to opening, 22/17 before: share lost", says: "markedly fewer pods and seeds", rule: direction(), as: unforced,
			model: func() float64 { return b.steady(22, 17) - b.between(-4, 0, num("heat_at_opening", "low"), 27) }},
		{id: "crops/common_bean/heat_regime", setting: "bean, 32/27 degC for 5 days when pollen forms (days -12 to -8, from memory): share lost", says: "sterile pollen, closed anthers", rule: direction(), as: constructed,
			model: func() float64 { return b.steady(22, 17) - b.between(-12, -8, num("heat_regime", "low"), 27) }},
		{id: "crops/common_bean/shock_window", setting: "bean, 37/25 degC for 72 h in the week before opening: share lost", says: "yield cut", rule: direction(), as: unforced,
			model: func() float64 { return b.steady(22, 17) - b.between(-4, -2, 37, 25) }},
		{id: "crops/common_bean/heat_no_loss_35", setting: "bean at 35/20 degC: pods, of those at 25/20", says: "hardly hindered", rule: atLeast(0.9), as: fitted,
			model: func() float64 { return b.steady(35, 20) / b.steady(25, 20) }},
		{id: "crops/common_bean/pollen_damage_day", setting: "snap bean at 30/10 degC over 22/10: share lost", says: "fewer seeds by pollen from 30 degC", rule: direction(), as: fitted,
			model: func() float64 { return b.steady(22, 10) - b.steady(num("pollen_damage_day", "low"), 10) }},
		{id: "crops/common_bean/ovule_damage_night", setting: "snap bean at 25/8 degC over 25/18: share lost", says: "ovules harmed", rule: direction(), as: constructed,
			model: func() float64 { return b.steady(25, 18) - b.steady(25, num("ovule_damage_night", "low")) }},
		{id: "crops/common_bean/pollen_germ_low", setting: "snap bean at 25/12 degC over 25/18: share lost", says: "less pollen germinates", rule: direction(), as: constructed,
			model: func() float64 { return b.steady(25, 18) - b.steady(25, num("pollen_germ_low", "high")) }},
	}
}
