package words

import (
	"slices"
	"strings"

	"dawnbrush/risk"
)

// Cell gives the words for a planting on a day: the morning's work, or what
// becomes of the flowers without it, then the evening's worw.
func (w Words) Cell(plan *risk.DayPlan, p *risk.Planting) []string {
	var work, rest, evening []string
	for _, list := range [][]risk.Task{plan.Tasks, plan.More, plan.Rest} {
		for i := range list {
			t := &list[i]
			switch {
			case Evening(t.Kind) && slices.Contains(t.Also, p):
				evening = append(evening, w.Short(t))
			case t.Planting != p || t.Kind == risk.Shade || t.Kind == risk.LookAtTagged || t.Kind == risk.FewFemales:
			case Evening(t.Kind), t.Kind == risk.PickFruit:
				evening = append(evening, w.Short(t))
			case t.Kind.Work():
				work = append(work, w.Short(t))
			default:
				rest = append(rest, w.Short(t))
			}
		}
	}
	if len(work) == 0 {
		work = rest
	}
	if out := append(work, evening...); len(out) > 0 {
		return slices.Compact(out)
	}
	if plan.Day != nil {
		for i := range plan.Day.Plantings {
			if pd := &plan.Day.Plantings[i]; pd.Planting == p {
				return []string{w.ShortBloom(pd)}
			}
		}
	}
	return []string{Unknown}
}

// Verb gives the word of a cell that the legend explains.
func Verb(cell string) string {
	if cell == "no gain" {
		return cell
	}
	word, _, _ := strings.Cut(cell, " ")
	return word
}
