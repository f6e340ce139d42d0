package risk

import (
	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// CatfaceLook is what the days before say of fruit that grows cat-faced.
type CatfaceLook uint8

// The looks.
const (
	CatfaceNotAsked CatfaceLook = iota // nothing is known of it for the crop, or nothing flowers
	CatfaceUnknown                     // days that decide are not known yet
	CatfaceClear                       // no cool spell on the days that decide
	CatfaceCool                        // a cool spell: flag Catface names its days
)

var catfaceNames = [...]string{"not asked", "unknown", "clear", "cool spell"}

// String gives the word used in reports.
func (c CatfaceLook) String() string { return catfaceNames[c] }

// eveningHours is how many hours before midnight make an evening: from 18 h on.
// The source says evenings and no hours. [chosen, status chosen]
const eveningHours = 6

// evening gives the mean temperature (degC) of a day's evening; ok is false when
// an hour of it is not known.
func (h *history) evening(k int) (mean float64, ok bool) {
	if k < 0 || k >= len(h.days) {
		return 0, false
	}
	d := &h.days[k]
	if d.hi-d.lo < eveningHours {
		return 0, false
	}
	for i := d.hi - eveningHours; i < d.hi; i++ {
		t, known := h.s.Hours[i].Temp.Get()
		if !known {
			return 0, false
		}
		mean += t / eveningHours
	}
	return mean, true
}

// coolSpell looks for a run of cool evenings among the days from..to of the
// history, the latest first. end is the last day of the run. all is false when an
// evening among those days is not known.
func (h *history) coolSpell(from, to int, limit float64, run int) (end int, found, all bool) {
	all = true
	n := 0
	for k := to; k >= from; k-- {
		t, ok := h.evening(k)
		all = all && ok
		if !ok || t > limit {
			n = 0
			continue
		}
		if n++; n == run {
			return k + run - 1, true, all
		}
	}
	return 0, false, all
}

// catface looks back from the day at k over the days that make flowers grow
// abnormally: cool ones at bloom, then cool ones while the flower was made. since
// and until are days from k. Dry soil is held to do the same, see dryBefore.
func (h *history) catface(c *crop.Catface, k int) (look CatfaceLook, since, until int) {
	run := int(c.Days)
	unknown := false
	for _, span := range [][2]int{{-run, -1}, {-int(c.Lead.High), -int(c.Lead.Low)}} {
		end, found, all := h.coolSpell(k+span[0], k+span[1], c.Evening.High, run)
		if found {
			return CatfaceCool, end - run + 1 - k, end - k
		}
		unknown = unknown || !all
	}
	if unknown {
		return CatfaceUnknown, 0, 0
	}
	return CatfaceClear, 0, 0
}

// flagCatface marks flowers that may make cat-faced fruit. It changes no verdict:
// the fruit sets, and no source says how many of them are spoilt.
func (a *assessor) flagCatface(m *plantingModel, out *PlantingDay) {
	s := m.p.Crop.Self
	if s == nil || s.Catface == nil || out.Bloom == NoBloom {
		return
	}
	out.CatfaceDry = a.dryBefore(m.p, int(s.Catface.Days))
	look, since, until := a.past.catface(s.Catface, a.frame.past)
	if out.Catface = look; look != CatfaceCool {
		return
	}
	d := a.frame.date
	a.flag(Flag{Kind: Catface, Value: forecast.Known(s.Catface.Days), Limit: forecast.Known(s.Catface.Evening.High),
		Since: d.AddDays(since), Until: d.AddDays(until), Param: "self.catface_evening"})
}

// dryKs is the stress below which soil counts as dry for cat-faced fruit. No source
// ties the two at all. [chosen: a seventh of a day's growth is lost, and plants begin to flag]
const dryKs = 0.85

// dryBefore counts the days of dry soil among the run of days just before bloom, by
// the account of the bed's water; unknown where one of them is. Dry soil is blamed
// for cat-faced fruit without a source, so the count is told and flags nothing.
func (a *assessor) dryBefore(p *Planting, run int) forecast.Value {
	dry := 0.0
	for back := 1; back <= run; back++ {
		ks, ok := a.learned.Thirst[ThirstDay{p.Name, a.frame.date.AddDays(-back)}]
		if !ok {
			return forecast.Value{}
		}
		if ks.Mid < dryKs {
			dry++
		}
	}
	return forecast.Known(dry)
}
