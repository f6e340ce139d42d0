package words

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// typeOf gives the trade's type of a planting, where it was told.
func typeOf(p *risk.Planting) (*crop.Type, bool) {
	if p == nil || p.Crop == nil || p.Type == "" {
		return nil, false
	}
	return p.Crop.TypeOf(p.Type)
}

// CropType names the crop with its type: "cucumber (pickling)".
func (w Words) CropType(p *risk.Planting) string {
	if t, ok := typeOf(p); ok {
		return p.Crop.Name + " (" + t.Key + ")"
	}
	return p.Crop.Name
}

// pickManner says what to pick, and when again where that was published for the type.
func (w Words) pickManner(t *risk.Task) string {
	kind, ok := typeOf(t.Planting)
	size, again := "", ""
	if ok {
		size = w.pickSize(kind)
	}
	if ok && kind.PickEvery != (crop.Range{}) {
		again = "; again every " + span(kind.PickEvery) + " days"
	}
	return "everything that is big enough" + size + ", and what was overlooked and has grown too big; then note how many" + again
}

// pickSize says how big a fruit to pick is: " (5 to 10 cm long)"; "" where none was found.
func (w Words) pickSize(t *crop.Type) string {
	var parts []string
	if t.Length != (crop.Range{}) {
		parts = append(parts, w.centimetres(t.Length)+" long")
	}
	if t.Width != (crop.Range{}) {
		parts = append(parts, w.centimetres(t.Width)+" across")
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, ", ") + ")"
}

// centimetres writes a span in whole cm or half inches.
func (w Words) centimetres(r crop.Range) string {
	if w.us() {
		in := func(cm float64) float64 { return math.Round(2*unit.MmToIn(10*cm)) / 2 }
		return span(crop.Range{Low: in(r.Low), High: in(r.High)}) + " in"
	}
	return span(crop.Range{Low: math.Round(r.Low), High: math.Round(r.High)}) + " cm"
}

func span(r crop.Range) string { return fmt.Sprintf("%g to %g", r.Low, r.High) }

// ready says when flowers that took are ready to pick, where that was published for
// the planting's type; the look may be at other crops too, so it names its own.
func (w Words) ready(t *risk.Task) string {
	kind, ok := typeOf(t.Planting)
	other := slices.ContainsFunc(t.Also, func(p *risk.Planting) bool { return p.Crop == cropOf(t) && p.Type != t.Planting.Type })
	if !ok || other || kind.HarvestAfter == (crop.Range{}) || t.Tagged.IsZero() {
		return ""
	}
	after := kind.HarvestAfter
	return ", " + t.Planting.Crop.Fruits + " ready to pick " + w.Days(t.Tagged.AddDays(int(math.Floor(after.Low))), t.Tagged.AddDays(int(math.Ceil(after.High))))
}
