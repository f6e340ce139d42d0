package store

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// Losing the current cannot be tried here. SQLite promises that a commit
// outlasts it when synchronous is FULL, which is 2, and the journal is cut to nothing
// (sqlite.org/pragma.html, "PRAGMA synchronous" and "PRAGMA journal_mode"); this holds
// the connection to that.
func TestCommitsOutlastTheCurrent(t *testing.T) {
	s, err := Open(context.Background(), filepath.Join(t.TempDir(), "garden.db"), Options{Now: time.Now})
	require.NoError(t, err)
	defer s.Close()
	f := forecast.New(time.Unix(0, 0), time.Unix(3600, 0)) // written loosely: what comes after must not be
	_, err = s.KeepForecast(context.Background(), f)
	require.NoError(t, err)
	for pragma, want := range map[string]string{"synchronous": "2", "journal_mode": "truncate", "foreign_keys": "1", "busy_timeout": "5000", "application_id": itoa(applicationID)} {
		got, err := s.text("PRAGMA " + pragma)
		require.NoError(t, err)
		assert.Equal(t, want, got, pragma)
	}
}
