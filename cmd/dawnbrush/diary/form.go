package diary

import (
	"dawnbrush/forecast/unit"
	"dawnbrush/risk/memory"
)

// Form is how one kind of note is written.
type Form struct {
	Kind    memory.Kind
	Pattern string // with capitals for what to fill in and brackets for what may be left out
	Example string // a line that is understood as it stands, but for the planting's name
	Meaning string
}

// where says what a note is about.
type where uint8

const (
	nowhere    where = iota // the whole garden, never a planting
	anywhere                // a planting, a bed or nothing
	somewhere               // a planting, a bed or the words "whole garden"
	inBed                   // a planting or a bed
	inPlanting              // a planting
)

// text says which text a note has.
type text uint8

const (
	noText text = iota
	product
	remark
)

// choice is a phrase that settles a word of the entry.
type choice struct {
	phrases []string // the first one is written when an entry is said
	set     func(*memory.Entry)
	is      func(*memory.Entry) bool
}

// spec is a form with what Parse and Check need.
type spec struct {
	Form
	also    []string // other words for the kind
	where   where
	text    text
	slots   []slot
	choices []choice
	choose  string   // what to say when a choice is missing; empty when none is needed
	noise   []string // words that add nothing
}

// Forms lists how every kind of note is written, in the order of memory.Kinds.
func Forms() []Form {
	var out []Form
	for _, k := range memory.Kinds() {
		out = append(out, specOf(k).Form)
	}
	return out
}

// write gives the remedy of a refusal.
func (s *spec) write() string { return "write: note " + s.Example }

// specOf finds the form of a kind; nil when there is none.
func specOf(k memory.Kind) *spec {
	var s spec
	switch k {
	case memory.Buds, memory.Opened, memory.Brushed, memory.Bees, memory.Set, memory.First:
		s = flowerForm(k)
	case memory.Rain, memory.Water, memory.Feed, memory.Spray, memory.Cover:
		s = careForm(k)
	case memory.Beetles, memory.Slugs, memory.Symptom, memory.Fruits, memory.Picked, memory.Remark:
		s = lookForm(k)
	default:
		return nil
	}
	s.Kind = k
	return &s
}

func count(of slot) slot {
	of.whole, of.most = true, mostCount
	return of
}

func bySex() []choice {
	sex := func(word string, phrases ...string) choice {
		return choice{phrases, func(e *memory.Entry) { e.Sex = word }, func(e *memory.Entry) bool { return e.Sex == word }}
	}
	return []choice{sex("male", "male", "males", "tassel", "tassels"), sex("female", "female", "females", "perfect", "silk", "silks")}
}

// Keys of the groups of bees, as in package bee.
const (
	honeyBee  = "honey_bee"
	bumbleBee = "bumble_bee"
	squashBee = "squash_bee"
)

func byGroup() []choice {
	group := func(word string, phrases ...string) choice {
		return choice{append(phrases, word), func(e *memory.Entry) { e.Group = word }, func(e *memory.Entry) bool { return e.Group == word }}
	}
	return []choice{group(honeyBee, "honey bees", "honey bee", "honeybees", "honeybee", "honey"),
		group(bumbleBee, "bumble bees", "bumble bee", "bumblebees", "bumblebee", "bumbles", "bumble"),
		group(squashBee, "squash bees", "squash bee")}
}

func byWhom() []choice {
	who := func(word string, phrases ...string) choice {
		return choice{phrases, func(e *memory.Entry) { e.By = word }, func(e *memory.Entry) bool { return e.By == word }}
	}
	return []choice{who(memory.ByHand, "by hand", "hand", "by brush", "brush", "brushed"), who(memory.ByBees, "by bees", "bees")}
}

// flowerForm gives the forms about flowers and who pollinates them.
func flowerForm(k memory.Kind) spec {
	flowers := []string{"flowers", "flower", "blossoms", "blossom", "blooms", "bloom"}
	females := nouns("female", "females", "f", "perfect", "silk", "silks") // a melon fruits from perfect flowers
	switch k {
	case memory.Buds:
		return spec{where: inPlanting, also: []string{"bud"}, noise: flowers,
			slots: []slot{count(slot{of: ofFemale, what: "buds", words: append(nouns("buds", "bud"), females...), bare: true, plain: true, must: true})},
			Form: Form{Pattern: "buds N PLANTING", Example: "buds 12 cucumber",
				Meaning: "female buds showing colour this evening: they open tomorrow"}}
	case memory.Opened:
		return spec{where: inPlanting, also: []string{"open", "opens"}, noise: append([]string{"and"}, flowers...),
			slots: []slot{count(slot{of: ofMale, what: "male flowers", words: nouns("male", "males", "m", "tassel", "tassels")}),
				count(slot{of: ofFemale, what: "female flowers", words: females})},
			Form: Form{Pattern: "opened [N male] [N female] PLANTING", Example: "opened 20 male 3 female zucchini",
				Meaning: "flowers open today; of tomato, pepper and bean just the number"}}
	case memory.Brushed:
		return spec{where: inPlanting, also: []string{"brush", "pollinated", "handpollinated", "hand-pollinated"}, noise: append([]string{"female", "females", "silks", "by", "hand"}, flowers...),
			slots: []slot{count(slot{of: ofCount, what: "flowers brushed", words: nouns(flowers...), bare: true, plain: true, must: true, above: true})},
			Form:  Form{Pattern: "brushed N PLANTING", Example: "brushed 12 cucumber", Meaning: "flowers pollinated by hand"}}
	case memory.Bees:
		return spec{where: inPlanting, also: []string{"bee"}, choices: byGroup(), noise: []string{"watched", "and"},
			slots: []slot{{of: ofMinutes, what: "minutes watched", words: minuteWords(), must: true, above: true, most: mostMinutes},
				count(slot{of: ofFlowers, what: "flowers watched", words: nouns(flowers...), must: true, above: true}),
				count(slot{of: ofVisits, what: "visits", words: nouns("visits", "visit", "bees", "bee"), bare: true, must: true})},
			Form: Form{Pattern: "bees N min N flowers N [visits] [honey|bumble|squash bees] PLANTING", Example: "bees 5min 10 flowers 3 cucumber",
				Meaning: "bees counted: how long, how many flowers in view, how often one was visited; --at 07:35 when it was earlier"}}
	case memory.Set:
		return spec{where: inPlanting, choices: byWhom(), choose: "by bees or by hand?", noise: append([]string{"out", "by", "fruit", "fruits"}, flowers...),
			slots: []slot{count(slot{of: ofCount, what: "flowers that set", words: nouns("set"), bare: true, plain: true, must: true}),
				count(slot{of: ofOf, what: "flowers pollinated", words: nouns("pollinated"), lead: "of", plain: true, must: true, above: true})},
			Form: Form{Pattern: "set N of N by hand|bees [of DATE] PLANTING", Example: "set 7 of 10 by hand zucchini",
				Meaning: "how many of the flowers of a day stayed and grow; of DATE is the day they opened"}}
	}
	return spec{where: inPlanting, choices: bySex(), choose: "male or female?", noise: []string{"flower", "flowers", "open", "seen"},
		Form: Form{Pattern: "first male|female PLANTING", Example: "first female zucchini",
			Meaning: "first flower of the season seen open; of corn, first tassel (male) or silk (female); of a muskmelon, first perfect"}}
}

// careForm gives the forms about what was done, and rain.
func careForm(k memory.Kind) spec {
	switch k {
	case memory.Rain:
		return spec{where: nowhere, also: []string{"gauge"}, noise: []string{"gauge", "of"},
			slots: []slot{{of: ofAmount, what: "rain", words: rainWords(), us: scaled(25.4, "in")[0], must: true, most: mostRain}},
			Form: Form{Pattern: "rain N mm|in", Example: "rain 12mm",
				Meaning: "what the gauge held since the last reading; 0mm when it was dry"}}
	case memory.Water:
		return spec{where: somewhere, also: []string{"watered", "watering"}, noise: []string{"drip", "dripped", "of"},
			slots: []slot{{of: ofAmount, what: "water", words: waterWords(), us: scaled(unit.GalToL(1), "gal")[0], above: true, most: mostWater},
				{of: ofMinutes, what: "minutes of drip", words: minuteWords(), above: true, most: mostDrip}},
			Form: Form{Pattern: "water N L|gal|min drip PLANTING|BED|whole garden", Example: "water 20L bed 2",
				Meaning: "watering by the amount, or by the minutes the drip ran"}}
	case memory.Feed:
		return spec{where: somewhere, also: []string{"fed"}, text: product,
			slots: []slot{{of: ofAmount, what: "the amount", words: feedWords(), us: scaled(gPerOz, "oz")[0], above: true, most: mostFeed}},
			Form: Form{Pattern: `feed "PRODUCT" [N g|oz] PLANTING|BED|whole garden`, Example: `feed "fish emulsion" 30 g zucchini`,
				Meaning: "feeding, with the weight if you know it"}}
	case memory.Spray:
		return spec{where: somewhere, also: []string{"sprayed"}, text: product,
			slots: []slot{{of: ofInterval, what: "days before picking", words: append(nouns("days", "day"), scaled(daysPerWeek, "week", "weeks")...), must: true, whole: true, most: mostInterval}},
			Form: Form{Pattern: `spray "PRODUCT" N days PLANTING|BED|whole garden`, Example: `spray "soap" 3 days zucchini`,
				Meaning: "a spray, with the days its label asks for before picking (0 days when none)"}}
	}
	off := func(on bool, word string) choice {
		return choice{[]string{word}, func(e *memory.Entry) { e.On = on }, func(e *memory.Entry) bool { return e.On == on }}
	}
	return spec{where: inBed, also: []string{"covered", "net"}, choices: []choice{off(true, "on"), off(false, "off")}, choose: "on or off?",
		Form: Form{Pattern: "cover on|off PLANTING|BED", Example: "cover off squash", Meaning: "row cover or insect net put on or taken off"}}
}

// lookForm gives the forms about what was seen and picked.
func lookForm(k memory.Kind) spec {
	switch k {
	case memory.Beetles, memory.Slugs:
		one := string(k[:len(k)-1])
		return spec{where: somewhere, also: []string{one},
			slots: []slot{count(slot{of: ofCount, what: string(k), words: nouns(string(k), one), bare: true, plain: true, must: true}),
				count(slot{of: ofOf, what: "plants looked at", words: nouns("plants", "plant"), lead: "on", must: true, above: true})},
			Form: Form{Pattern: string(k) + " N on N plants PLANTING|BED|whole garden", Example: string(k) + " 3 on 5 plants zucchini",
				Meaning: string(k) + " counted, and on how many plants you looked"}}
	case memory.Symptom:
		return spec{where: inPlanting, also: []string{"symptoms"}, text: remark,
			Form: Form{Pattern: `symptom "TEXT" PLANTING`, Example: `symptom "yellow lower leaves" cucumber`, Meaning: "what looks wrong, in your words"}}
	case memory.Fruits:
		return spec{where: inPlanting, also: []string{"fruit"}, noise: []string{"now", "in", "all"},
			slots: []slot{count(slot{of: ofCount, what: "growing fruits", words: nouns("fruits", "fruit", "growing"), bare: true, plain: true, must: true}),
				count(slot{of: ofOf, what: "plants looked at", words: nouns("plants", "plant"), lead: "on", above: true})},
			Form: Form{Pattern: "fruits N [on N plants] PLANTING", Example: "fruits 12 on 4 plants cucumber",
				Meaning: "fruits that grow now, of any size from a finger's breadth on: a full plant drops new ones; on how many plants, when not on all"}}
	case memory.Picked:
		return spec{where: inPlanting, also: []string{"pick", "harvest", "harvested"}, noise: []string{"and", "of", "them", "total"},
			slots: []slot{count(slot{of: ofCount, what: "fruit picked", words: nouns("fruit", "fruits"), bare: true, above: true}),
				count(slot{of: ofMisshapen, what: "misshapen fruit", words: nouns("misshapen", "misshaped", "crooked", "deformed")}),
				{of: ofWeight, what: "the weight", words: weightWords(), us: scaled(kgPerLb, "lb")[0], above: true, most: mostWeight}},
			Form: Form{Pattern: "picked [N fruit] [N misshapen] [N kg|lb] PLANTING", Example: "picked 12 fruit 3 misshapen 2.5kg cucumber",
				Meaning: "fruit picked, the misshapen among them, and the weight of all"}}
	}
	return spec{where: anywhere, also: []string{"remarks"}, text: remark,
		Form: Form{Pattern: `remark "TEXT" [PLANTING|BED]`, Example: `remark "first hummingbird"`, Meaning: "anything else worth keeping"}}
}
