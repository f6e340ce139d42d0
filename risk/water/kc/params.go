package kc

import "dawnbrush/risk/source"

// Params lists the numbers of this package that are not part of an equation, with
// their origin.
func Params() []source.Param {
	derived := func(name string, v float64, unit, where, note string) source.Param {
		return source.Param{Name: name, Value: v, Unit: unit, Key: "FAO56", Where: where, Status: source.Derived, Note: note}
	}
	return []source.Param{
		derived("water.bare", Bare, "1", "eq. 76", "Kc of dry bare soil, the lower end of 0.15 to 0.20"),
		derived("water.whole_rain", wholeRain, "mm", "p. 154", "rain that wets all of the ground, the lower end of 3 to 4"),
		derived("water.plastic_evaporation", plasticEvaporation, "share held back", "table 25", "the middle of 50 to 80 %"),
		derived("water.plastic_basal", plasticBasal, "share taken off", "p. 196", "the middle of 5 to 15 %"),
		derived("water.plastic_single", plasticSingle, "share taken off", "p. 196", "the middle of 10 to 30 %"),
		derived("water.organic_evaporation", organicEvaporation, "share held back", "p. 197", "5 % for each tenth of ground that is covered"),
		{Name: "water.hand_wetted", Value: handWetted, Unit: "share", Key: source.KeyChosen, Status: source.Chosen, Note: "a can at the foot of each plant wets about what a drip line does; no table has it"},
	}
}
