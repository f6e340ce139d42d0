package words

import "dawnbrush/risk"

// Caution is a thing to mind while working.
type Caution uint8

// The cautions. Local rules and licensed practice come first in all of them.
const (
	MindHeat Caution = iota
	MindThunder
	MindStings
	MindSprays
	MindBitter
	Cautions int = iota
)

// cautionHeat is the temperature (degC) from which working in heat is cautioned
// against: the caution band of the US heat index begins at 80 F.
// [memory, status memory]
const cautionHeat = 27.0

// CautionHeat tells whether a day's high asks for the caution about heat.
func CautionHeat(high float64) bool { return high >= cautionHeat }

// Caution says it in one sentence.
func (w Words) Caution(c Caution) string {
	switch c {
	case MindHeat:
		return "heat: drink, keep to the shade, stop when dizzy or sick; local rules for work in heat come first"
	case MindThunder:
		return "thunder: go indoors at the first rumble, and keep off metal trellis and wire until half an hour after the last"
	case MindStings:
		return "stings: flowers with bees in them sting the hasty; who is allergic keeps the medicine at hand or leaves it to others"
	case MindSprays:
		return "sprays: none on open flowers or where bees fly; the label is the law, and some want a licence"
	case MindBitter:
		return "seed: squash, pumpkin and cucumber from saved seed can be bitter and then make ill; taste a crumb, spit it out, and eat none that is bitter"
	}
	return ""
}

// Hands tells whether a task brings hands among flowers and bees.
func Hands(k risk.TaskKind) bool {
	return k == risk.HandPollinate || k == risk.LookFirst || k == risk.BagFlowers || k == risk.UncoverCrop
}
