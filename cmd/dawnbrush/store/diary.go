package store

import (
	"context"
	"errors"
	"strings"
	"time"

	"github.com/ncruces/go-sqlite3"

	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// Action is something done to the diary.
type Action string

// The actions.
const (
	Added    Action = "add"
	Amended  Action = "amend"
	Removed  Action = "remove"
	Imported Action = "import"
	undone   Action = "undo"
)

// Filter chooses entries; its zero value takes all.
type Filter struct {
	From, To forecast.Date // days the entries are about, both included; zero sets no bound
	Kinds    []memory.Kind // any of them
	Planting string        // exactly this one ...
	Bed      string        // ... and with it the notes about this whole bed; empty for none
}

// AddEntry keeps an entry and gives it as it was kept: with an ID, and with the
// time it was recorded unless that was told. Errors besides those of Open:
// *EntryError.
func (s *Store) AddEntry(ctx context.Context, e memory.Entry) (memory.Entry, error) {
	if e.Replaces != "" || e.Removed {
		return memory.Entry{}, &EntryError{ID: e.ID, Fault: "a new entry replaces none"}
	}
	return s.keep(ctx, Added, func() (memory.Entry, error) { return e, nil })
}

// Amend keeps e in place of the current entry id. Both stay in its history.
// Errors besides those of Open: *EntryError, *UnknownEntryError,
// *SupersededError.
func (s *Store) Amend(ctx context.Context, id string, e memory.Entry) (memory.Entry, error) {
	return s.keep(ctx, Amended, func() (memory.Entry, error) {
		e.Replaces, e.Removed = id, false
		_, err := s.current(id)
		return e, err
	})
}

// Remove takes the current entry id back and gives the marker that does it. The
// entry stays in its history. Errors as of Amend.
func (s *Store) Remove(ctx context.Context, id string) (memory.Entry, error) {
	return s.keep(ctx, Removed, func() (memory.Entry, error) {
		old, err := s.current(id)
		return removal(old), err
	})
}

// removal is the entry that takes old back.
func removal(old memory.Entry) memory.Entry {
	return memory.Entry{Date: old.Date, Kind: old.Kind, Planting: old.Planting, Replaces: old.ID, Removed: true}
}

// keep writes the entry that choose gives as one action.
func (s *Store) keep(ctx context.Context, what Action, choose func() (memory.Entry, error)) (e memory.Entry, err error) {
	err = s.write(ctx, func() error {
		if e, err = choose(); err != nil {
			return err
		}
		action, err := s.act(what)
		if err != nil {
			return err
		}
		return s.append(action, &e)
	})
	if err != nil {
		return memory.Entry{}, err
	}
	return e, nil
}

// current gives the entry id if it is a current version.
func (s *Store) current(id string) (memory.Entry, error) {
	e, ok, err := s.entry(id)
	switch {
	case err != nil:
		return e, err
	case !ok:
		return e, &UnknownEntryError{id}
	case e.Removed:
		return e, &SupersededError{ID: id, Removed: true}
	}
	var by string
	var removed bool
	err = query(s.db, `SELECT id, removed FROM entry WHERE replaces = ? ORDER BY removed, id DESC LIMIT 1`, []any{id}, func(row *sqlite3.Stmt) error {
		by, removed = row.ColumnText(0), row.ColumnBool(1)
		return nil
	})
	if err == nil && by != "" {
		err = &SupersededError{ID: id, By: by, Removed: removed}
	}
	return e, err
}

func (s *Store) entry(id string) (e memory.Entry, ok bool, err error) {
	list, err := s.entries(`SELECT payload FROM entry WHERE id = ?`, id)
	if err != nil || len(list) == 0 {
		return e, false, err
	}
	return list[0], true, nil
}

// act opens an action in the running transaction.
func (s *Store) act(what Action) (seq int64, err error) {
	err = query(s.db, `INSERT INTO action (at, what) VALUES (?, ?)`, []any{s.now().UnixMilli(), string(what)}, nil)
	return s.db.LastInsertRowID(), err
}

// append writes an entry in the running transaction, filling in what is the
// store's to give.
func (s *Store) append(action int64, e *memory.Entry) error {
	if e.Recorded.IsZero() {
		e.Recorded = s.now()
	}
	e.Recorded, e.At = e.Recorded.UTC(), e.At.UTC()
	if e.ID == "" {
		last, err := s.text(`SELECT id FROM entry ORDER BY seq DESC LIMIT 1`)
		if err != nil {
			return err
		}
		e.ID = newID(e.Recorded, last)
	}
	if err := check(e); err != nil {
		return err
	}
	payload, err := encode(e)
	if err != nil {
		return err
	}
	var replaces any
	if e.Replaces != "" {
		replaces = e.Replaces
	}
	err = query(s.db, `INSERT INTO entry (id, action, recorded, date, kind, planting, replaces, removed, payload) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		[]any{e.ID, action, e.Recorded.UnixMilli(), e.Date.String(), string(e.Kind), e.Planting, replaces, e.Removed, payload}, nil)
	if errors.Is(err, sqlite3.CONSTRAINT_UNIQUE) {
		return &EntryError{ID: e.ID, Fault: "there is another entry of this identity"}
	}
	return err
}

func (s *Store) text(sql string, args ...any) (out string, err error) {
	err = query(s.db, sql, args, func(row *sqlite3.Stmt) error {
		out = row.ColumnText(0)
		return nil
	})
	return out, err
}

// entries gives the entries whose payload a query asks for.
func (s *Store) entries(sql string, args ...any) (out []memory.Entry, err error) {
	err = query(s.db, sql, args, func(row *sqlite3.Stmt) error {
		e, err := decode(row.ColumnRawText(0))
		if err != nil {
			return &DamagedError{Path: s.path, What: "an entry of the diary cannot be read", Err: err}
		}
		out = append(out, e)
		return nil
	})
	return out, err
}

// notReplaced picks the versions of entries that nothing took the place of.
const notReplaced = `NOT EXISTS (SELECT 1 FROM entry r WHERE r.replaces = e.id)`

// Entries gives the current versions, by the day they are about and then by when
// they were recorded.
func (s *Store) Entries(ctx context.Context, f Filter) (out []memory.Entry, err error) {
	where := []string{"e.removed = 0", notReplaced}
	var args []any
	add := func(cond string, values ...any) {
		where, args = append(where, cond), append(args, values...)
	}
	if !f.From.IsZero() {
		add("e.date >= ?", f.From.String())
	}
	if !f.To.IsZero() {
		add("e.date <= ?", f.To.String())
	}
	switch {
	case f.Planting != "" && f.Bed != "":
		add("e.planting IN (?, ?)", f.Planting, f.Bed)
	case f.Planting != "":
		add("e.planting = ?", f.Planting)
	}
	if len(f.Kinds) > 0 {
		var kinds []any
		for _, k := range f.Kinds {
			kinds = append(kinds, string(k))
		}
		add("e.kind IN (?"+strings.Repeat(", ?", len(kinds)-1)+")", kinds...)
	}
	err = s.read(ctx, func() error {
		out, err = s.entries(`SELECT e.payload FROM entry e WHERE `+strings.Join(where, " AND ")+` ORDER BY e.date, e.recorded, e.id`, args...)
		return err
	})
	return out, err
}

// All gives every version of every entry, removals too, in the order in which
// they came into this file: what an export writes.
func (s *Store) All(ctx context.Context) (out []memory.Entry, err error) {
	err = s.read(ctx, func() error {
		out, err = s.entries(`SELECT payload FROM entry ORDER BY seq`)
		return err
	})
	return out, err
}

// History gives all versions of the entry that id is a version of, oldest first.
// Errors besides those of Open: *UnknownEntryError.
func (s *Store) History(ctx context.Context, id string) (out []memory.Entry, err error) {
	err = s.read(ctx, func() error {
		out, err = s.entries(`WITH RECURSIVE
			up (id) AS (SELECT id FROM entry WHERE id = ?1 UNION SELECT e.replaces FROM entry e JOIN up ON e.id = up.id WHERE e.replaces IS NOT NULL),
			chain (id) AS (SELECT id FROM up UNION SELECT e.id FROM entry e JOIN chain ON e.replaces = chain.id)
			SELECT e.payload FROM entry e JOIN chain ON e.id = chain.id ORDER BY e.recorded, e.id`, id)
		if err == nil && len(out) == 0 {
			err = &UnknownEntryError{id}
		}
		return err
	})
	return out, err
}

func fromMilli(ms int64) time.Time { return time.UnixMilli(ms).UTC() }
