package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// The mean way to the upwind edge of a rectangle, added up point by point.
func TestWayOverABlockIsGeometry(t *testing.T) {
	for _, b := range []smallBlock{{1, 0.76, 12}, {3, 2.28, 4}, {2, 1.52, 1}} {
		for deg := 0.0; deg <= 180; deg += 7.5 {
			sin, cos := math.Abs(math.Sin(deg*math.Pi/180)), math.Abs(math.Cos(deg*math.Pi/180))
			const n = 400
			sum := 0.0
			for i := range n {
				for j := range n {
					x, y := (float64(i)+0.5)/n*b.width, (float64(j)+0.5)/n*b.length
					sum += min(x/max(sin, 1e-12), y/max(cos, 1e-12))
				}
			}
			assert.InDelta(t, sum/n/n, b.way(deg), 1e-4*b.length, "%+v at %g", b, deg)
		}
	}
}

// Limits of geometry: a wind across long rows brings what counting rows says; along it a
// single long row is no longer alone, which one plant always is.
func TestWindOverFewRows(t *testing.T) {
	for rows := 1; rows < fewRows; rows++ {
		b := smallBlock{rows, float64(rows) * rowSpace, 1e9}
		assert.InDelta(t, rowShare(rows), b.steady(90), 1e-6, "%d rows", rows)
		assert.InDelta(t, 1, b.steady(0), 1e-9)
	}
	row := smallBlock{1, rowSpace, 15}
	t.Logf("one row of 15 m, wind at 0, 15, 30, 45, 60, 75, 90 degrees: %.2f %.2f %.2f %.2f %.2f %.2f %.2f",
		row.share(0), row.share(15), row.share(30), row.share(45), row.share(60), row.share(75), row.share(90))
	assert.Greater(t, row.share(0), 0.6)
	assert.Less(t, row.share(90), 0.15)
	alone := smallBlock{1, rowSpace, plantSpace}
	last := 1.0
	for deg := 0.0; deg <= 90; deg += 5 {
		got := row.share(deg)
		assert.LessOrEqual(t, got, last+1e-9, "the less along, the less")
		assert.InDelta(t, got, row.share(-deg), 1e-12)
		assert.InDelta(t, got, row.share(180-deg), 1e-12)
		assert.GreaterOrEqual(t, got, rowShare(1))
		assert.LessOrEqual(t, got, 1.0)
		assert.InDelta(t, rowShare(1), alone.share(deg), 1e-12)
		last = got
	}
	for length := 1.0; length < 30; length++ {
		assert.LessOrEqual(t, smallBlock{1, rowSpace, length}.share(0), smallBlock{1, rowSpace, length + 1}.share(0))
	}
}

// Angles of the compass.
func TestRowsOnTheCompass(t *testing.T) {
	for _, x := range []struct {
		run        RowsRun
		from, want float64
	}{
		{EastWest, 270, 0}, {EastWest, 0, 90}, {NorthEast, 225, 0}, {NorthEast, 45, 0}, {NorthEast, 315, 90}, {NorthSouth, 10, 10}, {NorthSouth, 350, 10},
		{NorthSouth, 360, 0}, {NorthWest, 315, 0}, {NorthWest, 300, 15}, {NorthWest, 0, 45},
	} {
		got, ok := x.run.to(x.from)
		assert.True(t, ok)
		assert.InDelta(t, x.want, got, 1e-9, "%+v", x)
	}
	_, ok := RunUnknown.to(90)
	assert.False(t, ok)
}

// Ears of a single row fill better when the wind of the shed blows along it. Where the
// direction or the run of the rows is not known, and with four rows, nothing changes.
func TestEarsByTheWindsDirection(t *testing.T) {
	l := newLab(t)
	look := func(p Planting, from forecast.Value) *PlantingDay {
		last := ohio
		last.date = ohio.date.AddDays(14)
		s := plainSummer.series(last, 16)
		for i := range s.Hours {
			s.Hours[i].WindFrom = from
		}
		p.Crop, p.FirstFemale = l.crop("sweet-corn"), ohio.date
		a := Assess(l.garden(ohio, p, Bees{}), s, ohio.date, 1)
		require.Len(t, a.Days, 1)
		return &a.Days[0].Plantings[0]
	}
	row := Planting{Rows: 1, RowLength: 15, RowsRun: EastWest}
	plain, along, across := look(Planting{Rows: 1}, forecast.Value{}), look(row, forecast.Known(270)), look(row, forecast.Known(0))
	t.Logf("kernels: direction not known %.3f, along %.3f, across %.3f", plain.Ears.Filled.Mid, along.Ears.Filled.Mid, across.Ears.Filled.Mid)
	assert.Greater(t, along.Ears.Filled.Mid, across.Ears.Filled.Mid+0.1)
	assert.GreaterOrEqual(t, across.Ears.Filled.Mid, plain.Ears.Filled.Mid, "not known is taken as across without swings")
	assert.Less(t, across.Ears.Filled.Mid-plain.Ears.Filled.Mid, 0.1)
	assert.True(t, along.OverRows.Known)
	assert.InDelta(t, 0, along.OverRows.Angle, 1e-9)
	assert.InDelta(t, 90, across.OverRows.Angle, 1e-9)
	assert.InDelta(t, along.OverRows.Share/across.OverRows.Share, along.Fill.Mid/across.Fill.Mid, 1e-9)
	for name, other := range map[string]*PlantingDay{
		"direction not known": look(row, forecast.Value{}), "run not told": look(Planting{Rows: 1, RowLength: 15}, forecast.Known(270)),
		"length not told": look(Planting{Rows: 1, RowsRun: EastWest}, forecast.Known(270)),
	} {
		assert.Equal(t, plain.Fill, other.Fill, name)
		assert.Equal(t, plain.Ears, other.Ears, name)
		assert.False(t, other.OverRows.Known, name)
	}
	four := Planting{Rows: 4, RowLength: 15, RowsRun: EastWest}
	assert.Equal(t, look(Planting{Rows: 4}, forecast.Value{}).Fill, look(four, forecast.Known(0)).Fill)
	plants := look(Planting{Rows: 1, Plants: 60, RowsRun: EastWest}, forecast.Known(270))
	assert.Equal(t, along.Fill, plants.Fill, "60 plants are a row of 15 m")
}

// How a single row runs matters in a wind that is forecast, and only until it is told;
// a first tassel not seen is in doubt by the published days before the first silk.
func TestRunOfTheRowsMatters(t *testing.T) {
	g, s, d := clearForecast(t, "sweet-corn")
	for i := range s.Hours {
		s.Hours[i].WindFrom = forecast.Known(280)
	}
	p := &g.Plantings[0]
	p.Rows, p.RowLength = 1, 15
	m := mattersOf(g, s, d, Learned{})
	run := m.input(t, "planting.rows_run")
	assert.Greater(t, run.To.Bees, run.From.Bees+0.1, "east-west lies along the wind")
	assert.Less(t, run.From.Bees, 1.0)
	tassel := m.input(t, "planting.first_male")
	assert.Equal(t, p.Crop.Phenology.FemaleAfterMale, crop.Range(*tassel.Doubt.Range))
	p.RowsRun, p.FirstMale = EastWest, p.FirstFemale.AddDays(-2)
	told := mattersOf(g, s, d, Learned{})
	assert.Zero(t, told.input(t, "planting.rows_run").Moves)
	assert.Zero(t, told.input(t, "planting.first_male").Moves)
	assert.Positive(t, told.input(t, "weather.wind_from").Moves)
	p.RowsRun, p.Rows = RunUnknown, 4
	four := mattersOf(g, s, d, Learned{})
	assert.Zero(t, four.input(t, "planting.rows_run").Moves)
}
