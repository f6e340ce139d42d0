package assemble

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"dawnbrush/forecast"
)

func TestPast(t *testing.T) {
	start := time.Date(2026, 7, 15, 0, 0, 0, 0, time.UTC)
	s := forecast.New(start, start.Add(10*time.Hour))
	for _, i := range []int{0, 3, 5, 9} {
		s.Hours[i].Origin = forecast.OriginObserved
	}
	s.Blocks = []forecast.RainBlock{{Start: start, End: start.Add(time.Hour)}}
	Past(s, start.Add(90*time.Minute), start.Add(9*time.Hour+50*time.Minute))
	assert.Equal(t, start.Add(3*time.Hour), s.Start())
	assert.Equal(t, start.Add(6*time.Hour), s.End(), "the running hour is not past")
	assert.Equal(t, forecast.OriginNone, s.Hours[1].Origin, "a hole stays")
	assert.Empty(t, s.Blocks)

	Past(s, start.Add(20*time.Hour), start.Add(30*time.Hour))
	assert.Empty(t, s.Hours)
}
