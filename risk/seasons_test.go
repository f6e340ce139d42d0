package risk

import (
	"fmt"
	"math"
	"sort"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

func season(t testing.TB, st station, g *Garden, from, to string) *Assessment {
	t.Helper()
	a, err := forecast.ParseDate(from)
	require.NoError(t, err)
	b, err := forecast.ParseDate(to)
	require.NoError(t, err)
	g.Place = st.place
	lo, _ := st.hours.Slice(a.AddDays(-16).Start(st.place.Zone), a.Start(st.place.Zone))
	_, hi := st.hours.Slice(a.Start(st.place.Zone), b.AddDays(2).Start(st.place.Zone))
	s := &forecast.Series{Hours: st.hours.Hours[lo:hi]}
	return Assess(g, s, a, b.DaysSince(a)+1)
}

func insectGarden(t testing.TB, crops ...string) *Garden {
	set := testCrops(t)
	g := &Garden{Shelter: 1}
	for _, k := range crops {
		c, ok := set.Find(k)
		require.True(t, ok, k)
		g.Plantings = append(g.Plantings, Planting{Name: k, Crop: c})
	}
	return g
}

func quantileOf(v []float64, p float64) float64 {
	if len(v) == 0 {
		return math.NaN()
	}
	v = append([]float64(nil), v...)
	sort.Float64s(v)
	return v[int(p*float64(len(v)-1)+0.5)]
}

func TestCalibrate(t *testing.T) {
	for _, st := range []struct {
		s        station
		from, to string
	}{{newYork(t, "EWR"), "2013-06-01", "2013-08-31"}, {greensboro(t), "2005-06-01", "2005-08-31"}} {
		g := insectGarden(t, "cucumber", "summer-squash", "pumpkin-winter-squash")
		a := season(t, st.s, g, st.from, st.to)
		x := map[string][]float64{}
		for _, d := range a.Days {
			// clear: total radiation at least 0.75 of the clear sky
			lo, hi := a.Series.Day(d.Date, st.s.place.Zone)
			r, c := 0.0, 0.0
			var sk skies
			sk.read(&forecast.Series{Hours: a.Series.Hours[lo:hi]}, g)
			rain := 0.0
			for i := range sk.hours[0] {
				r += sk.hours[0][i].Light
				c += sk.hours[0][i].ClearLight
				rain += a.Series.Hours[lo+i].Rain.Or(0)
			}
			if r < map[bool]float64{true: 0.8, false: 0.7}[st.s.name[0] == 71]*c || rain > 0 || d.Missing != 0 {
				continue
			}
			for _, p := range d.Plantings {
				x[p.Planting.Name] = append(x[p.Planting.Name], -math.Log(1-p.Set.Mid))
			}
		}
		for k, v := range x {
			fmt.Println(st.s.name, k, len(v), "median X", quantileOf(v, .5), "factor for S .95", -math.Log(.05)/quantileOf(v, .5))
		}
	}
	_ = time.Now
}
