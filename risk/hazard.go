package risk

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/pollen"
)

// Limit105 is 105 degF in degC: above it pollen is commonly held to be
// sterile. No source was found; the nearest measured: no cucumber tubes at 38
// (CukeTube), corn pollen dried at 37.8 (BayerCorn). [common-practice, status common-practice]
const Limit105 = (105.0 - 32) / 1.8

// Thresholds of flags. [chosen, status chosen] each: where a grower would want
// to be told.
const (
	flagWetChance  = 0.3 // chance of rain in an open hour
	flagHalf       = 0.5 // share lost to heat
	flagLateHours  = 1.0 // h that cold delays the opening
	flagMouldHours = 4.0 // h of rain film at 15-25 degC inside a one-day flower
	flagMould      = 0.3 // chance of mould on tassels and silks
	flagDryAlive   = 0.8 // mean share of corn pollen alive in the air
)

// beeParam names the parameter behind each factor that keeps bees in.
var beeParam = [bee.Factors]string{"bee.cold", "bee.heat", "bee.light", "bee.wind", "bee.rain", "bee.wet_flowers"}

func (a *assessor) flag(f Flag) { a.flags = append(a.flags, f) }

// flagOver105 marks a day above 105 degF. The verdict never comes from it.
func (a *assessor) flagOver105(w *Weather) {
	f := &a.frame
	m, ok := w.Max.Get()
	if !ok || m <= Limit105+1e-6 {
		return
	}
	w.Over105 = true
	fl := Flag{Kind: Hot105, Value: w.Max, Limit: forecast.Known(Limit105), Param: "risk.limit_105"}
	for i := f.day; i < f.n; i++ {
		if t, ok := a.s.Hours[f.first+i].Temp.Get(); ok && t > Limit105 {
			fl.extend(f.hourStart(i))
		}
	}
	a.flag(fl)
}

// extend stretches the flag over the hour that begins at t.
func (fl *Flag) extend(t time.Time) {
	if fl.From.IsZero() {
		fl.From = t
	}
	fl.To = t.Add(time.Hour)
}

// flagPlanting adds all flags of one planting's day that wind or the flower
// itself pollinates.
func (a *assessor) flagPlanting(m *plantingModel, out *PlantingDay) {
	switch m.p.Crop.Pollination {
	case crop.Wind:
		a.flagHeat(m, out)
		a.flagWet(out, m)
		a.flagCornAir(m, out)
		a.flagIsolation(m, out)
	case crop.Self:
		if m.self.d.Tapped() { // else pollen falls in the bud, out of the rain
			a.flagWet(out, m)
		}
		a.flagMeanHeat(m, out)
		a.flagCatface(m, out)
	}
	a.flagDays(m, out)
}

// flagInsect adds the flags that all plantings of a crop share on a day.
func (a *assessor) flagInsect(m *plantingModel, out *PlantingDay) {
	a.flagOpening(m, out)
	a.flagHeat(m, out)
	a.flagWet(out, m)
	a.flagBees(m, out)
}

func (a *assessor) flagOpening(m *plantingModel, out *PlantingDay) {
	f, w := &a.frame, m.p.clock()
	due := f.at(f.sunrise + w.Opens)
	limit := forecast.Known(w.OpensAtTemp)
	if out.State == StaysShut {
		a.flag(Flag{Kind: ColdOpening, From: due, To: f.at(f.sunrise + w.Closes), Value: f.highest(), Limit: limit, Param: "window.opens_at_temp"})
		return
	}
	if out.Opens.Sub(due).Hours() >= flagLateHours {
		i := max(0, int(f.sunrise+w.Opens))
		a.flag(Flag{Kind: ColdOpening, From: due, To: out.Opens, Value: forecast.Known(f.hours[0][i].T), Limit: limit, Param: "window.opens_at_temp"})
	}
	for k := 1; k < len(out.Hours); k++ {
		before, now := &out.Hours[k-1], &out.Hours[k]
		if before.Open >= flagHalf && now.Open < flagHalf && now.Start.Add(time.Hour).Before(out.Closes) {
			a.flag(Flag{Kind: EarlyClose, From: now.Start, To: out.Closes, Value: forecast.Known(now.Air.T), Param: "window.close_heat"})
			return
		}
	}
}

// flagHeat marks heat in the open hours and, apart, heat in the hours after.
func (a *assessor) flagHeat(m *plantingModel, out *PlantingDay) {
	c := m.p.Crop
	limit, param := c.Pollen.HeatFull, "pollen.heat_full"
	if c.Corn != nil {
		limit, param = c.Corn.HeatFull, "corn.heat_full"
	}
	hot := Flag{Kind: HotPollen, Limit: forecast.Known(limit), Param: param}
	tubes := Flag{Kind: HotTubes, Limit: forecast.Known(c.Pollen.TubeFull), Param: "pollen.tube_nil"}
	for k := range out.Hours {
		h := &out.Hours[k]
		if h.Heat < flagHalf {
			hot.extend(h.Start)
			hot.Value = forecast.Known(max(hot.Value.Or(h.Air.T), h.Air.T))
		} else if h.Tube < flagHalf && h.Receptive > 0 {
			tubes.extend(h.Start)
			tubes.Value = forecast.Known(a.frame.tmax)
		}
	}
	if !hot.From.IsZero() {
		a.flag(hot)
	}
	if !tubes.From.IsZero() {
		a.flag(tubes)
	}
}

// flagWet marks open flowers wet by rain, now or since the night, and wetness
// long enough for mould.
func (a *assessor) flagWet(out *PlantingDay, m *plantingModel) {
	f := &a.frame
	if len(out.Hours) == 0 {
		return
	}
	first := int(out.Hours[0].Start.Sub(f.start) / time.Hour)
	wind := m.p.Crop.Pollination == crop.Wind
	wet := Flag{Kind: PollenWet, Limit: forecast.Known(pollen.RainStops), Param: "pollen.rain_stops"}
	for k := range out.Hours {
		h := &out.Hours[k]
		if chance := f.wetChance(first + k); chance >= flagWetChance && h.Open > 0 && h.Receptive > 0 {
			wet.extend(h.Start)
			wet.Prob = forecast.Known(max(wet.Prob.Or(0), chance))
		}
	}
	if !wet.From.IsZero() {
		a.flag(wet)
	}
	from := first
	if wind {
		from = 0 // tassels and silks stand for days
	}
	film, mould := f.mildWet(from, first+len(out.Hours))
	if !wind && film >= flagMouldHours || wind && mould >= flagMould {
		a.flag(Flag{Kind: PollenMould, From: out.Hours[0].Start, To: out.Hours[len(out.Hours)-1].Start.Add(time.Hour),
			Value: forecast.Known(film), Param: "pollen.mould_bound"})
	}
}

// wetChance gives the chance that it rains in a frame hour or that rain still
// lies on the flower.
func (f *frame) wetChance(i int) (chance float64) {
	for j := range f.worlds {
		if w := &f.worlds[j]; w.film[i] || w.rain[i] > pollen.RainStops {
			chance += w.weight
		}
	}
	return chance
}

// mildWet gives the expected hours of rain film at mould's temperatures in frame
// hours from..to, and the expected chance of mould.
func (f *frame) mildWet(from, to int) (film, mould float64) {
	for j := range f.worlds {
		w := &f.worlds[j]
		hours := 0.0
		for i := from; i < to; i++ {
			t := f.hours[w.doubt][i].T
			if w.film[i] && t >= pollen.MouldCool && t <= pollen.MouldWarm {
				hours++
			}
		}
		film += w.weight * hours
		mould += w.weight * pollen.MouldChance(hours, 20) // at the optimum [Bulger87, status read]
	}
	return film, mould
}

// flagBees marks stretches in which no group is out, by what keeps them in.
func (a *assessor) flagBees(m *plantingModel, out *PlantingDay) {
	main := m.mainGroup()
	var run Flag
	end := func() {
		if !run.From.IsZero() {
			a.flag(run)
		}
		run = Flag{}
	}
	for k := range out.Hours {
		h := &out.Hours[k]
		factor, in := m.keptIn(main, h)
		if !in || h.Open <= 0 || h.Receptive <= 0 || h.Offer <= 0.05 {
			end()
			continue
		}
		if !run.From.IsZero() && run.Factor != factor {
			end()
		}
		run.Kind, run.Factor, run.Group, run.Param = BeesIn, factor, main, beeParam[factor]
		run.extend(h.Start)
		run.worst(factor, h.Air)
		if factor == bee.Rain {
			run.Prob = forecast.Known(max(run.Prob.Or(0), h.Wet))
		}
	}
	end()
}

// worst keeps the value that tells most about a factor.
func (fl *Flag) worst(f bee.Factor, h *air.Hour) {
	switch f {
	case bee.Cold:
		fl.Value = forecast.Known(min(fl.Value.Or(h.T), h.T))
	case bee.Heat:
		fl.Value = forecast.Known(max(fl.Value.Or(h.T), h.T))
	case bee.Wind:
		fl.Value = forecast.Known(max(fl.Value.Or(h.Wind2), h.Wind2))
	case bee.Light:
		v := 1.0
		if h.ClearLight > 0 {
			v = h.Light / h.ClearLight
		}
		fl.Value = forecast.Known(min(fl.Value.Or(v), v))
	}
}

// mainGroup is the group that brings most at full flight.
func (m *plantingModel) mainGroup() (best bee.Group) {
	most := -1.0
	for g := range bee.Groups {
		if x := m.insect.bees.rate[g] * m.insect.full[g]; x > most {
			most, best = x, bee.Group(g)
		}
	}
	return best
}

// keptIn tells whether every group is in during an hour, and what keeps the
// main group in.
func (m *plantingModel) keptIn(main bee.Group, h *FlowerHour) (bee.Factor, bool) {
	for g := range bee.Groups {
		if m.insect.bees.rate[g] > 0 && h.Flight[g] >= bee.OutShare {
			return 0, false
		}
	}
	if h.Wet >= 0.5 {
		return bee.Rain, true
	}
	return bee.Grounds(main, h.Air, 0, false)
}

// flagCornAir marks air too dry for pollen in flight or too damp to shed.
func (a *assessor) flagCornAir(m *plantingModel, out *PlantingDay) {
	c := m.p.Crop.Corn
	dry := Flag{Kind: DryAir, Param: "corn.age_rate"}
	damp := Flag{Kind: DampAir, Limit: forecast.Known(c.RHLimit), Param: "corn.rh_limit"}
	allDamp := len(out.Hours) > 0
	for k := range out.Hours {
		h := &out.Hours[k]
		if h.Offer > 0 && h.Alive < flagDryAlive {
			dry.extend(h.Start)
			dry.Value = forecast.Known(min(dry.Value.Or(h.Air.RH), h.Air.RH))
		}
		if h.Air.RH >= c.RHLimit {
			damp.extend(h.Start)
			damp.Value = forecast.Known(max(damp.Value.Or(0), h.Air.RH))
		} else {
			allDamp = false
		}
	}
	if !dry.From.IsZero() {
		a.flag(dry)
	}
	if allDamp {
		a.flag(damp)
	}
}

// flagMeanHeat marks hot days before a self-pollinating crop flowers.
func (a *assessor) flagMeanHeat(m *plantingModel, out *PlantingDay) {
	if share, ok := out.Factor.Get(); ok && share < 1-flagHalf/2 {
		d := a.frame.date
		from, to := m.self.worst(&a.past, a.frame.past)
		a.flag(Flag{Kind: HotDays, Value: out.Factor, Since: d.AddDays(from), Until: d.AddDays(to), Param: m.self.d.MeanParam()})
	}
}

// coolNight gives the night (degC) from which on a crop that pollinates itself sets in
// full, where a night under it costs as much as a screen can show.
func coolNight(c *crop.Crop, night float64) (whole float64, cool bool) {
	if c.Self == nil || c.Self.Night.At(night) > 1-leastMove {
		return 0, false
	}
	for _, p := range c.Self.Night.Points() {
		if p[1] >= 1 {
			return p[0], night < p[0]
		}
	}
	return 0, false
}

// flagDays marks what whole days and nights do: nights, and heat on buds.
func (a *assessor) flagDays(m *plantingModel, out *PlantingDay) {
	c, d, k := m.p.Crop, a.frame.date, a.frame.past
	if s, ok := a.past.at(k); ok && s.nightKnown {
		night := forecast.Known(s.nightMin)
		if v, ok := c.Limits.NightLow.Get(); ok && s.nightMin < v {
			a.flag(Flag{Kind: ColdNight, Value: night, Limit: c.Limits.NightLow, Param: "limits.night_low"})
		} else if v, ok := coolNight(c, s.nightMin); ok {
			a.flag(Flag{Kind: CoolNight, Value: night, Limit: forecast.Known(v), Param: "self.night"})
		}
		if v, ok := c.Limits.NightHigh.Get(); ok && s.nightMin > v {
			a.flag(Flag{Kind: HotNight, Value: night, Limit: c.Limits.NightHigh, Param: "limits.night_high"})
		}
	}
	b := c.Buds
	if b == nil || out.Bloom == NoBloom {
		return
	}
	if n := a.past.budSpell(k, b); float64(n) >= b.Days {
		a.flag(Flag{Kind: FewAhead, Limit: forecast.Known(b.DayTemp), Value: forecast.Known(float64(n)), Since: d.AddDays(int(b.Lead.Low)), Until: d.AddDays(int(b.Lead.High)),
			Param: "buds.day_temp"})
	}
	for back := int(b.Lead.Low); back <= int(b.Lead.High); back++ {
		if n := a.past.budSpell(k-back, b); float64(n) >= b.Days {
			a.flag(Flag{Kind: HeatOnBuds, Limit: forecast.Known(b.DayTemp), Value: forecast.Known(float64(n)), Since: d.AddDays(-back - n + 1), Until: d.AddDays(-back),
				Param: "buds.day_temp"})
			return
		}
	}
}
