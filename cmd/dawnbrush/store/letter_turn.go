package store

import (
	"context"
	"fmt"
	"time"
)

// due chooses the letters that can be tried at ?1, whose try another process does
// not have in hand: its turn lasts until ?2. What lies further ahead than ?3 was
// written under a wrong clock.
const due = `state IN ('waiting', 'trying') AND (state = 'waiting' AND (next <= ?1 OR next > ?3) OR state = 'trying' AND (began <= ?2 OR began > ?1))`

func dueAt(now time.Time, turn time.Duration) []any {
	return []any{now.UnixMilli(), now.Add(-turn).UnixMilli(), now.Add(farthestNext).UnixMilli()}
}

// LettersDue gives the letters to try now, oldest first. One whose try began longer
// than turn ago and never ended is among them: its process is gone.
func (s *Store) LettersDue(ctx context.Context, now time.Time, turn time.Duration) (out []Posted, err error) {
	err = s.read(ctx, func() error {
		out, err = s.letters(`WHERE `+due+` ORDER BY seq`, dueAt(now, turn)...)
		return err
	})
	return out, err
}

// TakeLetter notes that a try begins, before it does. ok is false when the letter is
// not due any more, for another process has it in hand or settled it.
func (s *Store) TakeLetter(ctx context.Context, id string, now time.Time, turn time.Duration) (p Posted, ok bool, err error) {
	err = s.write(ctx, func() error {
		p, ok = Posted{}, false
		if err := query(s.db, `UPDATE outbox SET state = 'trying', tries = tries + 1, began = ?1 WHERE `+due+` AND id = ?4`, append(dueAt(now, turn), id), nil); err != nil {
			return err
		}
		if s.db.Changes() == 0 {
			return nil
		}
		list, err := s.letters(`WHERE id = ?`, id)
		if err == nil && len(list) == 1 {
			p, ok = list[0], true
		}
		return err
	})
	if err != nil {
		return Posted{}, false, err
	}
	return p, ok, nil
}

// Verdict is what became of a try.
type Verdict struct {
	State LetterState // LetterWaiting, LetterSent, LetterRefused or LetterExpired
	At    time.Time
	Next  time.Time // of LetterWaiting
	Fault string    // in the grower's words; "" when it was sent
	Hint  string
}

// SettleLetter notes what became of the try p. That it was sent holds whatever
// happened meanwhile; anything else gives way to a later try.
func (s *Store) SettleLetter(ctx context.Context, p Posted, v Verdict) error {
	var settled any
	next := p.Next
	if v.State.Open() {
		next = v.Next
	} else {
		settled = v.At.UnixMilli()
	}
	return s.write(ctx, func() error {
		return query(s.db, `UPDATE outbox SET state = ?1, settled = ?2, next = ?3, fault = ?4, hint = ?5
			WHERE id = ?6 AND (?1 = 'sent' OR tries = ?7 AND state IN ('waiting', 'trying'))`,
			[]any{string(v.State), settled, next.UnixMilli(), v.Fault, v.Hint, p.ID, p.Tries}, nil)
	})
}

// RetryLetter makes a letter wait anew, to be tried at the next run, whatever became
// of it before; a letter that was sent is not. Errors besides those of Open:
// *UnknownLetterError, *LetterSettledError.
func (s *Store) RetryLetter(ctx context.Context, id string, now time.Time) (Posted, error) {
	return s.change(ctx, id, func(p *Posted) error {
		if p.State == LetterSent || len(p.Body) == 0 {
			return &LetterSettledError{ID: id, State: p.State, Empty: len(p.Body) == 0}
		}
		p.State, p.Since, p.Next, p.Settled = LetterWaiting, now, now, time.Time{}
		return nil
	})
}

// DropLetter takes an open letter out of the way; it is not tried again. Errors as
// of RetryLetter.
func (s *Store) DropLetter(ctx context.Context, id string, now time.Time) (Posted, error) {
	return s.change(ctx, id, func(p *Posted) error {
		if p.State == LetterSent || p.State == LetterDropped {
			return &LetterSettledError{ID: id, State: p.State}
		}
		p.State, p.Settled = LetterDropped, now
		return nil
	})
}

func (s *Store) change(ctx context.Context, id string, f func(*Posted) error) (p Posted, err error) {
	err = s.write(ctx, func() error {
		list, err := s.letters(`WHERE id = ?`, id)
		switch {
		case err != nil:
			return err
		case len(list) == 0:
			return &UnknownLetterError{ID: id}
		}
		p = list[0]
		if err := f(&p); err != nil {
			return err
		}
		var settled any
		if !p.Settled.IsZero() {
			settled = p.Settled.UnixMilli()
		}
		return query(s.db, `UPDATE outbox SET state = ?, since = ?, next = ?, settled = ? WHERE id = ?`,
			[]any{string(p.State), p.Since.UnixMilli(), p.Next.UnixMilli(), settled, id}, nil)
	})
	if err != nil {
		return Posted{}, err
	}
	return p, nil
}

// UnknownLetterError tells that the outbox has no such letter.
type UnknownLetterError struct{ ID string }

func (e *UnknownLetterError) Error() string { return fmt.Sprintf("the outbox has no letter %q", e.ID) }

// Hint tells the remedy.
func (e *UnknownLetterError) Hint() string {
	return "`dawnbrush outbox --all` lists the letters there are"
}

// LetterSettledError tells that nothing more can be done with a letter.
type LetterSettledError struct {
	ID    string
	State LetterState
	Empty bool // its text is not kept any more
}

func (e *LetterSettledError) Error() string {
	if e.Empty {
		return fmt.Sprintf("the text of the letter %s is not kept any more", e.ID)
	}
	return fmt.Sprintf("the letter %s was %s already", e.ID, e.State)
}

// Hint tells the remedy.
func (e *LetterSettledError) Hint() string {
	return "ask for the report anew; it comes as a letter of its own"
}
