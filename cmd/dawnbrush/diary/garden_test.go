package diary_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/memory"
)

// now is a morning of July in the garden's zone, which is behind UTC.
var (
	zone = time.FixedZone("six hours behind", -6*3600)
	now  = time.Date(2026, 7, 16, 7, 35, 20, 0, zone)
	day  = forecast.Date{Year: 2026, Month: 7, Day: 16}
)

// garden is invented: names, beds and successions that can be mixed up.
func garden(t testing.TB) *risk.Garden {
	t.Helper()
	set, err := crop.OpenShelf()
	require.NoError(t, err)
	plant := func(name, word, bed string) risk.Planting {
		c, ok := set.Find(word)
		require.True(t, ok, word)
		return risk.Planting{Name: name, Crop: c, Bed: bed}
	}
	g := &risk.Garden{Name: "Test", Units: risk.Metric, Place: forecast.Place{Lat: 40, Lon: -100, Zone: zone}}
	g.Plantings = []risk.Planting{
		plant("cucumber, north trellis", "cucumber", "north trellis"),
		plant("zucchini", "zucchini", "bed 2"),
		plant("blue squash", "winter squash", "east patch"),
		plant("tomatoes 2", "tomato", "bed 1"),
		plant("tunnel tomatoes", "tomato", "tunnel"),
		plant("early corn", "sweet corn", "bed 3"),
		plant("late corn", "sweet corn", "bed 5"),
		plant("roma", "tomato", "bed 5"),
		plant("honeydews", "muskmelon", "bed 9"),
	}
	for i := range g.Plantings {
		if g.Plantings[i].Name == "early corn" {
			g.Plantings[i].Finished = forecast.Date{Year: 2026, Month: 7, Day: 1}
		}
	}
	return g
}

func in(t testing.TB) diary.Context { return diary.Context{Garden: garden(t), Now: now} }

func known(v float64) forecast.Value { return forecast.Known(v) }

// entry is an entry of today.
func entry(k memory.Kind, planting string, fill func(e *memory.Entry)) memory.Entry {
	e := memory.Entry{Date: day, Kind: k, Planting: planting}
	if fill != nil {
		fill(&e)
	}
	return e
}

func load(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	require.NoError(t, err)
	return z
}
