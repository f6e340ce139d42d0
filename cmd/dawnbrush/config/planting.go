package config

import (
	"strconv"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// mostPlants bounds the plants, rows and buds of one planting.
// [chosen: an acre of sweet corn has some 25,000 plants, memory]
const mostPlants = 100_000

// plantingSettings are the keys of a [[planting]]. The crop stands before
// what hangs on it.
func plantingSettings() []setting {
	return []setting{
		required(textSetting("name", "your own name for the planting; the diary goes by it, so do not change it in mid-season", `"zucchini, south bed"`,
			func(s scope) *string { return &s.planting.Name })),
		{key: "crop", doc: "what grows there: cucumber, zucchini, pumpkin, sweet corn, tomato, ...", example: `"zucchini"`,
			required: true, quoted: true, read: readCrop,
			show: func(s scope) string {
				if s.planting.Crop == nil {
					return ""
				}
				return s.planting.Crop.Key
			}},
		{key: "species", doc: "squash and pumpkin only: pepo, maxima or moschata, as the seed packet says", example: `"pepo"`, quoted: true,
			when: func(c *crop.Crop) bool { return len(c.Species) > 0 },
			read: readSpecies, show: func(s scope) string { return s.planting.Species }},
		{key: "type", doc: "the trade's type of a cucumber: slicing, pickling, european, beit-alpha, asian or lemon; it tells when to pick and how it usually sets", example: `"slicing"`, quoted: true,
			when: func(c *crop.Crop) bool { return len(c.Types) > 0 },
			read: readType, show: func(s scope) string { return s.planting.Type }},
		textSetting("cultivar", "the cultivar, as the seed packet says", `"Long Green"`,
			func(s scope) *string { return &s.planting.Cultivar }),
		{key: "sets", doc: "how it sets fruit: monoecious (usual), gynoecious (all female), parthenocarpic (without pollen), triploid (seedless)",
			example: `"monoecious"`, quoted: true, when: hasSettings, read: readSets,
			show: func(s scope) string { return string(s.planting.Setting) }},
		{key: "pollenizer", doc: "true when a pollen parent stands nearby: gynoecious and triploid kinds need one", example: "true", when: hasSettings,
			read: func(in *reader, key string, v *node, s scope) {
				if b, ok := in.yesNo(key, v); ok {
					s.planting.Pollenizer = b
				}
			},
			show: func(s scope) string { return strconv.FormatBool(s.planting.Pollenizer) }},
		textSetting("bed", "the bed it stands in", `"bed 3"`, func(s scope) *string { return &s.planting.Bed }),
		countSetting("plants", "number of plants", "6", 1, mostPlants, func(s scope) *int { return &s.planting.Plants }),
		wordSetting("support", "how vines are led: ground or trellis", `"trellis"`,
			[]risk.Support{risk.OnGround, risk.OnTrellis}, func(s scope) *risk.Support { return &s.planting.Support }),
		cornOnly(countSetting("rows", "corn only: number of rows side by side, for the wind has to carry the pollen across", "4", 1, mostPlants,
			func(s scope) *int { return &s.planting.Rows })),
		cornOnly(rowLength()),
		cornOnly(wordSetting("rows_run", "corn only: how the rows run, north-south, northeast-southwest, east-west or northwest-southeast; wind along a few rows feeds them better than wind across", `"north-south"`,
			[]risk.RowsRun{risk.NorthSouth, risk.NorthEast, risk.EastWest, risk.NorthWest}, func(s scope) *risk.RowsRun { return &s.planting.RowsRun })),
		cornOnly(wordSetting("sweetness", "corn only: su (sugary), se (sugary enhanced) or sh2 (supersweet), as the seed packet says: sh2 and the others spoil each other's kernels", `"su"`,
			[]risk.Sweetness{risk.Sugary, risk.SugaryEnhanced, risk.Supersweet}, func(s scope) *risk.Sweetness { return &s.planting.Sweetness })),
		dateSetting("sown", "day the seed was sown", "2026-05-10", func(s scope) *forecast.Date { return &s.planting.Sown }),
		dateSetting("transplanted", "day it was planted out, if it was raised in pots", "2026-06-01",
			func(s scope) *forecast.Date { return &s.planting.Transplanted }),
		dateSetting("first_male", "first male flower seen open; of corn, first tassel shedding", "2026-06-20",
			func(s scope) *forecast.Date { return &s.planting.FirstMale }),
		dateSetting("first_female", "first female flower seen open; of a muskmelon, first perfect one; of corn, first silk; of tomato, pepper and bean, any flower", "2026-06-26",
			func(s scope) *forecast.Date { return &s.planting.FirstFemale }),
		dateSetting("finished", "day it was pulled out or done with", "2026-09-20", func(s scope) *forecast.Date { return &s.planting.Finished }),
		wordSetting("cover", "what stands over the flowers: none, row cover, tunnel or house", `"none"`,
			[]risk.Cover{risk.Open, risk.RowCover, risk.Tunnel, risk.House}, func(s scope) *risk.Cover { return &s.planting.Cover }),
		insideOnly(textSetting("logger", "CSV file of the logger in the tunnel or house, beside this file; `dawnbrush observe --help` tells its columns", `"tunnel.csv"`,
			func(s scope) *string { return &s.planting.Logger })),
		insideOnly(setting{key: "bumble_hive", doc: "true when a hive of bumble bees stands in the tunnel or house", example: "true",
			read: func(in *reader, key string, v *node, s scope) {
				if b, ok := in.yesNo(key, v); ok {
					s.planting.BumbleHive = b
				}
			},
			show: func(s scope) string { return strconv.FormatBool(s.planting.BumbleHive) }}),
		numberSetting("minutes_per_flower", "your own pace with the brush, in minutes", "1", 0.05, 60, // [chosen: 3 seconds to an hour]
			func(s scope) *float64 { return &s.planting.MinutesPerFlower }),
		numberSetting("fruit_worth", "what one good fruit is worth to you, in your own money", "1.50", 0, 1e6, // [chosen: a giant pumpkin at the fair]
			func(s scope) *float64 { return &s.planting.FruitWorth }),
		{key: "buds", doc: "female buds showing colour when you last counted: tomorrow's flowers", example: "12",
			read: func(in *reader, key string, v *node, s scope) {
				if n, ok := in.count(key, v, 0, mostPlants); ok {
					s.planting.Buds = n
				}
			},
			show: func(s scope) string {
				if s.planting.BudsOn.IsZero() {
					return ""
				}
				return strconv.Itoa(s.planting.Buds)
			}},
		dateSetting("buds_on", "evening of that count; it holds for the next morning only", "2026-07-15",
			func(s scope) *forecast.Date { return &s.planting.BudsOn }),
	}
}

func required(set setting) setting {
	set.required = true
	return set
}

func hasSettings(c *crop.Crop) bool { return len(c.Settings) > 0 }

func cornOnly(set setting) setting {
	set.when = func(c *crop.Crop) bool { return c.Pollination == crop.Wind }
	return set
}

func rowLength() setting {
	// [chosen: a hand's breadth to a kilometre]
	return measured(lengths(), "row_length", "corn only: length of a row in {unit}", "10", 0.1, 1000,
		func(s scope) *float64 { return &s.planting.RowLength })
}

// planting reads one [[planting]].
func (in *reader) planting(item *node, s scope) {
	*s.planting = plantingDefaults(nil)
	in.table(item, plantingSettings(), s)
	in.checkFlowering(s)
	in.checkDates(item, s)
	in.checkBuds(s)
	in.checkInside(s)
}

// readCrop also sets what the crop has for a default.
func readCrop(in *reader, key string, v *node, s scope) {
	if v.kind != kindText {
		in.wrong(key, v, kindText)
		return
	}
	c, ok := in.known.Crops.Find(v.text)
	if !ok {
		var words, names []string
		for _, c := range in.known.Crops.Crops() {
			words, names = append(words, c.Words()...), append(names, c.Name)
		}
		hint := wordHint(v.text, words)
		if _, near := Nearest(v.text, words); !near {
			hint = wordHint("", names)
		}
		in.fault(v.offset, hint, "there is no crop %s here", said(v.text))
		return
	}
	usual := plantingDefaults(c)
	s.planting.Crop, s.planting.Setting, s.planting.Species = c, usual.Setting, usual.Species
	if t, ok := c.FindType(v.text); ok { // "pickling cucumber"
		setType(s.planting, t)
		in.given[s.path+"type"] = v.offset
	}
}

func readSpecies(in *reader, key string, v *node, s scope) {
	if v.kind != kindText {
		in.wrong(key, v, kindText)
		return
	}
	c := s.planting.Crop
	if c == nil {
		return // the crop's own fault comes first
	}
	if len(c.Species) == 0 {
		in.fault(v.offset, "leave "+key+" out", "a %s is one species, there is none to choose", c.Name)
		return
	}
	if sp, ok := c.FindSpecies(v.text); ok {
		s.planting.Species = sp.Key
		return
	}
	in.fault(v.offset, wordHint(strings.TrimPrefix(strings.ToLower(v.text), "cucurbita "), speciesWords(c)), "%s cannot be %s", key, said(v.text))
}

func speciesWords(c *crop.Crop) []string {
	words := make([]string, len(c.Species))
	for i, sp := range c.Species {
		words[i] = sp.Key
	}
	return words
}

// readSets knows from the crop how its cultivars can set fruit.
func readSets(in *reader, key string, v *node, s scope) {
	all := []crop.Setting{crop.Monoecious, crop.Gynoecious, crop.Parthenocarpic, crop.Triploid}
	w, ok := in.word(key, v, texts(all))
	c := s.planting.Crop
	if !ok || c == nil {
		return
	}
	if set := crop.Setting(w); c.Allows(set) {
		s.planting.Setting = set
		return
	}
	hint := "leave " + key + " out"
	if len(c.Settings) > 0 {
		hint = "it can be " + list(texts(c.Settings))
	}
	for _, other := range in.known.Crops.Crops() { // a kind of its own, such as the seedless watermelon
		if other.Allows(crop.Setting(w)) && strings.HasSuffix(other.Name, " "+c.Name) {
			hint = "write crop = " + quote(other.Name)
		}
	}
	in.fault(v.offset, hint, "a %s is never %s", c.Name, w)
}
