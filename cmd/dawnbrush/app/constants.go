package app

import (
	"slices"

	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/source"
	"dawnbrush/risk/water"
)

// constants lists the numbers that belong to no crop: those of the model and those
// of the account of water, which the published results say nothing of.
func constants() []source.Param {
	return slices.Concat(risk.Params(), water.Params(), ledger.Params())
}
