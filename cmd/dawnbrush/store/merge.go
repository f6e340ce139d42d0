package store

import (
	"context"
	"errors"

	"github.com/ncruces/go-sqlite3"

	"dawnbrush/risk/memory"
)

// Merge says what Import did.
type Merge struct {
	Added     int // entries new to this diary
	Known     int // entries it had already
	Conflicts []Conflict
	Missing   []string // entries that others replace but neither file holds
}

// Conflict is one entry that was amended in two ways. Both versions were kept
// and both count until one of them is removed.
type Conflict struct {
	Entry    memory.Entry // what both replace
	Versions []memory.Entry
}

// Import adds entries with the IDs and times they have, those of another file or
// of an export. Entries that are here already are left alone, so that the same
// import twice changes nothing. When any entry is at fault none is added and the
// error joins an *EntryError for each.
func (s *Store) Import(ctx context.Context, list []memory.Entry) (m Merge, err error) {
	err = s.write(ctx, func() error {
		m = Merge{}
		fresh, err := s.fresh(list, &m)
		if err != nil || len(fresh) == 0 {
			return err
		}
		action, err := s.act(Imported)
		if err != nil {
			return err
		}
		for i := range fresh {
			if err := s.append(action, &fresh[i]); err != nil {
				return err
			}
		}
		m.Added = len(fresh)
		return s.afterImport(action, &m)
	})
	if err != nil {
		return Merge{}, err
	}
	return m, nil
}

// fresh picks the entries that are not here yet and gathers all faults.
func (s *Store) fresh(list []memory.Entry, m *Merge) ([]memory.Entry, error) {
	var fresh []memory.Entry
	var faults []error
	seen := make(map[string]string, len(list))
	for i := range list {
		e := list[i]
		if e.ID == "" || e.Recorded.IsZero() {
			faults = append(faults, &EntryError{ID: e.ID, Fault: "it has no identity or no time of recording"})
			continue
		}
		if err := check(&e); err != nil {
			faults = append(faults, err)
			continue
		}
		payload, err := encode(&e)
		if err != nil {
			return nil, err
		}
		have, ok := seen[e.ID]
		if !ok {
			if have, err = s.text(`SELECT payload FROM entry WHERE id = ?`, e.ID); err != nil {
				return nil, err
			}
		}
		switch have {
		case "":
			seen[e.ID] = payload
			fresh = append(fresh, e)
		case payload:
			m.Known++
		default:
			faults = append(faults, &EntryError{ID: e.ID, Fault: "another entry has the same identity"})
		}
	}
	rings, err := s.rings(fresh)
	if err != nil {
		return nil, err
	}
	return fresh, errors.Join(append(faults, rings...)...)
}

// rings finds entries that would replace one another in a ring: none of them
// would be current.
func (s *Store) rings(fresh []memory.Entry) (faults []error, err error) {
	replaces := make(map[string]string, len(fresh))
	for i := range fresh {
		replaces[fresh[i].ID] = fresh[i].Replaces
	}
	visited := make(map[string]int, len(fresh)) // in which walk
	for i := range fresh {
		id := fresh[i].ID
		for id != "" && visited[id] == 0 {
			visited[id] = i + 1
			next, ok := replaces[id]
			if !ok {
				if next, err = s.text(`SELECT coalesce(replaces, '') FROM entry WHERE id = ?`, id); err != nil {
					return nil, err
				}
			}
			id = next
		}
		if id != "" && visited[id] == i+1 {
			faults = append(faults, &EntryError{ID: id, Fault: "entries replace one another in a ring"})
		}
	}
	return faults, nil
}

// afterImport finds what the grower has to look at.
func (s *Store) afterImport(action int64, m *Merge) error {
	var bases []string
	err := query(s.db, `SELECT DISTINCT n.replaces FROM entry n WHERE n.action = ? AND n.replaces IS NOT NULL ORDER BY n.replaces`, []any{action}, func(row *sqlite3.Stmt) error {
		bases = append(bases, row.ColumnText(0))
		return nil
	})
	if err != nil {
		return err
	}
	for _, id := range bases {
		base, ok, err := s.entry(id)
		if err != nil {
			return err
		}
		if !ok {
			m.Missing = append(m.Missing, id)
		}
		versions, err := s.entries(`SELECT payload FROM entry WHERE replaces = ? ORDER BY id`, id)
		if err != nil {
			return err
		}
		standing := 0
		for i := range versions {
			if !versions[i].Removed {
				standing++
			}
		}
		if len(versions) > 1 && standing > 0 {
			m.Conflicts = append(m.Conflicts, Conflict{base, versions})
		}
	}
	return nil
}
