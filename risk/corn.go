package risk

import (
	"math"
	"time"

	"dawnbrush/risk/air"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/pollen"
)

// cornModel is one planting of a wind-pollinated crop, compiled.
type cornModel struct {
	c      *crop.Crop
	d      *crop.Corn
	ageing pollen.Ageing
}

func newCornModel(c *crop.Crop) cornModel {
	return cornModel{c, c.Corn, pollen.Ageing{Rate: c.Corn.AgeRate, Threshold: c.Corn.AgeThreshold}}
}

// worth gives what an hour leaves of the pollen that comes off in it: less heat, less
// what dies in the air, times how far it carries.
func (m *cornModel) worth(h *air.Hour) (alive, heat, carry float64) {
	alive = meanAlive(m.ageing.Speed(h.VPD, 1) * m.d.AgeHours) // mean over the flight time
	heat = pollen.HeatShare(h.T, m.d.HeatFull, m.d.HeatNil)
	carry = m.d.Carry.At(h.Wind2)
	return alive, heat, carry
}

// slowestDrying is the least that a dry hour counts for, in hours of the weights: in
// dull damp air anthers take twice as long. [chosen, status chosen]
const slowestDrying = 0.5

// drying gives the hours of the weights that an hour counts for: anthers open as they
// dry, so pollen comes later in humid air and in little wind. [Marceau11, status read]
// How fast a film of water would dry stands for it.
func (m *cornModel) drying(h *air.Hour) float64 {
	return max(slowestDrying, h.Evaporation/m.d.ShedDrying)
}

// comeOff gives the share of the day's pollen that has come off after so many hours
// of the weights.
func (m *cornModel) comeOff(hours float64) (sum float64) {
	for k, w := range m.d.Weights {
		sum += w * min(1, max(0, hours-float64(k)))
	}
	return sum
}

// meanAlive is the mean of exp(-t) over 0..x: what is alive on average while
// the exponent grows to x.
func meanAlive(x float64) float64 {
	if x < 1e-9 {
		return 1
	}
	return (1 - math.Exp(-x)) / x
}

// silkTakes gives the share of silks of an age (days since they came out) that
// still take pollen: they fade until, from the published day on, none does.
// [BasWesB, status read] [Strachan, status derived]
func (m *cornModel) silkTakes(age float64) float64 {
	return min(1, max(0, (m.d.SilkDays-age)/(m.d.SilkDays-m.d.SilkFresh)))
}

// newestSilk gives the age in days of the youngest silks on day d after the
// first silk: new ones come out for some days.
func (m *cornModel) newestSilk(d float64) float64 { return max(0, d-m.d.SilksOut.High) }

// dryHour tells whether tassels shed in frame hour i of a world: no rain, no
// water on the tassel, air below the limit.
func (m *cornModel) dryHour(f *frame, w *world, i int) bool {
	h := &f.hours[w.doubt][i]
	return w.rain[i] <= pollen.RainStops && !w.wet[i] && h.RH < m.d.RHLimit
}

// judge works out the day's pollen: Set and Fill are the share of a good day's
// pollen that reaches silks alive. Silks take pollen for days, so one poor day
// spoils no ear; the plan looks at the sum over shed days.
func (m *cornModel) judge(f *frame, p *Planting, out *PlantingDay, slab []FlowerHour) {
	out.BestHour = -1
	if !p.FirstFemale.IsZero() && m.silkTakes(m.newestSilk(float64(f.date.DaysSince(p.FirstFemale)))) == 0 {
		out.State = SilksTooOld
		return
	}
	first := max(0, int(math.Ceil(f.sunrise+m.d.ShedFrom-0.5)))
	last := min(f.n, int(math.Floor(f.sunrise+m.d.ShedTo+0.5)), first+openHours)
	if last <= first {
		out.State = StaysShut
		return
	}
	out.Opens, out.Closes = f.at(f.sunrise+m.d.ShedFrom), f.at(f.sunrise+m.d.ShedTo)
	out.Hours = slab[:last-first]
	for i := first; i < last; i++ {
		out.Hours[i-first] = FlowerHour{Start: f.start.Add(time.Duration(i) * time.Hour), Receptive: 1, Offer: 0,
			Tube: 1, Air: &f.hours[air.Kind][i]}
	}
	var value, weight [maxWorlds]float64
	var room [openHours]float64
	over := p.overHours(f, first, last, room[:])
	n := 0
	for j := range f.worlds {
		w := &f.worlds[j]
		q, dried := 0.0, 0.0
		for i := first; i < last; i++ {
			o := &out.Hours[i-first]
			if w.rain[i] > pollen.RainStops {
				o.Wet += w.weight
			}
			alive, heat, carry := m.worth(&f.hours[w.doubt][i])
			o.Alive, o.Heat = alive, heat
			if dried >= float64(len(m.d.Weights)) || !m.dryHour(f, w, i) {
				continue
			}
			off := -m.comeOff(dried)
			dried += m.drying(&f.hours[w.doubt][i])
			off += m.comeOff(dried)
			o.Dry += w.weight
			o.Open += w.weight
			o.Offer += w.weight * off
			o.Hand += w.weight * alive * heat
			came := off * alive * heat * carry
			o.Bees += w.weight * came
			if over != nil {
				came *= over[i-first]
			}
			q += came
		}
		at := n
		for at > 0 && value[at-1] > q {
			value[at], weight[at] = value[at-1], weight[at-1]
			at--
		}
		value[at], weight[at] = q, w.weight
		n++
	}
	out.Fill = Range{quantile(value[:n], weight[:n], 0.1), quantile(value[:n], weight[:n], 0.5), quantile(value[:n], weight[:n], 0.9)}
	if k := rowShare(p.cornRows()); k < 1 {
		out.Fill = Range{k * out.Fill.Lo, k * out.Fill.Mid, k * out.Fill.Hi}
	}
	out.Set = out.Fill
	out.OverRows = p.overRows(f, first, over, out.Hours)
	m.bestShake(out)
}

// fewRows is how many rows of corn make a block that wind pollinates without
// help: four. [common-practice, status common-practice]
const fewRows = 4

// ownRow is what a row's own tassels bring its silks, of what a row upwind brings:
// the wind carries most of their pollen past. It makes a single row a tenth of a
// block of four; practice only says that its ears fill badly. [chosen, status chosen]
const ownRow = 1.0 / 6

// rowShare gives what the wind brings to the silks of a block of so many rows, of
// what it brings to four: with the mean number of rows upwind of a silk, (rows-1)/2,
// and its own. From four rows on it is enough. 0 rows are not told and count as enough.
func rowShare(rows int) float64 {
	if rows <= 0 || rows >= fewRows {
		return 1
	}
	fetch := func(n int) float64 { return ownRow + float64(n-1)/2 }
	return fetch(rows) / fetch(fewRows)
}

// cornRows gives the rows of a block, no more than it has plants; 0 where not told.
func (p *Planting) cornRows() int {
	switch {
	case p.Plants <= 0:
		return p.Rows
	case p.Rows <= 0 && p.Plants < fewRows:
		return p.Plants
	}
	return min(p.Rows, p.Plants)
}

// bestShake picks the hours for shaking tassels: those in which the most live
// pollen is expected to come off.
func (m *cornModel) bestShake(out *PlantingDay) {
	best := 0.0
	for k := range out.Hours {
		best = max(best, out.Hours[k].Hand*out.Hours[k].Offer)
	}
	out.Both, out.BothSet = out.Fill, out.Set
	if best <= 0 {
		return
	}
	lo, hi, sum := -1, -1, 0.0
	for k := range out.Hours {
		h := &out.Hours[k]
		if v := h.Hand * h.Offer; v > 0 {
			sum += h.Offer * h.Hand / max(h.Dry, 1e-9) // shaking brings it down by hand: carry no longer counts
			if v >= best/2 {
				if lo < 0 {
					lo = k
				}
				hi = k
			}
			if v >= best*0.999 && out.BestHour < 0 {
				out.BestHour = k
			}
		}
	}
	out.BestShare = min(1, sum)
	for _, r := range []*Range{&out.Both, &out.BothSet} {
		r.Lo, r.Mid, r.Hi = max(r.Lo, min(r.Hi, sum*shakeShare)), max(r.Mid, sum*shakeShare), max(r.Hi, sum*shakeShare)
	}
	out.BrushSpan = [2]time.Time{out.Hours[lo].Start, out.Hours[hi].Start.Add(time.Hour)}
}

// shakeShare is how much of the pollen that comes off lands on silks when one
// shakes tassels over them. [chosen, status chosen]
const shakeShare = 0.9
