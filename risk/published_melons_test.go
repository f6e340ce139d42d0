package risk

import (
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/pollen"
)

// Reasons that more than one row shares.
const (
	visitsStay   = "visits rise with the light until noon in the model, whose bees do not leave when the pollen is gone; what they bring peaks earlier"
	pollenStands = "bees leave with the pollen, which the model's clock, chosen for want of counts, keeps on offer until 4 h after sunrise"
)

// tropicDay is a plain day of the tropics.
var tropicDay = weather{mean: 27, amp: 5, dew: 22, wind: 2, sky: 0.4}

// opensAt is the local hour at which a flower opens.
func (l *lab) opensAt(key string, at field, w weather) float64 {
	o := l.plain(key, at, w).Opens.In(at.zone)
	return float64(o.Hour()) + float64(o.Minute())/60
}

// paid is the set where honey bees alone pay a flower so many visits an hour at
// full flight.
func (l *lab) paid(key string, at field, w weather, rate float64) float64 {
	return l.kept(key, at, w, Bees{Bumble: None, Squash: None}, rate/l.crop(key).Bees.Honey.VisitRate, 0, 24).Set.Mid
}

// coldNight tells (1 or 0) whether a planting after a night at a temperature is
// flagged for it.
func (l *lab) coldNight(key string, night float64) float64 {
	if l.judge(nyField, chamber(25, night), 2, Planting{Crop: l.crop(key)}, Bees{}).has(ColdNight) {
		return 1
	}
	return 0
}

// melonFindings are the results on muskmelon.
func (l *lab) melonFindings() []finding {
	const melon = "muskmelon"
	num := func(row, col string) float64 { return l.num("crops/muskmelon/"+row, col) }
	honey := func(n float64) func() float64 { return func() float64 { return l.exact(melon, bee.Honey, n) } }
	heat := func(t float64) float64 {
		p := l.crop(melon).Pollen
		return pollen.HeatShare(t, p.HeatFull, p.HeatNil)
	}
	taken := func(local float64) float64 { // with sunrise at 6 h, as near the equator
		return l.crop(melon).Window.Receptive.At(local - 6)
	}
	return []finding{
		{id: "visits/revan_need", setting: "muskmelon in India, 8 honey bee visits, the low end of 8 to 10: set", says: "as open to all visits", rule: atLeast(0.9), as: constructed, must: true,
			model: honey(l.num("visits/revan_need", "x"))},
		{id: "crops/muskmelon/visits_needed_alt", setting: "muskmelon in Mexico, 10 honey bee visits, the low end of 10 to 15: set", says: "enough", rule: atLeast(0.9), as: constructed,
			model: honey(num("visits_needed_alt", "low"))},
		{id: "crops/muskmelon/visit_interval", setting: "muskmelon in Colorado, honey bees alone at a visit each 15 min, a clear day: set", says: "full", rule: atLeast(0.9), as: unforced,
			model: func() float64 {
				w := weather{mean: 22, amp: 8, dew: 10, wind: 2, sky: 0.1}
				return l.paid(melon, colorado, w, 60/num("visit_interval", "low"))
			}},
		{id: "crops/muskmelon/pollination_mode", setting: "perfect flowers of muskmelon, bagged: set", says: "none", rule: atMost(0.05), as: constructed,
			model: func() float64 { return l.kept(melon, bengaluru, tropicDay, Bees{}, 1, 0, 0).Set.Mid }},
		{id: "crops/muskmelon/perfect_open_local", setting: "muskmelon in India at the equinox: local hour of opening", says: "7 to 8.5 h", rule: between(num("perfect_open_local", "low"), num("perfect_open_local", "high")), as: fitted,
			model: func() float64 { return l.opensAt(melon, bengaluru, tropicDay) }},
		{id: "crops/muskmelon/receptivity_peak_local", setting: "the same, stigmas that take pollen at 17 over 9 h: gain", says: "most from 16 to 18 h", rule: direction(), as: unforced,
			model: func() float64 { return taken(17) - taken(9) },
			miss:  "growers find the morning best, and the flower is shut by evening in the model; one paper stands against the practice"},
		{id: "crops/muskmelon/receptivity_morning", setting: "muskmelon, stigmas that take pollen at 9 over 14 h: gain", says: "best in the morning, falls through the day", rule: direction(), as: constructed,
			model: func() float64 { return taken(9) - taken(14) }},
		{id: "crops/muskmelon/pollen_good_local", setting: "muskmelon under plastic, pollen 8 h after opening in air of 27 degC and 60 %: alive", says: "good from 8 to 16 h", rule: atLeast(0.9), as: fitted,
			model: func() float64 {
				m := l.insect(melon, 0)
				return m.ageing.AfterHours(vpdOf(27, 60), m.c.Pollen.Coupling, num("pollen_good_local", "high")-num("pollen_good_local", "low"))
			}},
		{id: "crops/muskmelon/pollen_germ_opt", setting: "muskmelon pollen at 35 over 40 degC: gain", says: "germinates best at 30 to 35 of 20 to 40", rule: direction(), as: constructed,
			model: func() float64 { return heat(num("pollen_germ_opt", "high")) - heat(40) }},
		{id: "crops/muskmelon/pollen_germ_opt_alt", setting: "muskmelon pollen at 30 over 35 degC: gain", says: "germinates best at 30 of 20 to 45", rule: direction(), as: fitted,
			model: func() float64 { return heat(num("pollen_germ_opt_alt", "low")) - heat(35) }},
		{id: "crops/muskmelon/night_temp_low", setting: "muskmelon, cold night told at 5 less at 12 degC (1 as published)", says: "pollen worse after 5 degC than after 10 or 15", rule: atLeast(1), as: constructed,
			model: func() float64 { return l.coldNight(melon, num("night_temp_low", "low")) - l.coldNight(melon, 12) }},
		{id: "bees/honey_bee/hour_peak_cantaloupe", setting: "cantaloupe in northern Mexico on a clear day: middle of the hour with most honey bee visits", says: "10.5 to 14.5 h", rule: between(l.num("bees/honey_bee/hour_peak_cantaloupe", "low"), l.num("bees/honey_bee/hour_peak_cantaloupe", "high")), as: unforced,
			model: func() float64 {
				return l.visitPeak(melon, laguna, weather{mean: 27, amp: 8, dew: 12, wind: 3, sky: 0.2}, bee.Honey)
			}},
	}
}

// watermelonFindings are the results on watermelon with seeds.
func (l *lab) watermelonFindings() []finding {
	const melon = "watermelon"
	v := func(id, col string) float64 { return l.num("visits/"+id, col) }
	num := func(row, col string) float64 { return l.num("crops/watermelon_seeded/"+row, col) }
	exact := func(g bee.Group, n float64) func() float64 {
		return func() float64 { return l.exact(melon, g, n) }
	}
	perVisit := func(g bee.Group) func() float64 {
		return func() float64 { return l.insect(melon, 0).full[g] * fullShare * l.crop(melon).Need.Set }
	}
	hand := func(at field, hour int) float64 { return l.hourOf(l.plain(melon, at, clearDay), at, hour).Hand }
	bees := func(id, col string) float64 { return l.num("bees/honey_bee/"+id, col) }
	return []finding{
		{id: "visits/adlerz_1", setting: "watermelon, one honey bee visit: set", says: "some fruit", rule: between(0.05, 0.9), as: unforced, model: exact(bee.Honey, v("adlerz_1", "x"))},
		{id: "visits/adlerz_8", setting: "watermelon, 8 honey bee visits: set", says: "the least for normal growth", rule: atLeast(0.9), as: unforced, must: true,
			model: exact(bee.Honey, v("adlerz_8", "x"))},
		{id: "crops/watermelon_seeded/visits_needed_alt", setting: "watermelon in northern Australia, 9 honey bee visits: set", says: "enough", rule: atLeast(0.9), as: unforced,
			model: exact(bee.Honey, num("visits_needed_alt", "low"))},
		{id: "visits/stang_apis", setting: "watermelon, one honey bee visit: grains", says: "119", rule: relative(v("stang_apis", "y")), as: constructed, model: perVisit(bee.Honey)},
		{id: "visits/stang_bombus", setting: "watermelon, one bumble bee visit: grains", says: "481", rule: relative(v("stang_bombus", "y")), as: constructed, model: perVisit(bee.Bumble)},
		{id: "visits/wm_need", setting: "watermelon, 500 grains, the low end of 500 to 1000, at one visit: set", says: "marketable", rule: atLeast(0.9), as: fitted,
			model: func() float64 { return l.grains(melon, v("wm_need", "x")) },
			miss:  "the need is drawn at the high end, the 1000 grains of an even melon (UDel4481), which the visits of Adlerz66 agree with"},
		{id: "visits/wm_visits_calc_apis", setting: "watermelon, 8.4 honey bee visits: set", says: "the need", rule: atLeast(0.9), as: constructed, model: exact(bee.Honey, v("wm_visits_calc_apis", "x"))},
		{id: "visits/wm_visits_calc_bombus", setting: "watermelon, 2.1 bumble bee visits: set", says: "the need", rule: atLeast(0.9), as: constructed, model: exact(bee.Bumble, v("wm_visits_calc_bombus", "x"))},
		{id: "visits/cecala_linear", setting: "watermelon, grains brought by 20 visits over those of 10", says: "a line to at least 20 visits", rule: relative(2), as: constructed,
			model: func() float64 {
				got := func(visits float64) float64 {
					day := func(k float64) *PlantingDay {
						return l.kept(melon, nyField, clearDay, Bees{Bumble: None}, k, 0, 24)
					}
					return day(l.supplyFor(visits, func(k float64) float64 { return day(k).Visits })).look.got
				}
				return got(v("cecala_linear", "x")) / got(v("cecala_linear", "x")/2)
			}},
		{id: "crops/watermelon_seeded/set_best_hour_bee", setting: "watermelon in Florida, what a visit sets at 9 over 6 h: gain", says: "set rises from 6 to 9 h", rule: direction(), as: fitted,
			model: func() float64 {
				return hand(florida, int(num("set_best_hour_bee", "high"))) - hand(florida, int(num("set_best_hour_bee", "low")))
			}},
		{id: "hand/watermelon/best_hour", setting: "the same by hand at 10 over 6 h: gain", says: "set rises from 6 to 10 h", rule: direction(), as: fitted,
			model: func() float64 {
				return hand(florida, int(l.num("hand/watermelon/best_hour", "high"))) - hand(florida, int(l.num("hand/watermelon/best_hour", "low")))
			}},
		{id: "crops/watermelon_seeded/stigma_best_before", setting: "watermelon in Delaware on a clear day: local hour in which the best begins", says: "most receptive before 10", rule: atMost(num("stigma_best_before", "high") - 1), as: fitted,
			model: func() float64 {
				pd := l.plain(melon, delaware, clearDay)
				return float64(delaware.local(&pd.Hours[pd.BestHour]))
			}},
		{id: "crops/watermelon_seeded/flower_open_duration", setting: "watermelon on a clear day: hours open", says: "6 to 7", rule: between(num("flower_open_duration", "low"), num("flower_open_duration", "high")), as: constructed,
			model: func() float64 { return l.openFor(melon, nyField, clearDay) }},
		{id: "crops/watermelon_seeded/pollen_tube_temp", setting: "watermelon tubes at 35 over 25 degC: gain", says: "rise from 25 to 35", rule: direction(), as: unforced,
			model: func() float64 { return l.tubesAt(melon, 35) - l.tubesAt(melon, 25) },
			miss:  "the model takes tubes as whole up to 35 degC: it counts what heat takes, not how slowly they grow in cooler air"},
		{id: "bees/honey_bee/hour_peak_watermelon_tropic", setting: "watermelon in Panama: middle of the hour with most honey bee visits", says: "7 to 8 h", rule: between(bees("hour_peak_watermelon_tropic", "low"), bees("hour_peak_watermelon_tropic", "high")), as: unforced,
			model: func() float64 { return l.visitPeak(melon, panama, tropicDay, bee.Honey) }, miss: pollenStands},
		{id: "bees/honey_bee/hour_peak_watermelon_tropic_share", setting: "the same: share of honey bee visits before 9 h", says: "90 % early in the morning", rule: share(bees("hour_peak_watermelon_tropic_share", "low") / 100), as: fitted,
			model: func() float64 {
				early, all := 0.0, 0.0
				for hour, n := range l.visitsByHour(melon, panama, tropicDay, bee.Honey) {
					all += n
					if hour < 9 {
						early += n
					}
				}
				return early / all
			}, miss: pollenStands},
		{id: "bees/honey_bee/hour_peak_watermelon_cameroon", setting: "watermelon in Cameroon: middle of the hour with most honey bee visits", says: "9 to 10 h", rule: between(bees("hour_peak_watermelon_cameroon", "low"), bees("hour_peak_watermelon_cameroon", "high")), as: unforced,
			model: func() float64 { return l.visitPeak(melon, cameroon, tropicDay, bee.Honey) }},
	}
}

// seedlessFindings are the results on triploid watermelon. The paper's most, 80 %
// of flowers at about 24 visits, stands for all that may set.
func (l *lab) seedlessFindings() []finding {
	const melon = "seedless-watermelon"
	v := func(id, col string) float64 { return l.num("visits/"+id, col) }
	exact := func(n float64) float64 { return l.exact(melon, bee.Honey, n) }
	most := v("walters_open", "y")
	return []finding{
		{id: "visits/walters_0", setting: "seedless watermelon, no visit: set", says: "about none", rule: atMost(0.05), as: constructed, model: func() float64 { return exact(v("walters_0", "x")) }},
		{id: "visits/walters_open", setting: "seedless watermelon, open to bees that pay 24 visits in the mean: set, of the most possible", says: "80 %, the most of the trial", rule: atLeast(0.9), as: fitted, must: true,
			model: func() float64 {
				m := l.insect(melon, 0)
				return m.rise[0].share(v("walters_open", "x")*m.full[bee.Honey], m.full[bee.Honey])
			}},
		{id: "visits/walters_linear", setting: "seedless watermelon, set of each visit more, of the most possible", says: "3.3 of 80 %", rule: relative(v("walters_linear", "y") / most), as: fitted,
			model: func() float64 { return exact(9) - exact(8) }},
		{id: "visits/walters_need", setting: "seedless watermelon, what 24 visits set over 16, and 16 over 8: smaller step", says: "16 to 24 for the most, no level stretch before", rule: direction(), as: constructed, must: true,
			model: func() float64 {
				lo, hi := v("walters_need", "x"), v("walters_need", "y")
				return min(exact(hi)-exact(lo), exact(lo)-exact(lo/2))
			}},
		{id: "crops/watermelon_triploid/pollenizer", setting: "seedless watermelon without a seeded kind beside it: set", says: "its own pollen is dead", rule: atMost(0), as: constructed, must: true,
			model: func() float64 {
				return l.judge(nyField, clearDay, 1, Planting{Crop: l.crop(melon), Setting: crop.Triploid}, Bees{}).Set.Mid
			}},
	}
}
