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
	"dawnbrush/forecast"
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

// Files of the first layouts kept a write-ahead log beside them; what stands in one
// that a killed program left is taken in, and none is kept from then on.
func TestFilesWithAWriteAheadLog(t *testing.T) {
	dir := t.TempDir()
	live, left := filepath.Join(dir, "live.db"), filepath.Join(dir, "left.db")
	sql, err := os.ReadFile("testdata/v3.sql")
	require.NoError(t, err)
	script(t, live, string(sql))
	db, err := sqlite3.Open(live)
	require.NoError(t, err)
	defer db.Close()
	require.NoError(t, db.Exec(`PRAGMA journal_mode=WAL; INSERT INTO instrument (feed, source, attribution) VALUES ('nws', 'only in the log', '');
		INSERT INTO observed (hour, origin, instrument, recorded, temp) VALUES (495700, 1, 2, 1784178000000, 18.5)`))
	for _, end := range []string{"", "-wal"} {
		b, err := os.ReadFile(live + end)
		require.NoError(t, err)
		require.NotEmpty(t, b, end)
		require.NoError(t, os.WriteFile(left+end, b, 0o600))
	}
	s := open(t, left)
	at := time.Unix(495700*3600, 0)
	got, err := s.Observed(context.Background(), at, at.Add(time.Hour))
	require.NoError(t, err)
	assert.Equal(t, forecast.Known(18.5), got.Hours[0].Temp)
	assert.Equal(t, "only in the log", got.Source)
	require.NoError(t, s.Close())
	assert.NoFileExists(t, left+"-wal")
	assert.NoFileExists(t, left+"-shm")
}
