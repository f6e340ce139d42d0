package ledger

import (
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

const (
	week = 7
	// inch is the common rule's water of a week, mm, rain counted. [common-practice]
	inch = 25.4
	// uneven is the swing from which a week counts as uneven, in shares of what may
	// go before plants suffer: FAO56 gives no threshold for the ills of uneven water.
	uneven = 1.2 // [chosen: a bed that is watered just when due swings by 1; beyond it plants have suffered]
)

// swing looks at the seven days before Today, between the fullest and the emptiest
// moment of the middle track.
func (l *ledger) swing() {
	days := l.bed.Days
	if l.soilless || len(days) < week {
		return
	}
	least, most := 1e9, 0.0
	for _, d := range days[len(days)-week:] {
		if d.wide > looking || d.RAW <= 0 {
			return
		}
		least = min(least, d.Flux.Start.Dr/d.RAW)
		most = max(most, (1-d.Night.Mid)*d.TAW/d.RAW)
	}
	share := max(0, most-least)
	l.bed.Swing = Swing{Known: true, Share: share, Uneven: share > uneven}
}

// season adds up the days that are over.
func (l *ledger) season() {
	s := Season{Wanted: l.wanted, Noted: !l.notes.first.IsZero()}
	rain, days := 0.0, 0
	for k := range l.bed.Days {
		d := &l.bed.Days[k]
		if !d.Past {
			break
		}
		s.Days, s.Given = s.Days+1, s.Given+d.Litres
		rain, days = rain+d.Rain.Mid, days+1
		if days == week || k+1 < len(l.bed.Days) && !l.bed.Days[k+1].Past { // the last week may be short
			s.Rule += l.area * max(0, inch*float64(days)/week-rain)
			rain, days = 0, 0
		}
	}
	l.bed.Season = s
}

// Thirst gives how far a planting's want of water cuts what it gives off on a day:
// Ks, 0..1, 1 for plants that want for nothing. On Today it is as the bed stands; on
// later days as it is when what is advised is given. ok is false where the account
// cannot tell: the bed is not reckoned, holds no store, or its past is not known.
func (a *Account) Thirst(p *risk.Planting, date forecast.Date) (ks risk.Range, ok bool) {
	for i := range a.Beds {
		b := &a.Beds[i]
		if b.Why != Reckoned || b.NoStore || !b.holds(p) {
			continue
		}
		d, found := b.Day(date)
		if !found || d.wide > looking || d.Advice.Verdict == LookFirst {
			return risk.Range{}, false
		}
		if date.After(a.Today) {
			return d.kept, true
		}
		return d.Stress, true
	}
	return risk.Range{}, false
}

func (b *Bed) holds(p *risk.Planting) bool {
	for _, q := range b.Plantings {
		if q.Name == p.Name {
			return true
		}
	}
	return false
}

// Thirsts gives the thirst of all plantings on all days that the account can tell,
// for the model.
func (a *Account) Thirsts() risk.Thirst {
	out := risk.Thirst{}
	for i := range a.Beds {
		b := &a.Beds[i]
		for _, p := range b.Plantings {
			for k := range b.Days {
				if ks, ok := a.Thirst(p, b.Days[k].Date); ok {
					out[risk.ThirstDay{Planting: p.Name, Date: b.Days[k].Date}] = ks
				}
			}
		}
	}
	return out
}
