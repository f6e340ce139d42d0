package risk

import (
	"dawnbrush/risk/bee"
	"dawnbrush/risk/published"
)

// beeDrawings are limits of temperature of the bees' flight.
// They belong to no crop, so every row is run again with them.
func (l *lab) beeDrawings() []drawing {
	const (
		search, rise = "bees/honey_bee/temp_min_forage", "bees/honey_bee/temp_rising_range"
		falls        = "bees/honey_bee/temp_upper_pollen_foraging"
		trips        = "bees/bumble_bee/temp_upper_trips_fall"
		hotFlight    = "bees/honey_bee/temp_upper_slow"
	)
	cold := limits(bee.Honey, true)
	cold.name, cold.way = "cold of honey bees", "nil up to the temperature under which they do not search for food, full from the middle of the end of the published rise and of the 16 degC from which growers' guides put useful flight; that alone where the rise is left out, its own begin where the former is. An orchard in spring with full flight at 12 to 14 degC is tested"
	cold.params, cold.rows = []string{"bee.cold"}, []string{search, rise}
	cold.draw = func(l *lab, left func(string) bool) []float64 {
		from, guides := l.num(search, "low"), l.num("bees/honey_bee/temp_min_orchard_memory", "high")
		if !left(search) {
			from = l.num(rise, "low")
		}
		if !left(rise) {
			return []float64{from, guides}
		}
		return []float64{from, (l.num(rise, "high") + guides) / 2}
	}
	heat := limits(bee.Honey, false)
	heat.name, heat.way, heat.eye = "heat of honey bees", "by eye about the temperatures at which foraging for pollen falls; from the 38 degC above which growers see bees slow down, where those are left out", true
	heat.params, heat.rows = []string{"bee.heat"}, []string{falls}
	heat.draw = func(l *lab, left func(string) bool) []float64 {
		_, now := bee.Usual().Limits(bee.Honey)
		if !left(falls) {
			return []float64{l.num(hotFlight, "low"), now[1]}
		}
		return now[:]
	}
	bumble := limits(bee.Bumble, false)
	bumble.name, bumble.way, bumble.eye = "heat of bumble bees", "begun midway between two temperatures of which the warmer one saw fewer trips; at the 27 degC above which another paper saw flight fall on a mill, where that is left out", true
	bumble.params, bumble.rows = []string{"bee.bumble_heat"}, []string{trips}
	bumble.draw = func(l *lab, left func(string) bool) []float64 {
		_, now := bee.Usual().Limits(bee.Bumble)
		if !left(trips) {
			now[0] = l.further("kenna_fall", "x")
		}
		return now[:]
	}
	return []drawing{cold, heat, bumble}
}

// limits is a drawing of a group's limits of temperature.
func limits(g bee.Group, ofCold bool) drawing {
	return drawing{crops: []string{published.Bees}, words: rowEnds("degC"),
		flown: func(f *bee.Flyers) []float64 {
			cold, heat := f.Limits(g)
			if ofCold {
				return cold[:]
			}
			return heat[:]
		},
		fly: func(f *bee.Flyers, v []float64) *bee.Flyers {
			cold, heat := f.Limits(g)
			if ofCold {
				return f.WithLimits(g, [2]float64(v), heat)
			}
			return f.WithLimits(g, cold, [2]float64(v))
		}}
}
