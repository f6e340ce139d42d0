package soil

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

// FAO-56 example 36, tomatoes on a silt: 136 mm, of which 54 before they suffer.
func ExampleSoil_TAW() {
	silt := Soil{FC: 0.32, WP: 0.15}
	taw := silt.TAW(0.8)
	fmt.Printf("%.0f %.0f\n", taw, RAW(0.4, taw))
	// Output: 136 54
}

// FAO-56 example 37, day 10 of tomatoes without rain: 0.62.
func ExampleStress() {
	fmt.Printf("%.2f\n", Stress(100.8, 160, 64))
	// Output: 0.62
}

func TestStressAtItsLimits(t *testing.T) {
	assert.Equal(t, 1.0, Stress(0, 100, 50))
	assert.Equal(t, 1.0, Stress(50, 100, 50))
	assert.InDelta(t, 1, Stress(50.001, 100, 50), 1e-3)
	assert.Zero(t, Stress(100, 100, 50))
	assert.Zero(t, Stress(120, 100, 50))
	assert.Zero(t, Stress(1, 0, 0), "ground that holds nothing")
	assert.Equal(t, 0.1, Share(0.3, 12))
	assert.Equal(t, 0.8, Share(0.7, 0))
	assert.Equal(t, 0.4, Share(0.4, 5))
	assert.Zero(t, Yield(1.25, 0))
	assert.Equal(t, 1.0, Yield(1.25, 1))
	s := Soil{FC: 0.3, WP: 0.1}
	assert.Zero(t, s.Depletion(0.4, 0.5))
	assert.InDelta(t, 50, s.Depletion(0.2, 0.5), 1e-9)
	assert.InDelta(t, 100, s.Depletion(0, 0.5), 1e-9)
	assert.Equal(t, shallowest, RootsAt(0.7, 0))
	assert.InDelta(t, 0.7, RootsAt(0.7, 1), 1e-12)
}
