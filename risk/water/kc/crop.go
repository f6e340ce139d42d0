package kc

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"dawnbrush/risk/water/table"
)

// Crop is what the tables say of a crop.
type Crop struct {
	Key       string
	Single    Triple   // Kc [FAO56 table 12]
	Basal     Triple   // Kcb [FAO56 table 17]
	Height    float64  // greatest height, m [FAO56 table 12]
	RootLow   float64  // greatest root depth in watered ground, m [FAO56 table 22]
	RootHigh  float64  // the same in ground that lives by rain, m
	Depletion float64  // share of the available water that may go before plants suffer, at 5 mm a day [FAO56 table 22]
	Ky        float64  // how yield answers to want of water; 0 where no number is printed [FAO56 table 24]
	Stages    []Stages // as printed, one for each place and planting time [FAO56 table 11]
}

// names tell under which keys the tables keep a crop: coefficients and roots,
// stages, yield. The cantaloupe is the muskmelon of American gardens; a seedless
// watermelon grows like any other; a garden's common bean is picked green.
var names = map[string][3]string{
	"cucumber":              {"cucumber_fresh", "cucumber", ""},
	"summer-squash":         {"squash_zucchini", "squash_zucchini", ""},
	"pumpkin-winter-squash": {"pumpkin_winter_squash", "pumpkin_winter_squash", ""},
	"muskmelon":             {"cantaloupe", "cantaloupe", ""},
	"honeydew":              {"sweet_melon", "sweet_melon", ""},
	"watermelon":            {"watermelon", "watermelon", "watermelon"},
	"seedless-watermelon":   {"watermelon", "watermelon", "watermelon"},
	"sweet-corn":            {"sweet_corn", "sweet_corn", "maize"},
	"tomato":                {"tomato", "tomato", "tomato"},
	"sweet-pepper":          {"sweet_pepper", "sweet_pepper", "pepper"},
	"eggplant":              {"eggplant", "eggplant", ""},
	"common-bean":           {"green_bean", "green_bean", "bean"},
	"dry-bean":              {"dry_bean", "dry_bean", "bean"},
}

// Keys gives the crops that the tables hold, in order.
func Keys() []string { return slices.Sorted(maps.Keys(names)) }

// Of gives a crop by the program's key. Where a range is printed the middle is
// taken. Error: the tables lack the crop or one of its values (okra is in none).
func Of(t *table.Tables, key string) (Crop, error) {
	n, ok := names[key]
	if !ok {
		return Crop{}, fmt.Errorf("no water table for %q", key)
	}
	c := Crop{Key: key}
	var missing []string
	get := func(no, key, field string) table.Entry {
		e, ok := t.Find(no, key, "", field)
		if !ok {
			missing = append(missing, "table "+no+" "+field)
		}
		return e
	}
	c.Single = Triple{get("12", n[0], "Kc_ini").Middle(), get("12", n[0], "Kc_mid").Middle(), get("12", n[0], "Kc_end").Middle()}
	c.Basal = Triple{get("17", n[0], "Kcb_ini").Middle(), get("17", n[0], "Kcb_mid").Middle(), get("17", n[0], "Kcb_end").Middle()}
	c.Height = get("12", n[0], "max_height").Middle()
	root := get("22", n[0], "root_depth_max")
	c.RootLow, c.RootHigh = root.Low, root.High
	c.Depletion = get("22", n[0], "p_depletion_fraction").Middle()
	if n[2] != "" {
		c.Ky = get("24", n[2], "Ky_seasonal").Middle()
	}
	if c.Stages = stages(t, n[1]); len(c.Stages) == 0 {
		missing = append(missing, "table 11")
	}
	if len(missing) > 0 {
		return Crop{}, fmt.Errorf("no number for %s in %s", key, strings.Join(missing, ", "))
	}
	return c, nil
}

// Rows lists the printed values that a crop of the program's key rests on: its
// coefficients, height and roots, and of table 11 the row that stages came from.
func Rows(t *table.Tables, key string, from Stages) (out []table.Entry) {
	n := names[key]
	for _, f := range [...][3]string{{"17", n[0], "Kcb_ini"}, {"17", n[0], "Kcb_mid"}, {"17", n[0], "Kcb_end"}, {"12", n[0], "Kc_ini"}, {"12", n[0], "Kc_mid"},
		{"12", n[0], "Kc_end"}, {"12", n[0], "max_height"}, {"22", n[0], "root_depth_max"}, {"22", n[0], "p_depletion_fraction"}} {
		if e, ok := t.Find(f[0], f[1], "", f[2]); ok {
			out = append(out, e)
		}
	}
	for _, e := range t.Entries {
		if e.Table == "11" && e.Key == n[1] && from.Row != "" && e.Variant == from.Row && e.Field != "L_total" {
			out = append(out, e)
		}
	}
	return out
}

// stages gathers the rows of table 11; a variant is "row1|plant=May|region=Italy".
func stages(t *table.Tables, key string) []Stages {
	var out []Stages
	last := ""
	for _, e := range t.Entries {
		if e.Table != "11" || e.Key != key {
			continue
		}
		if e.Variant != last {
			last = e.Variant
			s := Stages{Row: e.Variant}
			for part := range strings.SplitSeq(e.Variant, "|") {
				if v, ok := strings.CutPrefix(part, "plant="); ok {
					s.Plant = v
				} else if v, ok := strings.CutPrefix(part, "region="); ok {
					s.Region = v
				}
			}
			out = append(out, s)
		}
		s := &out[len(out)-1]
		switch e.Field {
		case "L_ini":
			s.Ini = e.Middle()
		case "L_dev":
			s.Dev = e.Middle()
		case "L_mid":
			s.Mid = e.Middle()
		case "L_late":
			s.Late = e.Middle()
		}
	}
	return out
}

// TypicalStages gives the row of middle length, the shorter of two, for a grower who names no place.
// [chosen: the rows differ by climate and sowing date, and the middle one errs least]
func (c Crop) TypicalStages() Stages {
	rows := slices.Clone(c.Stages)
	slices.SortStableFunc(rows, func(a, b Stages) int { return cmp.Compare(a.Total(), b.Total()) })
	return rows[(len(rows)-1)/2]
}

// Staked gives a crop trained up to h metres: cucumbers, beans and peppers reach
// 1.15 and 1.10 at mid-season, tomatoes 1.20 and 1.15. Other crops keep their
// coefficients and only grow taller. [FAO56 table 12, table 17]
func (c Crop) Staked(h float64) Crop {
	c.Height = max(c.Height, h)
	switch c.Key {
	case "cucumber", "common-bean", "dry-bean", "sweet-pepper":
		c.Single.Mid, c.Basal.Mid = 1.15, 1.10
	case "tomato":
		c.Single.Mid, c.Basal.Mid = 1.20, 1.15
	}
	return c
}

// Method is how a bed is watered.
type Method uint8

// The methods.
const (
	Sprinkler   Method = iota // water falls on everything
	Drip                      // drip or soaker lines in the open
	DripCovered               // the same under leaves
	Furrow                    // every furrow between narrow beds
	Basin                     // the whole bed is flooded
	Hand                      // can or hose at the foot of each plant
)

// handWetted is the share of a bed that a can wets: no table has it, and a round
// of soil about each stem is about what a drip line wets.
// [chosen: wets about as much as a drip line]
const handWetted = 0.35

// Wetted gives the share of ground that a method wets, the middle of the printed
// range, for plants that shade a share of it.
func Wetted(t *table.Tables, m Method, cover float64) float64 {
	if m == Hand {
		return handWetted
	}
	e, ok := WettedRow(t, m)
	if !ok {
		return 1
	}
	if m == DripCovered {
		return UnderLeaves(e.Middle(), cover)
	}
	return e.Middle()
}

// WettedRow gives the printed share of ground that a method wets; ok is false for
// watering by hand, which no table has.
func WettedRow(t *table.Tables, m Method) (e table.Entry, ok bool) {
	keys := [...]string{Sprinkler: "sprinkler", Drip: "trickle", DripCovered: "trickle", Furrow: "furrow_every_narrow_bed", Basin: "basin", Hand: ""}
	return t.Find("20", keys[m], "", "fw") // [FAO56 table 20]
}
