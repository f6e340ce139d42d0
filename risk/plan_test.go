package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// morning is a garden in full bloom for which a plan is asked, on the field's
// day and the day after it.
type morning struct {
	at        field
	series    *forecast.Series
	bees      Bees
	work      []Span // every day; 5 to 21 h where none is given
	plantings []Planting
	now       time.Time
}

// noBees leaves every flower to the brush.
var noBees = Bees{Honey: None, Bumble: None, Squash: None}

func (m morning) garden() *Garden {
	g := &Garden{Shelter: 1, Place: forecast.Place{Lat: m.at.lat, Lon: m.at.lon, Zone: m.at.zone}, Bees: m.bees}
	if m.work == nil {
		m.work = []Span{{5, 21}}
	}
	for d := range g.Work {
		g.Work[d] = m.work
	}
	for i, p := range m.plantings {
		if p.Name == "" {
			p.Name = p.Crop.Key + string(rune('a'+i))
		}
		if p.FirstFemale.IsZero() {
			p.FirstMale, p.FirstFemale = m.at.date.AddDays(-12), m.at.date.AddDays(-5)
		}
		if p.Plants == 0 {
			p.Plants = 20
		}
		g.Plantings = append(g.Plantings, p)
	}
	return g
}

// plans gives n days from the field's day on.
func (m morning) plans(t testing.TB, n int) []DayPlan {
	t.Helper()
	plans := Plan(Assess(m.garden(), m.series, m.at.date, n+1), m.at.date, n, PlanOptions{Now: m.now})
	require.Len(t, plans, n)
	return plans
}

func (m morning) plan(t testing.TB) DayPlan { t.Helper(); return m.plans(t, 1)[0] }

func (m morning) planWith(t testing.TB, o PlanOptions) DayPlan {
	t.Helper()
	plans := Plan(Assess(m.garden(), m.series, m.at.date, 2), m.at.date, 1, o)
	require.Len(t, plans, 1)
	return plans[0]
}

// must finds the one task of a kind for a planting.
func (p *DayPlan) must(t testing.TB, k TaskKind) Task {
	t.Helper()
	task, ok := p.find(k)
	require.True(t, ok, "no %v among %+v %+v", k, p.Tasks, p.Rest)
	return task
}

func (p *DayPlan) all() (out []Task) {
	return append(append(append(out, p.Tasks...), p.More...), p.Rest...)
}

// brushed is a cucumber bed without bees on a clear forecast day: the plan
// brushes it from 7 to 10 h, whatever else a test changes.
func (l *lab) brushed() morning {
	return morning{at: heatField, series: issued(heatField), bees: noBees, plantings: []Planting{{Crop: l.crop("cucumber")}}}
}

// beforeNoon issues the forecast so long before noon of the field's day.
func (m morning) beforeNoon(lead time.Duration) morning {
	s := *m.series
	s.Issued = m.at.date.At(12, m.at.zone).Add(-lead)
	m.series = &s
	return m
}

const day = 24 * time.Hour

// The age of the forecast lowers how sure a task is, at 36 hours and at five
// days before noon (both chosen, said in the comment of sureLead).
func TestForecastAgeLowersSureness(t *testing.T) {
	l := newLab(t)
	for _, c := range []struct {
		lead time.Duration
		sure Sureness
		days int
	}{
		{0, VerySure, 0}, {36 * time.Hour, VerySure, 0}, {36*time.Hour + time.Minute, Likely, 0},
		{5 * day, Likely, 0}, {5*day + time.Hour, Unsure, 5}, {5*day + 13*time.Hour, Unsure, 6}, {9 * day, Unsure, 9},
	} {
		plan := l.brushed().beforeNoon(c.lead).plan(t)
		brush := plan.must(t, HandPollinate)
		assert.Equal(t, c.sure, brush.Sure, "%v", c.lead)
		assert.Equal(t, c.days, brush.Lead, "%v", c.lead)
	}
}

// Hours that were measured have no age.
func TestNoAgeKnownLowersNothing(t *testing.T) {
	l := newLab(t)
	measured := l.brushed().beforeNoon(9 * day)
	for i := range measured.series.Hours {
		measured.series.Hours[i].Origin, measured.series.Hours[i].Rain = forecast.OriginObserved, forecast.Known(0)
	}
	plan := measured.plan(t)
	assert.Equal(t, VerySure, plan.must(t, HandPollinate).Sure)
	assert.Zero(t, plan.must(t, HandPollinate).Lead)
}

// A forecast that does not tell its issue was issued no later than it was asked for,
// and no later than now.
func TestAnUntoldIssueCountsFromTheAsking(t *testing.T) {
	l := newLab(t)
	noon := heatField.date.At(12, heatField.zone)
	for _, c := range []struct {
		options PlanOptions
		want    Sureness
	}{
		{PlanOptions{}, VerySure},
		{PlanOptions{Now: noon.Add(-30 * time.Hour)}, VerySure},
		{PlanOptions{Now: noon.Add(-40 * time.Hour)}, Likely},
		{PlanOptions{Now: noon.Add(-30 * time.Hour), Asked: noon.Add(-6 * 24 * time.Hour)}, Unsure},
	} {
		untold := l.brushed()
		untold.series.Issued = time.Time{}
		plan := untold.planWith(t, c.options)
		assert.Equal(t, c.want, plan.must(t, HandPollinate).Sure, c.options)
	}
}

// What the diary or the clock decides is sure whatever the forecast's age.
func TestAgeLeavesWhatNoWeatherDecides(t *testing.T) {
	l := newLab(t)
	done := l.brushed().beforeNoon(9 * day)
	done.plantings[0].Brushed = []forecast.Date{heatField.date}
	plan := done.plan(t)
	task := plan.must(t, LeaveToBees)
	assert.Equal(t, []Cause{CauseDone}, task.Causes)
	assert.Equal(t, VerySure, task.Sure)

	over := l.brushed().beforeNoon(9 * day)
	over.now = heatField.date.At(20, heatField.zone)
	plan = over.plan(t)
	task = plan.must(t, NothingToGain)
	assert.Equal(t, []Cause{CauseOver}, task.Causes)
	assert.Equal(t, VerySure, task.Sure)
}

// A forecast of cold that keeps the flowers shut is a forecast too: over five
// days old it is not sure. Cucumbers open from 15.6 degC (60 degF, UWlisa).
func TestAgeLowersColdThatKeepsFlowersShut(t *testing.T) {
	l := newLab(t)
	for lead, want := range map[time.Duration]Sureness{12 * time.Hour: Likely, 6 * day: Unsure} {
		m := l.brushed()
		for i := range m.series.Hours {
			m.series.Hours[i].Temp = forecast.Known(15)
		}
		plan := m.beforeNoon(lead).plan(t)
		task := plan.must(t, NothingToGain)
		require.Equal(t, StaysShut, task.Day.State)
		assert.Equal(t, want, task.Sure, "%v", lead)
	}
}

// The evening's work stands on tomorrow's weather and is as sure as that is:
// four and a half days before today's noon are five and a half before tomorrow's.
func TestAnEveningsWorkIsAsOldAsTomorrowsForecast(t *testing.T) {
	l := newLab(t)
	for lead, want := range map[time.Duration]Sureness{3 * day: Likely, 4*day + 12*time.Hour: Unsure} {
		m := l.brushed()
		m.series = issued(heatField, heatField.block(24+4, 8, forecast.Known(6), forecast.Known(0.8)))
		plan := m.beforeNoon(lead).plan(t)
		assert.NotEqual(t, Unsure, plan.must(t, HandPollinate).Sure, "today's own work")
		assert.Equal(t, want, plan.must(t, SavePollen).Sure, "%v", lead)
	}
}

// A bed under row cover asks to uncover on each day in bloom, in hours of work
// and around the flower's own, and no more once the diary says the cover is off.
// "Remove at first female flowers" (causes of poor set; Eischen94 for melon).
func TestRowCoverAsksToUncoverEachDay(t *testing.T) {
	l := newLab(t)
	for _, key := range vineCrops {
		m := morning{at: heatField, series: clearDay.series(heatField, 1), plantings: []Planting{{Crop: l.crop(key), Cover: RowCover}}}
		for _, plan := range m.plans(t, 2) {
			task := plan.must(t, UncoverCrop)
			assert.Equal(t, []Cause{CauseCovered}, task.Causes, key)
			assert.True(t, task.From.Before(task.Day.Closes) && !task.To.After(task.Day.Closes), "%s: %v to %v", key, task.From, task.To)
		}
		m.plantings[0].Cover = Open
		plan := m.plan(t)
		_, asked := plan.find(UncoverCrop)
		assert.False(t, asked, "%s: the cover is off", key)
	}
}

// Out of bloom a cover stays where it is.
func TestRowCoverStaysBeforeBloom(t *testing.T) {
	l := newLab(t)
	m := morning{at: heatField, series: clearDay.series(heatField, 1), plantings: []Planting{{Crop: l.crop("cucumber"), Cover: RowCover,
		FirstFemale: heatField.date.AddDays(3)}}}
	plan := m.plan(t)
	_, asked := plan.find(UncoverCrop)
	assert.False(t, asked)
}

// Once it is asked to uncover, the bed is planned as an open one: the same bees,
// the same brush, the same decision.
func TestUncoveredIsPlannedAsOpen(t *testing.T) {
	l := newLab(t)
	for _, bees := range []Bees{noBees, {Honey: Few, Bumble: Few, Squash: Few}, {}, {Honey: Many, Bumble: Many, Squash: Many}} {
		m := morning{at: heatField, series: clearDay.series(heatField, 1), bees: bees, plantings: []Planting{{Name: "bed", Crop: l.crop("cucumber"), Cover: RowCover}}}
		covered := m.plan(t)
		m.plantings[0].Cover = Open
		open := m.plan(t)
		require.Zero(t, covered.Day.Plantings[0].Fill.Hi, "no bee gets in")
		a, b := decided(covered.all()), decided(open.all())
		assert.Equal(t, b.Kind, a.Kind, "%v", bees)
		assert.Equal(t, b.Bees, a.Bees, "%v", bees)
		assert.Equal(t, b.Hand, a.Hand, "%v", bees)
		assert.NotContains(t, a.Causes, CauseCovered, "%v", bees)
	}
}

// decided is the first task but for uncovering.
func decided(tasks []Task) Task {
	for _, t := range tasks {
		if t.Kind != UncoverCrop {
			return t
		}
	}
	return Task{}
}

// In wind that tears a cover from one's hands it stays on within six days of the
// first female flowers, which costs nothing (Eischen94), and comes off after; a
// covered bed then has no bees.
func TestCoverStaysOnAWildDay(t *testing.T) {
	l := newLab(t)
	w := clearDay
	w.wind = 12
	for since, asked := range map[int]bool{0: false, 5: false, 6: true, 9: true} {
		m := morning{at: heatField, series: w.series(heatField, 1), plantings: []Planting{{Crop: l.crop("cucumber"), Cover: RowCover, FirstFemale: heatField.date.AddDays(-since)}}}
		plan := m.plan(t)
		_, got := plan.find(UncoverCrop)
		assert.Equal(t, asked, got, "%d days after the first female flower", since)
		if !asked {
			brush := plan.must(t, HandPollinate)
			assert.Zero(t, brush.Bees)
			assert.Equal(t, CauseCovered, brush.Causes[0])
		}
	}
}

// Of unpollinated courgettes 56 % reached market size (Knapp): that is what a
// parthenocarpic zucchini sets where no bee gets in. With the usual bees once the
// cover is off, a brush adds too little to be asked for.
func TestParthenocarpicZucchiniUnderCover(t *testing.T) {
	l := newLab(t)
	knapp := l.num("crops/summer_squash/parthenocarpy", "low") / 100
	require.Equal(t, 0.56, knapp)
	p := Planting{Crop: l.crop("summer-squash"), Setting: crop.Parthenocarpic, Cover: RowCover}
	m := morning{at: heatField, series: clearDay.series(heatField, 1), plantings: []Planting{p}}
	plan := m.plan(t)
	assert.Equal(t, Range{knapp, knapp, knapp}, plan.Day.Plantings[0].Set)
	assert.Equal(t, Range{knapp, knapp, knapp}, plan.Day.Plantings[0].Fill)
	assert.Equal(t, Range{knapp, knapp, knapp}, plan.must(t, UncoverCrop).Bees, "what stays if it is left on")
	_, brush := plan.find(HandPollinate)
	assert.False(t, brush)

	m.plantings[0].Setting = crop.Monoecious
	plan = m.plan(t)
	assert.Zero(t, plan.Day.Plantings[0].Set, "other cultivars set nothing under a cover")
}

// A parthenocarpic cucumber needs no pollen (VT426406): nothing is asked, under
// whatever cover and with however few bees.
func TestParthenocarpicCucumberAsksForNothing(t *testing.T) {
	l := newLab(t)
	for _, cover := range []Cover{Open, RowCover, Tunnel, House} {
		m := l.brushed()
		m.plantings[0].Setting, m.plantings[0].Cover = crop.Parthenocarpic, cover
		plan := m.plan(t)
		assert.Empty(t, plan.Tasks, cover)
		assert.Equal(t, []Cause{CauseNeedsNoPollen}, plan.must(t, LeaveToBees).Causes, cover)
	}
}

// A gynoecious cucumber without its pollen parent sets nothing, bees or brush
// (VT426406: sold with a pollen parent); the plan says so, in a tunnel too.
func TestNoPollenParentIsSaid(t *testing.T) {
	l := newLab(t)
	for _, cover := range []Cover{Open, RowCover, Tunnel, House} {
		m := l.brushed()
		m.plantings[0].Setting, m.plantings[0].Cover = crop.Gynoecious, cover
		plan := m.plan(t)
		assert.Empty(t, plan.Tasks, cover)
		assert.Equal(t, []Cause{CauseNoParent}, plan.must(t, NothingToGain).Causes, cover)

		m.plantings[0].Pollenizer = true
		plan = m.plan(t)
		_, brush := plan.find(HandPollinate)
		assert.True(t, brush, "%s: with a parent nearby there is pollen to carry", cover)
	}
}
