package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/ncruces/go-sqlite3"

	"dawnbrush/forecast"
)

// Info says what a memory holds.
type Info struct {
	Path      string
	Size      int64 // bytes on disk, with what is not yet folded in
	Version   int   // of the layout
	Entries   int   // current ones
	Versions  int   // all of them, amended and removed ones too
	FirstDay  forecast.Date
	LastDay   forecast.Date // of current entries; zero without any
	Forecasts int
	Issued    time.Time // of the oldest that is kept
	LastIssue time.Time
	Hours     int       // measured hours
	Since     time.Time // the first of them
	Until     time.Time // the end of the last one
	Amended   int       // hours that were measured better later
	WorkedOut int       // hours that a weather model worked out afterwards
}

// Info counts what there is.
func (s *Store) Info(ctx context.Context) (i Info, err error) {
	err = s.read(ctx, func() error {
		i = Info{Path: s.path, Size: sizeOf(s.path)}
		version, err := number(s.db, "PRAGMA user_version")
		if err != nil {
			return err
		}
		i.Version = int(version)
		first, last := "", ""
		err = errors.Join(
			query(s.db, `SELECT count(*), min(date), max(date) FROM entry e WHERE e.removed = 0 AND `+notReplaced, nil, func(row *sqlite3.Stmt) error {
				i.Entries, first, last = row.ColumnInt(0), row.ColumnText(1), row.ColumnText(2)
				return nil
			}),
			query(s.db, `SELECT count(*) FROM entry`, nil, func(row *sqlite3.Stmt) error {
				i.Versions = row.ColumnInt(0)
				return nil
			}),
			query(s.db, `SELECT count(*), min(issued), max(issued) FROM forecast`, nil, func(row *sqlite3.Stmt) error {
				if i.Forecasts = row.ColumnInt(0); i.Forecasts > 0 {
					i.Issued, i.LastIssue = time.Unix(row.ColumnInt64(1), 0).UTC(), time.Unix(row.ColumnInt64(2), 0).UTC()
				}
				return nil
			}),
			query(s.db, `SELECT count(DISTINCT hour), min(hour), max(hour), count(DISTINCT CASE WHEN superseded IS NOT NULL THEN hour END) FROM observed WHERE origin <> 0`, nil, func(row *sqlite3.Stmt) error {
				if i.Hours = row.ColumnInt(0); i.Hours > 0 {
					i.Since, i.Until = hourStart(row.ColumnInt64(1)), hourStart(row.ColumnInt64(2)+1)
				}
				i.Amended = row.ColumnInt(3)
				return nil
			}),
			query(s.db, `SELECT count(DISTINCT hour) FROM observed WHERE origin = 0`, nil, func(row *sqlite3.Stmt) error {
				i.WorkedOut = row.ColumnInt(0)
				return nil
			}))
		if err == nil && first != "" {
			err = errors.Join(i.FirstDay.UnmarshalText([]byte(first)), i.LastDay.UnmarshalText([]byte(last)))
		}
		return err
	})
	return i, err
}

func sizeOf(path string) (n int64) {
	for _, p := range []string{path, path + "-journal"} {
		if info, err := os.Stat(p); err == nil {
			n += info.Size()
		}
	}
	return n
}

// mostFaults bounds what Check lists. [chosen: a screen of them; one is enough to act on]
const mostFaults = 20

// Check reads all of the file and gives what does not fit together, nothing when
// it is sound. Errors are those of Open.
func (s *Store) Check(ctx context.Context) (faults []string, err error) {
	err = s.alone(ctx, func() error {
		err := query(s.db, fmt.Sprintf("PRAGMA integrity_check(%d)", mostFaults), nil, func(row *sqlite3.Stmt) error {
			if line := row.ColumnText(0); line != "ok" {
				faults = append(faults, line)
			}
			return nil
		})
		if err != nil {
			return err
		}
		return query(s.db, "PRAGMA foreign_key_check", nil, func(row *sqlite3.Stmt) error {
			if len(faults) < mostFaults {
				faults = append(faults, fmt.Sprintf("row %d of table %s points to nothing in table %s", row.ColumnInt64(1), row.ColumnText(0), row.ColumnText(2)))
			}
			return nil
		})
	})
	if err != nil {
		return nil, err
	}
	return append(faults, s.unreadable(ctx)...), nil
}

// unreadable finds entries and forecasts that the file holds and nobody can read.
func (s *Store) unreadable(ctx context.Context) (faults []string) {
	var damaged *DamagedError
	if _, err := s.All(ctx); errors.As(err, &damaged) {
		faults = append(faults, damaged.What)
	}
	err := s.read(ctx, func() error {
		return query(s.db, `SELECT body, feed, issue FROM forecast`, nil, func(row *sqlite3.Stmt) error {
			if _, err := unpack(row.ColumnRawBlob(0)); err != nil && len(faults) < mostFaults {
				faults = append(faults, fmt.Sprintf("the forecast %s of %s cannot be read", row.ColumnText(2), row.ColumnText(1)))
			}
			return nil
		})
	})
	if errors.As(err, &damaged) {
		faults = append(faults, damaged.What)
	}
	return faults
}

// Backup writes a copy to a new file in one step: whoever looks finds no copy or
// a whole one. Others may write meanwhile; the copy is of one instant. An
// existing file is not replaced: then the error is fs.ErrExist.
func (s *Store) Backup(ctx context.Context, to string) error {
	if _, err := os.Lstat(to); err == nil {
		return fs.ErrExist
	}
	dir, err := os.MkdirTemp(filepath.Dir(to), ".backup-*") // only the owner may look inside
	if err != nil {
		return &AccessError{Path: to, Err: err}
	}
	defer os.RemoveAll(dir)
	part := filepath.Join(dir, "part.db")
	err = s.alone(ctx, func() error {
		return query(s.db, "VACUUM INTO ?", []any{part}, nil)
	})
	if err != nil {
		return err
	}
	if err := syncFile(part); err != nil {
		return &FullError{Path: to, Err: err}
	}
	err = place(part, to)
	switch {
	case errors.Is(err, fs.ErrExist):
		return fs.ErrExist
	case err != nil:
		return &AccessError{Path: to, Err: err}
	}
	return syncFolder(filepath.Dir(to))
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Chmod(0o600), f.Sync(), f.Close())
}
