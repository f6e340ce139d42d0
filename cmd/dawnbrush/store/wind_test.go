package store_test

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
)

// Where the wind came from is kept with the hour, and what a later reading lacks stays.
func TestWindFromIsKept(t *testing.T) {
	ctx := context.Background()
	s := open(t, filepath.Join(t.TempDir(), "memory.db"))
	at := time.Date(2020, 7, 1, 8, 0, 0, 0, time.UTC)
	keep := func(from forecast.Value, rain float64) {
		obs := forecast.New(at, at.Add(time.Hour))
		obs.Hours[0].Temp, obs.Hours[0].WindFrom, obs.Hours[0].Rain, obs.Hours[0].Origin = forecast.Known(20), from, forecast.Known(rain), forecast.OriginObserved
		_, _, err := s.KeepObserved(ctx, obs, store.Station)
		require.NoError(t, err)
	}
	keep(forecast.Known(225), 0)
	keep(forecast.Value{}, 1)
	got, err := s.Observed(ctx, at, at.Add(time.Hour))
	require.NoError(t, err)
	require.Len(t, got.Hours, 1)
	assert.Equal(t, forecast.Known(225), got.Hours[0].WindFrom)
	assert.Equal(t, forecast.Known(1), got.Hours[0].Rain)
}
