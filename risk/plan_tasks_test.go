package risk

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/memory"
)

// Trusses wet all through the hours of shed give what unshaken ones give, 30.2 of
// 83.3 % (Morand01); dry ones in a breeze give all. On the wet day there is nothing
// to tap for.
func TestTomatoShedsDry(t *testing.T) {
	l := newLab(t)
	unshaken := l.num("visits/morandin_0", "y") / l.num("visits/morandin_1", "y")
	w := chamber(24, 18)
	p := Planting{Crop: l.crop("tomato")}
	dry, plan := l.plan(heatField, w, 16, p)
	assert.InDelta(t, 1, dry.Set.Mid, 1e-9)
	_, tap := plan.find(TapTrusses)
	assert.False(t, tap, "the breeze does it")

	w.rain = func(day, hour int) float64 {
		if day == 0 && hour >= 8 && hour < 18 {
			return 1
		}
		return 0
	}
	wet, plan := l.plan(heatField, w, 16, p)
	assert.InDelta(t, unshaken, wet.Set.Mid, 0.005) // the crop file rounds to 0.36
	assert.Equal(t, wet.Set, wet.Both, "wet anthers give no more when tapped")
	_, tap = plan.find(TapTrusses)
	assert.False(t, tap)
	assert.Equal(t, []Cause{CauseRainAhead}, plan.must(t, NothingToGain).Causes)
}

// In still air tapping wins what the greenhouse trial won by the lightest visits
// (Morand01).
func TestTomatoTapInStillAir(t *testing.T) {
	l := newLab(t)
	w := chamber(24, 18)
	w.wind = 0
	_, plan := l.plan(heatField, w, 16, Planting{Crop: l.crop("tomato")})
	tap := plan.must(t, TapTrusses)
	assert.Equal(t, []Cause{CauseCalm}, tap.Causes)
	assert.InDelta(t, 1-l.num("visits/morandin_0", "y")/l.num("visits/morandin_1", "y"), tap.Gain, 0.005)
}

// Help never gives less than none, whenever the rain falls and however the wind
// blows.
func TestHelpNeverHarmsTomatoOrCorn(t *testing.T) {
	l := newLab(t)
	for _, key := range []string{"tomato", "sweet-corn"} {
		for from := 6; from < 18; from++ {
			for _, hours := range []int{1, 3, 6, 12} {
				for _, wind := range []float64{0, 1, 4} {
					rows := 2 + from%2*6
					w := chamber(24, 18)
					w.wind = wind
					s := w.series(heatField, 16)
					for i := range s.Hours {
						if s.Hours[i].Start.Before(heatField.date.Start(heatField.zone)) {
							continue
						}
						s.Hours[i].Origin, s.Hours[i].Rain, s.Hours[i].RainProb = forecast.OriginForecast, forecast.Value{}, forecast.Known(0.5)
					}
					s.Blocks = []forecast.RainBlock{heatField.block(from, hours, forecast.Known(4), forecast.Known(0.5))}
					m := morning{at: heatField, series: s, plantings: []Planting{{Crop: l.crop(key), Rows: rows}}}
					pd := m.plan(t).Day.Plantings[0]
					require.Equal(t, Judged, pd.State)
					for _, v := range [][2]float64{{pd.Both.Lo, pd.Set.Lo}, {pd.Both.Mid, pd.Set.Mid}, {pd.Both.Hi, pd.Set.Hi}} {
						require.GreaterOrEqual(t, v[0], v[1]-1e-12, "%s: %d h of rain from %d h, wind %g", key, hours, from, wind)
					}
				}
			}
		}
	}
}

// corn is a week of one planting of sweet corn, three days into its silks, in
// wind at 10 m (m/s) and with rain as given.
func (l *lab) corn(rows int, wind float64, rain func(day, hour int) float64) DayPlan {
	return l.cornOn(3, rows, wind, rain)
}

// cornOn is the same so many days into its silks.
func (l *lab) cornOn(silks, rows int, wind float64, rain func(day, hour int) float64) DayPlan {
	w := weather{mean: 24, amp: 5, dew: 14, wind: wind, sky: 0.2}
	if rain != nil {
		w.rain = func(d, h int) float64 { return rain(d+4, h) }
	}
	last := heatField
	last.date = heatField.date.AddDays(4)
	m := morning{at: heatField, series: w.series(last, 8), plantings: []Planting{{Crop: l.crop("sweet-corn"), Rows: rows, FirstFemale: heatField.date.AddDays(-silks)}}}
	plans := Plan(Assess(m.garden(), m.series, heatField.date.AddDays(-3), 8), heatField.date, 1, PlanOptions{})
	require.Len(l.t, plans, 1)
	return plans[0]
}

// Few rows ask for shaking, in the hours of most shed (9 to 11 h, Thomison), on the
// days on which it wins kernels: with two rows when the tips wait. Four make a block
// (common practice), and rows that are not told count as enough.
func TestFewCornRowsAreShaken(t *testing.T) {
	l := newLab(t)
	for rows, asked := range map[int]bool{0: false, 1: true, 2: true, 4: false, 12: false} {
		plan := l.cornOn(5, rows, 3, nil)
		task, shake := plan.find(ShakeTassels)
		require.Equal(t, asked, shake, "%d rows", rows)
		if !asked {
			continue
		}
		assert.Equal(t, []Cause{CauseSmallBlock}, task.Causes, "%d rows: the wind is no cause", rows)
		assert.False(t, task.From.After(heatField.date.At(9, heatField.zone)) || task.To.Before(heatField.date.At(11, heatField.zone)), "%v to %v", task.From, task.To)
	}
}

// Early on the wind of the days to come still fills what two rows' butts lack.
func TestTwoRowsAreNotShakenOnTheFirstDays(t *testing.T) {
	l := newLab(t)
	for day := range 3 {
		plan := l.cornOn(day, 2, 3, nil)
		_, shake := plan.find(ShakeTassels)
		assert.False(t, shake, "day %d", day)
	}
}

// In still air few rows say so too; a block whose silks see all the days of shed is
// left alone in a calm.
func TestCalmCorn(t *testing.T) {
	l := newLab(t)
	plan := l.corn(2, 0, nil)
	assert.Equal(t, []Cause{CauseSmallBlock, CauseCalm}, plan.must(t, ShakeTassels).Causes)
	plan = l.corn(8, 0, nil)
	_, shake := plan.find(ShakeTassels)
	assert.False(t, shake)
	assert.Equal(t, VerySure, plan.must(t, LeaveToBees).Sure)
}

// Where rain takes the other days of shed, even a large block is shaken in a calm.
func TestCalmCornWithOneDayOfShed(t *testing.T) {
	l := newLab(t)
	plan := l.corn(8, 0, func(day, _ int) float64 {
		if day == 0 {
			return 0
		}
		return 1
	})
	assert.Equal(t, []Cause{CauseCalm}, plan.must(t, ShakeTassels).Causes)
}

// Where the other days of shed are not held they may be good ones: a calm morning
// alone sends nobody into a large block, and it is not sure.
func TestCalmCornWithDaysNotHeld(t *testing.T) {
	l := newLab(t)
	w := weather{mean: 24, amp: 6, dew: 14, wind: 0, sky: 0.2}
	m := morning{at: heatField, series: w.series(heatField, 0), plantings: []Planting{{Crop: l.crop("sweet-corn"), Rows: 8, FirstFemale: heatField.date.AddDays(-3)}}}
	plans := Plan(Assess(m.garden(), m.series, heatField.date, 2), heatField.date, 1, PlanOptions{})
	require.Len(t, plans, 1)
	_, shake := plans[0].find(ShakeTassels)
	assert.False(t, shake)
	assert.NotEqual(t, VerySure, plans[0].must(t, LeaveToBees).Sure)
}

// evening is a bed of a crop before tomorrow's morning with a chance of rain on
// the open flowers.
func (l *lab) evening(key string, bees Bees, chance float64) morning {
	m := morning{at: heatField, series: issued(heatField), bees: bees, plantings: []Planting{{Crop: l.crop(key)}}}
	if chance > 0 {
		m.series = issued(heatField, heatField.block(24+4, 8, forecast.Known(6), forecast.Known(chance)))
	}
	return m
}

// Flowers are shut in the evening only when the morning's plan brushes them
// whatever is seen: else no bee could get in.
func TestBaggedOnlyWhereBrushed(t *testing.T) {
	l := newLab(t)
	bagged, left := 0, 0
	for _, key := range vineCrops {
		for _, level := range []Level{None, Few, Normal, Many} {
			for _, chance := range []float64{0, 0.3, 0.6, 0.9} {
				m := l.evening(key, Bees{Honey: level, Bumble: level, Squash: level}, chance)
				plans := m.plans(t, 2)
				_, bag := plans[0].find(BagFlowers)
				_, brush := plans[1].find(HandPollinate)
				_, save := plans[0].find(SavePollen)
				require.False(t, bag && !brush, "%s, %s bees, rain %g: shut, and not brushed", key, level, chance)
				require.False(t, (bag || save) && chance == 0, "%s, %s bees: nothing threatens tomorrow", key, level)
				if save && bag {
					bagged++
				} else if save {
					left++
				}
			}
		}
	}
	assert.Positive(t, bagged)
	assert.Positive(t, left, "pollen is saved, the flowers stay open")
}

// A wet morning: males enough for tomorrow's females (5 to 8 a male, Ladybug),
// cut by the evening, and how long they keep (squash 8 h, ZuccPol20).
func TestPollenIsSavedBeforeAWetMorning(t *testing.T) {
	l := newLab(t)
	m := l.evening("summer-squash", noBees, 0.9)
	m.plantings[0].Buds, m.plantings[0].BudsOn = 23, heatField.date
	plan := m.plan(t)
	task := plan.must(t, SavePollen)
	assert.Equal(t, []Cause{CauseRainAhead}, task.Causes)
	assert.GreaterOrEqual(t, task.Rain.Or(0), wetTomorrow)
	assert.Equal(t, 5, task.Flowers, "23 females at five a male")
	assert.Equal(t, 8.0, task.StoreFor)
	assert.False(t, task.From.Before(heatField.date.At(16, heatField.zone)) || task.To.After(heatField.date.At(21, heatField.zone)))
	assert.Equal(t, 23, plan.must(t, BagFlowers).Flowers)
}

// The evening's work begins at four chances of rain in ten (chosen), not at the three
// from which the day is flagged.
func TestChanceOfRainThatIsWorthAnEvening(t *testing.T) {
	l := newLab(t)
	flaggedOnly := 0
	for chance := 0.3; chance < 1; chance += 0.02 {
		plans := l.evening("summer-squash", noBees, chance).plans(t, 2)
		wet, flagged := plans[1].Day.Plantings[0].flag(PollenWet)
		_, save := plans[0].find(SavePollen)
		assert.Equal(t, flagged && wet.Prob.Or(0) >= 0.4, save, "%g", chance)
		if flagged && !save {
			flaggedOnly++
		}
	}
	assert.Positive(t, flaggedOnly)
}

// Air so dry that pollen is old by the brush's hour calls for pollen kept
// moist (ZuccPol20), not for shut flowers; where fruit is worth little for nothing.
func TestPollenIsSavedBeforeAHotDryMorning(t *testing.T) {
	l := newLab(t)
	desert := weather{mean: 34, amp: 5, dew: -5, wind: 3, sky: 0}
	m := morning{at: heatField, series: desert.series(heatField, 1), bees: noBees, plantings: []Planting{{Crop: l.crop("summer-squash"), FruitWorth: 2}}}
	plan := m.plan(t)
	next := m.plans(t, 2)[1].Day.Plantings[0]
	require.Less(t, next.Hours[next.BestHour].Alive, 0.6)
	assert.Equal(t, []Cause{CausePollenOld}, plan.must(t, SavePollen).Causes)
	_, bag := plan.find(BagFlowers)
	assert.False(t, bag)

	m.plantings[0].FruitWorth = 0.1
	plan = m.plan(t)
	_, save := plan.find(SavePollen)
	assert.False(t, save, "a brush is not worth its minutes")
}

// Who works in the afternoon only saves pollen and shuts the flowers until then;
// who cannot come while they are open is asked for nothing.
func TestEveningBeforeABusyMorning(t *testing.T) {
	l := newLab(t)
	m := l.evening("cucumber", noBees, 0)
	m.work = []Span{{14, 21}}
	plan := m.plan(t)
	assert.Equal(t, []Cause{CauseOutsideHours}, plan.must(t, SavePollen).Causes)
	assert.Equal(t, []Cause{CauseOutsideHours}, plan.must(t, BagFlowers).Causes)
	m.work = []Span{{18, 21}}
	plan = m.plan(t)
	assert.Empty(t, plan.Tasks)
}

// Pollen is saved only where its own kind gives any: a gynoecious bed without a
// parent has no males, nor have crops whose flowers are perfect or of the wind.
func TestNoPollenSavedWithoutADonor(t *testing.T) {
	l := newLab(t)
	m := l.evening("cucumber", noBees, 0.9)
	m.plantings[0].Setting = crop.Gynoecious
	plan := m.plan(t)
	assert.Empty(t, plan.Tasks)
	m.plantings[0].Pollenizer = true
	plan = m.plan(t)
	_, save := plan.find(SavePollen)
	assert.True(t, save, "its parent has")
	for _, key := range []string{"tomato", "sweet-corn"} {
		plan = l.evening(key, noBees, 0.9).plan(t)
		_, save = plan.find(SavePollen)
		assert.False(t, save, key)
	}
}

// Each squash species is served by its own males: the males asked for are summed
// bed by bed.
func TestMalesAreCountedBySpecies(t *testing.T) {
	l := newLab(t)
	m := l.evening("pumpkin-winter-squash", noBees, 0.9)
	m.plantings = nil
	for species, buds := range map[string]int{"pepo": 6, "maxima": 6, "moschata": 1} {
		m.plantings = append(m.plantings, Planting{Name: species, Species: species, Crop: l.crop("pumpkin-winter-squash"), Buds: buds, BudsOn: heatField.date})
	}
	plan := m.plan(t)
	task := plan.must(t, SavePollen)
	assert.Len(t, task.Also, 2)
	assert.Equal(t, 2+2+1, task.Flowers, "13 females of one kind would need 3")
}

// looking is a bed whose bees are unknown enough to ask for a count.
type looking struct {
	key   string
	worth float64 // of a fruit
	wind  float64
	p     Setting
}

var lookings = []looking{
	{"cucumber", 1, 3, ""}, {"cucumber", 2, 3, ""}, {"summer-squash", 1, 0, ""}, {"summer-squash", 1, 3, ""}, {"summer-squash", 1.5, 5, ""},
	{"summer-squash", 3, 5, ""}, {"pumpkin-winter-squash", 1, 3, ""}, {"pumpkin-winter-squash", 3, 0, ""},
	{"summer-squash", 1, 3, crop.Parthenocarpic}, {"summer-squash", 1.5, 3, crop.Parthenocarpic}, {"summer-squash", 3, 5, crop.Parthenocarpic},
}

func (c looking) morning(l *lab) morning {
	w := clearDay
	w.wind = c.wind
	return morning{at: heatField, series: w.series(heatField, 1), plantings: []Planting{{Name: "bed", Crop: l.crop(c.key), Setting: c.p, FruitWorth: c.worth, Plants: 80}}}
}

// The count, its minutes and the number of visits belong together: by the
// garden's Gamma law (its median 1.18299 from the chi-square table, 3 degrees of
// freedom: 2.36597), the visits watched flowers get in these minutes, and the
// model's own fill at the supply so found, the brush pays its minutes at one visit
// under the threshold and not at the threshold.
func TestLookThreshold(t *testing.T) {
	l := newLab(t)
	asked := 0
	for _, c := range lookings {
		m := c.morning(l)
		plan := m.plan(t)
		task, ok := plan.find(LookFirst)
		if !ok || c.p != "" {
			continue
		}
		asked++
		look := task.Look
		require.Equal(t, task.Minutes, look.Minutes)
		require.Equal(t, task.From, look.At)
		file := l.crop(c.key).Bees
		expected := 0.0
		flower := l.hourOf(task.Day, heatField, look.At.In(heatField.zone).Hour())
		for g, data := range [bee.Groups]*crop.Group{file.Honey, file.Bumble, file.Squash} {
			if data != nil {
				expected += data.VisitRate * flower.Flight[g] * float64(look.Flowers) * float64(look.Minutes) / 60
			}
		}
		w := clearDay
		w.wind = c.wind
		wins := func(visits int) float64 {
			k := gammaMiddle(1.5+float64(visits), 2.36597/2+expected)
			pd := l.kept(c.key, heatField, w, Bees{}, k, 0, 24)
			return pd.Both.Mid - pd.Fill.Mid
		}
		pays := hourWorth / 60 / c.worth // a minute a flower
		assert.GreaterOrEqual(t, wins(look.Fewer-1), pays, "%+v: one fewer than %d", c, look.Fewer)
		assert.Less(t, wins(look.Fewer), pays, "%+v: %d", c, look.Fewer)
	}
	assert.GreaterOrEqual(t, asked, 6)
}

// gammaMiddle finds the median of a Gamma law by summing its density.
func gammaMiddle(shape, rate float64) float64 {
	const step = 1e-4
	density := func(x float64) float64 { return math.Exp((shape-1)*math.Log(x) - rate*x) }
	total, sum := 0.0, 0.0
	for x := step / 2; x < 30; x += step {
		total += density(x)
	}
	for x := step / 2; ; x += step {
		if sum += density(x); sum >= total/2 {
			return x
		}
	}
}

// Typed back the count settles this very morning, as it was said: brush at fewer
// visits, leave the flowers to the bees at so many, and no second look.
func TestACountSettlesTheMorning(t *testing.T) {
	l := newLab(t)
	asked := map[Setting]int{}
	for _, c := range lookings {
		m := c.morning(l)
		plan := m.plan(t)
		task, ok := plan.find(LookFirst)
		if !ok {
			continue
		}
		asked[c.p]++
		for seen, want := range map[int]TaskKind{0: HandPollinate, task.Look.Fewer - 1: HandPollinate, task.Look.Fewer: LeaveToBees, task.Look.Fewer + 5: LeaveToBees} {
			now := task.Look.At.Add(time.Duration(task.Look.Minutes) * time.Minute)
			g := m.garden()
			e := count(task.Look.At, heatField.zone, "bed", float64(task.Look.Minutes), float64(task.Look.Flowers), float64(seen))
			a := NewModelWith(g, Learn(g, m.series, []memory.Entry{e}, now)).Assess(m.series, heatField.date, 2)
			after := Plan(a, heatField.date, 1, PlanOptions{Now: now})[0]
			got := decided(after.all())
			assert.Equal(t, want.String(), got.Kind.String(), "%+v: %d visits where %d settle", c, seen, task.Look.Fewer)
		}
	}
	assert.GreaterOrEqual(t, asked[""], 6)
	assert.GreaterOrEqual(t, asked[crop.Parthenocarpic], 2)
}
