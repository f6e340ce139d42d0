package store_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
)

// Hours that a model worked out afterwards give way to a station's, whichever came
// first, and fill in what it lacks.
func TestReanalysisGivesWay(t *testing.T) {
	ctx, now := context.Background(), dawn.Add(30*time.Hour)
	s := at(t, &now, time.UTC)
	model := measuredHours(dawn, 18, 2, 6)
	for i := range model.Hours {
		model.Hours[i].Origin = forecast.OriginReanalysis
	}
	added, _, err := s.KeepObserved(ctx, model, store.Station)
	require.NoError(t, err)
	assert.Zero(t, added, "a station did not measure it")
	added, _, err = s.KeepObserved(ctx, model, store.Reanalysis)
	require.NoError(t, err)
	assert.Equal(t, 6, added)
	station := measuredHours(dawn, 20, 0, 3)
	added, _, err = s.KeepObserved(ctx, station, store.Reanalysis)
	require.NoError(t, err)
	assert.Zero(t, added)
	added, _, err = s.KeepObserved(ctx, station, store.Station)
	require.NoError(t, err)
	assert.Equal(t, 3, added)

	got, err := s.Observed(ctx, dawn, dawn.Add(6*time.Hour))
	require.NoError(t, err)
	for i, h := range got.Hours {
		temp, rain, origin := 20.0, 0.0, forecast.OriginObserved
		if i >= 3 {
			temp, rain, origin = 18, 2, forecast.OriginReanalysis
		}
		assert.Equal(t, [2]forecast.Value{forecast.Known(temp), forecast.Known(rain)}, [2]forecast.Value{h.Temp, h.Rain}, i)
		assert.Equal(t, origin, h.Origin, i)
	}
}
