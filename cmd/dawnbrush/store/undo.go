package store

import (
	"context"
	"errors"
	"time"

	"github.com/ncruces/go-sqlite3"

	"dawnbrush/risk/memory"
)

// ErrNothingToUndo tells that no action is left to take back.
var ErrNothingToUndo = errors.New("there is nothing to take back")

// Undone says what Undo took back.
type Undone struct {
	What    Action
	At      time.Time      // when it had been done
	Entries []memory.Entry // those the action had written
}

// Undo takes back the last action that was not taken back yet: an addition is
// removed, an amendment gives way to what stood before, a removal is undone, an
// import is removed. Nothing is deleted: it writes further entries. Called again
// it takes back the action before. The error is ErrNothingToUndo when there is
// none.
func (s *Store) Undo(ctx context.Context) (u Undone, err error) {
	err = s.write(ctx, func() error {
		u = Undone{}
		var seq int64
		err := query(s.db, `SELECT seq, what, at FROM action WHERE undone IS NULL AND what <> 'undo' ORDER BY seq DESC LIMIT 1`, nil, func(row *sqlite3.Stmt) error {
			seq, u.What, u.At = row.ColumnInt64(0), Action(row.ColumnText(1)), fromMilli(row.ColumnInt64(2))
			return nil
		})
		switch {
		case err != nil:
			return err
		case seq == 0:
			return ErrNothingToUndo
		}
		if u.Entries, err = s.entries(`SELECT payload FROM entry WHERE action = ? ORDER BY seq`, seq); err != nil {
			return err
		}
		back, err := s.act(undone)
		if err != nil {
			return err
		}
		for i := range u.Entries {
			if err := s.takeBack(back, seq, u.Entries[i]); err != nil {
				return err
			}
		}
		return query(s.db, `UPDATE action SET undone = ? WHERE seq = ?`, []any{back, seq}, nil)
	})
	return u, err
}

// takeBack replaces what stands of an entry of the action seq by what stood
// before that action. Later actions were taken back already, so what stands is
// the entry itself or what restored it.
func (s *Store) takeBack(back, seq int64, e memory.Entry) error {
	leaves, err := s.entries(below+`SELECT e.payload FROM entry e JOIN chain ON e.id = chain.id WHERE e.action BETWEEN ?2 AND ?3 AND `+notReplaced, e.ID, seq, back-1)
	if err != nil {
		return err
	}
	for _, leaf := range leaves {
		r := removal(leaf)
		before, ok, err := s.before(seq, leaf)
		switch {
		case err != nil:
			return err
		case ok:
			r = before
			r.ID, r.Recorded, r.Replaces = "", time.Time{}, leaf.ID
		}
		if r.Removed && leaf.Removed {
			continue // it was not there before either
		}
		if err := s.append(back, &r); err != nil {
			return err
		}
	}
	return nil
}

// below begins a query with the chain of entries that descend from ?1, itself
// included.
const below = `WITH RECURSIVE chain (id) AS (SELECT ?1 UNION SELECT e.id FROM entry e JOIN chain ON e.replaces = chain.id) `

// before gives the version that stood before the action seq. ok is false when
// none did, for it had been replaced or removed by then, and when one that another
// amendment made of it stands now.
func (s *Store) before(seq int64, leaf memory.Entry) (old memory.Entry, ok bool, err error) {
	for id := leaf.Replaces; id != ""; id = old.Replaces {
		if old, ok, err = s.entry(id); err != nil || !ok {
			return old, false, err
		}
		by, err := number(s.db, `SELECT action FROM entry WHERE id = ?`, id)
		if err != nil {
			return old, false, err
		}
		if by >= seq {
			continue
		}
		replaced, err := number(s.db, `SELECT count(*) FROM entry WHERE replaces = ? AND action < ?`, id, seq)
		if err != nil || replaced > 0 {
			return old, false, err
		}
		others, err := number(s.db, below+`SELECT count(*) FROM entry e JOIN chain ON e.id = chain.id WHERE e.id <> ?2 AND e.removed = 0 AND `+notReplaced, id, leaf.ID)
		return old, others == 0, err
	}
	return old, false, nil
}
