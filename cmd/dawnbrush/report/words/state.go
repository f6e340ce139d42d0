package words

import (
	"dawnbrush/risk"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
)

// State says what a verdict rests on, "" where it was simply judged.
func (w Words) State(s risk.State) string {
	switch s {
	case risk.Judged:
		return "judged from the weather of its open hours"
	case risk.NoTemperature:
		return "no verdict: the temperature is not known while the flowers are open"
	case risk.NoSun:
		return "no verdict: the sun does not rise or does not set"
	case risk.OtherAir:
		return "no verdict: the weather inside a tunnel or house is not known"
	case risk.NeedsNoPollen:
		return "fills its fruit without pollen"
	case risk.NoPollenParent:
		return "sets nothing without a pollen parent, and none is told of nearby"
	case risk.HistoryUnknown:
		return "the days before decide, and they are not known"
	case risk.StaysShut:
		return "too cold: the flowers stay shut all day"
	case risk.SilksTooOld:
		return "the silks are too old to take pollen"
	}
	return ""
}

// Bloom says what stage of flowering a planting is in.
func (w Words) Bloom(b risk.Bloom) string {
	switch b {
	case risk.NoBloom:
		return "not in flower"
	case risk.MaybeBloom:
		return "may be in flower"
	case risk.MalesOnly:
		return "male flowers only, females to come"
	case risk.InBloom:
		return "in flower"
	case risk.UnknownBloom:
		return "whether it flowers is not known: no date was told; look for open flowers and tell the garden file the day of the first"
	}
	return ""
}

// layerNames in the order in which growers ask.
var layerNames = [...]struct {
	layer air.Layers
	name  string
}{
	{air.Temp, "temperature"}, {air.Rain, "rain"}, {air.Wind, "wind"}, {air.Humidity, "humidity"}, {air.Light, "cloud"},
}

// Layers names unknown layers of weather: "rain and wind"; "" for none.
func (w Words) Layers(l air.Layers) string {
	var names []string
	for _, n := range layerNames {
		if l.Has(n.layer) {
			names = append(names, n.name)
		}
	}
	return List(names)
}

// KeepsIn says what keeps bees in: "wind keeps bees in".
func (w Words) KeepsIn(f bee.Factor) string {
	switch f {
	case bee.Cold:
		return "too cold for bees"
	case bee.Heat:
		return "too hot for bees"
	case bee.Light:
		return "too dull for bees"
	case bee.Wind:
		return "wind keeps bees in"
	case bee.Rain:
		return "rain keeps bees in"
	case bee.WetFlowers:
		return "wet flowers keep bees away"
	}
	return ""
}

// Cover names what stands over a planting: "under row cover", "in a tunnel".
func (w Words) Cover(c risk.Cover) string {
	switch c {
	case risk.RowCover:
		return "under row cover"
	case risk.Tunnel:
		return "in a tunnel"
	case risk.House:
		return "in a greenhouse"
	}
	return "in the open"
}
