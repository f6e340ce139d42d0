package words

import (
	"fmt"
	"time"

	"dawnbrush/risk"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
)

// Short says a task in one or two words for a narrow column: "bees", "look
// 07:30", "brush 06-09". Second best hours stand as "late 09-10".
func (w Words) Short(t *risk.Task) string {
	switch t.Kind {
	case risk.LeaveToBees:
		if needsNone(t) {
			return shortAlone(crop.Self)
		}
		return shortAlone(pollination(t))
	case risk.LookFirst:
		at := t.Look.At
		if at.IsZero() {
			at = t.From
		}
		return "look " + w.Clock(at)
	case risk.NothingToGain:
		if t.Sure == risk.Unsure && t.Lead == 0 { // an old forecast says something all the same
			return Unknown
		}
		if len(t.Causes) > 0 && t.Causes[0] == risk.CauseOver {
			return "over"
		}
		return "no gain"
	case risk.FewFemales:
		return "few"
	case risk.SavePollen:
		return "save"
	case risk.BagFlowers:
		return "shut"
	case risk.LookAtTagged:
		return "check"
	case risk.PickFruit:
		return "pick"
	}
	verb := shortVerbs[t.Kind]
	if t.Second {
		verb = "late"
	}
	return verb + " " + w.hoursShort(t.From, t.To)
}

var shortVerbs = map[risk.TaskKind]string{risk.HandPollinate: "brush", risk.Shade: "shade", risk.ShakeTassels: "shake",
	risk.TapTrusses: "tap", risk.UncoverCrop: "open"}

func shortAlone(p crop.Pollination) string {
	switch p {
	case crop.Wind:
		return "wind"
	case crop.Self:
		return "itself"
	}
	return "bees"
}

// hoursShort writes the clock hours that hold a stretch: "06-09".
func (w Words) hoursShort(from, to time.Time) string {
	if from.IsZero() {
		return w.Clock(to)
	}
	a, b := from.In(w.location()), to.In(w.location())
	last := b.Hour()
	if b.Minute() > 0 {
		last++
	}
	if last == 0 {
		last = 24
	}
	return fmt.Sprintf("%02d-%02d", a.Hour(), last)
}

// Shorts explains the words that Short uses, for a legend. Only words in used
// are explained, in a fixed order.
func (w Words) Shorts(used func(word string) bool) []string {
	var out []string
	for _, e := range [...][2]string{
		{"bees", "leave it to the bees"}, {"wind", "leave it to the wind"}, {"itself", "sets by itself"},
		{"look", "watch the bees first, then decide"}, {"brush", "hand-pollinate in these hours"},
		{"late", "hand-pollinate in the best hours you can work"}, {"shake", "shake the tassels"}, {"tap", "tap the trusses or plants"},
		{"open", "take the cover off in these hours"}, {"shade", "shade in these hours"}, {"save", "save pollen that evening"},
		{"shut", "tie tomorrow's buds shut that evening"}, {"check", "look whether fruit took"}, {"pick", "pick, to free the plants for new fruit"},
		{"no gain", "nothing to gain"}, {"over", "that day's flowers have shut"}, {"few", "heat leaves few female flowers"},
		{"maybe", "may be in flower"}, {"males", "male flowers only"}, {Unknown, "not known; see today"}, {"-", "not in flower"},
	} {
		if used(e[0]) {
			out = append(out, e[0]+": "+e[1])
		}
	}
	return out
}

// ShortBloom says the stage of bloom in one word for a narrow column, for a day
// on which no task stands.
func (w Words) ShortBloom(p *risk.PlantingDay) string {
	switch p.Bloom {
	case risk.NoBloom:
		return "-"
	case risk.MalesOnly:
		return "males"
	case risk.MaybeBloom:
		return "maybe"
	case risk.UnknownBloom:
		return Unknown
	}
	if p.State != risk.Judged && p.State != risk.NeedsNoPollen {
		return Unknown
	}
	return shortAlone(p.Planting.Crop.Pollination)
}

// FlagShort says a flag in a word or two for a narrow column.
func (w Words) FlagShort(f *risk.Flag) string {
	switch f.Kind {
	case risk.Hot105:
		return "over 105 F"
	case risk.HotPollen:
		return "hot for pollen"
	case risk.HotTubes:
		return "hot for seed"
	case risk.PollenWet:
		return "rain on flowers"
	case risk.PollenMould:
		return "mould"
	case risk.BeesIn:
		return "bees in: " + shortFactors[f.Factor]
	case risk.ColdOpening:
		return "flowers late"
	case risk.ColdNight:
		return "cold night"
	case risk.CoolNight:
		return "cool night"
	case risk.HotNight:
		return "warm night"
	case risk.HotDays:
		return "heat before"
	case risk.DryAir:
		return "dry air"
	case risk.DampAir:
		return "damp air"
	case risk.HeatOnBuds:
		return "few females"
	case risk.Catface:
		return "cat-faced fruit"
	case risk.FewAhead:
		return "few females later"
	case risk.EarlyClose:
		return "flowers shut early"
	case risk.FullLoad:
		return "plants full"
	case risk.OtherCorn:
		return "other corn"
	}
	return ""
}

var shortFactors = [bee.Factors]string{bee.Cold: "cold", bee.Heat: "heat", bee.Light: "dull", bee.Wind: "wind", bee.Rain: "rain",
	bee.WetFlowers: "wet"}
