package risk

import (
	"slices"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/crop"
)

// closedRoom is a tunnel or house with a logger: a garden of its own under its own
// air, worked out three times, for the temperature foretold and for one in ten
// cooler and warmer. The outside's hour loops know nothing of it.
type closedRoom struct {
	name   string
	log    *forecast.Series
	whose  []int // indices of its plantings in the garden
	models [3]*Model
}

// closedRooms gathers the plantings that share a logger and what bees are in there.
func closedRooms(g *Garden, l Learned) (out []closedRoom) {
	l.Visits, l.Expected, l.Counts = 0, 0, 0 // bees counted outside tell nothing of those inside
	for i := range g.Plantings {
		p := &g.Plantings[i]
		log := g.Inside[p.Logger]
		if !p.inside() || p.Logger == "" || log == nil || len(log.Hours) == 0 {
			continue
		}
		same := func(r closedRoom) bool {
			return r.name == p.Logger && g.Plantings[r.whose[0]].BumbleHive == p.BumbleHive
		}
		k := slices.IndexFunc(out, same)
		if k < 0 {
			k, out = len(out), append(out, closedRoom{name: p.Logger, log: log})
		}
		out[k].whose = append(out[k].whose, i)
	}
	for k := range out {
		r := &out[k]
		in := *g
		in.Inside, in.Shelter, in.Plantings = nil, 1, nil
		in.Bees = g.Bees.insideOf(g.Plantings[r.whose[0]].BumbleHive)
		for _, i := range r.whose {
			p := g.Plantings[i]
			p.Cover = Open // what the cover does stands in the hours
			in.Plantings = append(in.Plantings, p)
		}
		for j := range r.models {
			r.models[j] = NewModelWith(&in, l)
		}
	}
	return out
}

// insideOf gives the bees in a tunnel or house: those that find the open sides, and
// a hive of bumble bees where one stands in there. [chosen, status chosen] few,
// for the step is the one for a garden with few; many, for a hive works one house.
func (b Bees) insideOf(hive bool) Bees {
	few := func(l Level) Level {
		if l == None {
			return None
		}
		return Few
	}
	out := Bees{Honey: few(b.Honey), Bumble: few(b.Bumble), Squash: few(b.Squash), closed: true}
	if hive {
		out.Bumble = Many
	}
	return out
}

// assess works the room's plantings out and puts them in the place of what the
// garden's model said of them.
func (r *closedRoom) assess(m *Model, s *forecast.Series, first forecast.Date, n int) {
	in := insideOf(r.name, r.log, s, m.skies.hours[air.Kind], m.g.Place)
	series := [3]*forecast.Series{in.Series, in.outer[0], in.outer[1]}
	var all [3]*Assessment
	for j := range r.models {
		all[j] = r.models[j].Assess(series[j], first, n)
	}
	for k := range m.out.Days {
		day := &m.out.Days[k]
		var days [3]*Day
		known := true
		for j := range all {
			var ok bool
			days[j], ok = all[j].Day(day.Date)
			known = known && ok
		}
		for at, i := range r.whose {
			out := &day.Plantings[i]
			out.Inside = in
			if known {
				r.settle(out, day.Date, at, days)
			}
		}
	}
}

// settle takes the middle course over, with ranges that hold the cooler and the
// warmer one. A temperature that nothing tells leaves what the past alone decides.
func (r *closedRoom) settle(out *PlantingDay, d forecast.Date, at int, days [3]*Day) {
	mid := days[0].Plantings[at]
	if mid.State == NoTemperature {
		if out.Inside.Difference.Fault == "" {
			r.past(out, d, at)
		}
		return
	}
	mid.Planting, mid.Inside = out.Planting, out.Inside
	for _, day := range days[1:] {
		if q := &day.Plantings[at]; q.State == mid.State {
			mid.widen(q)
		}
	}
	if mid.Planting.Crop.Pollination == crop.Self {
		mid.Missing &^= air.Humidity // it plays no part where no rain falls
	}
	*out = mid
}

// past keeps the verdict open and takes from the logger what the days before did.
func (r *closedRoom) past(out *PlantingDay, d forecast.Date, at int) {
	m := r.models[0]
	pm, k := &m.models[at], m.past.index(d)
	out.Bloom, out.BloomBasis = pm.dates.on(d)
	m.frame = frame{date: d, past: k} // all that whole days need
	out.Flags = m.take(func() { m.flagDays(pm, out) })
	if pm.p.Crop.Pollination != crop.Self {
		return
	}
	if share, known, _ := pm.self.before(&m.past, k); known {
		out.Factor = forecast.Known(share)
	}
}

// widen stretches the ranges over those of another course. That the extremes of
// temperature and of bees meet is rarer than one in ten: it errs on the wide side.
func (pd *PlantingDay) widen(q *PlantingDay) {
	for _, r := range [][2]*Range{{&pd.Set, &q.Set}, {&pd.Fill, &q.Fill}, {&pd.Both, &q.Both}, {&pd.BothSet, &q.BothSet}} {
		r[0].Lo, r[0].Hi = min(r[0].Lo, r[1].Lo), max(r[0].Hi, r[1].Hi)
	}
	pd.Missing |= q.Missing
}
