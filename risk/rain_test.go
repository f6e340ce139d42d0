package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
)

// issued is a forecast of clear days, its chances of rain given hour by hour as
// a feed does, its amounts in blocks.
func issued(at field, blocks ...forecast.RainBlock) *forecast.Series {
	s := clearDay.series(at, 1)
	for i := range s.Hours {
		h := &s.Hours[i]
		h.Origin, h.Rain, h.RainProb = forecast.OriginForecast, forecast.Value{}, forecast.Known(0)
	}
	s.Blocks = blocks
	for _, b := range blocks {
		lo, hi := s.Slice(b.Start, b.End)
		for i := lo; i < hi; i++ {
			s.Hours[i].RainProb = b.Prob
			if a, ok := b.Amount.Get(); ok {
				s.Hours[i].Rain = forecast.Known(a / b.End.Sub(b.Start).Hours())
			}
		}
	}
	return s
}

// block is rain from one local hour of the field's day on; hours before
// midnight are negative.
func (at field) block(from, hours int, amount, prob forecast.Value) forecast.RainBlock {
	start := at.date.Start(at.zone).Add(time.Duration(from) * time.Hour).UTC()
	return forecast.RainBlock{Start: start, End: start.Add(time.Duration(hours) * time.Hour), Amount: amount, Prob: prob}
}

func (l *lab) issuedDay(key string, blocks ...forecast.RainBlock) *PlantingDay {
	return l.onSeries(key, issued(heatField, blocks...))
}

func (l *lab) onSeries(key string, s *forecast.Series) *PlantingDay {
	l.t.Helper()
	a := Assess(l.garden(heatField, Planting{Crop: l.crop(key)}, Bees{}), s, heatField.date, 1)
	require.Len(l.t, a.Days, 1)
	return &a.Days[0].Plantings[0]
}

func (r Range) width() float64 { return r.Hi - r.Lo }

// A block of 1 mm in six hours at 45 % is more often dry than wet: the middle of
// the range stays near the dry day's, the low end falls. As a drizzle of 0.17 mm
// in every hour the same millimetre would end the day.
func TestBlockOfRainIsNoDrizzle(t *testing.T) {
	l := newLab(t)
	for _, key := range vineCrops {
		dry := l.issuedDay(key)
		require.Zero(t, dry.Missing, key)
		for from := -2; from <= 12; from++ {
			wet := l.issuedDay(key, heatField.block(from, 6, forecast.Known(1), forecast.Known(0.45)))
			assert.LessOrEqual(t, wet.Set.Lo, dry.Set.Lo+1e-9, "%s, block from %d h: low end", key, from)
			assert.LessOrEqual(t, wet.Set.Mid, dry.Set.Mid+1e-9, "%s, block from %d h: middle", key, from)
			assert.Greater(t, wet.Set.Mid, 0.8*dry.Set.Mid, "%s, block from %d h: middle", key, from)
			assert.Zero(t, wet.Missing, key)
		}
		// Blocks issued for 0, 6 and 12 UTC begin at these hours from the East of the
		// United States to the West. Later than 2 and before 5 h a block covers all of
		// a squash flower's life, and the middle falls by 0.11.
		for _, from := range []int{0, 1, 2, 5, 6, 7, 8, 11} {
			wet := l.issuedDay(key, heatField.block(from, 6, forecast.Known(1), forecast.Known(0.45)))
			assert.InDelta(t, dry.Set.Mid, wet.Set.Mid, 0.10, "%s, block from %d h: middle", key, from)
		}
		wet := l.issuedDay(key, heatField.block(5, 6, forecast.Known(1), forecast.Known(0.45)))
		assert.Less(t, wet.Set.Lo, dry.Set.Lo, "%s: the low end falls", key)
		assert.Less(t, wet.Fill.Lo, dry.Fill.Lo, "%s: the low end falls", key)

		drizzle := issued(heatField)
		lo, hi := drizzle.Slice(heatField.date.Start(heatField.zone).Add(4*time.Hour), heatField.date.Start(heatField.zone).Add(18*time.Hour))
		for i := lo; i < hi; i++ {
			drizzle.Hours[i].Rain, drizzle.Hours[i].Origin = forecast.Known(1.0/6), forecast.OriginObserved
		}
		assert.Less(t, l.onSeries(key, drizzle).Set.Mid, 0.05, "%s: what a drizzle would do", key)
	}
}

// The worlds of one block: one dry, the others wet in one run of at most three
// hours that carries the whole amount.
func TestWorldsOfOneBlock(t *testing.T) {
	l := newLab(t)
	for _, c := range []struct{ amount, prob float64 }{{1, 0.45}, {12, 0.8}, {0.3, 0.1}} {
		f := buildFrame(l, heatField, issued(heatField, heatField.block(6, 6, forecast.Known(c.amount), forecast.Known(c.prob))))
		dry := 0.0
		for j := range f.worlds {
			w := &f.worlds[j]
			sum, hours := 0.0, 0
			for i := range f.n {
				sum += w.rain[i]
				if w.rain[i] > 0 {
					hours++
				}
			}
			if hours == 0 {
				dry += w.weight
				continue
			}
			assert.InDelta(t, c.amount, sum, 1e-9)
			assert.LessOrEqual(t, hours, 3)
			for i := range f.n {
				at := i - f.day
				assert.False(t, w.rain[i] > 0 && (at < 6 || at >= 12), "rain at %d h", at)
			}
		}
		assert.InDelta(t, 1-c.prob, dry, 1e-9, "the chance of a dry day")
	}
}

func buildFrame(l *lab, at field, s *forecast.Series) *frame {
	l.t.Helper()
	g := l.garden(at, Planting{Crop: l.crop("cucumber")}, Bees{})
	var sk skies
	sk.read(s, g)
	var f frame
	require.True(l.t, f.build(s, &sk, g.Place, at.date, 1))
	return &f
}

// drawBlocks draws blocks of rain that may overlap each other and midnight, with
// amounts and chances known or not.
func drawBlocks(r *rapid.T, least int) []forecast.RainBlock {
	maybe := func(name string, lo, hi float64) forecast.Value {
		if !rapid.Bool().Draw(r, name+" known") {
			return forecast.Value{}
		}
		return forecast.Known(rapid.Float64Range(lo, hi).Draw(r, name))
	}
	var out []forecast.RainBlock
	for range rapid.IntRange(least, 7).Draw(r, "blocks") {
		from := rapid.IntRange(-24, 30).Draw(r, "from")
		hours := rapid.SampledFrom([]int{1, 3, 6, 12}).Draw(r, "hours")
		out = append(out, heatField.block(from, hours, maybe("amount", 0, 60), maybe("chance", 0, 1)))
	}
	return out
}

// The worlds share out one day: their weights sum to 1, none is negative,
// whatever is known of the rain.
func TestWeightsOfWorldsSumToOne(t *testing.T) {
	l := newLab(t)
	rapid.Check(t, func(r *rapid.T) {
		s := issued(heatField, drawBlocks(r, 0)...)
		for i := range s.Hours { // some hours without any word of rain, some measured
			switch rapid.IntRange(0, 9).Draw(r, "hour") {
			case 0:
				s.Hours[i].Rain, s.Hours[i].RainProb = forecast.Value{}, forecast.Value{}
			case 1:
				s.Hours[i].Origin = forecast.OriginObserved
			case 2:
				s.Hours[i].Wind = forecast.Value{}
			}
		}
		f := buildFrame(l, heatField, s)
		sum := 0.0
		for j := range f.worlds {
			w := &f.worlds[j]
			if w.weight < 0 {
				r.Fatalf("weight %g", w.weight)
			}
			sum += w.weight
			for i := range f.n {
				if !(w.rain[i] >= 0 && w.rain[i] < 100) {
					r.Fatalf("rain of %g mm", w.rain[i])
				}
			}
		}
		if len(f.worlds) > maxWorlds || sum < 1-1e-9 || sum > 1+1e-9 {
			r.Fatalf("%d worlds with a weight of %g", len(f.worlds), sum)
		}
		for _, key := range vineCrops {
			pd := l.onSeries(key, s)
			for _, x := range []Range{pd.Set, pd.Fill, pd.Both, pd.BothSet} {
				if !(x.Lo >= 0 && x.Lo <= x.Mid && x.Mid <= x.Hi && x.Hi <= 1) {
					r.Fatalf("%s: range %v", key, x)
				}
			}
		}
	})
}

// More chance of the same rain never raises what bees fill. The median is read
// between eleven points of the supply in each world of rain; where a world drops
// out (at a chance of 1) the points shift, by under 0.02.
func TestMoreChanceOfRainNeverHelps(t *testing.T) {
	l := newLab(t)
	rapid.Check(t, func(r *rapid.T) {
		key := rapid.SampledFrom(vineCrops).Draw(r, "crop")
		from := rapid.IntRange(0, 14).Draw(r, "from")
		hours := rapid.SampledFrom([]int{1, 3, 6, 12}).Draw(r, "hours")
		amount := forecast.Known(rapid.Float64Range(0.3, 30).Draw(r, "amount"))
		if rapid.Bool().Draw(r, "amount unknown") {
			amount = forecast.Value{}
		}
		less := rapid.Float64Range(0, 1).Draw(r, "less")
		more := rapid.Float64Range(less, 1).Draw(r, "more")
		a := l.issuedDay(key, heatField.block(from, hours, amount, forecast.Known(less)))
		b := l.issuedDay(key, heatField.block(from, hours, amount, forecast.Known(more)))
		if b.Fill.Mid > a.Fill.Mid+0.02 {
			r.Fatalf("%s: fill %.4f at a chance of %.3f, %.4f at %.3f", key, a.Fill.Mid, less, b.Fill.Mid, more)
		}
	})
}

// An unknown amount is not a guess: the range stays, the layer is not missing,
// for its chance is known.
func TestUnknownAmountKeepsARange(t *testing.T) {
	l := newLab(t)
	for _, key := range vineCrops {
		dry := l.issuedDay(key)
		pd := l.issuedDay(key, heatField.block(5, 6, forecast.Value{}, forecast.Known(0.5)))
		assert.False(t, pd.Missing.Has(air.Rain), key)
		assert.Less(t, pd.Fill.Lo, pd.Fill.Mid, key)
		assert.Less(t, pd.Fill.Mid, pd.Fill.Hi, key)
		assert.Less(t, pd.Set.Lo, dry.Set.Lo, key)
		assert.Greater(t, pd.Set.width(), dry.Set.width(), key)
	}
}

// Without any word of rain the day says so and the range is wider, with the dry
// day's middle above it.
func TestNoRainLayerWidensTheRange(t *testing.T) {
	l := newLab(t)
	for _, key := range vineCrops {
		dry := l.issuedDay(key)
		s := issued(heatField)
		for i := range s.Hours {
			s.Hours[i].Rain, s.Hours[i].RainProb = forecast.Value{}, forecast.Value{}
		}
		pd := l.onSeries(key, s)
		assert.True(t, pd.Missing.Has(air.Rain), key)
		assert.Greater(t, pd.Set.width(), dry.Set.width(), key)
		assert.Greater(t, pd.Fill.width(), dry.Fill.width(), key)
		assert.LessOrEqual(t, pd.Fill.Mid, dry.Fill.Mid, key)
	}
}

// Rain that has been measured is no chance: it is the same in every world, and
// a forecast block over the same hours changes nothing.
func TestMeasuredRainIsCertain(t *testing.T) {
	l := newLab(t)
	measured := func(blocks ...forecast.RainBlock) *forecast.Series {
		s := issued(heatField, blocks...)
		lo, hi := s.Slice(heatField.date.Start(heatField.zone), heatField.date.Start(heatField.zone).Add(12*time.Hour))
		for i := lo; i < hi; i++ {
			s.Hours[i].Origin, s.Hours[i].Rain = forecast.OriginObserved, forecast.Known(0)
			if k := i - lo; k >= 7 && k < 9 {
				s.Hours[i].Rain = forecast.Known(2)
			}
		}
		return s
	}
	for _, key := range vineCrops {
		a, b := l.onSeries(key, measured()), l.onSeries(key, measured(heatField.block(6, 6, forecast.Known(20), forecast.Known(0.9))))
		assert.InDelta(t, a.Set.Mid, b.Set.Mid, 1e-9, key)
		for i := range a.Hours {
			if h := heatField.local(&a.Hours[i]); h == 7 || h == 8 {
				assert.Zero(t, a.Hours[i].Hand, "%s %d h", key, h)
				assert.InDelta(t, 1, a.Hours[i].Wet, 1e-9, "%s %d h", key, h)
			}
		}
	}
}

// What workings shows of the rain is what the verdict rests on: the courses sum
// to one, and a dry day has one.
func TestCourses(t *testing.T) {
	l := newLab(t)
	g := l.garden(heatField, Planting{Crop: l.crop("cucumber")}, Bees{})
	s := issued(heatField, heatField.block(5, 6, forecast.Known(2), forecast.Known(0.4)))
	a := Assess(g, s, heatField.date, 1)
	sum, wet := 0.0, 0.0
	for _, c := range Courses(a, heatField.date) {
		sum += c.Weight
		if len(c.Wet) > 0 {
			wet += c.Weight
			total := 0.0
			for _, h := range c.Wet {
				total += h.Rain
			}
			assert.InDelta(t, 2, total, 1e-9, "a course carries the block's amount")
		}
	}
	assert.InDelta(t, 1, sum, 1e-9)
	assert.InDelta(t, 0.4, wet, 1e-9)
	dry := Courses(Assess(g, issued(heatField), heatField.date, 1), heatField.date)
	require.Len(t, dry, 1)
	assert.Empty(t, dry[0].Wet)
}
