package risk

import (
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/pollen"
)

// wetFindings are the results of wet.csv: pollen in dry and wet air.
func (l *lab) wetFindings() []finding {
	const squash, corn = "summer-squash", "sweet-corn"
	rainAt := func(from, to int) weather {
		w := clearDay
		w.rain = func(d, h int) float64 {
			if d == 0 && h >= from && h < to {
				return 1
			}
			return 0
		}
		return w
	}
	damp := clearDay
	damp.rh, damp.sky = 97, 1
	row := func(name string) string { return "wet/" + name }
	return []finding{
		{id: row("cucurbit_pollen/squash pollen 30 C and 46 pct RH"), setting: "squash pollen 2 h at 30 degC and 46 %: alive", says: "all gone", rule: atMost(0.05), as: fitted, must: true,
			model: func() float64 {
				return l.tray(squash, 30, 46, l.num(row("cucurbit_pollen/squash pollen 30 C and 46 pct RH"), "low"))
			}},
		{id: row("cucurbit_pollen/squash pollen 30 C and 100 pct RH"), setting: "squash pollen 5 h at 30 degC and 100 %: alive", says: "still good", rule: atLeast(0.9), as: constructed, must: true,
			model: func() float64 {
				return l.tray(squash, 30, 100, l.num(row("cucurbit_pollen/squash pollen 30 C and 100 pct RH"), "low"))
			}},
		{id: row("cucurbit_pollen/zucchini pollen 20 C, RH 80 or less"), setting: "zucchini pollen 4 h at 20 degC and 80 %: alive", says: "a tenth or less", rule: atMost(0.10), as: fitted, must: true,
			model: func() float64 {
				return l.tray(squash, 20, 80, l.num(row("cucurbit_pollen/zucchini pollen 20 C, RH 80 or less"), "low"))
			}},
		{id: row("cucurbit_pollen/zucchini pollen 20 C, RH 90"), setting: "zucchini pollen 8 h at 20 degC and 90 %: alive", says: "over half", rule: atLeast(0.5), as: fitted, must: true,
			model: func() float64 {
				return l.tray(squash, 20, 90, l.num(row("cucurbit_pollen/zucchini pollen 20 C, RH 90"), "low"))
			}},
		{id: row("cucurbit_pollen/wet female flowers"), setting: "wet female squash flowers by hand: share lost", says: "low set, one breeder", rule: direction(), as: constructed,
			model: func() float64 { return 1 - pollen.DryShare(0, true) }},
		{id: row("cucurbit_pollen/rain-wetted fresh pollen same morning"), setting: "pollen wetted by rain, used the same morning: set left", says: "still works, another breeder", rule: atLeast(0.8), as: unforced,
			model: func() float64 { return pollen.DryShare(0, true) },
			miss:  "another breeder saw few set, and rain kills pollen on apple's stigmas (NIABrain): that side is taken, by half"},
		{id: row("cucurbit_set/rainy season bloom (C. moschata, Japan)"), setting: "winter squash, rain from 5 to 10 h: set lost against a dry morning", says: "now and then very poor", rule: atLeast(0.5), as: unforced,
			model: func() float64 {
				return l.plain("pumpkin-winter-squash", nyField, clearDay).Set.Mid - l.plain("pumpkin-winter-squash", nyField, rainAt(5, 10)).Set.Mid
			}},
		{id: row("corn_pollen/tassel wet or raining"), setting: "maize, rain from 7 to 10 h: pollen shed after it less pollen shed in it", says: "none in rain, restarts when dry", rule: direction(), as: constructed,
			model: func() float64 {
				pd := l.plain(corn, ohio, rainAt(7, 10))
				in, after := 0.0, 0.0
				for i := range pd.Hours {
					if ohio.local(&pd.Hours[i]) < 10 {
						in += pd.Hours[i].Offer
					} else {
						after += pd.Hours[i].Offer
					}
				}
				return after - 10*in
			}},
		{id: row("corn_pollen/high humidity without a daytime drop"), setting: "maize, 97 % all day: pollen of the day", says: "anthers stay shut", rule: atMost(0.05), as: constructed,
			model: func() float64 { return l.plain(corn, ohio, damp).Fill.Mid }},
	}
}

// beeFindings are the results of bees.csv and the bee rows of visits.csv.
func (l *lab) beeFindings() []finding {
	h := func(row, col string) float64 { return l.num("bees/honey_bee/"+row, col) }
	dry := func(g bee.Group, a *air.Hour) float64 { return l.bees().Flight(g, a, 0, false) }
	warm := func(g bee.Group, t float64) float64 { return dry(g, beeAir(t, 600, 0)) }
	atWind := func(u float64) float64 { return bee.WindShare(u) }
	damp := *beeAir(20, 300, 1)
	damp.RH = 95
	return append([]finding{
		{id: "visits/henn_0", setting: "honey bees in still air: share of full work", says: "5.45 flowers in 90 s, the most", rule: relative(1), as: constructed, model: func() float64 { return atWind(0) }},
		{id: "visits/henn_3", setting: "honey bees in 3 m/s (of wind at 2 m): share of full work", says: "3.73 of 5.45 flowers in 90 s", rule: between(0.6, 0.75), as: constructed, must: true,
			model: func() float64 { return atWind(l.num("visits/henn_3", "x")) }},
		{id: "bees/honey_bee/temp_min_forage", setting: "honey bees at 12 degC in full light: flight", says: "do not search for food below", rule: atMost(0.05), as: fitted, must: true,
			model: func() float64 { return warm(bee.Honey, h("temp_min_forage", "low")) }},
		{id: "bees/honey_bee/temp_rising_range", setting: "honey bees from 12 to 16 and from 16 to 20 degC: smaller rise", says: "activity rises from 12 to 20", rule: direction(), as: fitted,
			model: func() float64 {
				return min(warm(bee.Honey, 20)-warm(bee.Honey, 16), warm(bee.Honey, 16)-warm(bee.Honey, 12))
			}},
		{id: "bees/honey_bee/temp_full_activity", setting: "honey bees in an orchard at 13 degC and 300 W/m2: flight", says: "full at 12 to 14 degC", rule: atLeast(0.8), as: unforced,
			model: func() float64 { return dry(bee.Honey, beeAir(13, 300, 0)) },
			miss:  "against this spring orchard in Spain stand a rise from 12 to 20 degC (BurDietz81) and growers' guides; it matters in no warm month"},
		{id: "bees/honey_bee/temp_min_flight", setting: "honey bees at 12.8 degC: flight", says: "do not fly much below", rule: atMost(0.2), as: unforced,
			model: func() float64 { return warm(bee.Honey, h("temp_min_flight", "low")) }},
		{id: "bees/honey_bee/temp_upper_pollen_foraging", setting: "honey bees from 34 to 40 degC: fall of flight", says: "pollen foraging falls from 35 to 40", rule: direction(), as: fitted,
			model: func() float64 { return warm(bee.Honey, 34) - warm(bee.Honey, 40) }},
		{id: "bees/honey_bee/radiation_full_activity", setting: "honey bees at 300 W/m2: flight", says: "full", rule: atLeast(0.9), as: constructed,
			model: func() float64 { return dry(bee.Honey, beeAir(20, h("radiation_full_activity", "low"), 0)) }},
		{id: "bees/honey_bee/radiation_turning_point", setting: "honey bees from 460 to 900 W/m2: fall of flight", says: "falls above 460", rule: direction(), as: unforced,
			model: func() float64 { return dry(bee.Honey, beeAir(20, 460, 0)) - dry(bee.Honey, beeAir(20, 900, 0)) },
			miss:  "left out on purpose: found in one study, against one with a steady rise (ClaRob18)"},
		{id: "bees/honey_bee/wind_reduced", setting: "honey bees in 6.7 m/s at 2 m: share of full work", says: "reduced significantly from 15 mph", rule: atMost(0.2), as: unforced, must: true,
			model: func() float64 { return atWind(h("wind_reduced", "low")) }},
		{id: "bees/honey_bee/wind_drop_28pct", setting: "honey bees in 16 to 21 mph of station wind, middle: share of flights lost (figure from memory)", says: "28 %", rule: share(0.28), as: unforced,
			model: func() float64 {
				u := (h("wind_drop_28pct", "low") + h("wind_drop_28pct", "high")) / 2
				return 1 - atWind(u*air.WindProfile(air.BeeHeight))
			},
			miss: "exits from a hive were counted, the curve is drawn to work on flowers (Henn20); it ends at the bee's own flight speed"},
		{id: "bees/honey_bee/rain_effect", setting: "honey bees, light against no rain, heavy against light, and flight once it stops: least of the three", says: "each shower cuts exits, the heavy one most; resumes promptly", rule: direction(), as: unforced,
			model: func() float64 {
				f := func(rain float64, wet bool) float64 { return l.bees().Flight(bee.Honey, beeAir(22, 500, 1), rain, wet) }
				return min(f(0, false)-f(0.3, true), f(0.3, true)-f(1, true), f(0, true))
			}},
		{id: "bees/honey_bee/rain_effect_extension", setting: "honey bees in 0.5 mm/h of rain: flight", says: "reduced significantly (nil from 0.5 mm/h is chosen)", rule: atMost(0), as: constructed, must: true,
			model: func() float64 { return l.bees().Flight(bee.Honey, beeAir(25, 600, 0), 0.5, true) }},
		{id: "bees/honey_bee/humidity_upper", setting: "honey bees in an orchard at 95 %, no water on the flowers: flight", says: "not seen above 90 %", rule: atMost(0.10), as: unforced,
			model: func() float64 { return dry(bee.Honey, &damp) },
			miss:  "humidity is not in the flight curve: at dawn it would count the low sun twice; wet flowers stand for it"},
		{id: "bees/honey_bee/abiotic_null", setting: "honey bees in Brazil, 3 m/s against calm: share of full work", says: "wind had no effect", rule: relative(1), as: unforced,
			model: func() float64 { return atWind(3) },
			miss:  "against it stand Henn20 and the growers' limit of 15 mph"},
		{id: "bees/honey_bee/weather_sensitivity", setting: "bumble less honey bees in wind, in rain, in cold: least lead", says: "honey bees more sensitive", rule: direction(), as: constructed, model: l.bumbleLead},
		{id: "bees/honey_bee/hour_peak_squash", setting: "squash in Colorado on a clear day: middle of the hour with most visits", says: "most from 8 to 9 h", rule: between(8, 9), as: unforced,
			model: func() float64 {
				return l.visitPeak("summer-squash", colorado, weather{mean: 22, amp: 8, dew: 10, wind: 3, sky: 0.1}, bee.Honey, bee.Bumble, bee.Squash)
			}, miss: "visits rise with the light until noon in the model: its bees do not leave when the pollen is gone; what they bring does peak early"},
	}, l.wildBeeFindings()...)
}

func (l *lab) bumbleLead() float64 {
	lead := func(a *air.Hour, rain float64) float64 {
		return l.bees().Flight(bee.Bumble, a, rain, rain > 0) - l.bees().Flight(bee.Honey, a, rain, rain > 0)
	}
	return min(lead(beeAir(20, 600, 5), 0), lead(beeAir(20, 600, 0), 0.4), lead(beeAir(13, 600, 0), 0))
}

// visitPeak is the local hour, its middle, in which a flower gets most visits of
// some groups together.
func (l *lab) visitPeak(key string, at field, w weather, groups ...bee.Group) (peak float64) {
	most := 0.0
	for hour, n := range l.visitsByHour(key, at, w, groups...) {
		if n > most {
			most, peak = n, float64(hour)+0.5
		}
	}
	return peak
}

// visitsByHour gives the visits to a flower in each local hour.
func (l *lab) visitsByHour(key string, at field, w weather, groups ...bee.Group) (visits [24]float64) {
	pd := l.plain(key, at, w)
	m := l.insect(key, 0)
	for i := range pd.Hours {
		h := &pd.Hours[i]
		for _, g := range groups {
			visits[at.local(h)] += h.Open * h.Flight[g] * m.bees.rate[g] * m.staying(h.Offer)
		}
	}
	return visits
}

// wildBeeFindings are the rows of bumble bees and squash bees.
func (l *lab) wildBeeFindings() []finding {
	warm := func(g bee.Group, t float64) float64 { return l.bees().Flight(g, beeAir(t, 600, 0), 0, false) }
	return []finding{
		{id: "bees/bumble_bee/temp_min_forage", setting: "bumble bees at 10 degC: flight", says: "from 10 degC and sometimes lower", rule: direction(), as: unforced,
			model: func() float64 { return warm(bee.Bumble, l.num("bees/bumble_bee/temp_min_forage", "low")) }},
		{id: "bees/bumble_bee/temp_upper_trips_fall", setting: "bumble bees from 24 to 32 degC: fall of flight", says: "fewer trips at 32 than at 24", rule: direction(), as: fitted,
			model: func() float64 { return warm(bee.Bumble, 24) - warm(bee.Bumble, 32) },
			miss:  "the fall begins at 32 degC in the model, where the paper had already found it"},
		{id: "bees/bumble_bee/rain_effect", setting: "bumble bees in 0.5 mm/h: share of flight lost", says: "less flying in simulated rain", rule: direction(), as: constructed,
			model: func() float64 { return 1 - l.bees().RainFactor(bee.Bumble, 0.5, true) }},
		{id: "bees/squash_bee/temp_min_forage", setting: "squash bees at 12 over 9 degC: gain of flight", says: "from about 10 degC", rule: direction(), as: constructed,
			model: func() float64 { return warm(bee.Squash, 12) - warm(bee.Squash, 9) }},
		{id: "bees/squash_bee/start_relative_sunrise", setting: "squash less honey bees a quarter of an hour before sunrise: flight", says: "females before sunrise, before other bees", rule: direction(), as: constructed,
			model: func() float64 {
				a := beeAirAt(18, 0, 0, -3)
				return l.bees().Flight(bee.Squash, a, 0, false) - l.bees().Flight(bee.Honey, a, 0, false)
			}},
		{id: "bees/squash_bee/pollen_gone_after", setting: "squash, 2 h after the first females: pollen still on offer", says: "almost all gone", rule: atMost(0.2), as: fitted,
			model: func() float64 {
				w := l.crop("summer-squash").Window
				return w.Offer.At(w.Opens + l.num("bees/squash_bee/pollen_gone_after", "low"))
			},
			miss: "the model's clock ends later, drawn to the deposit from 6 to 8 h of PhilGard15"},
		{id: "bees/squash_bee/full_pollination_after", setting: "pumpkin in Ohio, squash bees alone at 60 visits a day (Sampson), until 2 h after sunrise: set", says: "full within 2 h of dawn where abundant", rule: atLeast(0.9), as: unforced,
			model: func() float64 {
				pd := l.plain("pumpkin-winter-squash", ohio, clearDay)
				opens := pd.Opens.In(ohio.zone)
				sunrise := float64(opens.Hour()) + float64(opens.Minute())/60 - pd.Planting.Crop.Window.Opens
				b := Bees{Honey: None, Bumble: None, Squash: Many}
				day := l.kept("pumpkin-winter-squash", ohio, clearDay, b, 1, 0, 24).Visits
				abundant := l.num("bees/squash_bee/visits_per_flower_day", "low") / day
				return l.kept("pumpkin-winter-squash", ohio, clearDay, b, abundant, 0, sunrise+l.num("bees/squash_bee/full_pollination_after", "low")).Set.Mid
			}},
	}
}
