package words

import (
	"fmt"
	"math"

	"dawnbrush/risk"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
)

// Visitors lists the groups of bees that matter to a crop and that the grower
// has not told to be absent.
func Visitors(c *crop.Crop, b risk.Bees) []bee.Group {
	var out []bee.Group
	groups := [bee.Groups]*crop.Group{bee.Honey: c.Bees.Honey, bee.Bumble: c.Bees.Bumble, bee.Squash: c.Bees.Squash}
	levels := [bee.Groups]risk.Level{bee.Honey: b.Honey, bee.Bumble: b.Bumble, bee.Squash: b.Squash}
	for g := range bee.Groups {
		if groups[g] != nil && levels[g] != risk.None {
			out = append(out, bee.Group(g))
		}
	}
	return out
}

// Out gives the largest flight of some groups in an hour.
func Out(h *risk.FlowerHour, groups []bee.Group) (most float64) {
	for _, g := range groups {
		most = math.Max(most, h.Flight[g])
	}
	return most
}

// HoursOut counts, of the hours in which flowers are open and take pollen, those
// with bees out.
func HoursOut(p *risk.PlantingDay, groups []bee.Group) (out, open int) {
	for i := range p.Hours {
		h := &p.Hours[i]
		if h.Open < 0.5 || h.Receptive <= 0 {
			continue
		}
		open++
		if Out(h, groups) >= bee.OutShare {
			out++
		}
	}
	return out, open
}

// BeesOut says it: "bees out 2 of the 4 hours the flowers are open".
func (w Words) BeesOut(out, open int) string {
	if out == 0 {
		return "no bees out while the flowers are open"
	}
	return fmt.Sprintf("bees out %d of the %s the flowers are open", out, Count(open, "hour", "hours"))
}

// MorningOut says in how many of the hours from sunrise to noon bees are out: "5
// of 6", "2-6 of 6" where some kinds fly longer than others, of the groups that
// matter to some planting of the garden. Unknown where temperature, wind or cloud is not
// known by day; "" where no bees matter or the sun does not rise.
func MorningOut(g *risk.Garden, d *risk.Day) string {
	least, most, any := math.Inf(1), 0.0, false
	for i := range g.Plantings {
		for _, group := range Visitors(g.Plantings[i].Crop, g.Bees) {
			h := d.Weather.BeeHours[group]
			least, most, any = math.Min(least, h), math.Max(most, h), true
		}
	}
	switch {
	case !any || d.Weather.MorningHours <= 0:
		return ""
	case d.Missing&(air.Temp|air.Wind|air.Light) != 0:
		return Unknown
	}
	hours := fmt.Sprintf("%.0f", most)
	if few := fmt.Sprintf("%.0f", least); few != hours {
		hours = few + "-" + hours
	}
	return hours + fmt.Sprintf(" of %.0f", d.Weather.MorningHours)
}
