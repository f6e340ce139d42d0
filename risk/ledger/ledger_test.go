package ledger

import (
	"math"
	"testing"
	"time"
	_ "time/tzdata"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/memory"
)

var july20 = forecast.Date{Year: 2026, Month: 7, Day: 20}

func crops(t testing.TB) *crop.Set {
	t.Helper()
	set, err := crop.Load()
	require.NoError(t, err)
	return set
}

func cropOf(t testing.TB, key string) *crop.Crop {
	t.Helper()
	c, ok := crops(t).Find(key)
	require.True(t, ok, key)
	return c
}

// plot is a garden of one bed of tomatoes, planted out on 1 June.
func plot(t testing.TB, change func(b *risk.Bed, p *risk.Planting)) *risk.Garden {
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	g := &risk.Garden{Shelter: 1, Place: forecast.Place{Lat: 36.1, Lon: -79.95, Elevation: forecast.Known(273), Zone: zone},
		Beds: []risk.Bed{{Name: "bed 1", Kind: risk.GroundBed, Area: 10, Soil: risk.Loam, Watering: risk.Drip, Flow: 40, Mulch: risk.BareSoil}},
		Plantings: []risk.Planting{{Name: "tomatoes", Crop: cropOf(t, "tomato"), Bed: "bed 1", Plants: 20,
			Transplanted: forecast.Date{Year: 2026, Month: 6, Day: 1}}}}
	for d := range g.Work {
		g.Work[d] = []risk.Span{{From: 5, To: 21}}
	}
	if change != nil {
		change(&g.Beds[0], &g.Plantings[0])
	}
	return g
}

// sky makes hours of even weather from the first day to so many days after today:
// a warm day swings 12 degrees about mean, with 60 % humidity, a light wind and a
// sky half clear.
func sky(g *risk.Garden, first, today forecast.Date, ahead int, mean float64) *forecast.Series {
	zone := g.Place.Zone
	_, end := today.AddDays(ahead).Span(zone)
	s := forecast.New(first.Start(zone), end)
	for i := range s.Hours {
		h := &s.Hours[i]
		local := h.Start.In(zone)
		h.Temp = forecast.Known(mean + 6*math.Cos(2*math.Pi*(float64(local.Hour())-15)/24))
		h.RH, h.Wind, h.Sky, h.Rain = forecast.Known(60), forecast.Known(2.5), forecast.Known(0.4), forecast.Known(0)
		h.Origin = forecast.OriginObserved
		if !h.Start.Before(today.At(6, zone)) {
			h.Origin, h.RainProb = forecast.OriginForecast, forecast.Known(0)
		}
	}
	return s
}

func at(g *risk.Garden, d forecast.Date, hour float64) time.Time { return d.At(hour, g.Place.Zone) }

func watered(g *risk.Garden, d forecast.Date, hour, litres float64) memory.Entry {
	return memory.Entry{Kind: memory.Water, Date: d, At: at(g, d, hour), Amount: forecast.Known(litres)}
}
