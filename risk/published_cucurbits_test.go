package risk

import (
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
)

func vpdOf(t, rh float64) float64 { return air.VPD(t, rh) }

// tubesAt gives what steady heat leaves of the tubes' growth.
func (l *lab) tubesAt(key string, t float64) float64 {
	hours := make([]air.Hour, 24)
	for i := range hours {
		hours[i].T = t
	}
	m := l.insect(key, 0)
	return m.tube(hours, 0)
}

// cucumberFindings are the results of crops.csv on cucumber.
func (l *lab) cucumberFindings() []finding {
	const cucumber = "cucumber"
	num := func(row, col string) float64 { return l.num("crops/cucumber/"+row, col) }
	honey := func(n float64) func() float64 { return func() float64 { return l.exact(cucumber, bee.Honey, n) } }
	inFlower := func(t, rh, hours float64) float64 {
		m := l.insect(cucumber, 0)
		return m.ageing.AfterHours(vpdOf(t, rh), m.c.Pollen.Coupling, hours)
	}
	tubes := func(t float64) float64 { return l.tubesAt(cucumber, t) }
	return []finding{
		{id: "crops/cucumber/pollination_mode", setting: "cucumber flowers kept from bees: set", says: "every one aborted", rule: atMost(0.05), as: constructed,
			model: func() float64 { return l.kept(cucumber, carolina, clearDay, Bees{}, 1, 0, 0).Set.Mid }},
		{id: "crops/cucumber/stigma_receptive_after", setting: "cucumber by hand at 16 h in a greenhouse at 19 to 30 degC: set", says: "all of 8, 12, 16 h set", rule: atLeast(0.5), as: unforced,
			model: func() float64 {
				w := weather{mean: 24.5, amp: 5.5, dew: 17, wind: 0.5, sky: 0.25}
				return l.hourOf(l.plain(cucumber, carolina, w), carolina, 16).Hand
			},
			miss: "the flower has shut in the model, 10 h after sunrise; flowers in cool greenhouses last longer (WehHor89)"},
		{id: "crops/cucumber/stigma_receptive_field_cutoff", setting: "cucumber by hand after 10 h on a day of 37 degC in North Carolina: set", says: "failed", rule: atMost(0.10), as: fitted,
			model: func() float64 {
				w := weather{mean: 30, amp: 7, dew: 21, wind: 2, sky: 0.25}
				return l.handFrom(l.plain(cucumber, carolina, w), carolina, int(num("stigma_receptive_field_cutoff", "low")))
			}},
		{id: "crops/cucumber/stigma_receptive_field_ny", setting: "cucumber by hand in the afternoon of a clear day in New York: set", says: "failed", rule: atMost(0.10), as: fitted,
			model: func() float64 {
				return l.handFrom(l.plain(cucumber, ithaca, clearDay), ithaca, int(num("stigma_receptive_field_ny", "low")))
			},
			miss: "a mild clear day; two trials found noon good on such days (WehHor89, Szegedi93) and heat decides, but the heat of the New York days is not told"},
		{id: "crops/cucumber/pollen_viability_peak", setting: "cucumber pollen: alive at opening over 5 h later, and after 5 h at 20 over 34 degC; the smaller gain", says: "best at dehiscence, heat shortens", rule: direction(), as: unforced,
			model: func() float64 {
				return min(inFlower(34, 50, 0)-inFlower(34, 50, 5), inFlower(20, 50, 5)-inFlower(34, 50, 5))
			}},
		{id: "crops/cucumber/pollen_tube_opt_in_vivo", setting: "cucumber tubes in excised flowers at 32 degC: growth left", says: "the best", rule: atLeast(0.9), as: constructed,
			model: func() float64 { return tubes(num("pollen_tube_opt_in_vivo", "low")) }},
		{id: "crops/cucumber/pollen_tube_zero_in_vivo", setting: "the same at 38 degC", says: "none", rule: atMost(0.05), as: constructed,
			model: func() float64 { return tubes(num("pollen_tube_zero_in_vivo", "low")) }},
		{id: "crops/cucumber/visits_needed_alt", setting: "cucumber, 8 honey bee visits, the low end of 8 to 10 of a second source: set", says: "satisfactory", rule: atLeast(0.9), as: unforced,
			model: honey(num("visits_needed_alt", "low"))},
		{id: "crops/cucumber/visits_alt2", setting: "cucumber, 8 honey bee visits, the low end of 8 to 20 of a third source: set", says: "suffices", rule: atLeast(0.9), as: unforced,
			model: honey(num("visits_alt2", "low"))},
		{id: "crops/cucumber/visits_more_seed", setting: "cucumber, seeds from 20 to 45 honey bee visits: rise", says: "still rise at 40 to 50", rule: direction(), as: constructed,
			model: func() float64 { return l.seedsAfter(cucumber, 45) - l.seedsAfter(cucumber, 20) }},
	}
}

// seedsAfter gives the share of full seed where honey bees alone pay so many
// visits a day.
func (l *lab) seedsAfter(key string, visits float64) float64 {
	day := func(k float64) *PlantingDay {
		return l.kept(key, nyField, clearDay, Bees{Bumble: None, Squash: None}, k, 0, 24)
	}
	return day(l.supplyFor(visits, func(k float64) float64 { return day(k).Visits })).Seeds
}

// squashFindings are the results of crops.csv on squash and pumpkin.
func (l *lab) squashFindings() []finding {
	const pumpkin, squash = "pumpkin-winter-squash", "summer-squash"
	summer := func(row, col string) float64 { return l.num("crops/summer_squash/"+row, col) }
	winter := func(row, col string) float64 { return l.num("crops/pumpkin_winter_squash/"+row, col) }
	atClose := func(key string, at field) float64 {
		pd := l.plain(key, at, clearDay)
		return pd.Hours[len(pd.Hours)-1].Alive
	}
	few := func(day, night float64) float64 {
		w := chamber(day, night)
		for _, f := range l.judge(ithaca, w, 7, Planting{Crop: l.crop(pumpkin)}, Bees{}).Flags {
			if f.Kind == FewAhead {
				return 1
			}
		}
		return 0
	}
	nigerian := weather{mean: 26, amp: 4, dew: 22, wind: 2, sky: 0.5}
	moschata := func(at field, w weather) *PlantingDay {
		return l.judge(at, w, 1, Planting{Crop: l.crop(pumpkin), Species: "moschata"}, Bees{})
	}
	agbagFresh := winter("pollen_viability_open", "low")
	return []finding{
		{id: "crops/summer_squash/flower_open_local", setting: "summer squash on a clear day: hours open", says: "about 6", rule: relative(6), as: constructed,
			model: func() float64 { return l.openFor(squash, nyField, clearDay) }},
		{id: "crops/summer_squash/pollen_full_for", setting: "summer squash pollen 3 h after opening on a clear day: alive", says: "full, then falls", rule: atLeast(0.9), as: fitted,
			model: func() float64 {
				pd := l.plain(squash, nyField, clearDay)
				for i := range pd.Hours {
					if mid := pd.Hours[i].Start.Sub(pd.Opens).Hours() + 0.5; mid >= summer("pollen_full_for", "low")-0.5 {
						return pd.Hours[i].Alive
					}
				}
				return 0
			}},
		{id: "crops/summer_squash/pollen_at_close", setting: "the same at closing", says: "60 %", rule: share(summer("pollen_at_close", "low") / 100), as: fitted,
			model: func() float64 { return atClose(squash, nyField) }},
		{id: "crops/summer_squash/pollen_loss_open_flower", setting: "the same, lost while the flower is open (Italy)", says: "20 %", rule: share(summer("pollen_loss_open_flower", "low") / 100), as: unforced,
			model: func() float64 { return 1 - atClose(squash, nyField) },
			miss:  "two papers give 40 (ZuccPol20) and 20 % lost at closing; the former is taken, for pollen held alive too long costs fruit"},
		{id: "crops/summer_squash/pollen_next_morning", setting: "the same the next morning", says: "10 % at most", rule: atMost(summer("pollen_next_morning", "high") / 100), as: fitted,
			model: func() float64 { return l.nextMorning(squash) }},
		{id: "crops/summer_squash/visits_needed_ext", setting: "summer squash, 12 visits, bees not named, taken as honey bees: set", says: "enough", rule: atLeast(0.9), as: fitted,
			model: func() float64 { return l.exact(squash, bee.Honey, summer("visits_needed_ext", "low")) }},
		{id: "crops/pumpkin_winter_squash/flower_close_local", setting: "pumpkin in New York on a clear day: local hour of closing", says: "10 to 12 h", rule: between(winter("flower_close_local", "low"), winter("flower_close_local", "high")), as: fitted,
			model: func() float64 {
				c := l.plain(pumpkin, ithaca, clearDay).Closes.In(ithaca.zone)
				return float64(c.Hour()) + float64(c.Minute())/60
			}},
		{id: "crops/pumpkin_winter_squash/flower_open_maxima", setting: "maxima in Brazil: hours open", says: "7.3 (6.6 to 13.9 h)", rule: relative(winter("flower_open_maxima", "high") - winter("flower_open_maxima", "low")), as: unforced,
			model: func() float64 { return l.openFor(pumpkin, saoPaulo, clearDay) }},
		{id: "crops/pumpkin_winter_squash/flower_receptive_until_maxima", setting: "the same: hours from opening in which the stigma takes pollen", says: "7.1 (6.6 to 13.7 h)", rule: relative(winter("flower_receptive_until_maxima", "low") - winter("flower_open_maxima", "low")), as: unforced,
			model: func() float64 { return l.openFor(pumpkin, saoPaulo, clearDay) }},
		{id: "crops/pumpkin_winter_squash/flower_open_start_moschata", setting: "moschata in Nigeria: local hour of opening", says: "3.5 to 4 h", rule: between(winter("flower_open_start_moschata", "low"), winter("flower_open_start_moschata", "high")), as: constructed,
			model: func() float64 {
				o := moschata(nigeria, nigerian).Opens.In(nigeria.zone)
				return float64(o.Hour()) + float64(o.Minute())/60
			}},
		{id: "crops/pumpkin_winter_squash/pollen_viability_9am_maxima", setting: "maxima in Brazil, pollen at 9 h of a clear day: alive", says: "91.2 %", rule: share(winter("pollen_viability_9am_maxima", "low") / 100), as: unforced,
			model: func() float64 { return l.hourOf(l.plain(pumpkin, saoPaulo, clearDay), saoPaulo, 9).Alive }},
		{id: "crops/pumpkin_winter_squash/pollen_viability_close", setting: "moschata pollen at closing: of the fresh", says: "62 of 90 %", rule: share(winter("pollen_viability_close", "low") / agbagFresh), as: unforced,
			model: func() float64 {
				pd := moschata(nyField, clearDay)
				return pd.Hours[len(pd.Hours)-1].Alive
			},
			miss: "a flower that opens before dawn stands in damp air most of its hours and the law of ageing, fitted to flowers that open at sunrise, leaves its pollen fresh; the paper's place is damper still"},
		{id: "crops/pumpkin_winter_squash/pollen_viability_1day", setting: "moschata pollen a day later: of the fresh", says: "8 of 90 %", rule: share(winter("pollen_viability_1day", "low") / agbagFresh), as: unforced,
			model: func() float64 { return l.nextMorning(pumpkin) }},
		{id: "crops/pumpkin_winter_squash/heat_abort_night", setting: "pumpkin, a week of 34 degC days and 25 degC nights: few females foretold (1 yes, 0 no)", says: "aborts females and small fruit", rule: atLeast(1), as: constructed,
			model: func() float64 { return few(34, 25) }},
		{id: "crops/pumpkin_winter_squash/heat_abort_psu", setting: "pumpkin, a week of 37 degC days and 21 degC nights: few females foretold (1 yes, 0 no)", says: "several days in the high 90s F abort buds", rule: atLeast(1), as: constructed,
			model: func() float64 { return few(37, 21) }},
		{id: "crops/pumpkin_winter_squash/pollen_grains_full_set_howden", setting: "Howden pumpkin, 1253 grains: set", says: "100 %", rule: share(1), as: fitted,
			model: func() float64 { return l.grains(pumpkin, winter("pollen_grains_full_set_howden", "low")) },
			miss:  "the need of 2000 grains stands between 1253 for all (Vidal10) and 2500 for 95 % (Pfister17)"},
	}
}

// nextMorning runs a crop's law of ageing over a day and night in the flower.
func (l *lab) nextMorning(key string) float64 {
	m := l.insect(key, 0)
	pd := l.plain(key, nyField, clearDay)
	s := clearDay.series(nyField, 1)
	alive := 1.0
	first, _ := s.Index(pd.Opens)
	for i := range 24 {
		h := &s.Hours[first+i]
		t, _ := h.Temp.Get()
		rh, _ := h.RH.Get()
		alive *= m.ageing.AfterHours(vpdOf(t, rh), m.c.Pollen.Coupling, 1)
	}
	return alive
}
