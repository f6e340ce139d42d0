package words

import (
	"dawnbrush/risk"
	"dawnbrush/risk/bee"
)

// Cause says why a task stands, in a clause without hours: "wind keeps bees in".
func (w Words) Cause(c risk.Cause) string {
	switch c {
	case risk.CauseBeesCold:
		return w.KeepsIn(bee.Cold)
	case risk.CauseBeesWet:
		return w.KeepsIn(bee.Rain)
	case risk.CauseBeesWind:
		return w.KeepsIn(bee.Wind)
	case risk.CauseBeesDull:
		return w.KeepsIn(bee.Light)
	case risk.CauseBeesHot:
		return w.KeepsIn(bee.Heat)
	case risk.CauseFewBees:
		return "bees here may be few"
	case risk.CauseCovered:
		return "the cover keeps bees out"
	case risk.CauseHotPollen:
		return "heat spoils the pollen later"
	case risk.CauseHotTubes:
		return "the heat after lets few seeds start"
	case risk.CauseRainAhead:
		return "rain may fall on open flowers"
	case risk.CausePollenOld:
		return "dry air ages the pollen fast"
	case risk.CauseLateOpening:
		return "cold opens the flowers late or not at all"
	}
	return w.lastingCause(c)
}

// lastingCause is the part of Cause that no hour of the day can change.
func (w Words) lastingCause(c risk.Cause) string {
	switch c {
	case risk.CauseNoParent:
		return "no pollen parent nearby"
	case risk.CauseNeedsNoPollen:
		return "this kind fills its fruit without pollen"
	case risk.CauseOtherAir:
		return "the weather inside a tunnel or house is not known"
	case risk.CauseHistory:
		return "the weather of the days before is not known"
	case risk.CauseOutsideHours:
		return "the best hours are outside those you can work"
	case risk.CauseCalm:
		return "too little wind to move the pollen"
	case risk.CauseHotDays:
		return "hot days before: little fruit sets, whatever is done"
	case risk.CauseFewBuds:
		return "heat took the female buds"
	case risk.CauseUnknown:
		return "part of the weather is not known"
	case risk.CauseSmallBlock:
		return "few rows: pollen blows past the silks"
	case risk.CauseDampAir:
		return "air too damp for pollen to come off"
	case risk.CauseColdNights:
		return "cold nights: fruit sets badly"
	case risk.CauseLookElsewhere:
		return "the count at the other planting tells for this one too"
	case risk.CauseDone:
		return "the diary says that they were brushed today"
	case risk.CauseOldSilks:
		return "the silks are too old to take pollen"
	case risk.CauseOver:
		return "today's flowers have shut"
	case risk.CauseParentShut:
		return "no pollen parent of the garden file is in flower: without its males nothing sets"
	case risk.CauseParentMaybe:
		return "the pollen parent may not be in flower: look for open males first"
	case risk.CausePollenSpoils:
		return "pollen of other cucumbers makes its fruit seedy and thick at the end: an insect net keeps bees off"
	case risk.CauseFullLoad:
		return "the plants carry about all the fruit they can"
	case risk.CauseNoSun:
		return "the sun does not rise or does not set, and flowers keep no hours"
	}
	return ""
}

// causeFlag names the flag that gives a cause its hours; ok is false where
// there is none.
func causeFlag(c risk.Cause) (k risk.FlagKind, f bee.Factor, ok bool) {
	switch c {
	case risk.CauseBeesCold:
		return risk.BeesIn, bee.Cold, true
	case risk.CauseBeesWet:
		return risk.BeesIn, bee.Rain, true
	case risk.CauseBeesWind:
		return risk.BeesIn, bee.Wind, true
	case risk.CauseBeesDull:
		return risk.BeesIn, bee.Light, true
	case risk.CauseBeesHot:
		return risk.BeesIn, bee.Heat, true
	case risk.CauseHotPollen:
		return risk.HotPollen, 0, true
	case risk.CauseRainAhead:
		return risk.PollenWet, 0, true
	case risk.CauseLateOpening:
		return risk.ColdOpening, 0, true
	}
	return 0, 0, false
}

// CauseOn says why with the hours of that day where a flag has them: "wind keeps
// bees in from 08:00", "too hot for pollen from 11:00".
func (w Words) CauseOn(c risk.Cause, p *risk.PlantingDay) string {
	kind, factor, ok := causeFlag(c)
	if c == risk.CauseHotDays && p != nil && p.Planting != nil && p.Planting.Crop.Self != nil && p.Planting.Crop.Self.ByNight {
		return "warm nights before: little fruit sets, whatever is done"
	}
	if c == risk.CauseFullLoad {
		return w.loadCause(p)
	}
	if !ok || p == nil {
		return w.Cause(c)
	}
	for i := range p.Flags {
		f := &p.Flags[i]
		if f.Kind != kind || kind == risk.BeesIn && f.Factor != factor {
			continue
		}
		when := w.within(f.From, f.To, p)
		switch kind {
		case risk.BeesIn:
			return w.KeepsIn(f.Factor) + when
		case risk.HotPollen:
			return "too hot for pollen" + when
		case risk.PollenWet:
			return "rain on open flowers" + when + w.chance(f)
		case risk.ColdOpening:
			return "too cold for flowers to open" + when
		}
	}
	return w.Cause(c)
}
