package pollen

import "dawnbrush/risk/source"

// Params lists every number of pollen that is no crop's own, with its origin.
func Params() []source.Param {
	return []source.Param{
		{Name: "pollen.rain_stops", Value: RainStops, Unit: "mm/h", Key: source.KeyCommonPractice, Status: source.CommonPractice,
			Note: "rain on an open flower stops shed and spoils pollen; no threshold is published, any measurable rain is taken"},
		{Name: "pollen.wet_share", Value: WetShare, Unit: "share", Key: source.KeyChosen, Status: source.Chosen,
			Note:   "while the rain's film lies on the flower; one breeder finds poor set on wet flowers, another finds wet fresh pollen works that morning",
			Others: []source.Alternative{{Text: "wet female flowers set poorly; fresh wet pollen still works (two voices)", Key: "WienList", Where: "list text", Status: source.Read}}},
		{Name: "pollen.mould_bound", Value: MouldBound, Unit: "share", Key: source.KeyChosen, Status: source.Chosen,
			Note: "that rain can mould pollen is common practice; no loss is published, so it is bounded"},
		{Name: "pollen.mould_warmth", Kind: source.Span, Range: &source.Interval{Low: MouldCool, High: MouldWarm}, Unit: "degC", Key: "Bulger87", Where: "abstract", Status: source.Read},
		{Name: "pollen.flagging", Value: FlaggingShare, Unit: "share", Key: "Szegedi93", Where: "p. 3-4", Status: source.Derived, Note: "57 against 93 % set on flagging and turgid cucumber plants; used where the soil is known to be dry"},
	}
}
