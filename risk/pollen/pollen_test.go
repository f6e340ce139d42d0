package pollen

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The law of squash pollen, and the one with which two programs were compared.
var (
	squash = Ageing{Rate: 2.1, Threshold: 0.193}
	before = Ageing{Rate: 2.4, Threshold: 0.2}
)

func vpd(t, rh float64) float64 {
	return 0.6108 * math.Exp(17.27*t/(t+237.3)) * (1 - rh/100)
}

// Stored and tray pollen: the published rows and what they leave.
func TestPublishedSurvival(t *testing.T) {
	for _, c := range []struct {
		name         string
		got, low, hi float64
	}{
		{"30 C 46 % RH, 2 h: all lost (Wang & Robinson 1983)", squash.AfterHours(vpd(30, 46), 1, 2), 0, 0.01},
		{"30 C 100 % RH, 5 h: good (Wang & Robinson 1983)", squash.AfterHours(vpd(30, 100), 1, 5), 0.99, 1},
		{"20 C 80 % RH, 4 h: 90 % dead (Acta Hort. 1271:379)", squash.AfterHours(vpd(20, 80), 1, 4), 0, 0.10},
		{"20 C 90 % RH, 8 h: over half alive (Acta Hort. 1271:379)", squash.AfterHours(vpd(20, 90), 1, 8), 0.5, 1},
	} {
		assert.True(t, c.got >= c.low && c.got <= c.hi, "%s: got %.3f", c.name, c.got)
	}
}

// Maize pollen half-life outdoors 60-240 min (Aylor 2004): VPD 2 and 0.5 kPa.
func TestCornHalfLife(t *testing.T) {
	corn := Ageing{Rate: 0.35}
	half := func(v float64) float64 { return math.Ln2 / corn.Speed(v, 1) * 60 }
	assert.InDelta(t, 237.6505, half(0.5), 1e-3)
	assert.InDelta(t, 118.8252, half(1), 1e-3)
	assert.InDelta(t, 59.4126, half(2), 1e-3)
}

// Regression against values that two programs, written apart, agreed on.
func TestRegression(t *testing.T) {
	assert.InDelta(t, 0.0766, before.AfterHours(vpd(20, 80), 1, 4), 5e-5)
	assert.InDelta(t, 0.5223, before.AfterHours(vpd(20, 90), 1, 8), 5e-5)
	assert.InDelta(t, 0.6041, before.AfterHours(1.5, 0.18, 3), 5e-5)
	assert.InDelta(t, 0.3012, before.AfterHours(2.5, 0.18, 2), 5e-5)
	assert.Equal(t, 1.0, before.AfterHours(1, 0.18, 6))
	assert.InDelta(t, 0.3829, before.AfterHours(2.5, 0.12, 4), 5e-5)
	assert.InDelta(t, 0.4868, before.AfterHours(0.8, 1, 0.5), 5e-5)
	assert.InDelta(t, 0.3661, MouldChance(12, 20), 5e-5)
	assert.InDelta(t, 0.5, HeatShare(35, 32, 38), 1e-12)
	assert.InDelta(t, 0.6429, HeatShare(37, 35, 40.6), 5e-5)
}

// Bulger et al. 1987: all strawberry flowers infected at 20 degC and 24 h wet
// (abstract: about 1); our recalled logit gives 0.96. Both stay in sight.
func TestMouldLimits(t *testing.T) {
	assert.InDelta(t, 1, MouldChance(24, 20), 0.05)
	assert.Zero(t, MouldChance(0, 20))
	assert.GreaterOrEqual(t, MouldShare(200, 20), 1-MouldBound)
	assert.Equal(t, 1.0, MouldShare(0, 20))
}

func TestDryShare(t *testing.T) {
	assert.Equal(t, 1.0, DryShare(0, false))
	assert.Equal(t, 0.5, DryShare(0.1, true))
	assert.Zero(t, DryShare(0.2, true))
}

// Szegedi et al. 1993: 57 % set on flagging, 93 % on turgid plants.
func TestFlagging(t *testing.T) { assert.InDelta(t, 0.57, 0.93*FlaggingShare, 1e-9) }
