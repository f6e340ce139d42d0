package assemble

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Between two directions lies the shorter arc: geometry.
func TestBetween(t *testing.T) {
	for _, x := range []struct{ a, b, share, want float64 }{
		{10, 50, 0.25, 20}, {350, 30, 0.5, 10}, {30, 350, 0.5, 10}, {0, 360, 0.5, 0}, {90, 180, 0, 90}, {200, 65, 0.5, 132.5},
		{10, 190, 0.5, -1}, {0, 140, 0.5, -1},
	} {
		got := WindFrom.Between(x.a, x.b, x.share)
		assert.InDelta(t, x.want, got.Or(-1), 1e-9, "%+v", x)
		assert.Equal(t, x.want >= 0, got.IsKnown())
	}
	assert.InDelta(t, 15, Temp.Between(10, 30, 0.25).Or(-1), 1e-9)
}
