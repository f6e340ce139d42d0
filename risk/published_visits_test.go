package risk

import (
	"fmt"

	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/pollen"
)

// Reasons that more than one row shares.
const (
	betweenCounts = "the model's 167 grains a honey bee visit, by the visits that suffice, lie between two counts: 104 (Vidal10) and 260 (Pfister17)"
	noStep        = "the model has no least number of grains: set rises from the first grain on"
)

// visitFindings are the rows of visits.csv on cucumber, squash and pumpkin.
func (l *lab) visitFindings() []finding {
	const pumpkin, squash, cucumber = "pumpkin-winter-squash", "summer-squash", "cucumber"
	v := func(id, col string) float64 { return l.num("visits/"+id, col) }
	honey := func(n float64) func() float64 { return func() float64 { return l.exact(pumpkin, bee.Honey, n) } }
	grains := func(n float64) func() float64 { return func() float64 { return l.grains(pumpkin, n) } }
	perVisit := func(g bee.Group) func() float64 {
		return func() float64 { return l.insect(pumpkin, 0).full[g] * fullShare * l.crop(pumpkin).Need.Set }
	}
	free := v("nicodemo_free", "y") / 100
	return append([]finding{
		{id: "visits/vidal_1", setting: "Howden pumpkin, one honey bee visit: grains", says: "53; single visits 53 to 230", rule: between(53, 230), as: unforced,
			model: perVisit(bee.Honey)},
		{id: "visits/vidal_12", setting: "Howden pumpkin, 12 honey bee visits: grains", says: "1253", rule: relative(v("vidal_12", "y")), as: unforced,
			model: func() float64 { return v("vidal_12", "x") * perVisit(bee.Honey)() }, miss: betweenCounts},
		{id: "visits/vidal_set12", setting: "Howden pumpkin, 12 honey bee visits: set", says: "100 %", rule: share(v("vidal_set12", "y") / 100), as: fitted,
			model: honey(v("vidal_set12", "x"))},
		{id: "visits/pfister_grains", setting: "Hokkaido pumpkin, 2500 grains: set, of the most possible", says: "0.95 (38.95 of 41 %)", rule: atLeast(0.9), as: fitted, must: true,
			model: grains(v("pfister_grains", "x"))},
		{id: "visits/pfister_bombus", setting: "Hokkaido pumpkin, one bumble bee visit: grains", says: "864", rule: relative(v("pfister_bombus", "x")), as: constructed,
			model: perVisit(bee.Bumble)},
		{id: "visits/pfister_apis", setting: "Hokkaido pumpkin, one honey bee visit: grains", says: "260", rule: relative(v("pfister_apis", "x")), as: unforced,
			model: perVisit(bee.Honey), miss: betweenCounts},
		{id: "visits/pfister_b_need", setting: "Hokkaido pumpkin, 2.9 bumble bee visits: set", says: "the need, 0.95", rule: atLeast(0.9), as: fitted, must: true,
			model: func() float64 { return l.exact(pumpkin, bee.Bumble, v("pfister_b_need", "x")) }},
		{id: "visits/pfister_a_need", setting: "Hokkaido pumpkin, 9.6 honey bee visits: set", says: "the need, 0.95", rule: atLeast(0.9), as: fitted, must: true,
			model: honey(v("pfister_a_need", "x"))},
		{id: "visits/cady_min", setting: "Wizard pumpkin, half of the least grains that set fruit: set", says: "none under 2000 grains", rule: atMost(0.10), as: unforced,
			model: grains(v("cady_min", "x") / 2), miss: noStep},
		{id: "visits/ali_nomia", setting: "pumpkin in Pakistan, one visit of Nomia, 376.6 grains: set", says: "36.7 %", rule: share(v("ali_nomia", "y") / 100), as: fitted, model: grains(376.6)},
		{id: "visits/ali_dorsata", setting: "the same, Apis dorsata, 204.15 grains", says: "23.3 %", rule: share(v("ali_dorsata", "y") / 100), as: fitted, model: grains(204.15)},
		{id: "visits/ali_halictus", setting: "the same, Halictus, 177.85 grains", says: "20 %", rule: share(v("ali_halictus", "y") / 100), as: fitted, model: grains(177.85)},
		{id: "visits/cane_male7", setting: "summer squash, 7 visits of male squash bees: set", says: "need fully met", rule: atLeast(0.9), as: constructed, must: true,
			model: func() float64 { return l.exact(squash, bee.Squash, v("cane_male7", "x")) }},
		{id: "visits/sampson_6", setting: "squash, 6 squash bee visits: set", says: "marketable fruit", rule: atLeast(0.9), as: constructed, must: true,
			model: func() float64 { return l.exact(squash, bee.Squash, v("sampson_6", "x")) }},
		{id: "visits/teped", setting: "zucchini in Utah, set of one squash bee visit over one honey bee visit", says: "equal", rule: relative(1), as: unforced,
			model: func() float64 { return l.exact(squash, bee.Squash, 1) / l.exact(squash, bee.Honey, 1) },
			miss:  "squash bees are taken at 300 grains (6 to 7 visits suffice, Sampson and Cane11), honey bees at 167; the sources disagree"},
		{id: "visits/zuc_fresh", setting: "zucchini by hand, fresh pollen at dawn: set", says: "90 % marketable", rule: share(v("zuc_fresh", "y") / 100), as: fitted,
			model: func() float64 { return l.plain(squash, nyField, clearDay).BestShare }},
		{id: "visits/zuc_stored", setting: "zucchini by hand, pollen stored 5 days in the kindest air of the same paper's trays (20 degC, 90 %): set", says: "0 % marketable", rule: share(v("zuc_stored", "y") / 100), as: unforced, must: true,
			model: func() float64 { return l.tray(squash, 20, 90, 24*v("zuc_stored", "x")) }},
		{id: "visits/knapp_exclude", setting: "UK courgettes without any visit: marketable", says: "56 %", rule: share(v("knapp_exclude", "y") / 100), as: constructed,
			model: func() float64 {
				none := Bees{Honey: None, Bumble: None, Squash: None}
				return l.judge(nyField, clearDay, 1, Planting{Crop: l.crop(squash), Setting: crop.Parthenocarpic}, none).Set.Mid
			}},
		{id: "visits/cuke_need", setting: "cucumber, 8 honey bee visits, the low end of 8 to 12: set", says: "marketable", rule: atLeast(0.9), as: constructed, must: true,
			model: func() float64 { return l.exact(cucumber, bee.Honey, v("cuke_need", "x")) }},
		{id: "visits/stang_direction", setting: "cucumber, 0, 1, 6, 12, 18 visits: none sets nothing, more visits set more and bring more seed, bumble bees more than honey bees; least step", says: "as said", rule: direction(), as: unforced,
			model: l.moreVisits},
		{id: "visits/cuke_turgid", setting: "cucumber in Hungary, well watered, by hand at 12 to 13 h, 18 to 31 degC: set", says: "93 % of 30 flowers", rule: share(v("cuke_turgid", "y") / 100), as: fitted,
			model: func() float64 {
				w := weather{mean: 24.5, amp: 6.5, dew: 15, wind: 2, sky: 0.25}
				pd := l.plain(cucumber, hungary, w)
				return l.handFrom(pd, hungary, 12)
			}},
		{id: "visits/cuke_dry", setting: "the same by hand, flagging over turgid vines: set", says: "57 of 93 %", rule: share(v("cuke_dry", "y") / v("cuke_turgid", "y")), as: constructed, must: true,
			model: func() float64 { return pollen.FlaggingShare }},
		{id: "visits/pump_20", setting: "pumpkin at 20/15 degC: female flowers left of the usual", says: "nearly all open", rule: atLeast(0.9), as: constructed,
			model: func() float64 { return l.femalesAfter(20, 15) }},
		{id: "visits/pump_32", setting: "pumpkin after a week at 32/27 degC: female flowers left", says: "2 of 17 % of nodes", rule: share(v("pump_32", "y") / v("pump_20", "y")), as: constructed,
			model: func() float64 { return l.femalesAfter(32, 27) }},
		{id: "visits/phil_window", setting: "pumpkin in Ohio: share of the day's pollen that bees bring from 6 to 8 h", says: "most", rule: atLeast(0.5), as: fitted,
			model: func() float64 {
				pd := l.plain(pumpkin, ohio, clearDay)
				return l.hourOf(pd, ohio, 6).Bees + l.hourOf(pd, ohio, 7).Bees
			}},
	}, l.winterSquashByHours(free)...)
}

// winterSquashByHours are the rows of Nico09. Of what bees set, the paper gives
// flowers left free (40 %, absolute), visited until 9 h and after 9 h. The model
// speaks of the share of flowers that may set, so the field's own supply of
// honey bees, the only visitors before 9 h there, is fitted to its free set: one
// degree of freedom. The other two rows are then foretold, though the crop's
// clock of pollen on offer was drawn with this paper in sight.
//
// The days of the trial were not seen, so the equinox stands for them (sunrise
// 6:17). The rows hang on that: bees after 9 h set 0.05 of free where the sun
// rises at 6:06, 0.12 at 6:17, 0.18 at 6:26, 0.31 at 6:49.
func (l *lab) winterSquashByHours(free float64) []finding {
	const pumpkin = "pumpkin-winter-squash"
	bees := Bees{Bumble: None, Squash: None}
	set := func(k, from, to float64) float64 {
		return l.kept(pumpkin, saoPaulo, clearDay, bees, k, from, to).Set.Mid
	}
	supply := func() float64 { return l.supplyFor(free, func(k float64) float64 { return set(k, 0, 24) }) }
	nine := l.num("visits/nicodemo_to9", "x")
	return []finding{
		{id: "visits/nicodemo_free", setting: "winter squash in Brazil, free visits: set (the supply is fitted to this)", says: "40 %", rule: share(free), as: constructed,
			model: func() float64 { return set(supply(), 0, 24) }},
		{id: "visits/nicodemo_to9", setting: "the same, visits until 9 h: of free", says: "35 of 40 %", rule: between(0.8, 0.95), as: fitted, must: true,
			model: func() float64 { return set(supply(), 0, nine) / free }},
		{id: "visits/nicodemo_after9", setting: "the same, visits after 9 h: of free", says: "0 of 40 %", rule: atMost(0.15), as: fitted, must: true,
			model: func() float64 { return set(supply(), nine, 24) / free }},
		{id: "visits/nicodemo_16", setting: "the same, from 8 to 16 honey bee visits: rise of set", says: "rises up to 16", rule: direction(), as: unforced,
			model: func() float64 { return l.exact(pumpkin, bee.Honey, 16) - l.exact(pumpkin, bee.Honey, 8) }},
	}
}

// moreVisits gives the smallest step of what Stang98 found to rise.
func (l *lab) moreVisits() float64 {
	least := 1.0
	for _, g := range []bee.Group{bee.Honey, bee.Bumble} {
		if l.exact("cucumber", g, 0) != 0 {
			return -1
		}
		for i, n := range []float64{1, 6, 12, 18} {
			before := []float64{0, 1, 6, 12}[i]
			least = min(least, l.exact("cucumber", g, n)-l.exact("cucumber", g, before))
			least = min(least, l.exact("cucumber", bee.Bumble, n)-l.exact("cucumber", bee.Honey, n))
		}
	}
	return least
}

// tray is the share of a crop's pollen alive after hours in still air.
func (l *lab) tray(key string, t, rh, hours float64) float64 {
	return l.insect(key, 0).ageing.AfterHours(vpdOf(t, rh), 1, hours)
}

// femalesAfter gives what the plan reckons of female pumpkin flowers ten days
// after a week at two temperatures, against those without any spell.
func (l *lab) femalesAfter(day, night float64) float64 {
	count := func(d, n float64) float64 {
		w := chamber(20, 15)
		w.temp = func(k, h int) float64 {
			if at := 24*k + h; at >= -24*17-6 && at < -24*10 { // seven days, each with the night before it
				return dayNight(h, d, n)
			}
			return dayNight(h, 22, 16)
		}
		p := Planting{Crop: l.crop("pumpkin-winter-squash"), Plants: 1000}
		found, _ := flowers(l.judge(ithaca, w, 25, p, Bees{}), ithaca.date)
		return float64(found)
	}
	return count(day, night) / count(22, 16)
}

// gourdFindings are one visit to a wild gourd, as a share of the control's set:
// the nearest measured worth of a squash bee's visit.
func (l *lab) gourdFindings() []finding {
	row := func(id, who, why string, g bee.Group) finding {
		y := l.num("visits/"+id, "y")
		return finding{id: "visits/" + id, setting: "wild gourd, one visit of a " + who + ": set, of the control's 85.7 %", says: fmt.Sprintf("%.1f of 85.7 %%", y),
			rule: share(y / 85.7), as: unforced, model: func() float64 { return l.exact("summer-squash", g, 1) }, miss: why}
	}
	return []finding{
		row("gourd_female", "female squash bee", "the model does not tell females from males, which bring far less", bee.Squash),
		row("gourd_male", "male squash bee", "", bee.Squash),
		row("gourd_apis", "honey bee", "honey bees do set squash and pumpkin (Vidal10), on the wild gourd they did not", bee.Honey),
	}
}
