package water

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/risk/water/kc"
	"dawnbrush/risk/water/soil"
	"dawnbrush/risk/water/table"
)

// The rule of FAO-56 p. 153 and 170 for rain that counts, 1e-3 mm of the
// arithmetic of the collection.
func TestEffectiveRain(t *testing.T) {
	f, err := os.Open("testdata/effective_rain.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	for _, r := range rows[1:] {
		rain, et0, before := num(t, r[0]), num(t, r[1]), num(t, r[2])
		assert.Equal(t, r[3] == "1", Counts(rain, et0), "%v", r)
		in := 0.0
		if Counts(rain, et0) {
			in = rain
		}
		after, drained := Infiltrate(before, in)
		assert.InDelta(t, num(t, r[4]), in, 1e-3, "%v", r)
		assert.InDelta(t, num(t, r[5]), drained, 1e-3, "%v", r)
		assert.InDelta(t, num(t, r[6]), after, 1e-3, "%v", r)
		// The step of a whole day drains the same, and only then takes the day's use.
		_, flux := Step(State{Dr: before}, Day{ET0: et0, Rain: rain, Kcb: 1, Top: 1.2, TAW: 100, Depletion: 0.5, Layer: kc.Layer{TEW: 20, REW: 8}})
		assert.InDelta(t, num(t, r[5]), flux.Drainage, 1e-3, "%v", r)
		assert.InDelta(t, num(t, r[6]), flux.Start.Dr, 1e-3, "%v", r)
	}
	require.Len(t, rows, 10)
}

// randomDay draws a day of any weather on any ground.
func randomDay(r *rand.Rand) Day {
	fc := 0.05 + 0.4*r.Float64()
	s := soil.Soil{FC: fc, WP: fc * r.Float64() * 0.9}
	d := Day{ET0: 13*r.Float64() - 0.5, Kcb: 1.4 * r.Float64(), Cover: r.Float64(), Mulch: r.Float64(), Share: 0.05 + 0.95*r.Float64(),
		TAW: s.TAW(0.1 + r.Float64()), Depletion: r.Float64(), Fixed: r.IntN(2) == 0, Single: r.IntN(4) == 0, Covered: r.IntN(2) == 0}
	d.Top = d.Kcb + 0.05 + r.Float64()
	d.Layer.TEW = s.TEW(soil.Skin)
	d.Layer.REW = d.Layer.TEW * r.Float64() * 0.9
	switch r.IntN(4) {
	case 0:
		d.Rain = 80 * r.Float64()
		d.Runoff = d.Rain * r.Float64() * 0.5
	case 1:
		d.Rain = 2 * r.Float64()
	case 2:
		d.Irrigation = 50 * r.Float64()
	}
	return d
}

// Nothing is lost: over every random day rain + irrigation less runoff, ET and
// drainage is the change of what the root zone holds, to 1e-9 mm, and each state
// and flux stays within its bounds.
func TestConservation(t *testing.T) {
	r := rand.New(rand.NewPCG(1998, 56))
	worst, total := 0.0, 0.0
	for range 2000 {
		d := randomDay(r)
		s := State{Dr: d.TAW * r.Float64(), Surface: kc.Surface{De: d.Layer.TEW * r.Float64(), Wetted: r.Float64()}}
		first, sum := s.Dr, 0.0
		for range 100 {
			next := randomDay(r)
			next.TAW, next.Layer = d.TAW*(1+0.1*r.Float64()), d.Layer
			if r.IntN(20) == 0 {
				next.TAW *= 0.5 // a shallower root zone, as after a new sowing
			}
			before := s.Dr
			var f Flux
			s, f = Step(s, next)
			left := next.Rain - next.Runoff + next.Irrigation - f.ET() - f.Drainage + f.Cut - (before - s.Dr)
			worst = max(worst, math.Abs(left))
			sum += next.Rain - next.Runoff + next.Irrigation - f.ET() - f.Drainage + f.Cut
			require.InDelta(t, 0, left, 1e-9, "%+v\n%+v", next, f)
			require.True(t, s.Dr >= 0 && s.Dr <= next.TAW+1e-9, "%+v %+v", s, next)
			require.True(t, s.Surface.De >= 0 && s.Surface.De <= next.Layer.TEW+1e-9, "%+v %+v", s, next)
			for _, v := range []float64{f.Intercepted, f.Drainage, f.Through, f.Evaporation, f.Transpiration, f.Cut} {
				require.True(t, v >= 0 && !math.IsInf(v, 0), "%+v\n%+v", next, f)
			}
			require.True(t, f.Ks >= 0 && f.Ks <= 1 && f.Kr >= 0 && f.Kr <= 1, "%+v", f)
		}
		total = max(total, math.Abs(sum-(first-s.Dr)))
	}
	t.Logf("200000 days: worst day %.2g mm, worst sum of 100 days %.2g mm", worst, total)
	require.Less(t, total, 1e-9)
}

// The order of the day, on example 38: drainage first.
func ExampleStep() {
	s := State{Dr: 23.4, Surface: kc.Surface{De: 18, Wetted: 1}}
	s, f := Step(s, Day{ET0: 4.5, Irrigation: 40, Share: 0.8, Kcb: 0.3, Top: 1.21, Cover: 0.08,
		TAW: 39, Depletion: 0.6, Fixed: true, Layer: kc.Layer{TEW: 18, REW: 8}})
	fmt.Printf("drained %.0f mm, used %.1f mm, lacks %.0f mm at night\n", f.Drainage, f.ET(), s.Dr)
	// Output: drained 17 mm, used 5.4 mm, lacks 5 mm at night
}

func TestStepAllocatesNothing(t *testing.T) {
	b := bed(t, "tomato", kc.Drip)
	w := Weather{ET0: 5, Rain: 1, Climate: kc.Standard()}
	s := State{}
	if n := testing.AllocsPerRun(100, func() { s, _ = b.Step(s, 40, w, 3) }); n != 0 {
		t.Errorf("%v allocations a day", n)
	}
}

func bed(t testing.TB, crop string, m kc.Method) *Bed {
	t.Helper()
	tables, err := table.Load()
	require.NoError(t, err)
	loam, err := soil.Of(tables, "loam")
	require.NoError(t, err)
	b, err := NewBed(crop, soil.Field(loam), m)
	require.NoError(t, err)
	return b
}

// A season of every crop in every way of watering: watered when due, a bed gives
// off what its coefficients ask for, more than its plants alone and less than a
// wholly wet surface, and all of it was given.
func TestWateredSeasonNeverSuffers(t *testing.T) {
	for _, crop := range kc.Keys() {
		for _, m := range []kc.Method{kc.Sprinkler, kc.Drip, kc.DripCovered, kc.Hand, kc.Basin} {
			b := bed(t, crop, m)
			var s State
			var given, used, wanted, plants, most float64
			water := 0.0
			for day := range int(b.Stages.Total()) {
				var f Flux
				d := b.Day(float64(day), Weather{ET0: 5, Climate: kc.Standard()}, water)
				s, f = Step(s, d)
				plants, most = plants+5*d.Kcb, most+5*d.Top
				given, used, wanted = given+water, used+f.ET(), wanted+f.Wanted
				water = 0
				if now, lacks := Due(s, f); now {
					water = lacks
				}
			}
			require.InDelta(t, given, used, s.Dr+1e-9, "%s", crop)
			require.Greater(t, used, 0.9*wanted, "%s: a few hours' stress before each watering at most", crop)
			require.True(t, used > 0.9*plants && used < most, "%s: %g mm outside %g to %g", crop, used, plants, most)
		}
	}
}

// Mulch and drip lines save water, in this order, and a dry bed comes to rest
// before it has given more than it held.
func TestMulchAndDryness(t *testing.T) {
	use := func(change func(*Bed)) float64 {
		b := bed(t, "tomato", kc.Sprinkler)
		change(b)
		var s State
		sum := 0.0
		for day := range 60 {
			var f Flux
			s, f = b.Step(s, float64(day), Weather{ET0: 5, Climate: kc.Standard()}, 5)
			sum += f.ET()
		}
		return sum
	}
	bare, straw, plastic := use(func(*Bed) {}), use(func(b *Bed) { b.Mulch.Organic = 1 }), use(func(b *Bed) { b.Mulch.Plastic = 1 })
	drip := use(func(b *Bed) { b.Method = kc.DripCovered })
	t.Logf("60 days from planting, watered daily: bare %.0f, drip %.0f, straw %.0f, plastic %.0f mm", bare, drip, straw, plastic)
	assert.Greater(t, bare, drip)
	assert.Greater(t, bare, straw)
	assert.Greater(t, straw, plastic)

	b := bed(t, "tomato", kc.Sprinkler)
	var s State
	sum := 0.0
	for range 400 {
		var f Flux
		s, f = b.Step(s, 100, Weather{ET0: 8, Climate: kc.Standard()}, 0)
		sum += f.ET()
	}
	assert.LessOrEqual(t, sum, b.Available(100)+1e-9)
	assert.Greater(t, sum, 0.95*b.Available(100))
}

// The simpler way takes the single coefficients of table 12, tomatoes 0.6, 1.15 and
// 0.8 (the middle of 0.7 to 0.9), and leaves the surface alone. Over a season it
// lies between the plants' own use and that of a bed whose soil is always wet.
func TestSingleCoefficient(t *testing.T) {
	b := bed(t, "tomato", kc.Sprinkler)
	b.Single = true
	w := Weather{ET0: 5, Climate: kc.Standard()}
	for day, want := range map[float64]float64{0: 0.6, 90: 1.15, 400: 0.8} {
		s, f := b.Step(State{Dr: 5}, day, w, 0)
		assert.InDelta(t, 5*want, f.ET(), 1e-9)
		assert.Zero(t, f.Evaporation)
		assert.Equal(t, kc.Surface{}, s.Surface)
	}
	season := func(single bool, every int) (et, plants float64) {
		b.Single = single
		var s State
		for day := range int(b.Stages.Total()) {
			water := 0.0
			if day%every == 0 {
				water = 5 * float64(every)
			}
			var f Flux
			s, f = b.Step(s, float64(day), w, water)
			et, plants = et+f.ET(), plants+f.Transpiration
		}
		return et, plants
	}
	single, _ := season(true, 7)
	daily, plants := season(false, 1)
	weekly, _ := season(false, 7)
	t.Logf("a season of tomatoes, 5 mm a day: single %.0f mm, dual %.0f watered daily, %.0f weekly, of it %.0f by the plants", single, daily, weekly, plants)
	assert.Less(t, plants, single)
	assert.Less(t, single, daily)
}

func TestGroundAndSoil(t *testing.T) {
	tables, err := table.Load()
	require.NoError(t, err)
	require.Len(t, soil.Textures(tables), 9)
	for _, name := range soil.Textures(tables) {
		s, err := soil.Of(tables, name)
		require.NoError(t, err)
		aw, _ := tables.Find("19", name, "", "available_water")
		tew, _ := tables.Find("19", name, "", "TEW_Ze0.10")
		wp, _ := tables.Find("19", name, "", "theta_WP")
		assert.True(t, s.WP >= wp.Low-1e-9 && s.WP <= wp.High+1e-9, "%s: wilting point %g outside the printed %g to %g", name, s.WP, wp.Low, wp.High)
		got := s.FC - s.WP
		assert.True(t, got >= aw.Low-0.005 && got <= aw.High+0.005, "%s: %g outside the printed %g to %g", name, got, aw.Low, aw.High)
		assert.True(t, s.TEW(0.10) >= tew.Low-0.5 && s.TEW(0.10) <= tew.High+0.5, "%s: TEW %g outside the printed %g to %g", name, s.TEW(0.10), tew.Low, tew.High)
		share := s.REW / s.TEW(0.10)
		assert.True(t, share > 0.3 && share < 0.6, "%s: REW is %g of TEW", name, share)
	}
	_, err = soil.Of(tables, "moon dust")
	require.ErrorContains(t, err, "moon dust")
	_, err = soil.Given(0.1, 0.2)
	require.Error(t, err)

	loam, err := soil.Of(tables, "loam")
	require.NoError(t, err)
	pot, err := soil.Container(loam, 19, 0.07, 0.45)
	require.NoError(t, err)
	assert.InDelta(t, 4.5, pot.Available(0.7)*0.45, 0.5, "a 19 l pot holds 4 to 5 l for its plant (memory)")
	// One or two days of a big tomato in hot weather (memory).
	b, err := NewBed("tomato", pot, kc.Hand)
	require.NoError(t, err)
	s, days := State{}, 0
	for ; s.Dr < 0.9*b.Available(100); days++ {
		s, _ = b.Step(s, 100, Weather{ET0: 7, Climate: kc.Standard()}, 0)
	}
	assert.True(t, days >= 1 && days <= 3, "%d days", days)
	assert.InDelta(t, loam.TAW(0.2), soil.Raised(loam, 0.2, true).Available(0.7), 1e-12)
	assert.InDelta(t, loam.TAW(0.7), soil.Raised(loam, 0.2, false).Available(0.7), 1e-12)
	_, err = soil.Container(loam, 0, 1, 1)
	require.Error(t, err)
}
