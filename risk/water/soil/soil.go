package soil

import (
	"fmt"
	"slices"
	"strings"

	"dawnbrush/risk/water/table"
)

// Soil is what a kind of ground holds.
type Soil struct {
	FC  float64 // field capacity, m3/m3
	WP  float64 // wilting point, m3/m3
	REW float64 // what evaporates from its surface before drying slows, mm
}

// Textures gives the names of the kinds of soil of table 19, coarse to fine.
func Textures(t *table.Tables) []string {
	var out []string
	for _, e := range t.Entries {
		if e.Table == "19" && !slices.Contains(out, e.Key) {
			out = append(out, e.Key)
		}
	}
	return out
}

// Of gives a soil of table 19 by its texture, such as "sandy loam". Field capacity
// and available water are the middle of their printed ranges and the wilting
// point is what they leave: so examples 35 and 36 pick their sandy loam and loamy
// sand, while the middles of both ends give a silt less than its printed range of
// available water. Error: no such texture.
func Of(t *table.Tables, texture string) (Soil, error) {
	key := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(texture)), " ", "_")
	fc, ok1 := t.Find("19", key, "", "theta_FC")
	aw, ok2 := t.Find("19", key, "", "available_water")
	rew, ok3 := t.Find("19", key, "", "REW")
	if !ok1 || !ok2 || !ok3 {
		return Soil{}, fmt.Errorf("soil %q is not one of %s", texture, strings.ReplaceAll(strings.Join(Textures(t), ", "), "_", " "))
	}
	return Soil{FC: fc.Middle(), WP: fc.Middle() - aw.Middle(), REW: rew.Middle()}, nil // [FAO56 table 19]
}

// Rows lists the printed values that a texture rests on; none for other soils.
func Rows(t *table.Tables, texture string) (out []table.Entry) {
	key := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(texture)), " ", "_")
	for _, field := range [...]string{"theta_FC", "available_water", "REW"} {
		if e, ok := t.Find("19", key, "", field); ok {
			out = append(out, e)
		}
	}
	return out
}

// Given gives a soil of known field capacity and wilting point (m3/m3). What
// evaporates before drying slows is taken as 45 % of all that can from the top
// 10 cm, the middle of table 19. Error: the two are out of order or out of range.
func Given(fc, wp float64) (Soil, error) {
	if !(wp >= 0 && wp < fc && fc < 1) {
		return Soil{}, fmt.Errorf("field capacity %g and wilting point %g: they have to rise from 0, both below 1", fc, wp)
	}
	s := Soil{FC: fc, WP: wp}
	s.REW = firstShare * s.TEW(Skin) // [chosen: table 19 has 33 to 58 % by texture, 45 % in the middle]
	return s, nil
}

const (
	// Skin is the depth of soil that dries by evaporation, 0.10 to 0.15 m; table 19
	// prints its values for 0.10. [FAO56 eq 73]
	Skin       = 0.10
	firstShare = 0.45 // [chosen: the middle of the ratios of table 19]
)

// TEW gives the most that can evaporate (mm) from the top ze metres.
func (s Soil) TEW(ze float64) float64 {
	return 1000 * (s.FC - 0.5*s.WP) * ze // [FAO56 eq 73]
}

// TAW gives the water (mm) that roots of zr metres can take out of the soil.
func (s Soil) TAW(zr float64) float64 {
	return 1000 * (s.FC - s.WP) * zr // [FAO56 eq 82]
}

// Depletion gives the water (mm) that a root zone of zr metres lacks at a mean
// water content of theta (m3/m3).
func (s Soil) Depletion(theta, zr float64) float64 {
	return max(0, min(s.TAW(zr), 1000*(s.FC-theta)*zr)) // [FAO56 eq 87, eq 86]
}
