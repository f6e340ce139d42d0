package risk

import (
	"math"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/pollen"
)

// selfModel is one planting of a crop whose perfect flowers pollinate
// themselves: when shaken (wind outdoors, bees or a tap under cover), or in the
// bud.
type selfModel struct {
	c *crop.Crop
	d *crop.SelfFruit

	onlyHeat bool // the days before take from the set by warmth alone
}

// calmShare gives the share of set that still air leaves: without any shaking
// the published share without bees; from a light breeze on, all of it. Where the
// breeze begins to serve is chosen (0.5 to 2 m/s at 2 m); that wind serves
// outdoors: [UNLtom, status read].
func (m *selfModel) calmShare(wind float64) float64 {
	still := m.d.WithoutBees.Or(1)
	return still + (1-still)*min(1, max(0, (wind-0.5)/1.5)) // [chosen, status chosen]
}

// before works out what the days before leave of the set: by their mean and by
// extreme heat. known is false when nothing of them is known, all when some of
// them are not.
func (m *selfModel) before(past *history, k int) (share float64, known, all bool) {
	share, known = m.spell(past, k, m.d.MeanFrom, m.d.MeanTo)
	all = known
	if m.d.Early() {
		early, ok := m.spell(past, k, m.d.EarlyFrom, m.d.EarlyTo)
		if ok && (!known || early < share) { // a chamber's plants met both: the worse one, not both
			share = early
		}
		known, all = known || ok, all && ok
	}
	if known && m.acute(past, k) {
		share = 0
	}
	return share, known, all
}

// worst gives the days, from opening, that take most of the set.
func (m *selfModel) worst(past *history, k int) (from, to int) {
	if m.d.Early() {
		late, lateKnown := m.spell(past, k, m.d.MeanFrom, m.d.MeanTo)
		early, ok := m.spell(past, k, m.d.EarlyFrom, m.d.EarlyTo)
		if ok && (!lateKnown || early < late) {
			return int(m.d.EarlyFrom), int(m.d.EarlyTo)
		}
	}
	return int(m.d.MeanFrom), int(m.d.MeanTo)
}

// spell works out what the mean of some days, or of their nights and their highest
// temperatures, leaves of the set. known is false
// when too few of those days have temperatures.
func (m *selfModel) spell(past *history, k int, first, last float64) (share float64, known bool) {
	mean, most, n := 0.0, 0.0, 0
	from, to := k+int(first), k+int(last)
	for i := from; i <= to; i++ {
		s, ok := past.at(i)
		switch {
		case !ok || m.d.ByNight && !s.nightKnown:
			continue
		case m.d.ByNight:
			mean += s.nightMin
		default:
			mean += s.mean
		}
		most += s.max
		n++
	}
	if want := to - from + 1; n*3 < want*2 { // two thirds of the days, or it is not known
		return 0, false
	}
	share = m.d.Mean.At(mean / float64(n))
	if !m.d.Day.Empty() {
		share *= m.d.Day.At(most / float64(n))
	}
	return share, true
}

// acute tells whether extreme heat ended set: on days running, or long enough on
// one day, from some days before the flower opens to the day itself.
func (m *selfModel) acute(past *history, k int) bool {
	for back := range int(m.d.AcuteReach) + 1 {
		if past.acute(k-back, m.d.AcuteTemp, m.d.AcuteHours, int(m.d.AcuteDays)) ||
			m.d.AloneHours > 0 && past.acute(k-back, m.d.AloneTemp, m.d.AloneHours, 1) {
			return true
		}
	}
	return false
}

// heat gives the share of the pollen shed in an hour that germinates: all where
// the crop has no such curve.
func (m *selfModel) heat(h *air.Hour) float64 {
	if m.d.Heat.Empty() || h.Missing.Has(air.Temp) {
		return 1
	}
	return m.d.Heat.At(h.T)
}

// judge works out one day.
func (m *selfModel) judge(f *frame, room *scratch, past *history, p forecast.Place, out *PlantingDay, slab []FlowerHour) {
	out.BestHour = -1
	share, known, all := m.before(past, f.past)
	if !all {
		out.State = HistoryUnknown
	}
	if known {
		out.Factor = forecast.Known(share)
	}
	night := 1.0
	if s, ok := past.at(f.past); ok {
		night = m.d.Night.At(s.nightMin)
	}
	from, to := f.date.At(m.d.ShedFrom, p.Zone), f.date.At(m.d.ShedTo, p.Zone)
	first := max(0, int(from.Sub(f.start)/time.Hour))
	last := min(f.n, int(math.Ceil(to.Sub(f.start).Hours())), first+openHours)
	if last <= first {
		out.State = StaysShut
		return
	}
	out.Opens, out.Closes = from, to
	out.Hours = slab[:last-first]
	set, both := room.mix[0].reset(anyVisit), room.mix[1].reset(anyVisit)
	for i := first; i < last; i++ {
		out.Hours[i-first] = FlowerHour{Start: f.start.Add(time.Duration(i) * time.Hour), Open: 1, Alive: 1, Receptive: 1,
			Offer: 1, Tube: 1, Heat: m.heat(&f.hours[air.Kind][i]), Air: &f.hours[air.Kind][i]}
	}
	none := supply{} // no bees: every multiplier is 0, only the hand's share counts
	for j := range f.worlds {
		w := &f.worlds[j]
		breeze, dry, heat, coolest := 0.0, 0, 0.0, 0.0
		for i := first; i < last; i++ {
			h := &out.Hours[i-first]
			ok := w.rain[i] <= pollen.RainStops && !w.film[i]
			if ok {
				left := m.heat(&f.hours[w.doubt][i])
				heat, coolest = heat+left, max(coolest, left)
				dry++
				h.Dry += w.weight
				h.Hand += w.weight * left
				breeze = max(breeze, f.hours[w.doubt][i].Wind2)
			} else {
				h.Wet += w.weight
			}
		}
		base := night
		if known {
			base *= share
		}
		tapped, shed := coolest, 1.0
		if dry == 0 { // wet anthers give what unshaken ones give, tapped or not
			tapped = m.calmShare(0)
		} else {
			shed = heat / float64(dry) // pollen falls in all dry hours, a tap takes the best
		}
		set.add(w.weight, 0, 0, base*shed*m.calmShare(breeze))
		both.add(w.weight, 0, 0, base*tapped)
	}
	_, out.Set = set.ranges(&none)
	_, out.Both = both.ranges(&none)
	out.Fill, out.BothSet = out.Set, out.Both
	if m.d.Tapped() {
		m.bestTap(out, p)
	}
}

// bestTap picks the driest hours within those of the practice.
func (m *selfModel) bestTap(out *PlantingDay, p forecast.Place) {
	lo, hi, best := -1, -1, 0.0
	for k := range out.Hours {
		local := float64(out.Hours[k].Start.In(p.Zone).Hour())
		if local < m.d.Tap.Low || local >= m.d.Tap.High || out.Hours[k].Dry < 0.5 {
			continue
		}
		if lo < 0 {
			lo = k
		}
		if hi = k; out.Hours[k].Hand > best {
			best, out.BestHour = out.Hours[k].Hand, k
		}
	}
	if lo < 0 {
		return
	}
	out.BestShare = best
	out.BrushSpan = [2]time.Time{out.Hours[lo].Start, out.Hours[hi].Start.Add(time.Hour)}
}
