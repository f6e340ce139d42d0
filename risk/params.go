package risk

import (
	"slices"

	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/heat"
	"dawnbrush/risk/memory"
	"dawnbrush/risk/pollen"
	"dawnbrush/risk/source"
)

// Params lists every number of the model that belongs to no crop, with its
// origin. Those of the crops stand in their files.
func Params() []source.Param {
	out := slices.Concat(air.Params(), bee.Params(), pollen.Params(), growth.Params(), heat.Params(), insideParams())
	chosen := source.Choice
	out = append(append(out, mattersParams()...), rowsParams()...)
	return append(out,
		source.Param{Name: "risk.limit_105", Value: Limit105, Unit: "degC", Key: source.KeyCommonPractice, Status: source.CommonPractice,
			Note: "105 degF: above it pollen is held to be sterile; a flag only, the verdict comes from the hours",
			Others: []source.Alternative{
				{Text: "no cucumber pollen tubes at 38 degC", Key: "CukeTube", Where: "abstract", Status: source.Read},
				{Text: "corn pollen dries at 37.8 degC", Key: "BayerCorn", Where: "note text", Status: source.Read},
				{Text: "three hours above 40 degC on two days end tomato set", Key: "PurdTom", Where: "page text", Status: source.Read}}},
		source.Param{Name: "risk.wet_run", Kind: source.Span, Range: &source.Interval{Low: 1, High: 3}, Unit: "h", Key: source.KeyChosen, Status: source.Chosen,
			Note: "length of the wet run in a block of forecast rain: 1 + Poisson(1.2) by quartiles; observed 1.7 to 2.75 wet hours in a wet block of six (Greensboro, New York)"},
		source.Param{Name: "risk.least_wet", Value: leastWet, Unit: "mm", Key: "AMSglossary", Where: "probability of precipitation", Status: source.Read},
		chosen("risk.sure_wet", sureWet, "chance", "of rain where a millimetre is forecast without a chance"),
		chosen("risk.may_wet", mayWet, "chance", "of rain where less is forecast without a chance"),
		chosen("risk.unknown_wet", unknownWet, "mm/h", "rain in a wet hour whose amount is not forecast; observed 2.7 to 4.2"),
		chosen("risk.little_rain", littleRain, "mm", "a block with less falls in one hour; observed 1.1 wet hours"),
		chosen("risk.least_chance", leastProb, "share", "smaller chances of rain move no tenth of a result"),
		chosen("risk.few", levelFactor(Few), "times the book's visits", "gardens differ tenfold; a step that halves the result on a clear day"),
		chosen("risk.many", levelFactor(Many), "times the book's visits", "the step on the other side"),
		chosen("risk.hive", hiveFactor(1), "times the book's honey bee visits", "one hive within about 500 m doubles them, more count as many"),
		chosen("risk.told_shape", toldShape, "1", "the spread of the bee supply narrows once the grower has told a level for every group"),
		chosen("risk.count_half_life", countHalfLife, "days", "age at which a bee count weighs half: bees change through a season; about half the life of a summer forager's generation"),
		source.Param{Name: "risk.hand_book", Value: handBook, Unit: "share", Key: "Szegedi93", Where: "p. 3-4", Status: source.Read,
			Note: "hand-pollinated cucumbers that set on watered plants, for crops of which no trial was found; what the diary's counts are held against"},
		chosen("risk.alike", alike, "share", "two courses of rain that differ by less count as one"),
		chosen("risk.hand_share", handShare, "share of the best hour", "hours this near to the best are advised for the brush"),
		source.Param{Name: "risk.full_share", Value: fullShare, Unit: "share of the need for 95 % set", Key: "MSU19", Where: "p. 14", Status: source.Derived,
			Note: "a well-shaped fruit takes the low end, 8, of the 8 to 12 visits whose middle is the need; squash 6 visits of 310 grains and pumpkin 12 of 167 lie near it"},
		chosen("risk.hour_worth", hourWorth, "money per hour", "the grower's time where nothing is told"),
		chosen("risk.fruit_worth", fruitWorth, "money", "a fruit where the garden file does not say"),
		chosen("risk.clear_gain", clearGain, "share of fruit", "a brush that wins half of the fruit is advised without a look at the bees first"),
		chosen("risk.hopeless", hopeless, "share of flowers", "where a brush sets fewer, nothing is to be gained"),
		chosen("risk.wet_tomorrow", wetTomorrow, "chance of rain", "from here the evening's work for tomorrow's flowers pays"),
		source.Param{Name: "risk.few_rows", Value: fewRows, Unit: "rows", Key: source.KeyCommonPractice, Status: source.CommonPractice,
			Note: "corn in blocks of four rows or more is left to the wind"},
		chosen("risk.own_row", ownRow, "rows upwind", "what a corn row's own tassels bring its silks; by the mean rows upwind one row then gets 0.1 of four rows' pollen, two 0.4, three 0.7"),
		chosen("risk.least_shake", leastShake, "share", "what shaking must win of a good day's pollen to be asked for where the first silk was not seen"),
		chosen("risk.least_kernels", leastKernels, "share", "what shaking must win of an ear's kernels to be asked for where the first silk was seen"),
		chosen("risk.slowest_drying", slowestDrying, "hours of the weights", "the least that a dry hour counts for in the shed of corn: in dull damp air anthers take twice as long"),
		chosen("risk.shake_share", shakeShare, "share", "pollen that lands on silks when tassels are shaken over them"),
		chosen("risk.flag_wet", flagWetChance, "chance of rain", "rain on open flowers is flagged from here"),
		chosen("risk.flag_half", flagHalf, "share", "heat is flagged where it takes half"),
		chosen("risk.flag_late", flagLateHours, "h", "cold is flagged where it delays the opening so long"),
		chosen("risk.flag_mould_hours", flagMouldHours, "h", "rain film at 15 to 25 degC inside a one-day flower"),
		chosen("risk.flag_mould", flagMould, "chance", "mould on tassels and silks"),
		chosen("risk.flag_dry", flagDryAlive, "share", "corn pollen alive on its way, under which dry air is flagged"),
		chosen("risk.strayed", memory.Strayed, "standard deviations", "a first flower further from the book counts as if it lay here, so that a slip moves a cultivar by a bounded step"),
		chosen("risk.tellable", tellable, "chance", "from here a difference between cultivars is told as one; one such verdict in ten may be wrong"),
		chosen("risk.dry_ks", dryKs, "Ks", "soil below it counts as dry for cat-faced fruit, for which no source holds it to blame"),
		chosen("risk.known_day", minHours, "h", "hours with a temperature that make a day known"),
	)
}
