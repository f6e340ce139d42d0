package risk

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/pollen"
)

// sine makes days of the check runs: T = mean + amp sin(2 pi (h+0.5-9)/24),
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

// checkDay is one of five whole days for which two programs, written apart from
// the same equations, gave the same values. old is the set of cucumber, squash
// and pumpkin before four decisions: wind read at flower height, other visit
// rates, no tubes. now is what the model gives today, a regression.
type checkDay struct {
	name                      string
	newark                    bool // else Phoenix
	mean, amp, dew, wind, sky float64
	rain                      map[int]float64
	sunrise, r7, r10          float64
	old, now, hand            [3]float64
}

var wetMorning = map[int]float64{6: 1, 7: 1, 8: 1}

var checkDays = []checkDay{
	{"D1", true, 24, 6, 16, 3, 0.25, nil, 5.6433, 294.59, 804.98,
		[3]float64{.9548, .9581, .9652}, [3]float64{.9712, .9551, .9627}, [3]float64{1, 1, 1}},
	{"D2", true, 18, 3, 14, 7, 1, nil, 5.6433, 74.15, 202.61,
		[3]float64{.8463, .8472, .8638}, [3]float64{.8181, .7838, .8044}, [3]float64{1, 1, 1}},
	// By hand the two programs had 1 at 5 h for squash, an hour before the rain;
	// ours wants the next hour dry too and takes 9 h. Cucumber has lost nothing then,
	// since the air in its flowers is damper.
	{"D3", true, 24, 6, 16, 3, 0.25, wetMorning, 5.6433, 294.59, 804.98,
		[3]float64{}, [3]float64{.8802, .2615, .2699}, [3]float64{1, .9386, .9386}},
	{"D4", false, 36, 6, 8, 3, 0, nil, 5.4867, 369.78, 891.84,
		[3]float64{.3587, .4811, .5065}, [3]float64{.1162, .3237, .3409}, [3]float64{}},
	{"D5", true, 30, 7, 20, 3, 0.25, nil, 5.6433, 294.59, 804.98,
		[3]float64{.8695, .9517, .9597}, [3]float64{.7042, .9394, .9491}, [3]float64{}},
}

func (c checkDay) series(g *Garden) (*forecast.Series, forecast.Date) {
	g.Place = forecast.Place{Lat: 40.69, Lon: -74.17, Zone: time.FixedZone("EDT", -4*3600)}
	start := time.Date(2013, 7, 15, 0, 0, 0, 0, g.Place.Zone)
	if !c.newark {
		g.Place = forecast.Place{Lat: 33.43, Lon: -112.01, Zone: mountain}
		start = time.Date(2015, 7, 15, 0, 0, 0, 0, mountain)
	}
	return sine(start, 1, c.mean, c.amp, c.dew, c.wind, c.sky, c.rain), forecast.DateOf(start, g.Place.Zone)
}

var checkCrops = []string{"cucumber", "summer-squash", "pumpkin-winter-squash"}

func TestCheckDays(t *testing.T) {
	for _, c := range checkDays {
		g := seasonGarden(t, checkCrops...)
		s, date := c.series(g)
		var sk skies
		sk.read(s, g)
		d := &Assess(g, s, date, 1).Days[0]
		assert.InDelta(t, c.sunrise, d.Sunrise.Sub(date.Start(g.Place.Zone)).Hours(), 0.004, "%s sunrise", c.name)
		assert.InDelta(t, c.r7, sk.hours[0][7].Light, 0.6, "%s radiation of hour 7", c.name)
		assert.InDelta(t, c.r10, sk.hours[0][10].Light, 0.6, "%s radiation of hour 10", c.name)
		for i, name := range checkCrops {
			if want := c.hand[i]; want > 0 {
				assert.InDelta(t, want*handSet(d.Plantings[i].Planting.Crop), d.Plantings[i].BestShare, 1e-3, "%s %s by hand", c.name, name)
			}
			assert.InDelta(t, c.now[i], d.Plantings[i].Set.Mid, 1e-4, "%s %s set", c.name, name)
		}
	}
}

// With the decisions undone (wind at flower height through the shelter factor,
// the old rates and grains, no tubes, pollen ageing by the old law in all flowers) the
// model gives the old values: what moved them are the decisions and nothing else. Left out are D3, whose film the shelter factor
// would dry more slowly, and the hot D4 and D5, which met the old values to 6e-4
// until the fall of bumble bees in heat was read to begin under 32 degC.
func TestCheckDaysWithDecisionsUndone(t *testing.T) {
	const honey = 3.1 * 164 / 167 // visits of 164 grains then
	rates := map[string][bee.Groups]float64{"cucumber": {2, 0.55, 0}, "summer-squash": {honey, 0.55, 1.2}, "pumpkin-winter-squash": {honey, 0.55, 1.2}}
	for _, c := range checkDays {
		if c.rain != nil || c.mean+c.amp > 32 {
			continue
		}
		g := seasonGarden(t, checkCrops...)
		g.Shelter = air.WindProfile(0.5) / air.WindProfile(2)
		s, date := c.series(g)
		m := NewModel(g)
		for i := range m.models {
			old := *m.models[i].insect.c
			old.Pollen.TubeNil, old.Pollen.TubeFull = 0, 0
			old.Pollen.Coupling = 0.18
			m.models[i].insect.ageing = pollen.Ageing{Rate: 2.4, Threshold: 0.2}
			if old.Key == "cucumber" {
				old.Window.Receptive = crop.NewCurve([2]float64{4.5, 1}, [2]float64{7, 0})
			}
			m.models[i].insect.c, m.models[i].insect.clock = &old, &old.Window
			m.models[i].insect.bees.rate = rates[old.Key]
			m.models[i].insect.set[bee.Squash] = newHits(3 * 310 / old.Need.Set) // grains of a visit then
		}
		d := &m.Assess(s, date, 1).Days[0]
		for i, name := range checkCrops {
			assert.InDelta(t, c.old[i], d.Plantings[i].Set.Mid, 6e-4, "%s %s", c.name, name)
		}
	}
}
