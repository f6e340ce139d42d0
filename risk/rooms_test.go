package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// tunnelGarden has a tomato and a cucumber, each outside and in
// a tunnel with a logger.
func tunnelGarden(t testing.TB, log *forecast.Series) *Garden {
	set := testCrops(t)
	g := &Garden{Shelter: 1, Place: denver}
	for _, key := range []string{"tomato", "cucumber"} {
		c, ok := set.Find(key)
		require.True(t, ok)
		for _, cover := range []Cover{Open, Tunnel} {
			p := Planting{Name: key + " " + string(cover), Crop: c, Cover: cover, FirstFemale: forecast.Date{Year: 2026, Month: 6, Day: 15}}
			if cover == Tunnel {
				p.Logger = "tunnel.csv"
			}
			g.Plantings = append(g.Plantings, p)
		}
	}
	for d := range g.Work {
		g.Work[d] = []Span{{5, 21}}
	}
	if log != nil {
		g.Inside = map[string]*forecast.Series{"tunnel.csv": log}
	}
	return g
}

// upTo turns hours from an instant on into a forecast.
func upTo(s *forecast.Series, days int) *forecast.Series {
	out := *s
	out.Hours = append([]forecast.Hour{}, s.Hours...)
	for i := 24 * days; i < len(out.Hours); i++ {
		out.Hours[i].Origin = forecast.OriginForecast
	}
	return &out
}

var planned = forecast.Date{Year: 2026, Month: 7, Day: 11} // day 21 of the made air

func TestLoggerIsUsedInside(t *testing.T) {
	outside := madeOutside(26, 11)
	log := firstDays(madeTunnel(outside, 11), 21)
	s := upTo(outside, 21)
	with := Assess(tunnelGarden(t, log), s, planned, 4)
	without := Assess(tunnelGarden(t, nil), s, planned, 4)
	require.Len(t, with.Days, 4)
	for k := range with.Days {
		open, room := without.Days[k].Plantings, with.Days[k].Plantings
		for _, i := range []int{0, 2} {
			assert.Equal(t, open[i].Fill, room[i].Fill, "what grows outside is as it was")
			assert.Nil(t, room[i].Inside)
		}
		for _, i := range []int{1, 3} {
			assert.Equal(t, OtherAir, open[i].State)
			assert.Equal(t, Judged, room[i].State)
			require.NotNil(t, room[i].Inside)
			assert.Equal(t, room[i].Planting.Cover, Tunnel, "the grower's own planting")
		}
		tomato, cucumber := &room[1], &room[3]
		assert.Less(t, tomato.Factor.Or(2), room[0].Factor.Or(-1), "a tunnel's days are warmer, and take more of the set")
		assert.Less(t, cucumber.Visits, room[2].Visits, "few bees come in")
		for i := range cucumber.Hours {
			assert.Zero(t, cucumber.Hours[i].Wet)
			assert.Less(t, cucumber.Hours[i].Air.Wind2, 0.5)
			assert.Less(t, cucumber.Hours[i].Air.Light, cucumber.Hours[i].Air.ClearLight)
		}
	}
	plan := Plan(with, planned, 1, PlanOptions{})
	kinds := map[string]TaskKind{}
	for _, list := range [][]Task{plan[0].Tasks, plan[0].Rest} {
		for _, x := range list {
			kinds[x.Planting.Name] = x.Kind
		}
	}
	assert.NotEqual(t, LookFirst, kinds["cucumber tunnel"])
}

// Past hours are the logger's own: a planted hot spell inside ends the set of
// tomatoes whatever the outside was. Three hours above 40 degC on two days running
// [PurdTom].
func TestMeasuredHeatInsideIsExact(t *testing.T) {
	outside := madeOutside(26, 12)
	log := firstDays(madeTunnel(outside, 12), 21)
	for i := range log.Hours { // cool throughout
		log.Hours[i].Temp = forecast.Known(min(24, log.Hours[i].Temp.Or(0)))
	}
	s := upTo(outside, 21)
	cool := Assess(tunnelGarden(t, log), s, planned, 1).Days[0].Plantings[1]
	assert.Greater(t, cool.Factor.Or(0), 0.9)
	for _, day := range []int{18, 19} {
		for h := 12; h < 16; h++ {
			log.Hours[24*day+h].Temp = forecast.Known(41.5)
		}
	}
	a := Assess(tunnelGarden(t, log), s, planned, 1)
	hot := a.Days[0].Plantings[1]
	assert.Equal(t, forecast.Known(0), hot.Factor)
	in := hot.Inside
	k, ok := in.Series.Index(log.Hours[24*18+13].Start)
	require.True(t, ok)
	assert.Equal(t, forecast.OriginLogger, in.Series.Hours[k].Origin)
	assert.Zero(t, in.Spread(k))
	plan := Plan(a, planned, 1, PlanOptions{})
	for _, x := range plan[0].Rest {
		if x.Planting.Name == "tomato tunnel" {
			assert.Equal(t, NothingToGain, x.Kind)
			return
		}
	}
	t.Error("no word on the tunnel's tomatoes")
}

// The error of what is foretold widens the verdict: with the same middle, doubling
// it never makes a range narrower.
func TestErrorWidensTheRange(t *testing.T) {
	outside := madeOutside(26, 13)
	log := firstDays(madeTunnel(outside, 13), 21)
	m := NewModel(tunnelGarden(t, log))
	a := m.Assess(upTo(outside, 21), planned, 3)
	wider := false
	for k := range a.Days {
		for _, i := range []int{1, 3} {
			pd := &a.Days[k].Plantings[i]
			mid, ok := m.rooms[0].models[0].out.Day(a.Days[k].Date)
			require.True(t, ok)
			q := &mid.Plantings[i/2]
			assert.LessOrEqual(t, pd.Both.Lo, q.Both.Lo)
			assert.GreaterOrEqual(t, pd.Both.Hi, q.Both.Hi)
			assert.Equal(t, q.Both.Mid, pd.Both.Mid)
			wider = wider || pd.Both.Hi-pd.Both.Lo > q.Both.Hi-q.Both.Lo
		}
	}
	assert.True(t, wider)
}

// A log too short to foretell from leaves the verdict open and says what it can.
func TestShortLogLeavesTodayOpen(t *testing.T) {
	outside := madeOutside(26, 14)
	log := madeTunnel(outside, 14)
	log.Hours = log.Hours[24*16 : 24*21]
	pd := Assess(tunnelGarden(t, log), upTo(outside, 21), planned, 1).Days[0].Plantings[3]
	assert.Equal(t, OtherAir, pd.State)
	require.NotNil(t, pd.Inside)
	assert.False(t, pd.Inside.Difference.Known)
	assert.Equal(t, 5, pd.Inside.Difference.Days)
}

// Rain outside is none of the tunnel's business.
func TestNoRainUnderCover(t *testing.T) {
	outside := madeOutside(26, 15)
	log := firstDays(madeTunnel(outside, 15), 21)
	s := upTo(outside, 21)
	at := planned.At(4, denver.Zone)
	for h := range 6 {
		from := at.Add(time.Duration(2*h) * time.Hour).UTC()
		s.Blocks = append(s.Blocks, forecast.RainBlock{Start: from, End: from.Add(2 * time.Hour), Amount: forecast.Known(4), Prob: forecast.Known(1)})
	}
	rooms := Assess(tunnelGarden(t, log), s, planned, 1).Days[0].Plantings
	assert.True(t, rooms[2].has(PollenWet))
	assert.False(t, rooms[3].has(PollenWet))
	assert.False(t, rooms[1].has(PollenWet))
}

// Without a logger heat outside is heat inside too, and nothing else follows.
func TestOutsideHeatBindsInside(t *testing.T) {
	start := planned.AddDays(-20).Start(denver.Zone)
	hot := sine(start, 22, 33, 9, 15, 3, 0.1, nil) // 42 by day, mean 33
	a := Assess(tunnelGarden(t, nil), hot, planned, 1)
	assert.True(t, a.Days[0].Plantings[1].HotOutside)
	mild := sine(start, 22, 20, 6, 12, 3, 0.1, nil)
	b := Assess(tunnelGarden(t, nil), mild, planned, 1)
	assert.False(t, b.Days[0].Plantings[1].HotOutside)
	assert.Equal(t, OtherAir, b.Days[0].Plantings[1].State)
	for _, x := range Plan(a, planned, 1, PlanOptions{})[0].Rest {
		if x.Planting.Name == "tomato tunnel" {
			assert.Equal(t, NothingToGain, x.Kind)
		}
	}
}

// A hive inside is many bees; counts of the garden's bees say nothing of them.
func TestBeesInside(t *testing.T) {
	outside := madeOutside(26, 16)
	log := firstDays(madeTunnel(outside, 16), 21)
	s := upTo(outside, 21)
	g := tunnelGarden(t, log)
	few := Assess(g, s, planned, 1)
	visits, view := few.Days[0].Plantings[3].Visits, few.SupplyOf(&g.Plantings[3])
	g.Plantings[3].BumbleHive = true
	many := NewModelWith(g, Learned{Visits: 100, Expected: 1, Counts: 5}).Assess(s, planned, 1)
	assert.Greater(t, many.Days[0].Plantings[3].Visits, visits)
	there := many.SupplyOf(&g.Plantings[3])
	assert.Equal(t, there.Book, there.Garden, "nothing learned outside goes in")
	assert.Greater(t, there.Book[1], view.Book[1])
	untold := few.SupplyOf(&g.Plantings[2])
	assert.Equal(t, untold.Hi, view.Hi, "what is assumed of bees inside is known no better than what nobody told")
}

// The week of a garden whose tunnel has a logger of three weeks.
func BenchmarkAssessTunnel(b *testing.B) {
	outside := madeOutside(28, 1)
	m := NewModel(tunnelGarden(b, firstDays(madeTunnel(outside, 1), 21)))
	s := upTo(outside, 21)
	b.ReportAllocs()
	for b.Loop() {
		m.Assess(s, planned, 7)
	}
}
