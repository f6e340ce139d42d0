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
	"dawnbrush/risk/memory"
)

// clock gives a time that moves on by a second at every look.
func clock() func() time.Time {
	t := time.Date(2026, 7, 16, 5, 0, 0, 0, time.UTC)
	return func() time.Time {
		t = t.Add(time.Second)
		return t
	}
}

func open(t *testing.T, path string) *store.Store {
	t.Helper()
	s, err := store.Open(context.Background(), path, store.Options{Now: clock()})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	return s
}

func fresh(t *testing.T) *store.Store {
	t.Helper()
	return open(t, filepath.Join(t.TempDir(), "garden.db"))
}

var day = forecast.Date{Year: 2026, Month: 7, Day: 16}

func remark(text string) memory.Entry {
	return memory.Entry{Date: day, Kind: memory.Remark, Planting: "north", Text: text}
}

// texts gives the current remarks.
func texts(t *testing.T, s *store.Store) (out []string) {
	t.Helper()
	list, err := s.Entries(context.Background(), store.Filter{Kinds: []memory.Kind{memory.Remark}})
	require.NoError(t, err)
	for _, e := range list {
		out = append(out, e.Text)
	}
	return out
}

func TestAddAmendRemoveUndo(t *testing.T) {
	ctx, s := context.Background(), fresh(t)
	a, err := s.AddEntry(ctx, remark("a"))
	require.NoError(t, err)
	assert.NotEmpty(t, a.ID)
	assert.False(t, a.Recorded.IsZero())
	b, err := s.Amend(ctx, a.ID, remark("b"))
	require.NoError(t, err)
	assert.Equal(t, a.ID, b.Replaces)
	assert.Greater(t, b.ID, a.ID, "identities sort by when they were recorded")
	assert.Equal(t, []string{"b"}, texts(t, s))

	var superseded *store.SupersededError
	_, err = s.Amend(ctx, a.ID, remark("c"))
	require.ErrorAs(t, err, &superseded)
	assert.Equal(t, b.ID, superseded.By)
	_, err = s.Remove(ctx, b.ID)
	require.NoError(t, err)
	assert.Empty(t, texts(t, s))
	_, err = s.Remove(ctx, b.ID)
	require.ErrorAs(t, err, &superseded)
	assert.True(t, superseded.Removed)

	for _, want := range []struct {
		what store.Action
		left []string
	}{{store.Removed, []string{"b"}}, {store.Amended, []string{"a"}}, {store.Added, nil}} {
		u, err := s.Undo(ctx)
		require.NoError(t, err)
		assert.Equal(t, want.what, u.What)
		assert.Equal(t, want.left, texts(t, s))
	}
	_, err = s.Undo(ctx)
	assert.ErrorIs(t, err, store.ErrNothingToUndo)

	versions, err := s.History(ctx, b.ID)
	require.NoError(t, err)
	all, err := s.All(ctx)
	require.NoError(t, err)
	assert.Equal(t, all, versions, "one entry, and nothing of it was lost")
	assert.Len(t, all, 6)
}
