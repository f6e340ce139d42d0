package table

import (
	"slices"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
)

// thunderChance is the chance of thunder in an hour of the day from which it is
// cautioned against. [chosen: one in ten is enough for a metal trellis]
const thunderChance = 0.1

// cautions picks what to mind on a day with work, among flowers or with water; without
// work, frost alone.
func cautions(plan *risk.DayPlan, a *risk.Assessment, water bool) []words.Caution {
	if plan.Day == nil {
		return nil
	}
	var out []words.Caution
	if low, ok := plan.Day.Weather.Min.Get(); ok && words.CautionFrost(low) {
		out = append(out, words.MindFrost)
	}
	if len(plan.Tasks) == 0 && !water {
		return out
	}
	if high, ok := plan.Day.Weather.Max.Get(); ok && words.CautionHeat(high) {
		out = append(out, words.MindHeat)
	}
	if thunder(plan, a) {
		out = append(out, words.MindThunder)
	}
	hands, bitter := false, false
	for i := range plan.Tasks {
		t := &plan.Tasks[i]
		hands = hands || words.Hands(t.Kind)
		bitter = bitter || t.Kind == risk.BagFlowers && bitterSeed(t)
	}
	if hands {
		out = append(out, words.MindStings, words.MindSprays)
	}
	if bitter {
		out = append(out, words.MindBitter)
	}
	if water {
		out = append(out, words.MindWater)
	}
	return out
}

// bitterSeed tells whether a task is about a crop whose saved seed can bring bitter
// fruit: flowers tied shut and kept apart are the beginning of saved seed.
func bitterSeed(t *risk.Task) bool {
	return slices.ContainsFunc(append([]*risk.Planting{t.Planting}, t.Also...), func(p *risk.Planting) bool {
		return p.Crop.Hand.BitterSeed.Text != ""
	})
}

// thunder tells whether some hour of the day has a chance of thunder.
func thunder(plan *risk.DayPlan, a *risk.Assessment) bool {
	if a == nil || a.Series == nil || a.Garden == nil {
		return false
	}
	lo, hi := a.Series.Day(plan.Date, a.Garden.Place.Zone)
	for i := lo; i < hi; i++ {
		if p, ok := a.Series.Hours[i].Thunder.Get(); ok && p >= thunderChance {
			return true
		}
	}
	return false
}
