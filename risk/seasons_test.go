package risk

import (
	"fmt"
	"math"
	"sort"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/bee"
)

func season(t testing.TB, st station, g *Garden, from, to string) *Assessment {
	t.Helper()
	a, err := forecast.ParseDate(from)
	require.NoError(t, err)
	b, err := forecast.ParseDate(to)
	require.NoError(t, err)
	g.Place = st.place
	lo, _ := st.hours.Slice(a.AddDays(-24).Start(st.place.Zone), a.Start(st.place.Zone))
	_, hi := st.hours.Slice(a.Start(st.place.Zone), b.AddDays(2).Start(st.place.Zone))
	return Assess(g, &forecast.Series{Hours: st.hours.Hours[lo:hi]}, a, b.DaysSince(a)+1)
}

// seasonGarden has the crops named, in bloom all year.
func seasonGarden(t testing.TB, crops ...string) *Garden {
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

var allCrops = []string{"cucumber", "summer-squash", "pumpkin-winter-squash", "muskmelon", "watermelon", "seedless-watermelon", "sweet-corn", "tomato", "sweet-pepper", "common-bean"}

// A year of every hour of two climates goes through the model: every number is
// finite and in its range.
func TestSeasonsStayFinite(t *testing.T) {
	for _, st := range []station{newYork(t, "EWR"), newYork(t, "JFK"), phoenix(t), greensboro(t)} {
		year := st.hours.Hours[4000].Start.Year()
		a := season(t, st, seasonGarden(t, allCrops...), fmt.Sprintf("%d-01-02", year), fmt.Sprintf("%d-12-29", year))
		require.Greater(t, len(a.Days), 355, st.name)
		for i := range a.Days {
			for k := range a.Days[i].Plantings {
				p := &a.Days[i].Plantings[k]
				for _, r := range []Range{p.Set, p.Fill, p.Both, p.BothSet} {
					require.True(t, r.Lo >= 0 && r.Lo <= r.Mid && r.Mid <= r.Hi && r.Hi <= 1, "%s %v %s: %+v", st.name, a.Days[i].Date, p.Planting.Name, r)
				}
				for _, h := range p.Hours {
					for _, v := range []float64{h.Open, h.Alive, h.Heat, h.Tube, h.Receptive, h.Offer, h.Dry, h.Hand, h.Bees, h.Flight[0], h.Flight[1], h.Flight[2]} {
						require.True(t, v >= 0 && v <= 1+1e-9, "%s %v %s %v: %+v", st.name, a.Days[i].Date, p.Planting.Name, h.Start, h)
					}
				}
			}
		}
	}
}

// Phoenix 2015: the days above 105 degF are those of the reports themselves,
// counted here from the file with the sentinel and the one false reading (50
// degC between 41.7 and 38.9, 27 June) set aside; the model flags these and no
// other. New York 2013 has none.
func TestEveryDayAbove105IsFlagged(t *testing.T) {
	want := map[string]bool{}
	data := rows(t, "stations/phoenix_metar_2015.csv")
	for _, r := range data {
		c, ok := reading(r["TemperatureC"], same, -60, 60).Get()
		if ok && c < 50 && c*1.8+32 > 105.0001 && strings.HasSuffix(r["timestamp"], ":51:00") {
			at, err := time.ParseInLocation("2006-01-02 15:04:05", r["timestamp"], mountain)
			require.NoError(t, err)
			want[forecast.DateOf(at, mountain).String()] = true
		}
	}
	summer := 0
	for d := range want {
		if d >= "2015-05-01" && d < "2015-10-01" {
			summer++
		}
	}
	require.Equal(t, 63, summer, "May to September, the count that the collection of recordings states")
	a := season(t, phoenix(t), seasonGarden(t, "cucumber"), "2015-01-02", "2015-12-29")
	got := map[string]bool{}
	for i := range a.Days {
		d := &a.Days[i]
		flagged := len(d.Flags) > 0 && d.Flags[0].Kind == Hot105
		require.Equal(t, d.Weather.Over105, flagged)
		if flagged {
			got[d.Date.String()] = true
		}
	}
	assert.Equal(t, want, got)
	t.Logf("Phoenix 2015: %d days above 105 degF, all flagged and no other", len(got))

	ny := season(t, newYork(t, "EWR"), seasonGarden(t, "cucumber"), "2013-01-02", "2013-12-29")
	for i := range ny.Days {
		require.False(t, ny.Days[i].Weather.Over105, ny.Days[i].Date)
	}
}

// Bad values of the station files never reach the model: the false 50 degC, the
// -9999 sentinels, a wind of 1048 mph, the one-hour fall of 24 degrees at JFK.
func TestStationFaultsAreCaught(t *testing.T) {
	px := phoenix(t)
	i, _ := px.hours.Index(time.Date(2015, 6, 27, 18, 0, 0, 0, mountain))
	assert.False(t, px.hours.Hours[i].Temp.IsKnown(), "50 degC between 41.7 and 38.9")
	i, _ = px.hours.Index(time.Date(2015, 8, 31, 22, 0, 0, 0, mountain))
	assert.False(t, px.hours.Hours[i].Temp.IsKnown(), "-9999")
	jfk := newYork(t, "JFK")
	i, _ = jfk.hours.Index(time.Date(2013, 5, 9, 2, 0, 0, 0, time.UTC))
	assert.False(t, jfk.hours.Hours[i].Temp.IsKnown(), "13.9, -10.5, 14.0")
	windiest := 0.0
	for _, h := range newYork(t, "EWR").hours.Hours {
		windiest = max(windiest, h.Wind.Or(0))
	}
	assert.Less(t, windiest, 35.0)
}

// Growers' 15 mph rule speaks of station wind: read at 2 m, mornings of the New
// York summer lose half of the flight in 5-20 % and two thirds in 1-6 % of hours.
func TestNewYorkMorningWind(t *testing.T) {
	st := newYork(t, "EWR")
	n, half, third := 0, 0, 0
	for _, h := range st.hours.Hours {
		l := h.Start.In(time.FixedZone("EDT", -4*3600))
		u, ok := h.Wind.Get()
		if !ok || l.Month() < time.May || l.Month() > time.September || l.Hour() < 6 || l.Hour() >= 11 {
			continue
		}
		f := bee.WindShare(0.748 * u)
		n++
		if f < 0.5 {
			half++
		}
		if f < 0.3 {
			third++
		}
	}
	under5, under3 := float64(half)/float64(n), float64(third)/float64(n)
	t.Logf("New York May-Sep 06-11 h, %d hours: wind share below 0.5 in %.1f %%, below 0.3 in %.1f %%", n, 100*under5, 100*under3)
	assert.True(t, under5 >= 0.05 && under5 <= 0.20, under5)
	assert.True(t, under3 >= 0.01 && under3 <= 0.06, under3)
}

// Dew alone grounds no cucurbit: in a summer full of dew no flag says that wet
// keeps bees in on a day without rain.
func TestDewGroundsNoCucurbit(t *testing.T) {
	a := season(t, greensboro(t), seasonGarden(t, "cucumber", "summer-squash", "pumpkin-winter-squash"), "2005-06-15", "2005-09-15")
	dewy := 0
	var sk skies
	for i := range a.Days {
		d := &a.Days[i]
		lo, hi := a.Series.Day(d.Date, a.Garden.Place.Zone)
		rain := 0.0
		for j := max(0, lo-12); j < hi; j++ {
			rain += a.Series.Hours[j].Rain.Or(0)
		}
		if rain > 0 {
			continue
		}
		sk.read(&forecast.Series{Hours: a.Series.Hours[lo : lo+8]}, a.Garden)
		for j := range sk.hours[0] {
			if sk.hours[0][j].Dew {
				dewy++
				break
			}
		}
		for k := range d.Plantings {
			for _, f := range d.Plantings[k].Flags {
				require.NotEqual(t, PollenWet, f.Kind, d.Date)
				if f.Kind == BeesIn {
					require.NotContains(t, []bee.Factor{bee.Rain, bee.WetFlowers}, f.Factor, d.Date)
				}
			}
		}
	}
	require.Greater(t, dewy, 20, "a summer with dew")
}

// clearDays gives -ln(1-Set) at the median supply on dry days with most of the
// clear sky's radiation. New York's radiation is a proxy, so its bar is lower.
func clearDays(a *Assessment, share float64) map[string][]float64 {
	x := map[string][]float64{}
	var sk skies
	for i := range a.Days {
		d := &a.Days[i]
		lo, hi := a.Series.Day(d.Date, a.Garden.Place.Zone)
		sk.read(&forecast.Series{Hours: a.Series.Hours[lo:hi]}, a.Garden)
		r, c, rain := 0.0, 0.0, 0.0
		for j := range sk.hours[0] {
			r, c = r+sk.hours[0][j].Light, c+sk.hours[0][j].ClearLight
			rain += a.Series.Hours[lo+j].Rain.Or(0)
		}
		if r < share*c || rain > 0 || d.Missing != 0 {
			continue
		}
		for k := range d.Plantings {
			p := &d.Plantings[k]
			x[p.Planting.Name] = append(x[p.Planting.Name], -math.Log(1-p.Set.Mid))
		}
	}
	return x
}

// The visit rates are calibrated, not measured: 0.95 of the flowers set on the
// median clear summer day. This holds them to it, pooled over the two sites.
func TestClearSummerDaySets95(t *testing.T) {
	pooled := map[string][]float64{}
	for _, c := range []struct {
		st       station
		from, to string
		share    float64
	}{{newYork(t, "EWR"), "2013-06-01", "2013-08-31", 0.7}, {greensboro(t), "2005-06-01", "2005-08-31", 0.8}} {
		a := season(t, c.st, seasonGarden(t, "cucumber", "summer-squash", "pumpkin-winter-squash", "muskmelon"), c.from, c.to)
		for k, v := range clearDays(a, c.share) {
			require.Greater(t, len(v), 20, c.st.name)
			t.Logf("%s %s: %d clear days, median set %.3f", c.st.name, k, len(v), 1-math.Exp(-quantileOf(v, 0.5)))
			pooled[k] = append(pooled[k], v...)
		}
	}
	for k, v := range pooled {
		assert.InDelta(t, 0.95, 1-math.Exp(-quantileOf(v, 0.5)), 0.01, k)
	}
}

// The two watermelons share one visit rate, since the same bees come to both: the
// geometric mean of the rates that would set 0.95 of each on the median clear
// summer day. Seeded ones then do better than that and seedless ones worse.
func TestWatermelonsShareTheMiddleRate(t *testing.T) {
	set := func(key string, times float64) float64 {
		var pooled []float64
		for _, c := range []struct {
			st       station
			from, to string
			share    float64
		}{{newYork(t, "EWR"), "2013-06-01", "2013-08-31", 0.7}, {greensboro(t), "2005-06-01", "2005-08-31", 0.8}} {
			g := seasonGarden(t, key)
			k := *g.Plantings[0].Crop
			honey, bumble := *k.Bees.Honey, *k.Bees.Bumble
			honey.VisitRate *= times
			bumble.VisitRate *= times
			k.Bees.Honey, k.Bees.Bumble, g.Plantings[0].Crop = &honey, &bumble, &k
			pooled = append(pooled, clearDays(season(t, c.st, g, c.from, c.to), c.share)[key]...)
		}
		return 1 - math.Exp(-quantileOf(pooled, 0.5))
	}
	times := map[string]float64{}
	for _, key := range []string{"watermelon", "seedless-watermelon"} {
		lo, hi := 0.2, 5.0
		for range 9 {
			if mid := math.Sqrt(lo * hi); set(key, mid) < 0.95 {
				lo = mid
			} else {
				hi = mid
			}
		}
		times[key] = lo
		t.Logf("%s: median clear day sets %.3f; %.2f times the rates would set 0.95", key, set(key, 1), lo)
	}
	assert.InDelta(t, 1, math.Sqrt(times["watermelon"]*times["seedless-watermelon"]), 0.02)
	assert.Less(t, times["watermelon"], 1.0)
}

// The plausibility table: what the model makes of three climates. Printed for
// the reader; asserted are only the three readings a grower would insist on:
// New York summers mostly fine, its May cold, Phoenix summers bad by late morning.
func TestPlausibility(t *testing.T) {
	median := map[string]float64{}
	row := func(st station, from, to string) {
		a := season(t, st, seasonGarden(t, allCrops...), from, to)
		byCrop := map[string][]float64{}
		full, hand := map[string][]float64{}, map[string][]float64{}
		flags := map[string]map[string]int{}
		for i := range a.Days {
			for k := range a.Days[i].Plantings {
				p := &a.Days[i].Plantings[k]
				name := p.Planting.Name
				if p.State == HistoryUnknown || p.State == NoTemperature {
					continue
				}
				byCrop[name] = append(byCrop[name], p.Set.Mid)
				full[name] = append(full[name], p.Fill.Mid)
				hand[name] = append(hand[name], p.BestShare)
				if flags[name] == nil {
					flags[name] = map[string]int{}
				}
				seen := map[string]bool{}
				for _, f := range p.Flags {
					word := f.Kind.String()
					if f.Kind == BeesIn {
						word += "/" + f.Factor.String()
					}
					if !seen[word] {
						flags[name][word]++
						seen[word] = true
					}
				}
			}
		}
		for _, name := range allCrops {
			v := byCrop[name]
			low := 0
			for _, s := range v {
				if s < 0.7 {
					low++
				}
			}
			median[st.name+from+name] = quantileOf(v, 0.5)
			t.Logf("%-14s %s..%s %-21s n %2d  set %.2f %.2f %.2f %.2f %.2f  <0.7: %2d  full %.2f  hand %.2f  %v", st.name, from[5:], to[5:], name, len(v),
				quantileOf(v, 0.05), quantileOf(v, 0.25), quantileOf(v, 0.5), quantileOf(v, 0.75), quantileOf(v, 0.95), low,
				quantileOf(full[name], 0.5), quantileOf(hand[name], 0.5), flags[name])
		}
	}
	ny, gso, phx := newYork(t, "EWR"), greensboro(t), phoenix(t)
	row(ny, "2013-06-15", "2013-09-15")
	row(ny, "2013-05-01", "2013-05-31")
	row(gso, "2005-06-15", "2005-09-15")
	row(phx, "2015-04-20", "2015-06-10")
	row(phx, "2015-06-11", "2015-09-15")
	assert.Greater(t, median["EWR 20132013-06-15cucumber"], 0.85)
	assert.Less(t, median["EWR 20132013-05-01cucumber"], median["EWR 20132013-06-15cucumber"])
	assert.Less(t, median["Phoenix 20152015-06-11cucumber"], 0.6)
	assert.Greater(t, median["Phoenix 20152015-04-20cucumber"], median["Phoenix 20152015-06-11cucumber"])
}
