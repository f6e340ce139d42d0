package store

import (
	"context"
	"errors"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"sync"
	"time"

	"github.com/ncruces/go-sqlite3"
)

// applicationID marks our files: "DBru" in ASCII.
const applicationID = 0x44427275

// busyTimeout is how long a writer waits for another to finish. A write takes
// milliseconds; an import of ten thousand entries less than a second. [chosen: ten times as long]
const busyTimeout = 5 * time.Second

// Options say how a memory is opened.
type Options struct {
	// Now gives the time that entries and hours are recorded at; required to write.
	Now func() time.Time
	// Zone is the garden's, for the days of rain gauge readings and of keeping
	// forecasts; UTC when nil.
	Zone *time.Location
	// ReadOnly opens an existing file and never writes to it.
	ReadOnly bool
	// MaxPages bounds the file's size in pages of 4 KiB; 0 sets no bound.
	MaxPages int
}

// Store is an open memory. Its methods may be called from several goroutines;
// they take turns.
type Store struct {
	mu   sync.Mutex
	db   *sqlite3.Conn
	path string
	now  func() time.Time
	zone *time.Location
	ro   bool
}

// Open opens the memory at path, making it and its folder when there is none
// (unless read-only: then the error is fs.ErrNotExist). Errors are *NewerError,
// *OlderError, *NotOursError, *DamagedError, *FullError, *BusyError,
// *AccessError or one of the context.
func Open(ctx context.Context, path string, o Options) (*Store, error) {
	s := &Store{path: path, now: o.Now, zone: o.Zone, ro: o.ReadOnly}
	if s.zone == nil {
		s.zone = time.UTC
	}
	if err := look(path); errors.Is(err, fs.ErrNotExist) && !o.ReadOnly {
		if err := create(ctx, path); err != nil {
			return nil, s.tell(err)
		}
	} else if err != nil {
		return nil, err
	}
	err := s.connect(ctx, o)
	if unfinished(err) {
		s.Close()
		if err = s.putBack(ctx); err == nil {
			err = s.connect(ctx, o)
		}
	}
	if err != nil {
		s.Close()
		return nil, s.tell(err)
	}
	return s, nil
}

// unfinished tells whether a writer was killed in the middle and a reader may not put
// the file back as it was before.
func unfinished(err error) bool {
	var code sqlite3.ExtendedErrorCode
	return errors.As(err, &code) && code == sqlite3.READONLY_ROLLBACK
}

// putBack undoes what a killed writer left half done; SQLite does so at the first look
// of anybody who may write.
func (s *Store) putBack(ctx context.Context) error {
	db, err := sqlite3.OpenContext(ctx, uri(s.path, "rw"))
	if err != nil {
		return err
	}
	err = db.BusyTimeout(busyTimeout)
	if err == nil {
		_, err = number(db, "PRAGMA user_version")
	}
	return errors.Join(err, db.Close())
}

// Use sets clock and zone of a memory that was opened before they were known.
func (s *Store) Use(o Options) {
	s.now = o.Now
	if o.Zone != nil {
		s.zone = o.Zone
	}
}

// look tells what stands at path before SQLite does: it would take an empty
// file for a new one and lose the word that something is missing.
func look(path string) error {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return err
	case err != nil:
		return &AccessError{Path: path, Err: err}
	case !info.Mode().IsRegular():
		return &NotOursError{Path: path, What: "is a " + kindOf(info.Mode())}
	case info.Size() == 0:
		return &DamagedError{Path: path, What: "it is empty (0 bytes)"}
	}
	return nil
}

func kindOf(m fs.FileMode) string {
	if m.IsDir() {
		return "folder"
	}
	return "special file"
}

// uri names a file for SQLite. A path is taken as it is, whatever signs it holds.
// modeof gives the journal the file's own permissions.
func uri(path, mode string) string {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	u := url.URL{Scheme: "file", OmitHost: true, Path: path, RawQuery: url.Values{"mode": {mode}, "modeof": {path}}.Encode()}
	return u.String()
}

// create makes a new memory beside path and puts it in place whole: whoever
// looks finds no file or a sound one. Another process may be first; then its
// file stands.
func create(ctx context.Context, path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return &AccessError{Path: path, Err: err}
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".new-*.db")
	if err != nil {
		return &AccessError{Path: path, Err: err}
	}
	defer os.Remove(f.Name())
	if err := f.Close(); err != nil {
		return &AccessError{Path: path, Err: err}
	}
	db, err := sqlite3.OpenContext(ctx, uri(f.Name(), "rw"))
	if err != nil {
		return err
	}
	err = db.Exec("PRAGMA synchronous=FULL; PRAGMA application_id=" + itoa(applicationID))
	if err == nil {
		err = migrate(db, 0)
	}
	if err == nil {
		err = db.Exec("PRAGMA journal_mode=DELETE") // leaves nothing beside the file that is named anew
	}
	if err := errors.Join(err, db.Close()); err != nil {
		return err
	}
	if err := place(f.Name(), path); err != nil && !errors.Is(err, fs.ErrExist) {
		return &AccessError{Path: path, Err: err}
	}
	return syncFolder(filepath.Dir(path))
}

// place gives a whole file its name unless that is taken: then the error is
// fs.ErrExist.
func place(from, to string) error {
	err := os.Link(from, to)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	if _, err := os.Lstat(to); err == nil { // a file system without links
		return fs.ErrExist
	}
	return os.Rename(from, to)
}

// syncFolder makes a new name in a folder last.
func syncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return &AccessError{Path: dir, Err: err}
	}
	defer d.Close()
	_ = d.Sync() // not every file system can; the name is only less sure then
	return nil
}

// connect opens the file and settles whether it is ours and of which version,
// before anything could change it.
func (s *Store) connect(ctx context.Context, o Options) error {
	mode := "rw"
	if s.ro {
		mode = "ro"
	}
	db, err := sqlite3.OpenContext(ctx, uri(s.path, mode))
	if err != nil {
		return err
	}
	s.db = db
	db.SetInterrupt(ctx)
	if err := db.BusyTimeout(busyTimeout); err != nil {
		return err
	}
	version, err := s.identify()
	if err != nil {
		return err
	}
	if s.ro {
		if version < newest() {
			return &OlderError{Path: s.path, Version: version, Known: newest()}
		}
		return nil
	}
	// A run opens, writes once and ends: with a rollback journal that takes two waits for
	// the disk less than with a write-ahead log, which is made and folded in each time,
	// and nothing is left beside the file that must not be parted from it.
	if err := db.Exec("PRAGMA journal_mode=TRUNCATE; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON"); err != nil {
		return err
	}
	if o.MaxPages > 0 {
		if err := db.Exec("PRAGMA max_page_count=" + itoa(o.MaxPages)); err != nil {
			return err
		}
	}
	return migrate(db, version)
}

// identify gives the version of the file's layout, or says why it cannot be used.
func (s *Store) identify() (version int, err error) {
	id, err := number(s.db, "PRAGMA application_id")
	if err != nil {
		return 0, err
	}
	if id != applicationID {
		return 0, &NotOursError{Path: s.path, What: "is a database of another program"}
	}
	v, err := number(s.db, "PRAGMA user_version")
	if err != nil {
		return 0, err
	}
	if int(v) > newest() {
		return 0, &NewerError{Path: s.path, Version: int(v), Known: newest()}
	}
	return int(v), nil
}

// Close closes the file. What was acknowledged stays whether or not it is called.
func (s *Store) Close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.db == nil {
		return nil
	}
	err := s.db.Close()
	s.db = nil
	return s.tell(err)
}

// Path gives the file's name.
func (s *Store) Path() string { return s.path }

// read runs f with the database to itself, within one unchanging view of it.
func (s *Store) read(ctx context.Context, f func() error) error {
	return s.within(ctx, "BEGIN DEFERRED", f)
}

// write runs f in a transaction that is on disk when write returns nil, and
// leaves no trace otherwise.
func (s *Store) write(ctx context.Context, f func() error) error {
	if s.ro {
		return errReadOnly
	}
	return s.within(ctx, "BEGIN IMMEDIATE", f)
}

func (s *Store) within(ctx context.Context, begin string, f func() error) error {
	return s.alone(ctx, func() error { return s.transact(begin, f) })
}

// transact runs f in a transaction.
func (s *Store) transact(begin string, f func() error) (err error) {
	if err := s.db.Exec(begin); err != nil {
		return err
	}
	defer func() {
		if err == nil {
			err = s.db.Exec("COMMIT")
		}
		if !s.db.GetAutocommit() { // not committed, or f panicked
			s.db.SetInterrupt(context.Background())
			err = errors.Join(err, s.db.Exec("ROLLBACK"))
		}
	}()
	return f()
}

// alone runs f with the database to itself as far as this process goes.
func (s *Store) alone(ctx context.Context, f func() error) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.db == nil {
		return errClosed
	}
	before := s.db.SetInterrupt(ctx)
	defer func() { s.db.SetInterrupt(before) }()
	err := s.tell(f())
	if err != nil && ctx.Err() != nil {
		return ctx.Err()
	}
	return err
}
