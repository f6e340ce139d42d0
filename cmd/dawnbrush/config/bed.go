package config

import (
	"fmt"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// mostBeds bounds the beds of a file. [chosen: no more than its plantings]
const mostBeds = mostPlantings

// bedSettings are the keys of a [[bed]].
func bedSettings() []setting {
	bed := func(s scope) *risk.Bed { return s.bed }
	return []setting{
		required(textSetting("name", "the bed as plantings name it", `"bed 3"`, func(s scope) *string { return &bed(s).Name })),
		wordSetting("kind", "ground, raised or pots (sacks and tubs too)", `"ground"`,
			[]risk.BedKind{risk.GroundBed, risk.RaisedBed, risk.Pots}, func(s scope) *risk.BedKind { return &bed(s).Kind }),
		measured(areas(), "area", "soil that the plants have to themselves, in {unit}", "40", 0.01, 1e6, // [chosen: a pot to a hundred hectares]
			func(s scope) *float64 { return &bed(s).Area }),
		wordSetting("soil", "by feel: sand, loamy sand, sandy loam, loam, silt loam, silt, silt clay loam, silty clay or clay; in pots also potting soil or soilless",
			`"loam"`, soils(), func(s scope) *risk.Soil { return &bed(s).Soil }),
		shareSetting("field_capacity", "water that the soil holds against its weight, measured, in per cent of its volume", "30",
			func(s scope) *forecast.Value { return &bed(s).FieldCapacity }),
		shareSetting("wilting_point", "water that roots cannot get, measured, in per cent of the soil's volume", "14",
			func(s scope) *forecast.Value { return &bed(s).WiltingPoint }),
		measured(depths(), "depth", "raised beds: soil that roots can use, in {unit}", "12", 0.05, 3, // [chosen: a tray to deeper than any root of these crops]
			func(s scope) *float64 { return &bed(s).Depth }),
		countSetting("pots", "pots: how many", "6", 1, mostPlants, func(s scope) *int { return &bed(s).Pots }),
		measured(volumes(), "pot_volume", "pots: soil in one of them, in {unit}", "10", 0.2, 2000, // [chosen: a mug to a half wine vat]
			func(s scope) *float64 { return &bed(s).PotVolume }),
		wordSetting("watering", "how water comes: drip, soaker hose, can, hose, sprinkler, furrow or flood", `"drip"`,
			[]risk.Watering{risk.Drip, risk.Soaker, risk.Can, risk.Hose, risk.Sprinkler, risk.Furrow, risk.Flood}, func(s scope) *risk.Watering { return &bed(s).Watering }),
		measured(flows(), "flow", "what the whole bed gets when the water runs, in {unit}", "12", 0.05, 1e6, // [chosen: one dripper to a farm's pump]
			func(s scope) *float64 { return &bed(s).Flow }),
		wordSetting("mulch", "none, organic (straw, leaves, compost) or plastic (film, fabric)", `"organic"`,
			[]risk.Mulch{risk.BareSoil, risk.Organic, risk.Plastic}, func(s scope) *risk.Mulch { return &bed(s).Mulch }),
		wordSetting("account", "full (plants and bare soil apart) or simple (one number a day for both, as printed tables have it)", `"full"`,
			[]risk.WaterAccount{risk.FullAccount, risk.SimpleAccount}, func(s scope) *risk.WaterAccount { return &bed(s).Account }),
	}
}

func soils() []risk.Soil {
	return []risk.Soil{risk.Sand, risk.LoamySand, risk.SandyLoam, risk.Loam, risk.SiltLoam, risk.Silt, risk.SiltClayLoam, risk.SiltyClay, risk.Clay,
		risk.PottingSoil, risk.Soilless}
}

// shareSetting is a share that growers write in per cent.
func shareSetting(key, doc, example string, field func(scope) *forecast.Value) setting {
	const least, most = 1, 90 // [chosen: dry gravel to peat]
	return setting{key: key, doc: doc, example: example,
		read: func(in *reader, key string, v *node, s scope) {
			if f, ok := in.number(key, v, least, most); ok {
				*field(s) = forecast.Known(percent().in(f, risk.Metric))
			}
		},
		show: func(s scope) string {
			f, ok := field(s).Get()
			if !ok {
				return ""
			}
			return percent().show(f, risk.Metric)
		}}
}

// bedDefaults is a bed before more is told than its name.
//
//	kind     ground
//	mulch    none
//	account  full
func bedDefaults() risk.Bed {
	return risk.Bed{Kind: risk.GroundBed, Mulch: risk.BareSoil, Account: risk.FullAccount}
}

// beds reads every [[bed]].
func (in *reader) beds(root *node, f *File) {
	first := map[string]int{}
	in.each(root, bedTable, mostBeds, func(i int, item *node) {
		f.Garden.Beds = append(f.Garden.Beds, bedDefaults())
		s := scope{file: f, bed: &f.Garden.Beds[i], path: fmt.Sprintf("%s[%d].", bedTable, i)}
		in.table(item, bedSettings(), s)
		in.checkBed(item, s)
		in.checkName("bed", s.bed.Name, first, s)
	})
}

// checkBed looks at what hangs together in a bed.
func (in *reader) checkBed(item *node, s scope) {
	b := s.bed
	given := func(key string) (at int, ok bool) {
		at, ok = in.given[s.path+key]
		return at, ok
	}
	need := func(why string, keys ...string) {
		for _, key := range keys {
			if _, ok := given(key); !ok {
				in.fault(item.offset, "add "+key+", "+docOf(bedSettings(), key, s), "%s is missing: %s", key, why)
			}
		}
	}
	if b.Kind == risk.Pots {
		need("how much water a pot holds hangs on it", "pots", "pot_volume")
	} else {
		need("how much water the bed takes hangs on it", "area")
		for _, key := range []string{"pots", "pot_volume"} {
			if at, ok := given(key); ok {
				in.warn(at, `write kind = "pots" or leave it out`, "%s belongs to pots, and this bed is of kind %s", key, b.Kind)
			}
		}
		if at, ok := given("soil"); ok && b.Soil == risk.Soilless {
			in.fault(at, `write kind = "pots", or the soil of the ground`, "a bed of kind %s cannot be soilless", b.Kind)
		}
	}
	if at, ok := given("depth"); ok && b.Kind != risk.RaisedBed {
		in.warn(at, "leave it out", "depth is read for raised beds only")
	}
	in.checkSoilWater(given, b)
	if b.Watering == risk.Can {
		if at, ok := given("flow"); ok {
			in.warn(at, "leave it out", "a can has no flow")
		}
	}
}

// checkSoilWater wants both measured limits of a soil's water, in order.
func (in *reader) checkSoilWater(given func(string) (int, bool), b *risk.Bed) {
	fcAt, fc := given("field_capacity")
	wpAt, wp := given("wilting_point")
	full, ok1 := b.FieldCapacity.Get()
	dry, ok2 := b.WiltingPoint.Get()
	switch {
	case fc && !wp:
		in.fault(fcAt, "add wilting_point, or name the soil instead", "field_capacity says nothing without wilting_point")
	case wp && !fc:
		in.fault(wpAt, "add field_capacity, or name the soil instead", "wilting_point says nothing without field_capacity")
	case ok1 && ok2 && dry >= full:
		in.fault(wpAt, "are the two swapped?", "a wilting point of %s %% is not below the field capacity of %s %%", percent().show(dry, risk.Metric), percent().show(full, risk.Metric))
	case ok1 && ok2 && b.Soil != "":
		at, _ := given("soil")
		in.warn(at, "leave it out", "soil is not read where field_capacity and wilting_point are measured")
	}
}

// checkBedNames warns of plantings whose bed has no water to reckon with, where
// others have.
func (in *reader) checkBedNames(f *File) {
	if len(f.Garden.Beds) == 0 {
		return
	}
	var names []string
	for i := range f.Garden.Beds {
		names = append(names, f.Garden.Beds[i].Name)
	}
	for i := range f.Garden.Plantings {
		p := &f.Garden.Plantings[i]
		if f.Garden.Bed(p) != nil || !p.Finished.IsZero() || p.Name == "" {
			continue // that a name is missing is a fault of its own
		}
		path := fmt.Sprintf("%s[%d].", plantingTable, i)
		at, told := in.given[path+"bed"]
		if !told {
			in.warn(in.given[path+"name"], "add bed = "+quote(names[0])+" or another", "%s without bed: its water cannot be reckoned", p.Name)
			continue
		}
		hint := "add a [[" + bedTable + "]] named " + quote(p.Bed)
		if near, ok := Nearest(p.Bed, names); ok {
			hint = "did you mean " + near + "?"
		}
		in.warn(at, hint, "there is no [[%s]] named %s: the water of %s cannot be reckoned", bedTable, said(p.Bed), p.Name)
	}
}

// docOf gives what is said of a key.
func docOf(settings []setting, key string, s scope) string {
	for _, set := range settings {
		if set.key == key {
			return strings.TrimPrefix(set.explain(s), "pots: ")
		}
	}
	return ""
}
