package ledger

import (
	"maps"
	"slices"

	"dawnbrush/risk/source"
)

// Params lists the numbers of the account that no table holds, with their origin.
func Params() []source.Param {
	as := func(status source.Status, key string) func(string, float64, string, string) source.Param {
		return func(name string, v float64, unit, note string) source.Param {
			return source.Param{Name: "ledger." + name, Value: v, Unit: unit, Key: key, Status: status, Note: note}
		}
	}
	chosen := as(source.Chosen, source.KeyChosen)
	common := as(source.CommonPractice, source.KeyCommonPractice)
	memory := as(source.Memory, source.KeyMemory)
	out := []source.Param{
		{Name: "ledger.trellis", Value: trellis, Unit: "m", Key: "FAO56", Where: "table 12", Status: source.Memory, Note: "height of trained vines and tomatoes, the lower end of 1.5 to 2"},
		chosen("least_grown", leastGrown, "share", "of the usual time to full cover: plants set out in flower are not grown yet"),
		memory("potting_full", pottingFull, "m3/m3", "potting soil at field capacity"),
		memory("potting_dry", pottingDry, "m3/m3", "potting soil at wilting point"),
		{Name: "ledger.surface_efficiency", Value: surfaceEfficiency, Unit: "share", Key: "FAOTM4", Where: "annex I", Status: source.Quoted,
			Note: "of the water of furrows and floods that stays with the roots: the lower end of 60 to 90 % for all ways of watering"},
		chosen("canopy.other", otherCanopy, "m2", "leaves of one grown plant in a pot, of a crop that is not listed"),
		chosen("gap_days", gapDays, "days", "to both sides of a day of which nothing is known, whose use bounds it"),
		chosen("wet_amount", wetAmount, "mm", "rain of a wet day whose amount is not forecast"),
		chosen("amount_low", amountLow, "times the forecast", "lower bound of the rain at one place, where it rains"),
		chosen("amount_high", amountHigh, "times the forecast", "upper bound"),
		chosen("least_told", leastTold, "share of the day's hours", "from here a day's rain is told"),
		chosen("old_reading", oldReading, "days", "how far back a gauge's reading may reach"),
		common("gauge_hours", gaugeHours, "h", "the stretch of a reading with none before it"),
		chosen("afternoon", afternoon, "h of the clock", "from here a watering counts for the next morning"),
		chosen("half", half, "share", "what the middle track takes where a watering, or its amount, is not noted"),
		chosen("looking", looking, "share of the available water", "from here tracks that differ on what to do ask for a look at the soil"),
		chosen("likely_rain", likelyRain, "chance", "from here rain is worth waiting for"),
		chosen("enough_rain", enoughRain, "share of what is lacking", "that this rain should bring"),
		chosen("little_cost", littleCost, "Ks", "down to which waiting costs little"),
		chosen("hot_day", hotDay, "mm of reference", "a day that takes much"),
		chosen("young_roots", youngRoots, "m", "roots that count as short"),
		chosen("wetting", wetting, "mm", "rain or watering that tells why nothing is due"),
		chosen("recent", recent, "days", "how far back it tells so"),
		chosen("at_once", atOnce, "mm", "more is given in two waterings"),
		chosen("matters", matters, "share of the doubt", "that unmeasured rain must make before the gauge is asked for"),
		chosen("short_rain", shortRain, "mm", "doubt about a day's rain worth a reading"),
		common("feel", feel, "m", "where to feel for moisture in a bed, four to five inches"),
		chosen("feel_share", feelShare, "share of the roots' depth", "where to feel while they are short"),
		chosen("second", second, "share of the day's use", "that a second watering brings where full soil would not last the day"),
		common("pot_feel", potFeel, "m", "the same in a pot, its top inch"),
		chosen("before_sunrise", beforeSunrise.Hours(), "h", "before which no watering begins"),
		common("mid_morning", midMorning, "h of the clock", "end of a morning's watering"),
		chosen("evening", evening, "h of the clock", "begin of the second best time"),
		chosen("night", night, "h of the clock", "its end"),
		common("inch", inch, "mm a week", "the common rule, rain counted"),
		chosen("uneven", uneven, "swing in a week, shares of the readily available water", "our own policy: the paper gives no threshold for the ills of uneven water"),
	}
	under := func(name string, v float64, unit, key, where string, status source.Status, note string) {
		out = append(out, source.Param{Name: "ledger." + name, Value: v, Unit: unit, Key: key, Where: where, Status: status, Note: note})
	}
	under("tunnel.least", tunnelLeast, "share", "DePalma22", "abstract", source.Read, "of the outside's reference in a tunnel, lower end: 35 % less under an agrotextile that lets 73 % of the light in")
	under("tunnel.mid", tunnelMid, "share", "DePalma22", "abstract", source.Derived, "middle: mean of 0.65 and 0.69 over a vineyard and of the 0.82 of UCtunnel")
	under("tunnel.most", tunnelMost, "share", "UCtunnel", "page text", source.Quoted, "upper end: pan evaporation 18 % less in tunnels of raspberries, an unpublished study that the page tells of")
	under("house.least", houseLeast, "share", "Sujitha21", "abstract", source.Read, "of the outside's reference in a house, lower end: great pans in and outside")
	under("house.mid", houseMid, "share", "Amiri18", "abstract", source.Read, "middle: great pans in and outside a glasshouse")
	under("house.most", houseMost, "share", "Amiri18", "abstract", source.Derived, "upper end: a small pan in there against a great one outside, 20.3 of 27.6 mm a week")
	under("still_air", stillAir, "s/m", "Fernandez10", "abstract", source.Read, "resistance of the air in a house whose logger tells temperature and humidity; best of those tried against a lawn on lysimeters")
	out = append(out, chosen("least_logged", leastLogged, "days", "that a logger must have told before their share stands for days that it does not"))
	under("light_min", lightMin, "share", "PurdLight", "page text", source.Derived, "of the outside's light that gets in, lower end: plastic of six years")
	under("light_max", lightMax, "share", "PurdLight", "page text", source.Derived, "upper end: newer plastic")
	for _, key := range slices.Sorted(maps.Keys(canopies)) {
		out = append(out, chosen("canopy."+key, canopies[key], "m2", "leaves of one grown plant in a pot"))
	}
	return out
}
