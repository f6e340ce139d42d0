package store_test

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// season fills a memory as a summer does: 150 days with eight entries, a forecast
// and 24 measured hours each.
func season(b *testing.B) (path string, end time.Time) {
	b.Helper()
	ctx := context.Background()
	path = filepath.Join(b.TempDir(), "garden.db")
	start := time.Date(2026, 4, 20, 4, 0, 0, 0, time.UTC)
	now := start
	s, err := store.Open(ctx, path, store.Options{Now: func() time.Time { return now }})
	require.NoError(b, err)
	defer s.Close()
	var list []memory.Entry
	for d := range 150 {
		now = start.AddDate(0, 0, d)
		for k := range 8 {
			e := memory.Entry{ID: fmt.Sprintf("%03d-%d", d, k), Recorded: now, At: now, Date: forecast.DateOf(now, time.UTC), Kind: memory.Bees, Planting: "cucumbers, north trellis",
				Minutes: forecast.Known(5), Flowers: forecast.Known(10), Visits: forecast.Known(float64(k)), Group: "honey_bee"}
			list = append(list, e)
		}
		_, err := s.KeepForecast(ctx, issued(now, 168))
		require.NoError(b, err)
		past := issued(now.AddDate(0, 0, -1), 24)
		for i := range past.Hours {
			past.Hours[i].Origin = forecast.OriginObserved
		}
		_, _, err = s.KeepObserved(ctx, past, store.Station)
		require.NoError(b, err)
	}
	_, err = s.Import(ctx, list)
	require.NoError(b, err)
	info, err := s.Info(ctx)
	require.NoError(b, err)
	b.Logf("a season takes %.2f MB", float64(info.Size)/1e6)
	return path, now
}

func BenchmarkOpenAddEntry(b *testing.B) {
	ctx := context.Background()
	path, _ := season(b)
	for b.Loop() {
		s, err := store.Open(ctx, path, store.Options{Now: time.Now})
		require.NoError(b, err)
		_, err = s.AddEntry(ctx, remark("a"))
		require.NoError(b, err)
		require.NoError(b, s.Close())
	}
}

func BenchmarkOpenReadSeason(b *testing.B) {
	ctx := context.Background()
	path, now := season(b)
	for b.Loop() {
		s, err := store.Open(ctx, path, store.Options{Now: time.Now})
		require.NoError(b, err)
		list, err := s.Entries(ctx, store.Filter{})
		require.NoError(b, err)
		require.Len(b, list, 1200)
		past, _, err := s.Past(ctx, now.AddDate(0, 0, -150), now, nil)
		require.NoError(b, err)
		require.Len(b, past.Hours, 150*24)
		require.NoError(b, s.Close())
	}
}

func BenchmarkOpen(b *testing.B) {
	path, _ := season(b)
	for b.Loop() {
		s, err := store.Open(context.Background(), path, store.Options{Now: time.Now})
		require.NoError(b, err)
		require.NoError(b, s.Close())
	}
}

func BenchmarkEntries(b *testing.B) {
	ctx := context.Background()
	path, _ := season(b)
	s, err := store.Open(ctx, path, store.Options{Now: time.Now})
	require.NoError(b, err)
	defer s.Close()
	for b.Loop() {
		_, err := s.Entries(ctx, store.Filter{})
		require.NoError(b, err)
	}
}

func BenchmarkPast(b *testing.B) {
	ctx := context.Background()
	path, now := season(b)
	s, err := store.Open(ctx, path, store.Options{Now: time.Now})
	require.NoError(b, err)
	defer s.Close()
	for b.Loop() {
		_, _, err := s.Past(ctx, now.AddDate(0, 0, -150), now, nil)
		require.NoError(b, err)
	}
}

func BenchmarkKeepForecast(b *testing.B) {
	ctx := context.Background()
	path, now := season(b)
	s, err := store.Open(ctx, path, store.Options{Now: func() time.Time { return now }})
	require.NoError(b, err)
	defer s.Close()
	for i := 0; b.Loop(); i++ {
		_, err := s.KeepForecast(ctx, issued(now.Add(time.Duration(i)*time.Second), 168))
		require.NoError(b, err)
	}
}
