package ledger

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// rainOf keeps the plot with the hours of one day changed and gives its rain.
func rainOf(t *testing.T, on forecast.Date, change func(s *forecast.Series, lo, hi int)) *Day {
	g := plot(t, nil)
	s := sky(g, june1, july20, 3, 25)
	lo, hi := s.Day(on, g.Place.Zone)
	change(s, lo, hi)
	return day(t, kept(t, g, s), on)
}

// A forecast without chances is read by the day's sum: a millimetre is likely, less
// is open, and a drizzle of many hours is rain.
func TestForecastWithoutChances(t *testing.T) {
	drizzle := func(mm float64) func(*forecast.Series, int, int) {
		return func(s *forecast.Series, lo, hi int) {
			for i := lo; i < hi; i++ {
				s.Hours[i].Rain, s.Hours[i].RainProb = forecast.Known(mm), forecast.Value{}
			}
		}
	}
	d := rainOf(t, july20.AddDays(1), drizzle(0.2))
	assert.InDelta(t, 0.9*4.8, d.Rain.Mid, 1e-9)
	assert.InDelta(t, 0.9, d.Chance.Or(0), 1e-12)
	assert.Greater(t, d.Rain.Lo, 0.0)
	d = rainOf(t, july20.AddDays(1), drizzle(0.02))
	assert.InDelta(t, 0.5*0.48, d.Rain.Mid, 1e-9)
	assert.Zero(t, d.Rain.Lo)
	d = rainOf(t, july20.AddDays(1), drizzle(0.005))
	assert.Zero(t, d.Rain.Mid)
}

// A block of hours tells where the hours do not, half a block its half; where an
// amount is not forecast a wet day's stands for it; and where nothing is told
// nothing counts but for the wet end.
func TestForecastByBlocks(t *testing.T) {
	on := july20.AddDays(2)
	d := rainOf(t, on, func(s *forecast.Series, lo, hi int) {
		for i := lo; i < hi; i++ {
			s.Hours[i].Rain, s.Hours[i].RainProb = forecast.Value{}, forecast.Value{}
		}
		s.Blocks = append(s.Blocks, forecast.RainBlock{Start: s.Hours[lo-6].Start, End: s.Hours[lo+6].Start, Amount: forecast.Known(12), Prob: forecast.Known(0.4)},
			forecast.RainBlock{Start: s.Hours[lo+6].Start, End: s.Hours[hi-1].Start, Amount: forecast.Known(0), Prob: forecast.Known(0.1)})
	})
	assert.InDelta(t, 0.4*6, d.Rain.Mid, 1e-9)
	assert.InDelta(t, 0.4, d.Chance.Or(0), 1e-12)
	assert.Zero(t, d.Rain.Lo)
	d = rainOf(t, on, func(s *forecast.Series, lo, hi int) {
		for i := lo; i < hi; i++ {
			s.Hours[i].Rain, s.Hours[i].RainProb = forecast.Value{}, forecast.Known(0.3)
		}
	})
	assert.InDelta(t, 0.3*wetAmount, d.Rain.Mid, 1e-9)
	d = rainOf(t, on, func(s *forecast.Series, lo, hi int) {
		for i := lo; i < hi; i++ {
			s.Hours[i].Rain, s.Hours[i].RainProb = forecast.Value{}, forecast.Value{}
		}
	})
	assert.Equal(t, RainUnknown, d.By)
	assert.Zero(t, d.Rain.Mid)
	assert.Greater(t, d.Rain.Hi, 0.0)
	assert.False(t, d.Chance.IsKnown())
}

// What a model worked out afterwards rained, but how much is not measured.
func TestReanalysisIsNotMeasured(t *testing.T) {
	d := rainOf(t, july20.AddDays(-3), func(s *forecast.Series, lo, hi int) {
		for i := lo; i < hi; i++ {
			s.Hours[i].Origin, s.Hours[i].Rain = forecast.OriginReanalysis, forecast.Known(0.5)
		}
	})
	assert.Equal(t, RainForecast, d.By)
	assert.InDelta(t, 12, d.Rain.Mid, 1e-9)
	assert.InDelta(t, 6, d.Rain.Lo, 1e-9)
	assert.InDelta(t, 24, d.Rain.Hi, 1e-9)
}

// Of rain a pot catches what falls on its mouth.
func TestRainOnPots(t *testing.T) {
	g := plot(t, func(b *risk.Bed, p *risk.Planting) {
		*b = risk.Bed{Name: "bed 1", Kind: risk.Pots, Pots: 4, PotVolume: 19, Watering: risk.Can}
		p.Plants = 4
	})
	s := sky(g, june1, july20, 1, 25)
	i, ok := s.Index(july20.AddDays(-1).At(10, g.Place.Zone))
	require.True(t, ok)
	s.Hours[i].Rain = forecast.Known(10)
	d := day(t, kept(t, g, s), july20.AddDays(-1))
	// 19 l, as deep as wide, has a mouth of 0.066 m2; a big tomato shades 0.45.
	assert.InDelta(t, 10*0.066/0.45, d.Caught, 0.02)
	assert.InDelta(t, 0.45, kept(t, g, s).Canopy, 1e-12)
	assert.Equal(t, []string{"potting soil"}, kept(t, g, s).Assumed)
}

// A reading of today tells what has fallen by now, and leaves what is to come.
func TestGaugeOfToday(t *testing.T) {
	g := plot(t, nil)
	s := sky(g, june1, july20, 3, 25)
	rainAhead(g, s, july20, 12, 18, 20, 0.5)
	read := memory.Entry{Kind: memory.Rain, Date: july20, Amount: forecast.Known(4)}
	d := day(t, &Keep(g, s, []memory.Entry{read}, at(g, july20, 9)).Beds[0], july20)
	assert.InDelta(t, 4, d.Rain.Lo, 1e-9)
	assert.InDelta(t, 4+0.5*20, d.Rain.Mid, 1e-9)
	assert.InDelta(t, 0.5, d.Chance.Or(0), 1e-12)
	assert.InDelta(t, 4+2*20, d.Rain.Hi, 1e-9)
}

// A forecast without any rain leaves the rest of today open to a shower, but does
// not unsettle what was.
func TestNoRainLayerAhead(t *testing.T) {
	g := plot(t, nil)
	s := sky(g, june1, july20, 3, 25)
	lo, hi := s.Slice(at(g, july20, 6), s.End())
	for i := lo; i < hi; i++ {
		s.Hours[i].Rain, s.Hours[i].RainProb = forecast.Value{}, forecast.Value{}
	}
	b := kept(t, g, s, regular(g, 200, 2, 1)...)
	d := today(t, b)
	assert.Equal(t, RainUnknown, d.By)
	assert.Zero(t, d.Rain.Mid)
	assert.InDelta(t, amountHigh*wetAmount, d.Rain.Hi, 1e-9)
	assert.NotEqual(t, LookFirst, d.Advice.Verdict)
}
