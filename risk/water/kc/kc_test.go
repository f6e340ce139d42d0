package kc

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/risk/water/table"
)

func tables(t testing.TB) *table.Tables {
	t.Helper()
	tab, err := table.Load()
	require.NoError(t, err)
	return tab
}

// Every crop has all of its numbers, in the order that chapters 6 and 7 of FAO-56
// give them: the single coefficient holds what the basal one does and evaporation.
func TestCropsOfTheTables(t *testing.T) {
	tab := tables(t)
	for _, key := range Keys() {
		c, err := Of(tab, key)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, c.Single.Ini, c.Basal.Ini, key)
		assert.InDelta(t, 0.05, c.Single.Mid-c.Basal.Mid, 0.051, key)
		assert.GreaterOrEqual(t, c.Single.End, c.Basal.End, key)
		assert.True(t, c.Height > 0 && c.RootLow > 0 && c.RootHigh > c.RootLow && c.Depletion > 0.2 && c.Depletion < 0.6, "%+v", c)
		s := c.TypicalStages()
		assert.True(t, s.Total() >= 75 && s.Total() <= 180, "%s: %+v", key, s)
		assert.NotEmpty(t, s.Region, key)
	}
	tomato, err := Of(tab, "tomato")
	require.NoError(t, err)
	assert.Equal(t, Triple{0.15, 1.1, 0.7}, roundTriple(tomato.Basal))
	assert.Equal(t, 0.6, tomato.Height)
	assert.Equal(t, 0.4, tomato.Depletion)
	assert.Equal(t, 1.05, tomato.Ky)
	assert.Equal(t, 155.0, tomato.TypicalStages().Total())
	staked := tomato.Staked(1.8)
	assert.Equal(t, 1.15, staked.Basal.Mid)
	assert.Equal(t, 1.8, staked.Height)
	_, err = Of(tab, "okra")
	require.ErrorContains(t, err, "okra")
}

func roundTriple(t Triple) Triple {
	r := func(v float64) float64 { return math.Round(v*1000) / 1000 }
	return Triple{r(t.Ini), r(t.Mid), r(t.End)}
}

func TestWetted(t *testing.T) {
	tab := tables(t)
	for m, want := range map[Method]float64{Sprinkler: 1, Basin: 1, Drip: 0.35, Furrow: 0.8, Hand: 0.35} {
		assert.InDelta(t, want, Wetted(tab, m, 0.6), 1e-12)
	}
	assert.InDelta(t, 0.35*0.6, Wetted(tab, DripCovered, 0.6), 1e-12)
}

// Limits: the curve is continuous, coefficients stay ordered, nothing leaves its
// range for any climate.
func TestLimits(t *testing.T) {
	s := Stages{Ini: 25, Dev: 25, Mid: 30, Late: 20}
	k := Triple{0.15, 1.14, 0.25}
	for day := -5.0; day < 130; day += 0.01 {
		require.InDelta(t, s.At(k, day), s.At(k, day+0.01), 0.02)
	}
	assert.Equal(t, 0.25, s.At(k, 500))
	assert.Equal(t, 60.0, s.BloomAt(60).Ini+s.BloomAt(60).Dev)
	for _, c := range []Climate{Standard(), {0, 0}, {20, 100}, {6, 20}, {1, 80}} {
		for _, h := range []float64{0, 0.3, 2, 30} {
			for kcb := 0.0; kcb < 1.4; kcb += 0.1 {
				top := Max(c, h, kcb, false)
				fc := Cover(kcb, top, h)
				require.True(t, top >= kcb+0.05 && fc >= 0 && fc <= 0.99, "%v %g %g: %g %g", c, h, kcb, top, fc)
				require.LessOrEqual(t, Max(c, h, kcb, true), top)
				for _, fw := range []float64{0, 0.3, 1} {
					few := Exposed(fc, fw)
					ke := Ke(1, top, kcb, few)
					require.True(t, few > 0 && few <= 1 && ke >= 0 && kcb+ke <= top+1e-12)
				}
			}
		}
	}
	l := Layer{TEW: 20, REW: 9}
	assert.Equal(t, 1.0, l.Reduction(0))
	assert.Zero(t, l.Reduction(25))
	assert.InDelta(t, 1, l.Reduction(9.0001), 1e-4)
	m := Mulch{Organic: 1, Plastic: 1}
	assert.Zero(t, m.Evaporation())
	assert.InDelta(t, 0.85, Reduce(1, 0.15), 1e-12)
	cucumber := Triple{0.6, 1, 0.75}
	assert.Equal(t, cucumber, Mulch{}.Single(cucumber, Triple{0.15, 0.95, 0.7}))
	assert.Equal(t, Triple{0.1, 0.8, 0.6}, roundTriple(Mulch{Plastic: 1}.Single(cucumber, Triple{0.15, 0.95, 0.7})))
}

// FAO-56 example 29, dry beans at Kimberly: 1.14; and the curve of example 30 on
// the middle day of the development stage: 0.63.
func ExampleStages_At() {
	kimberly := Climate{Wind2: 2.2, RHMin: 30}
	basal := kimberly.Adjust(Triple{0.15, 1.10, 0.25}, 0.4)
	s := Stages{Ini: 25, Dev: 25, Mid: 30, Late: 20}
	fmt.Printf("%.2f %.2f\n", basal.Mid, s.At(Triple{0.15, 1.14, 0.25}, 37))
	// Output: 1.14 0.63
}

// FAO-56 examples 32 and 34, cotton under a sprinkler and on drip lines in its own
// shade: 1.30 and 1.15.
func ExampleKe() {
	c := Climate{Wind2: 3, RHMin: 20}
	top := Max(c, 1, 0.9, false)
	cover := Cover(0.9, top, 1)
	sprinkler := Ke(1, top, 0.9, Exposed(cover, 1))
	drip := Ke(1, top, 0.9, Exposed(cover, UnderLeaves(0.3, cover)))
	fmt.Printf("%.2f %.2f\n", 0.9+sprinkler, 0.9+drip)
	// Output: 1.30 1.15
}
