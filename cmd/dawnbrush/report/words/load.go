package words

import (
	"strconv"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// Carried says how much fruit the plants carry: "carry 3 cucumbers each", "carry
// at least 1.5 cucumbers each"; "" where it is not known.
func (w Words) Carried(p *risk.PlantingDay) string {
	if p == nil || p.Planting == nil || p.Planting.Crop == nil || !p.Load.PerPlant.IsKnown() {
		return ""
	}
	least := ""
	if p.Load.AtLeast {
		least = "at least "
	}
	return "carry " + least + fruits(p.Load.PerPlant, p.Planting.Crop.Fruit, p.Planting.Crop.Fruits) + " each"
}

// fruits counts fruits a plant, which need not be whole: "1 melon", "2.5 melons".
func fruits(v forecast.Value, one, many string) string {
	n := strings.TrimSuffix(strconv.FormatFloat(v.Or(0), 'f', 1, 64), ".0")
	if n == "1" {
		return n + " " + one
	}
	return n + " " + many
}

// loadFlag says what growing fruit does to new ones.
func (w Words) loadFlag(f *risk.Flag, p *risk.PlantingDay) string {
	carried := w.Carried(p)
	switch {
	case carried == "" && f.Value.IsKnown():
		carried = "carry " + fruits(f.Value, "fruit", "fruits") + " each"
	case carried == "":
		return "the plants carry about all they can: new ones will mostly drop"
	}
	if p == nil || p.Load.Full() {
		return "the plants " + carried + ", about all they can: new ones will mostly drop"
	}
	return "the plants " + carried + ", near all they can: some new ones will drop"
}

// loadCause adds to it what frees the plants.
func (w Words) loadCause(p *risk.PlantingDay) string {
	if w.Carried(p) == "" {
		return w.Cause(risk.CauseFullLoad)
	}
	f := risk.Flag{Kind: risk.FullLoad, Value: p.Load.PerPlant}
	s := w.loadFlag(&f, p)
	if l := p.Planting.Crop.Load; l == nil || !l.Young {
		return s + " until one is ripe and picked"
	}
	return strings.Replace(s, ": ", ": pick first, ", 1)
}
