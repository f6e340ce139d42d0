package water

import (
	"dawnbrush/risk/source"
	"dawnbrush/risk/water/dose"
	"dawnbrush/risk/water/et0"
	"dawnbrush/risk/water/kc"
	"dawnbrush/risk/water/soil"
	"dawnbrush/risk/water/table"
)

// Params lists the numbers of the water account that are not part of an equation,
// with their origin. The printed tables are many and stand apart, see [Tables].
func Params() []source.Param {
	out := et0.Params()
	out = append(out, kc.Params()...)
	out = append(out, soil.Params()...)
	return append(out,
		source.Param{Name: "water.least_rain", Value: leastRain, Unit: "share of the day's reference", Key: "FAO56", Where: "p. 153, p. 170", Status: source.Read, Note: "less rain in a day does nothing for the soil"},
		source.Param{Name: "water.seedling", Value: seedling, Unit: "share of full height", Key: source.KeyChosen, Status: source.Chosen, Note: "height follows cover, and a seedling counts as a tenth"},
		source.Param{Name: "water.can", Value: dose.CanLitres, Unit: "l", Key: source.KeyCommonPractice, Status: source.CommonPractice, Note: "a common watering can"},
		source.Param{Name: "water.drip_efficiency", Value: float64(dose.Drip), Unit: "share", Key: "FAOTM4", Where: "annex I", Status: source.Quoted, Note: "the upper end of 60 to 90 % for all ways of watering; extension pages have 0.85 too"},
		source.Param{Name: "water.hand_efficiency", Value: float64(dose.Hand), Unit: "share", Key: source.KeyMemory, Status: source.Memory},
		source.Param{Name: "water.sprinkler_efficiency", Value: float64(dose.Sprinkler), Unit: "share", Key: source.KeyMemory, Status: source.Memory},
	)
}

// Tables lists every value of the printed tables with its origin.
func Tables() ([]source.Param, error) {
	t, err := table.Load()
	if err != nil {
		return nil, err
	}
	var out []source.Param
	for _, e := range t.Entries {
		out = append(out, e.Param())
	}
	return out, nil
}
