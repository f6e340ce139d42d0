package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/ncruces/go-sqlite3"
)

var (
	errReadOnly = errors.New("the garden's memory was opened for reading only")
	errClosed   = errors.New("the garden's memory is closed")
)

// NewerError tells that a later dawnbrush wrote the file. It was left alone.
type NewerError struct {
	Path           string
	Version, Known int
}

func (e *NewerError) Error() string {
	return fmt.Sprintf("the garden's memory %s was written by a newer dawnbrush (layout %d, this one knows up to %d)", e.Path, e.Version, e.Known)
}

// Hint tells the remedy.
func (e *NewerError) Hint() string {
	return "use the newer dawnbrush, or name another file with --memory; this one was left alone"
}

// OlderError tells that a file opened read-only has an earlier layout.
type OlderError struct {
	Path           string
	Version, Known int
}

func (e *OlderError) Error() string {
	return fmt.Sprintf("the garden's memory %s has the earlier layout %d and must be brought up to %d", e.Path, e.Version, e.Known)
}

// Hint tells the remedy.
func (e *OlderError) Hint() string {
	return "run a command that may write to it, such as `dawnbrush memory prune`"
}

// NotOursError tells that the file belongs to something else. It was left alone.
type NotOursError struct{ Path, What string }

func (e *NotOursError) Error() string {
	return fmt.Sprintf("%s %s, not a garden's memory", e.Path, e.What)
}

// Hint tells the remedy.
func (e *NotOursError) Hint() string {
	return "name another file with --memory, or move this one away; it was left alone"
}

// DamagedError tells that the file cannot be read as it was written.
type DamagedError struct {
	Path, What string
	Err        error
}

func (e *DamagedError) Error() string {
	return fmt.Sprintf("the garden's memory %s is damaged: %s", e.Path, e.What)
}

func (e *DamagedError) Unwrap() error { return e.Err }

// Hint tells the remedy.
func (e *DamagedError) Hint() string {
	return "put a copy made with `dawnbrush memory backup` in its place, or move the file away to begin a new one; it was left alone"
}

// FullError tells that there is no room to write. Nothing of the write was kept,
// all that was there before is.
type FullError struct {
	Path string
	Err  error
}

func (e *FullError) Error() string {
	return fmt.Sprintf("there is no room to write the garden's memory %s", e.Path)
}

func (e *FullError) Unwrap() error { return e.Err }

// Hint tells the remedy.
func (e *FullError) Hint() string {
	return "make room on the disk, then give the command again; what was kept before is safe"
}

// BusyError tells that another program kept the file to itself for too long.
type BusyError struct {
	Path string
	Err  error
}

func (e *BusyError) Error() string {
	return fmt.Sprintf("another program is writing to the garden's memory %s", e.Path)
}

func (e *BusyError) Unwrap() error { return e.Err }

// Hint tells the remedy.
func (e *BusyError) Hint() string { return "wait for it to end, then give the command again" }

// AccessError tells that the file or its folder cannot be used by this user.
type AccessError struct {
	Path string
	Err  error
}

func (e *AccessError) Error() string {
	return fmt.Sprintf("cannot use the garden's memory %s: %v", e.Path, reason(e.Err))
}

func (e *AccessError) Unwrap() error { return e.Err }

// Hint tells the remedy.
func (e *AccessError) Hint() string {
	return "see that its folder exists and may be written to, or name another file with --memory"
}

// reason leaves out the path, which the message holds already.
func reason(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}

// tell turns SQLite's errors into the grower's.
func (s *Store) tell(err error) error {
	var code sqlite3.ErrorCode
	if err == nil || !errors.As(err, &code) {
		return err
	}
	switch code {
	case sqlite3.NOTADB:
		return &NotOursError{Path: s.path, What: "is no database"}
	case sqlite3.CORRUPT:
		return &DamagedError{Path: s.path, What: "parts of it do not fit together", Err: err}
	case sqlite3.FULL:
		return &FullError{Path: s.path, Err: err}
	case sqlite3.BUSY, sqlite3.LOCKED:
		return &BusyError{Path: s.path, Err: err}
	case sqlite3.INTERRUPT:
		return errors.Join(context.Canceled, err)
	case sqlite3.CANTOPEN, sqlite3.READONLY, sqlite3.PERM, sqlite3.AUTH:
		return &AccessError{Path: s.path, Err: fs.ErrPermission}
	case sqlite3.IOERR:
		return s.tellIO(err)
	}
	return fmt.Errorf("the garden's memory %s: %w", s.path, err)
}

// tellIO tells a short file from a full disk and from a failing one.
func (s *Store) tellIO(err error) error {
	var code sqlite3.ExtendedErrorCode
	errors.As(err, &code)
	switch code {
	case sqlite3.IOERR_SHORT_READ:
		return &DamagedError{Path: s.path, What: "its end is missing", Err: err}
	case sqlite3.IOERR_WRITE, sqlite3.IOERR_TRUNCATE, sqlite3.IOERR_SHMSIZE, sqlite3.IOERR_FSYNC:
		return &FullError{Path: s.path, Err: err}
	}
	return &AccessError{Path: s.path, Err: err}
}
