package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// More flowers than the hours hold: so many as fit, at the grower's pace, and
// the gain of these alone.
func TestFlowersThatDoNotFit(t *testing.T) {
	l := newLab(t)
	m := l.brushed()
	m.plantings[0].Open, m.plantings[0].OpenOn = 1000, heatField.date
	for pace, fits := range map[float64]int{1: 420, 2: 210, 0.5: 840} { // 7 to 14 h
		m.plantings[0].MinutesPerFlower = pace
		plan := m.plan(t)
		task := plan.must(t, HandPollinate)
		require.Equal(t, 420.0, task.To.Sub(task.From).Minutes())
		assert.Equal(t, 1000, task.Flowers)
		assert.True(t, task.Counted)
		assert.Equal(t, fits, task.Fits, "%g min a flower", pace)
		assert.Equal(t, 420, task.Minutes, "%g min a flower", pace)
		assert.InDelta(t, float64(fits)*(task.Hand.Mid-task.Bees.Mid), task.Gain, 1e-9, "%g min a flower", pace)
	}
	m.plantings[0].Open, m.plantings[0].MinutesPerFlower = 300, 1
	plan := m.plan(t)
	assert.Zero(t, plan.must(t, HandPollinate).Fits, "all fit")
}

// The minutes are never more than the hours hold, for any count of flowers, pace
// and length of the hours; what does not fit is said.
func TestMinutesNeverPassTheHours(t *testing.T) {
	l := newLab(t)
	for _, hours := range []float64{0.2, 0.25, 0.5, 0.87, 1} {
		for _, pace := range []float64{0.4, 1, 1.5, 3} {
			for n := 1; n <= 30; n++ {
				m := l.brushed()
				m.work = []Span{{7.5, 7.5 + hours}}
				m.plantings[0].Open, m.plantings[0].OpenOn, m.plantings[0].MinutesPerFlower = n, heatField.date, pace
				plan := m.plan(t)
				task := plan.must(t, HandPollinate)
				have := task.To.Sub(task.From).Minutes()
				require.LessOrEqual(t, float64(task.Minutes), have, "%d flowers at %g min in %g min", n, pace, have)
				done := n
				if task.Fits > 0 {
					done = task.Fits
					require.Less(t, done, n)
					require.Greater(t, float64(done+1)*pace, have, "one more would fit")
				}
				require.GreaterOrEqual(t, float64(task.Minutes), float64(done)*pace-1e-9)
			}
		}
	}
}

// The brush stands in the hours of the garden file: the first part that
// holds the work, else the longest, or the second best where they miss the flower's best.
func TestHoursOfWork(t *testing.T) {
	l := newLab(t)
	for _, c := range []struct {
		work     []Span
		from, to float64
		second   bool
	}{
		{[]Span{{5, 21}}, 7, 14, false},
		{[]Span{{8, 9}}, 8, 9, false},
		{[]Span{{4, 7.5}, {8.25, 20}}, 7, 7.5, false},
		{[]Span{{4, 9}, {9.5, 20}}, 7, 9, false},
		{[]Span{{4, 7.1}, {8.25, 20}}, 8.25, 14, false}, // six minutes are too few
		{[]Span{{14, 15}}, 14, 15, true},
	} {
		m := l.brushed()
		m.work = c.work
		plan := m.plan(t)
		task := plan.must(t, HandPollinate)
		assert.Equal(t, heatField.date.At(c.from, heatField.zone), task.From.In(heatField.zone), "%v", c.work)
		assert.Equal(t, heatField.date.At(c.to, heatField.zone), task.To.In(heatField.zone), "%v", c.work)
		assert.Equal(t, c.second, task.Second, "%v", c.work)
	}
}

// A second best hour wins less than the best, and says so.
func TestSecondBestHourWinsLess(t *testing.T) {
	l := newLab(t)
	m := l.brushed()
	plan := m.plan(t)
	best := plan.must(t, HandPollinate)
	m.work = []Span{{14, 15}}
	plan = m.plan(t)
	late := plan.must(t, HandPollinate)
	assert.Contains(t, late.Causes, CauseOutsideHours)
	assert.Less(t, late.Hand.Mid, best.Hand.Mid)
	assert.Less(t, late.Gain, best.Gain)
}

// Hours that hold no part of the open flower leave nothing to do, and a day off
// asks for no work at all.
func TestNoHoursNoWork(t *testing.T) {
	l := newLab(t)
	m := l.brushed()
	m.work = []Span{{18, 21}}
	plan := m.plan(t)
	assert.Empty(t, plan.Tasks)
	assert.Equal(t, CauseOutsideHours, plan.must(t, NothingToGain).Causes[0])

	for _, key := range allCrops {
		m = l.brushed()
		m.work = []Span{}
		m.plantings = []Planting{{Crop: l.crop(key)}, {Crop: l.crop(key), Cover: RowCover}, {Crop: l.crop(key), Cover: Tunnel}}
		for _, plan := range m.plans(t, 2) {
			assert.Empty(t, plan.Tasks, key)
			assert.Empty(t, plan.More, key)
		}
	}
}

// One day off asks for nothing, not even in the evening before a wet morning; the
// day after is planned as ever.
func TestOneDayOff(t *testing.T) {
	l := newLab(t)
	m := l.evening("cucumber", noBees, 0.9)
	plan := m.plan(t)
	plan.must(t, SavePollen)
	g := m.garden()
	g.Work[heatField.date.Weekday()] = nil
	plans := Plan(Assess(g, m.series, heatField.date, 2), heatField.date, 2, PlanOptions{})
	assert.Empty(t, plans[0].Tasks)
	_, brush := plans[1].find(HandPollinate)
	assert.True(t, brush)
}

// north is a summer morning at 55 degrees: the sun rises before 3:30, and summer
// squash, shut 6 h after sunrise (Nepi93), is over before ten.
func (l *lab) north() morning {
	at := fieldAt(55, -75, -5, 2026, time.June, 21)
	return morning{at: at, series: issued(at), bees: noBees, work: []Span{{4, 21}}, plantings: []Planting{{Crop: l.crop("summer-squash")}}}
}

// Asked at ten, a flower that shut after nine is over.
func TestAskedAfterTheFlowerShut(t *testing.T) {
	l := newLab(t)
	m := l.north()
	shut := m.plan(t).Day.Plantings[0].Closes
	require.True(t, shut.After(m.at.date.At(9, m.at.zone)) && shut.Before(m.at.date.At(10, m.at.zone)), shut)
	m.now = m.at.date.At(10, m.at.zone)
	plan := m.plan(t)
	assert.Empty(t, plan.Tasks)
	assert.Equal(t, []Cause{CauseOver}, plan.must(t, NothingToGain).Causes)
	m.now = m.at.date.At(8, m.at.zone)
	plan = m.plan(t)
	_, brush := plan.find(HandPollinate)
	assert.True(t, brush, "at eight it is still open")
}

// A window that is partly over starts now, to the five minutes; one of which less
// than five minutes is left is not asked for.
func TestWindowPartlyOverStartsNow(t *testing.T) {
	l := newLab(t)
	m := l.brushed()
	m.work = []Span{{5, 10}}
	m.now = heatField.date.At(8+33.0/60, heatField.zone)
	plan := m.plan(t)
	task := plan.must(t, HandPollinate)
	assert.Equal(t, heatField.date.At(8.5, heatField.zone), task.From.In(heatField.zone))
	assert.Equal(t, heatField.date.At(10, heatField.zone), task.To.In(heatField.zone))
	m.now = heatField.date.At(9+59.0/60, heatField.zone)
	m.plantings[0].Open, m.plantings[0].OpenOn = 30, heatField.date
	plan = m.plan(t)
	assert.Equal(t, 5, plan.must(t, HandPollinate).Fits, "what the last five minutes hold")
	m.now = heatField.date.At(10, heatField.zone)
	plan = m.plan(t)
	assert.Empty(t, plan.Tasks)
}

// The clock says nothing of other days: tomorrow is planned whole, and days that
// are past ask for no work.
func TestTheClockCutsOnlyToday(t *testing.T) {
	l := newLab(t)
	m := l.brushed()
	whole := m.plans(t, 2)
	m.now = heatField.date.At(20, heatField.zone)
	assert.Equal(t, whole[1].must(t, HandPollinate).From, m.plans(t, 2)[1].must(t, HandPollinate).From)
	m.now = heatField.date.AddDays(2).At(4, heatField.zone)
	for i, plan := range m.plans(t, 2) {
		assert.NotEmpty(t, whole[i].Tasks)
		assert.Empty(t, plan.Tasks, plan.Date)
		assert.Empty(t, plan.More, plan.Date)
	}
}

// Days before today are planned as they stood, whatever the hour now, so that the
// flowers brushed then are looked at after three to five days (look_after).
func TestFlowersOfPastDaysAreLookedAt(t *testing.T) {
	l := newLab(t)
	m := l.brushed()
	m.series = clearDay.series(heatField, 6)
	m.plantings[0].FirstFemale = heatField.date.AddDays(-9)
	a := Assess(m.garden(), m.series, heatField.date.AddDays(-5), 7)
	plan := Plan(a, heatField.date, 1, PlanOptions{Now: heatField.date.At(9, heatField.zone)})[0]
	task := plan.must(t, LookAtTagged)
	after := l.crop("cucumber").Hand.LookAfter
	days := heatField.date.DaysSince(task.Tagged)
	assert.True(t, float64(days) >= after.Low && float64(days) <= after.High, days)
}

// zones that test the clock: offsets of a half and of three quarters of an hour
// and, in Adelaide, the days of 25 and 23 hours (5 April and 4 October 2026).
var zones = []struct {
	name     string
	lat, lon float64
	date     forecast.Date
	hours    int
}{
	{"Asia/Kolkata", 28.6, 77.2, forecast.Date{Year: 2026, Month: time.April, Day: 10}, 24},
	{"Asia/Kathmandu", 27.7, 85.3, forecast.Date{Year: 2026, Month: time.May, Day: 2}, 24},
	{"Australia/Adelaide", -34.9, 138.6, forecast.Date{Year: 2026, Month: time.January, Day: 12}, 24},
	{"Australia/Adelaide", -34.9, 138.6, forecast.Date{Year: 2026, Month: time.April, Day: 5}, 25},
	{"Australia/Adelaide", -34.9, 138.6, forecast.Date{Year: 2026, Month: time.October, Day: 4}, 23},
	{"America/New_York", 27, -81, forecast.Date{Year: 2026, Month: time.March, Day: 8}, 23},
	{"America/New_York", 27, -81, forecast.Date{Year: 2026, Month: time.November, Day: 1}, 25},
}

// inZones gives each zone's morning: five crops, no bees, still air, the hours of
// work given, with the day before in the series.
func (l *lab) inZones(work []Span, check func(name string, m morning)) {
	for _, z := range zones {
		zone, err := time.LoadLocation(z.name)
		require.NoError(l.t, err)
		at := field{z.lat, z.lon, zone, z.date}
		from, to := z.date.Span(zone)
		require.Equal(l.t, z.hours, int(to.Sub(from).Hours()), z.name)
		w := clearDay
		w.wind = 0
		m := morning{at: at, series: w.series(at, 1), bees: noBees, work: work}
		// A day's plan holds no more tasks than these crops give.
		for _, key := range []string{"cucumber", "summer-squash", "pumpkin-winter-squash", "sweet-corn", "tomato"} {
			p := Planting{Name: key, Crop: l.crop(key), Rows: 2}
			p.FirstMale, p.FirstFemale = z.date.AddDays(-9), z.date.AddDays(-2)
			if p.Crop.Corn != nil { // after nine days there would be no pollen left to shake out
				p.Rows, p.FirstMale = 1, z.date.AddDays(-4)
			}
			m.plantings = append(m.plantings, p)
		}
		check(z.name+" "+z.date.String(), m)
	}
}

// Every task of any zone stands on its own civil day, within the hours of work by
// the garden's clock.
func TestTasksStandOnTheirCivilDay(t *testing.T) {
	l := newLab(t)
	l.inZones([]Span{{6.5, 19.75}}, func(name string, m morning) {
		for _, plan := range m.plans(t, 2) {
			kinds := map[TaskKind]int{}
			for _, task := range plan.Tasks {
				kinds[task.Kind]++
				from, to := task.From.In(m.at.zone), task.To.In(m.at.zone)
				assert.Equal(t, plan.Date, forecast.DateOf(from, m.at.zone), "%s %v", name, task.Kind)
				assert.Equal(t, plan.Date, forecast.DateOf(to, m.at.zone), "%s %v", name, task.Kind)
				assert.False(t, from.Before(plan.Date.At(6.5, m.at.zone)) || to.After(plan.Date.At(19.75, m.at.zone)), "%s %v: %v to %v", name, task.Kind, from, to)
				assert.Zero(t, from.Minute()%5+to.Minute()%5, "%s %v: read off a clock", name, task.Kind)
			}
			assert.Equal(t, 3, kinds[HandPollinate], name)
			assert.Equal(t, 1, kinds[TapTrusses], name)
			assert.Equal(t, 1, kinds[ShakeTassels], name)
		}
	})
}

// Tomatoes shed from 10 to 16 h and are tapped around midday by the garden's
// clock (UNLtom), whatever the zone and however long the day.
func TestTrussesAreTappedAroundMidday(t *testing.T) {
	l := newLab(t)
	l.inZones(nil, func(name string, m morning) {
		for _, plan := range m.plans(t, 2) {
			task := plan.must(t, TapTrusses)
			assert.False(t, task.From.Before(plan.Date.At(11, m.at.zone)), "%s: from %v", name, task.From.In(m.at.zone))
			assert.True(t, task.From.Before(plan.Date.At(12, m.at.zone)), "%s: from %v", name, task.From.In(m.at.zone))
			assert.False(t, task.To.After(plan.Date.At(14, m.at.zone)), "%s: to %v", name, task.To.In(m.at.zone))
		}
	})
}

// The practice's hours of a bed whose air is not the forecast's are local hours:
// cucumber from 6 to 10 (WehHor89), squash from 6 to 9 (ZuccPol20).
func TestTunnelHoursAreLocal(t *testing.T) {
	l := newLab(t)
	ends := map[string]float64{"cucumber": 10, "summer-squash": 9}
	l.inZones(nil, func(name string, m morning) {
		for key, end := range ends {
			m.plantings = []Planting{{Crop: l.crop(key), Cover: Tunnel}}
			plan := m.plan(t)
			task := plan.must(t, HandPollinate)
			assert.True(t, task.From.Equal(m.at.date.At(6, m.at.zone)), "%s %s: from %v", name, key, task.From.In(m.at.zone))
			assert.True(t, task.To.Equal(m.at.date.At(end, m.at.zone)), "%s %s: to %v", name, key, task.To.In(m.at.zone))
			assert.Equal(t, Unsure, task.Sure)
		}
	})
}
