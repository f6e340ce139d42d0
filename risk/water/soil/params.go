package soil

import "dawnbrush/risk/source"

// Params lists the numbers of this package that are not part of an equation, with
// their origin.
func Params() []source.Param {
	return []source.Param{
		{Name: "water.skin", Value: Skin, Unit: "m", Key: "FAO56", Where: "eq. 73", Status: source.Derived, Note: "depth that dries by evaporation, the lower end of 0.10 to 0.15, for which table 19 is printed"},
		{Name: "water.first_share", Value: firstShare, Unit: "share of TEW", Key: source.KeyChosen, Status: source.Chosen, Note: "what evaporates before drying slows, for a soil of given capacities: table 19 has 33 to 58 % by texture"},
		{Name: "water.pot_share", Value: potShare, Unit: "share of volume", Key: source.KeyMemory, Status: source.Memory, Note: "available water of a pot; 0.2 to 0.3 is told"},
		{Name: "water.shallowest", Value: shallowest, Unit: "m", Key: "FAO56", Where: "example 38 and notes to table 22", Status: source.Memory, Note: "root depth of sown or just planted vegetables"},
	}
}
