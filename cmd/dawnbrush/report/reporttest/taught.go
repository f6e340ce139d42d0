package reporttest

import (
	"testing"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// Taught is what an invented diary teaches: two cucumbers whose first flowers and
// set were noted, with and without the weather before, and two sightings that
// cannot be used.
func Taught(t testing.TB) *risk.Taught {
	g := Garden(t)
	cucumber := g.Plantings[0]
	cucumber.FirstMale, cucumber.FirstFemale = forecast.Date{}, forecast.Date{}
	g.Plantings = nil
	for _, p := range []struct {
		name, cultivar string
		sown           int
	}{{"north", "Gatepost Green", -60}, {"south", "Little Lantern", -60}, {"late", "Gatepost Green", -17}, {"odd", "Gatepost Green", -4}, {"early", "", -200}} {
		one := cucumber
		one.Name, one.Cultivar, one.Sown = p.name, p.cultivar, Today.AddDays(p.sown)
		g.Plantings = append(g.Plantings, one)
	}
	known := forecast.Known
	first := func(planting, sex string, day int) memory.Entry {
		return memory.Entry{Kind: memory.First, Planting: planting, Sex: sex, Date: Today.AddDays(day)}
	}
	set := func(planting, by string, day int, count, of float64) memory.Entry {
		return memory.Entry{Kind: memory.Set, By: by, Planting: planting, Date: Today.AddDays(day), Count: known(count), Of: known(of)}
	}
	entries := []memory.Entry{first("north", "male", -28), first("south", "male", -25), first("north", "female", -26), first("south", "female", -2), first("odd", "female", -1),
		first("late", "female", -1), first("early", "female", -210), set("north", memory.ByBees, -3, 18, 20), set("south", memory.ByBees, -3, 9, 20),
		set("north", memory.ByHand, -3, 3, 4), set("south", memory.ByHand, -2, 2, 4),
		{Kind: memory.Bees, Planting: "north", Date: Today.AddDays(-1), At: Today.AddDays(-1).At(9, g.Place.Zone), Minutes: known(5), Flowers: known(10), Visits: known(3)}}
	s := forecast.Join(warmSpring(t), Series(t), Today.AddDays(-21).Start(g.Place.Zone))
	return risk.Teach(g, risk.Learn(g, s, entries, Today.At(12, g.Place.Zone)), entries)
}

// warmSpring is the weather before that of Series.
func warmSpring(t testing.TB) *forecast.Series {
	s := forecast.New(Today.AddDays(-61).Start(Zone(t)), Today.AddDays(-21).Start(Zone(t)))
	for i := range s.Hours {
		fill(&s.Hours[i], -1, float64(s.Hours[i].Start.In(Zone(t)).Hour())+float64(30*time.Minute)/float64(time.Hour))
		s.Hours[i].Origin = forecast.OriginObserved
	}
	return s
}
