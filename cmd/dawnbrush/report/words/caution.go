package words

import (
	"dawnbrush/risk"
	"dawnbrush/risk/heat"
)

// Caution is a thing to mind while working.
type Caution uint8

// The cautions. Local rules and licensed practice come first in all of them.
const (
	MindHeat Caution = iota
	MindThunder
	MindStings
	MindSprays
	MindBitter
	MindFrost
	MindWater
	Cautions int = iota
)

// cautionHeat is the temperature (degC) from which working in heat is cautioned
// against: the caution band of the US heat index begins at 80 F.
// [memory, status memory]
const cautionHeat = 27.0

// CautionHeat tells whether a day's high asks for the caution about heat.
func CautionHeat(high float64) bool { return high >= cautionHeat }

// frostAir is the air temperature (degC) under which leaves in the open may freeze:
// on a clear night they are some degrees colder than the air of a shelter at 2 m.
// [common-practice, status common-practice]
const frostAir = 2.0

// CautionFrost tells whether a day's low asks for the caution about frost.
func CautionFrost(low float64) bool { return low <= frostAir }

// Caution says it in one sentence.
func (w Words) Caution(c Caution) string {
	switch c {
	case MindHeat:
		return "heat: drink, rest in the shade, stop when dizzy; local heat rules come first"
	case MindThunder:
		return "thunder: indoors at the first rumble; keep away from metal trellis and wire"
	case MindStings:
		return "stings: bees sit in open flowers; with an allergy leave this to others"
	case MindSprays:
		return "sprays: none on open flowers; the label, local rules and licences come first"
	case MindBitter:
		return "seed: fruit from saved squash or cucumber seed can be bitter; eat none that is"
	case MindFrost:
		return "frost: it kills these plants; no verdict holds after it"
	case MindWater:
		return "water: local watering rules come first; at the foot, for wet leaves sicken"
	}
	return ""
}

// WorkHeat says how hot the hours of work feel and what that asks for; "" where it
// asks for nothing. It stands beside the caution about heat, which says to drink and
// that local rules come first.
func (w Words) WorkHeat(x *risk.WorkHeat) string {
	index, ok := x.Index.Get()
	if !ok || x.Band == heat.None {
		return ""
	}
	todo := "more in the sun"
	switch x.Band {
	case heat.ExtremeCaution:
		todo += ": take breaks in the shade"
	case heat.Danger, heat.ExtremeDanger:
		todo += ": put the work off or keep it short, and not alone"
	}
	return "it feels like " + w.Temp(index) + " at " + w.Clock(x.At) + " (heat index: " + x.Band.String() + "), " + todo
}

// Hands tells whether a task brings hands among flowers and bees.
func Hands(k risk.TaskKind) bool {
	return k == risk.HandPollinate || k == risk.LookFirst || k == risk.BagFlowers || k == risk.UncoverCrop
}
