package unit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Exact points of the scales: ice point, 105 degF = 40.5556 degC, -40; 15 mph =
// 6.7056 m/s and 1 knot = 1852 m/h by definition (ISO 80000-3).
func TestExactPoints(t *testing.T) {
	assert.InDelta(t, 0, FtoC(32), 1e-12)
	assert.InDelta(t, -40, FtoC(-40), 1e-12)
	assert.InDelta(t, 40.5556, FtoC(105), 5e-5)
	assert.InDelta(t, 105, CtoF(FtoC(105)), 1e-12)
	assert.InDelta(t, 6.7056, MphToMs(15), 1e-9)
	assert.InDelta(t, 15, MsToMph(MphToMs(15)), 1e-12)
	assert.InDelta(t, 36, MsToKmh(10), 1e-12)
	assert.InDelta(t, 10, KmhToMs(36), 1e-12)
	assert.InDelta(t, 25.4, InToMm(1), 1e-12)
	assert.InDelta(t, 1, MmToIn(25.4), 1e-12)
	assert.InDelta(t, 0.3048, FtToM(1), 1e-12)
	assert.InDelta(t, 1, MToFt(0.3048), 1e-12)
	assert.InDelta(t, 3.785411784, GalToL(1), 1e-12) // 231 in3, NIST Handbook 44 appendix C
	assert.InDelta(t, 1, LToGal(3.785411784), 1e-12)
	assert.InDelta(t, 0.09290304, SqFtToM2(1), 1e-15)
	assert.InDelta(t, 1, M2ToSqFt(0.09290304), 1e-12)
}

func TestConverter(t *testing.T) {
	for _, c := range []struct {
		q        Quantity
		code     string
		in, want float64
	}{
		{Temperature, "wmoUnit:degC", 20, 20}, {Temperature, "unit:degF", 212, 100}, {Temperature, "K", 273.15, 0},
		{Speed, "wmo:km_h-1", 36, 10}, {Speed, "wmoUnit:m_s-1", 10, 10}, {Speed, "kt", 10, 5.14444},
		{Depth, "wmoUnit:mm", 3, 3}, {Depth, "in", 1, 25.4}, {Share, "wmoUnit:percent", 45, 0.45}, {Length, "ft", 1000, 304.8},
		{Bearing, "wmoUnit:degree_(angle)", 270, 270}, {Bearing, "degrees", 22.5, 22.5},
	} {
		f, err := Converter(c.q, c.code)
		require.NoError(t, err, c.code)
		assert.InDelta(t, c.want, f(c.in), 1e-5, c.code)
	}
	for _, code := range []string{"wmoUnit:furlong", "", "degC:", "wmoUnit:degC "} {
		_, err := Converter(Temperature, code)
		assert.Error(t, err, code)
	}
	_, err := Converter(Speed, "wmoUnit:degC")
	assert.Error(t, err, "a temperature is no speed")
}

// Corn growth units: a day of 50 to 86 degF gives 18 degree days above 50 degF, the
// same day of 10 to 30 degC 10 above 10 degC (University of Maryland state
// climatologist, corn degree days); the freezing point does not enter.
func TestDegreeDays(t *testing.T) {
	assert.InDelta(t, 18, CdToFd(10), 1e-12)
	assert.InDelta(t, (CtoF(30)+CtoF(10))/2-50, CdToFd((30+10)/2-10), 1e-12)
}
