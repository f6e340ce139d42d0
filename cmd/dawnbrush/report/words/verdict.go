package words

import (
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
		return shortAlone(pollination(t))
	case risk.LookFirst:
		at := t.Look.At
		if at.IsZero() {
			at = t.From
		}
		return "look " + w.Clock(at)
	case risk.NothingToGain:
		return "no gain"
	case risk.FewFemales:
		return "few"
	case risk.SavePollen:
		return "save"
	case risk.BagFlowers:
		return "shut"
	case risk.LookAtTagged:
		return "check"
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

// hoursShort writes full hours as "06-09", others with their minutes.
func (w Words) hoursShort(from, to time.Time) string {
	if from.IsZero() {
		return w.Clock(to)
	}
	a, b := from.In(w.location()).Round(time.Minute), to.In(w.location()).Round(time.Minute)
	if a.Minute() == 0 && b.Minute() == 0 {
		return a.Format("15") + "-" + b.Format("15")
	}
	return a.Format("15:04") + "-" + b.Format("15:04")
}

// Shorts explains the words that Short uses, for a legend. Only words in used
// are explained, in a fixed order.
func (w Words) Shorts(used func(word string) bool) []string {
	var out []string
	for _, e := range [...][2]string{
		{"bees", "leave it to the bees"}, {"wind", "leave it to the wind"}, {"itself", "sets by itself"},
		{"look", "watch the bees first, then decide"}, {"brush", "hand-pollinate in these hours"},
		{"late", "hand-pollinate in the best hours you can work"}, {"shake", "shake the tassels"}, {"tap", "tap the trusses"},
		{"open", "take the cover off in these hours"}, {"shade", "shade in these hours"}, {"save", "save pollen that evening"},
		{"shut", "tie tomorrow's buds shut that evening"}, {"check", "look whether fruit took"},
		{"no gain", "nothing to gain"}, {"few", "heat leaves few female flowers"},
		{"maybe", "may be in flower"}, {"males", "male flowers only"}, {Unknown, "not known"}, {"-", "not in flower"},
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

// HoursOut counts, of the hours in which the flowers are open and take pollen,
// those with bees out.
func HoursOut(p *risk.PlantingDay) (out, open int) {
	for i := range p.Hours {
		h := &p.Hours[i]
		if h.Open < 0.5 || h.Receptive <= 0 {
			continue
		}
		open++
		for g := range bee.Groups {
			if h.Flight[g] >= bee.OutShare {
				out++
				break
			}
		}
	}
	return out, open
}
