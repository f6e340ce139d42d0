package store_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/ncruces/go-sqlite3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/store"
)

// broken makes a memory whose last writer was killed in the middle of a transaction:
// pages of it are in the file already, what they were stands in the journal.
func broken(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	whole := filepath.Join(dir, "whole.db")
	s := open(t, whole)
	for range 50 {
		_, err := s.AddEntry(context.Background(), remark(strings.Repeat("kept ", 100)))
		require.NoError(t, err)
	}
	require.NoError(t, s.Close())
	db, err := sqlite3.Open(whole)
	require.NoError(t, err)
	defer db.Close()
	require.NoError(t, db.Exec("PRAGMA journal_mode=TRUNCATE; PRAGMA cache_size=2; PRAGMA cache_spill=1; BEGIN IMMEDIATE"))
	for range 200 {
		require.NoError(t, db.Exec(`INSERT INTO action (at, what) VALUES (1, 'add'); INSERT INTO forecast (feed, issue, issued, first, stop, body) VALUES ('x', hex(randomblob(9)), 1, 1, 2, randomblob(3000))`))
	}
	killed := filepath.Join(dir, "killed.db")
	for _, end := range []string{"", "-journal"} {
		b, err := os.ReadFile(whole + end)
		require.NoError(t, err)
		require.NotEmpty(t, b, end)
		require.NoError(t, os.WriteFile(killed+end, b, 0o600))
	}
	require.NoError(t, db.Exec("ROLLBACK"))
	return killed
}

// A writer that was killed in the middle leaves its journal; whoever opens the file
// next, if only to read, finds it put back.
func TestKilledInTheMiddle(t *testing.T) {
	for name, options := range map[string]store.Options{"read": {ReadOnly: true}, "write": {Now: time.Now}} {
		t.Run(name, func(t *testing.T) { putBack(t, options) })
	}
}

func putBack(t *testing.T, options store.Options) {
	s, err := store.Open(context.Background(), broken(t), options)
	require.NoError(t, err)
	defer s.Close()
	list, err := s.Entries(context.Background(), store.Filter{})
	require.NoError(t, err)
	assert.Len(t, list, 50)
	faults, err := s.Check(context.Background())
	require.NoError(t, err)
	assert.Empty(t, faults)
	f, err := s.Forecasts(context.Background(), dawn.AddDate(-100, 0, 0), dawn)
	require.NoError(t, err)
	assert.Empty(t, f, "what was not finished is not there")
}
