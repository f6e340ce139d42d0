package risk

import (
	"math"

	"dawnbrush/risk/crop"
)

// Trays of loose pollen, shares alive in open flowers, and what told of flowers other
// than squash's.
const (
	trayHot     = "wet/cucurbit_pollen/squash pollen 30 C and 46 pct RH"
	trayWet     = "wet/cucurbit_pollen/squash pollen 30 C and 100 pct RH"
	tray80      = "wet/cucurbit_pollen/zucchini pollen 20 C, RH 80 or less"
	tray90      = "wet/cucurbit_pollen/zucchini pollen 20 C, RH 90"
	fullFor     = "crops/summer_squash/pollen_full_for"
	atClosing   = "crops/summer_squash/pollen_at_close"
	nextMorning = "crops/summer_squash/pollen_next_morning"

	melonGood  = "crops/muskmelon/pollen_good_local"
	melonByTen = "hand/watermelon/best_hour"
	cukeNoon   = "visits/cuke_turgid"
)

// pollenDrawings are how pollen ages.
func (l *lab) pollenDrawings() []drawing {
	return []drawing{l.ageing(), l.melonAir(), l.cucumberAir(), l.watermelonAir()}
}

func (l *lab) ageing() drawing {
	d := drawing{name: "ageing of squash pollen", crops: []string{"summer-squash", "pumpkin-winter-squash"},
		way: "threshold and rate as two trays of one paper tell them: half alive after 8 h in air of 90 %, a tenth after 4 h in 80 %. Without the latter a twentieth after 2 h in 46 % of another paper; without the former a twentieth after the 5 days for which stored pollen set nothing. Rounded up to the third place, so that both hold. " +
			"Then the coupling at which the share alive at closing is that of the same paper; without it the middle of those at which its two other shares in flowers hold. Two more papers tell more alive at closing: one side is taken, theirs are tested",
		params: []string{"pollen.age_rate", "pollen.age_threshold", "pollen.coupling"},
		rows:   []string{trayHot, trayWet, tray80, tray90, fullFor, atClosing, nextMorning},
		take: func(c *crop.Crop) []float64 {
			return []float64{c.Pollen.AgeRate, c.Pollen.AgeThreshold, c.Pollen.Coupling}
		},
		put: func(c *crop.Crop, v []float64) {
			c.Pollen.AgeRate, c.Pollen.AgeThreshold, c.Pollen.Coupling = v[0], v[1], v[2]
		},
		// Crops without trays of their own take the law; the air in their flowers stays
		// as damp as it was against the threshold.
		borrowers: []string{"muskmelon", "cucumber", "watermelon", "seedless-watermelon"},
		lend: func(c *crop.Crop, v []float64) {
			c.Pollen.Coupling *= v[1] / c.Pollen.AgeThreshold
			c.Pollen.AgeRate, c.Pollen.AgeThreshold = v[0], v[1]
		}}
	d.draw = func(l *lab, left func(string) bool) []float64 {
		rate, threshold := l.trayLaw(left)
		alive := func(coupling float64) map[string]rowTrial {
			return l.with(&d, []float64{rate, threshold, coupling}).run([]string{fullFor, atClosing, nextMorning})
		}
		if left(atClosing) {
			want := l.num(atClosing, "low") / 100
			return []float64{rate, threshold, best(0.01, 0.99, 0.01, func(k float64) float64 { return math.Abs(alive(k)[atClosing].got - want) })}
		}
		sum, n := 0.0, 0.0
		for k := 0.01; k < 1; k += 0.01 {
			if got := alive(k); got[fullFor].hit && got[nextMorning].hit {
				sum, n = sum+k, n+1
			}
		}
		return []float64{rate, threshold, sum / n}
	}
	return d
}

// trayLaw gives rate and threshold of ageing from the trays that are left.
func (l *lab) trayLaw(left func(string) bool) (rate, threshold float64) {
	// The air of a tray, kPa, and how fast pollen died in it, a share of the living in an hour.
	tray := func(row string, t, rh, alive float64) (vpd, speed float64) {
		return vpdOf(t, rh), -math.Log(alive) / l.num(row, "low")
	}
	damp, slow := tray(tray90, 20, 90, 0.5)
	dry, fast := tray(tray80, 20, 80, 0.1)
	if !left(tray90) {
		slow = -math.Log(0.05) / (24 * l.num("visits/zuc_stored", "x"))
	}
	if !left(tray80) {
		dry, fast = tray(trayHot, 30, 46, 0.05)
	}
	threshold = (fast*damp - slow*dry) / (fast - slow) // where a straight line through both has no speed
	threshold = math.Ceil(1000*threshold) / 1000
	return math.Ceil(1000*fast/(dry-threshold)) / 1000, threshold
}

func takeCoupling(c *crop.Crop) []float64   { return []float64{c.Pollen.Coupling} }
func putCoupling(c *crop.Crop, v []float64) { c.Pollen.Coupling = v[0] }

func (l *lab) melonAir() drawing {
	return drawing{name: "air inside the muskmelon flower", way: "the most at which pollen stays good for the hours published; squash's where they are left out", crops: []string{"muskmelon"}, eye: true,
		params: []string{"pollen.coupling"}, rows: []string{melonGood}, take: takeCoupling, put: putCoupling,
		draw: func(l *lab, left func(string) bool) []float64 {
			if left(melonGood) {
				return takeCoupling(l.crop("muskmelon"))
			}
			return takeCoupling(l.crop("summer-squash"))
		}}
}

func (l *lab) cucumberAir() drawing {
	d := drawing{name: "air inside the cucumber flower", way: "the most at which no more than a tenth of what was set by hand is lost by noon of the trial that set it; muskmelon's where that is left out", crops: []string{"cucumber"},
		params: []string{"pollen.coupling"}, rows: []string{cukeNoon}, take: takeCoupling, put: putCoupling}
	d.draw = func(l *lab, left func(string) bool) []float64 {
		if !left(cukeNoon) {
			return takeCoupling(l.crop("muskmelon"))
		}
		return []float64{l.most(&d, cukeNoon, 0.9*l.num(cukeNoon, "y")/100)}
	}
	return d
}

// watermelonAir borrows muskmelon's number, of which a trial of its own is a bound.
func (l *lab) watermelonAir() drawing {
	d := drawing{name: "air inside the watermelon flower", way: "muskmelon's; where that is left out half of the most at which what is set by hand still rises to the hour published", crops: []string{"watermelon", "seedless-watermelon"},
		params: []string{"pollen.coupling"}, rows: []string{melonGood, melonByTen}, take: takeCoupling, put: putCoupling}
	d.draw = func(l *lab, left func(string) bool) []float64 {
		if left(melonGood) {
			return takeCoupling(l.crop("muskmelon"))
		}
		return []float64{l.most(&d, melonByTen, 0) / 2}
	}
	return d
}

// most gives the largest coupling, to a hundredth, at which the model gives at least so
// much for a row that falls as it grows.
func (l *lab) most(d *drawing, row string, least float64) float64 {
	for k := 0.99; k > 0; k -= 0.01 {
		if l.with(d, []float64{k}).run([]string{row})[row].got >= least {
			return math.Round(100*k) / 100
		}
	}
	return 0
}
