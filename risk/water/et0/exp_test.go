package et0

import (
	"math"
	"testing"
)

func TestExp(t *testing.T) {
	worst := 0.0
	for x := -20.0; x <= 20; x += 0.00037 {
		worst = max(worst, math.Abs(exp(x)/math.Exp(x)-1))
	}
	if !(worst < 1e-14) {
		t.Errorf("off by %g", worst)
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if !math.IsNaN(exp(x)) {
			t.Errorf("exp of %g is %g", x, exp(x))
		}
	}
}
