package risk

import (
	"dawnbrush/risk/bee"
	"dawnbrush/risk/pollen"
)

// visits is what one flower gets from bees in one world at the median supply.
type visits struct {
	set    float64 // expected visits that set a fruit
	needs  float64 // live grains, as needs of a full fruit
	square float64 // sum over visits of the squared portion
	visits float64 // all visits, good or not
}

// portion is the size of a typical visit in needs: weighted by what it brings,
// so that a mixture of bees varies as one kind with this portion would.
func (v *visits) portion() float64 {
	if v.needs <= 0 {
		return 0
	}
	return v.square / v.needs
}

// world sums the visits of one flower in one world and adds each hour's part to
// hours.
func (m *insectModel) world(f *frame, w *world, d, main *flowerDay, hours []FlowerHour) (v visits) {
	wetHours := 0.0
	for k := range d.n {
		i := d.first + k
		b := &d.hour[k]
		dry := w.dry[i]
		if w.film[i] && f.hours[w.doubt][i].T >= pollen.MouldCool && f.hours[w.doubt][i].T <= pollen.MouldWarm {
			wetHours++
		}
		if b.open <= 0 || dry <= 0 {
			continue
		}
		one := &b.set
		var again [bee.Groups]float64
		q := b.quality * b.offer / b.stay
		if dry != 1 || wetHours > 0 {
			q *= dry * pollen.MouldShare(wetHours, f.hours[w.doubt][i].T)
			m.visit(b, &again, q)
			one = &again
		}
		x := 0.0
		for g := range bee.Groups {
			n := b.open * b.stay * m.bees.rate[g] * w.flight[g][i]
			v.set += n * one[g]
			part := m.full[g] * q
			x += n * part
			v.square += n * part * part
			v.visits += n
		}
		v.needs += x
		if j := i - main.first; j >= 0 && j < len(hours) {
			hours[j].Bees += w.weight * x
		}
	}
	return v
}
