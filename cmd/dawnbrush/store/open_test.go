package store_test

import (
	"context"
	"errors"
	"io/fs"
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
	"dawnbrush/risk/memory"
)

// script makes a database by SQL, as SQLite itself would.
func script(t *testing.T, path, sql string) {
	t.Helper()
	db, err := sqlite3.Open(path)
	require.NoError(t, err)
	require.NoError(t, db.Exec(sql))
	require.NoError(t, db.Close())
}

// schema lists what a file is made of.
func schema(t *testing.T, path string) (out []string) {
	t.Helper()
	db, err := sqlite3.Open(path)
	require.NoError(t, err)
	defer db.Close()
	st, _, err := db.Prepare(`SELECT type, name, coalesce(sql, '') FROM sqlite_schema ORDER BY type, name`)
	require.NoError(t, err)
	defer st.Close()
	for st.Step() {
		var text []string // without remarks and blanks, which mean nothing
		for line := range strings.Lines(st.ColumnText(2)) {
			line, _, _ = strings.Cut(line, "--")
			text = append(text, strings.Fields(line)...)
		}
		out = append(out, st.ColumnText(0)+" "+st.ColumnText(1)+" "+strings.Join(text, " "))
	}
	require.NoError(t, st.Err())
	return out
}

// Files of each earlier layout, frozen as they were written, come up to date
// with all they hold, and end as a new file begins.
func TestMigrateFromEachVersion(t *testing.T) {
	ctx := context.Background()
	files, err := filepath.Glob("testdata/v*.sql")
	require.NoError(t, err)
	newPath := filepath.Join(t.TempDir(), "new.db")
	open(t, newPath)
	require.Len(t, files, versionOf(t, newPath)-1, "each layout but the newest has its frozen file")
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) {
			sql, err := os.ReadFile(f)
			require.NoError(t, err)
			path := filepath.Join(t.TempDir(), "old.db")
			script(t, path, string(sql))

			var older *store.OlderError
			_, err = store.Open(ctx, path, store.Options{ReadOnly: true})
			require.ErrorAs(t, err, &older, "a report changes nothing")
			assert.NotEmpty(t, older.Hint())

			s := open(t, path)
			list, err := s.Entries(ctx, store.Filter{})
			require.NoError(t, err)
			require.Len(t, list, 1)
			assert.Equal(t, forecast.Known(4), list[0].Visits)
			assert.Equal(t, memory.Bees, list[0].Kind)
			versions, err := s.History(ctx, list[0].ID)
			require.NoError(t, err)
			assert.Len(t, versions, 2)
			if !strings.Contains(f, "v1") {
				hours, err := s.Versions(ctx, time.Unix(495600*3600, 0))
				require.NoError(t, err)
				require.Len(t, hours, 2)
				assert.Equal(t, forecast.Known(0.4), hours[1].Hour.Rain)
				assert.True(t, hours[1].Superseded.IsZero())
			}
			_, err = s.AddEntry(ctx, remark("after"))
			require.NoError(t, err)
			_, err = s.KeepForecast(ctx, issued(time.Date(2026, 7, 16, 4, 0, 0, 0, time.UTC), 24))
			require.NoError(t, err)
			faults, err := s.Check(ctx)
			require.NoError(t, err)
			assert.Empty(t, faults)
			assert.Equal(t, schema(t, newPath), schema(t, path))
		})
	}
}

func versionOf(t *testing.T, path string) int {
	t.Helper()
	s, err := store.Open(context.Background(), path, store.Options{ReadOnly: true})
	require.NoError(t, err)
	defer s.Close()
	info, err := s.Info(context.Background())
	require.NoError(t, err)
	return info.Version
}

func bytesOf(t *testing.T, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	return b
}

// What cannot be used is named, has a remedy and is left as it was.
func TestFilesThatCannotBeUsed(t *testing.T) {
	sound := filepath.Join(t.TempDir(), "sound.db")
	s := open(t, sound)
	for range 200 {
		_, err := s.AddEntry(context.Background(), remark(strings.Repeat("squash bees before sunrise ", 20)))
		require.NoError(t, err)
	}
	require.NoError(t, s.Close())
	whole := bytesOf(t, sound)

	newer, other := filepath.Join(t.TempDir(), "newer.db"), filepath.Join(t.TempDir(), "other.db")
	require.NoError(t, os.WriteFile(newer, whole, 0o600))
	script(t, newer, "PRAGMA user_version = 99")
	script(t, other, "CREATE TABLE recipe (title TEXT); INSERT INTO recipe VALUES ('ratatouille')")

	for _, c := range []struct {
		name  string
		bytes []byte
		want  any
		words string
	}{
		{"newer", bytesOf(t, newer), new(*store.NewerError), "newer dawnbrush"},
		{"another database", bytesOf(t, other), new(*store.NotOursError), "another program"},
		{"text", []byte(strings.Repeat("this is no database\n", 100)), new(*store.NotOursError), "is no database"},
		{"short text", []byte("x"), new(*store.NotOursError), "is no database"},
		{"empty", nil, new(*store.DamagedError), "empty"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "garden.db")
			require.NoError(t, os.WriteFile(path, c.bytes, 0o600))
			for _, ro := range []bool{false, true} {
				_, err := store.Open(context.Background(), path, store.Options{Now: clock(), ReadOnly: ro})
				require.ErrorAs(t, err, c.want)
				assert.Contains(t, err.Error(), c.words)
				assert.NotEmpty(t, err.(interface{ Hint() string }).Hint())
			}
			assert.Equal(t, len(c.bytes), len(bytesOf(t, path)))
			assert.Equal(t, string(c.bytes), string(bytesOf(t, path)), "left alone")
		})
	}

	t.Run("folder", func(t *testing.T) {
		var not *store.NotOursError
		_, err := store.Open(context.Background(), t.TempDir(), store.Options{Now: clock()})
		require.ErrorAs(t, err, &not)
		assert.Contains(t, err.Error(), "folder")
	})
	t.Run("missing", func(t *testing.T) {
		_, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "none.db"), store.Options{ReadOnly: true})
		assert.ErrorIs(t, err, fs.ErrNotExist)
	})

	// A file cut short anywhere is refused or found out by the check; it is never
	// taken for a sound one.
	for _, share := range []float64{0.01, 0.1, 0.3, 0.5, 0.9, 0.999} {
		path := filepath.Join(t.TempDir(), "cut.db")
		require.NoError(t, os.WriteFile(path, whole[:int(share*float64(len(whole)))], 0o600))
		found := func() bool {
			s, err := store.Open(context.Background(), path, store.Options{Now: clock()})
			if err != nil {
				assertDamaged(t, err)
				return true
			}
			defer s.Close()
			_, err = s.All(context.Background())
			faults, checking := s.Check(context.Background())
			for _, e := range []error{err, checking} {
				if e != nil {
					assertDamaged(t, e)
				}
			}
			return err != nil || checking != nil || len(faults) > 0
		}()
		assert.True(t, found, "cut at %g", share)
	}
}

func assertDamaged(t *testing.T, err error) {
	t.Helper()
	var damaged *store.DamagedError
	var not *store.NotOursError
	assert.True(t, asAny(err, &damaged, &not), "%v", err)
}

// A file of one byte changed in each page of the diary is found out by the check.
func TestCheckFindsDamage(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	s := open(t, path)
	for range 50 {
		_, err := s.AddEntry(context.Background(), remark("two beetles a plant"))
		require.NoError(t, err)
	}
	require.NoError(t, s.Close())
	text := bytesOf(t, path)
	changed := []byte(strings.ReplaceAll(string(text), `"kind":"remark"`, `"kind":"remark"}`[:14]+`,`))
	require.NotEqual(t, text, changed)
	require.NoError(t, os.WriteFile(path, changed, 0o600))
	s = open(t, path)
	faults, err := s.Check(context.Background())
	require.NoError(t, err)
	require.NotEmpty(t, faults)
	assert.Contains(t, strings.Join(faults, "; "), "entry of the diary cannot be read")
	_, err = s.Entries(context.Background(), store.Filter{})
	var damaged *store.DamagedError
	assert.ErrorAs(t, err, &damaged)
}

func TestBackupIsWholeAndReplacesNothing(t *testing.T) {
	ctx := context.Background()
	dir := t.TempDir()
	s := open(t, filepath.Join(dir, "garden.db"))
	e, err := s.AddEntry(ctx, remark("a"))
	require.NoError(t, err)
	to := filepath.Join(dir, "copy.db")
	require.NoError(t, s.Backup(ctx, to))
	assert.ErrorIs(t, s.Backup(ctx, to), fs.ErrExist)
	var access *store.AccessError
	assert.ErrorAs(t, s.Backup(ctx, filepath.Join(dir, "no", "such", "folder.db")), &access)
	c := open(t, to)
	list, err := c.Entries(ctx, store.Filter{})
	require.NoError(t, err)
	assert.Equal(t, []memory.Entry{e}, list)
	left, err := filepath.Glob(filepath.Join(dir, ".*"))
	require.NoError(t, err)
	assert.Empty(t, left, "nothing is left beside it")
	info, err := os.Stat(to)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm(), "a diary is nobody else's to read")
}

func TestReadOnlyWritesNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	s := open(t, path)
	_, err := s.AddEntry(context.Background(), remark("a"))
	require.NoError(t, err)
	require.NoError(t, s.Close())
	before := bytesOf(t, path)
	r, err := store.Open(context.Background(), path, store.Options{ReadOnly: true})
	require.NoError(t, err)
	list, err := r.Entries(context.Background(), store.Filter{})
	require.NoError(t, err)
	assert.Len(t, list, 1)
	_, err = r.AddEntry(context.Background(), remark("b"))
	assert.Error(t, err)
	require.NoError(t, r.Close())
	assert.Equal(t, before, bytesOf(t, path))
	_, err = r.Entries(context.Background(), store.Filter{})
	assert.Error(t, err, "closed")
}

func TestAnInterruptEndsAWrite(t *testing.T) {
	s := fresh(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := s.AddEntry(ctx, remark("a"))
	require.ErrorIs(t, err, context.Canceled)
	assert.Empty(t, texts(t, s))
	_, err = s.AddEntry(context.Background(), remark("b"))
	require.NoError(t, err)
	assert.Equal(t, []string{"b"}, texts(t, s))
}

func asAny(err error, targets ...any) bool {
	for _, t := range targets {
		if errors.As(err, t) {
			return true
		}
	}
	return false
}
