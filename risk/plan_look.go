package risk

import (
	"time"

	"dawnbrush/risk/crop"
)

// look works out a five-minute count that settles whether to brush: the number
// of visits at which the middle of the supply's posterior reaches the break-even,
// as the plan decides by the middle once they are typed in. A morning on which
// bees were counted is settled.
func (p *planner) look(d *Day, pd *PlantingDay, t Task) (Task, bool) {
	b := &pd.look
	if b.visits <= 0 || pd.BestShare <= 0 || p.a.Learned.Latest == d.Date {
		return t, false
	}
	from, to, ok := p.workable(d.Date, b.at, b.at.Add(2*time.Hour))
	if !ok || !from.Before(pd.BrushSpan[1]) {
		return t, false
	}
	const (
		watched    = 10  // [chosen, status chosen] flowers one can keep in sight at once
		mostVisits = 100 // [chosen, status chosen] more than one can count in the minutes
	)
	most := pd.BestShare * pd.Load.kept() // what the brush wins where no bee comes
	if pd.Planting.Setting == crop.Parthenocarpic {
		most *= 1 - pd.Planting.Crop.Need.WithoutBees.Or(0)
	}
	even := evenMultiplier(b, 1-breakEven(pd.Planting)/most)
	exposure := b.visits * watched * lookMinutes / 60
	fewer := 0
	for fewer < mostVisits && b.law.Update(fewer, exposure).Quantile(0.5) < even {
		fewer++
	}
	if fewer < 1 {
		return t, false
	}
	t.Kind = LookFirst
	t.From, t.To = from, to
	t.Minutes = lookMinutes
	t.Look = Look{At: from, Minutes: lookMinutes, Flowers: watched, Fewer: fewer, Groups: b.groups, worth: lookWorth(&t)}
	return t, true
}

// lookWorth is what knowing wins, in money: the fruit that the brush would win
// over its cost where the look shows that it pays, by the three points of the
// range (0.3, 0.4, 0.3 of the chance each, Pearson and Tukey's three-point rule
// in round numbers [memory, status memory]).
func lookWorth(t *Task) float64 {
	cost := breakEven(t.Planting)
	over := func(gain float64) float64 { return max(0, gain-cost) }
	won := 0.3*over(t.Hand.Lo-t.Bees.Lo) + 0.4*over(t.Hand.Mid-t.Bees.Mid) + 0.3*over(t.Hand.Hi-t.Bees.Hi)
	return won * float64(t.Flowers) * worthOf(t.Planting)
}

// evenMultiplier finds the multiplier of the supply at which bees alone give the
// wanted share of full fruit.
func evenMultiplier(b *lookBasis, want float64) float64 {
	if want <= 0 || b.got <= 0 {
		return 0
	}
	lo, hi := 0.0, 1.0
	for b.form.share(hi*b.got, b.unit) < want && hi < 1e4 {
		hi *= 2
	}
	for range 40 {
		mid := (lo + hi) / 2
		if b.form.share(mid*b.got, b.unit) < want {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}
