package risk

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// sine makes a day of the check runs: T = mean + amp sin(2 pi (h+0.5-9)/24),
// humidity from a steady dew point, steady wind and cover.
func sine(start time.Time, days int, mean, amp, dew, wind, sky float64, rain map[int]float64) *forecast.Series {
	s := forecast.New(start, start.Add(time.Duration(days)*24*time.Hour))
	e0 := func(t float64) float64 { return 0.6108 * math.Exp(17.27*t/(t+237.3)) }
	for i := range s.Hours {
		h := &s.Hours[i]
		t := mean + amp*math.Sin(2*math.Pi*(float64(i%24)+0.5-9)/24)
		h.Temp, h.DewPoint = forecast.Known(t), forecast.Known(dew)
		h.RH = forecast.Known(min(100, 100*e0(dew)/e0(t)))
		h.Wind, h.Sky = forecast.Known(wind), forecast.Known(sky)
		h.Rain, h.RainProb = forecast.Known(rain[i]), forecast.Known(0)
		h.Origin = forecast.OriginObserved
	}
	return s
}

func testCrops(t testing.TB) *crop.Set {
	set, err := crop.Load()
	require.NoError(t, err)
	return set
}

func TestDump(t *testing.T) {
	set := testCrops(t)
	ny := time.FixedZone("EDT", -4*3600)
	g := &Garden{Place: forecast.Place{Lat: 40.69, Lon: -74.17, Zone: ny}, Shelter: 1}
	for _, k := range []string{"cucumber", "summer-squash", "pumpkin-winter-squash", "sweet-corn", "tomato"} {
		c, ok := set.Find(k)
		require.True(t, ok, k)
		g.Plantings = append(g.Plantings, Planting{Name: k, Crop: c})
	}
	start := time.Date(2013, 7, 15, 0, 0, 0, 0, ny)
	for name, s := range map[string]*forecast.Series{
		"D1": sine(start, 1, 24, 6, 16, 3, .25, nil), "D2": sine(start, 1, 18, 3, 14, 7, 1, nil),
		"D3": sine(start, 1, 24, 6, 16, 3, .25, map[int]float64{6: 1, 7: 1, 8: 1}), "D5": sine(start, 1, 30, 7, 20, 3, .25, nil),
	} {
		a := Assess(g, s, forecast.Date{Year: 2013, Month: 7, Day: 15}, 1)
		for _, p := range a.Days[0].Plantings {
			fmt.Printf("%s %-22s set %.4f fill %.4f both %.4f best %d %.4f %v %v\n", name, p.Planting.Name, p.Set.Mid, p.Fill.Mid, p.Both.Mid, p.BestHour, p.BestShare, p.Set, p.State)
			for _, h := range p.Hours {
				if name == "D1" && p.Planting.Name == "cucumber" {
					fmt.Printf("   %s %+v\n", h.Start.In(ny).Format("15:04"), h)
				}
			}
		}
	}
}
