package store

import (
	"context"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/ncruces/go-sqlite3"

	"dawnbrush/forecast"
)

// Letter is a message for one recipient.
type Letter struct {
	ID       string        // Message-ID without its angle brackets; it stays the same however often it is tried
	To, From string        // addresses
	Kind     string        // of report
	Day      forecast.Date // the garden's
	Body     []byte        // the whole message, headers and all
}

// LetterState is how far a letter has come.
type LetterState string

// The states.
const (
	LetterWaiting LetterState = "waiting" // for its next try
	LetterTrying  LetterState = "trying"  // on its way, or the program ended meanwhile
	LetterSent    LetterState = "sent"
	LetterRefused LetterState = "refused" // for good
	LetterExpired LetterState = "expired" // it waited too long
	LetterDropped LetterState = "dropped" // by the grower
)

// Open tells whether the letter may still be tried.
func (s LetterState) Open() bool { return s == LetterWaiting || s == LetterTrying }

// Posted is a letter in the outbox and what became of it.
type Posted struct {
	Letter
	Copy    int // 0; higher when it was asked for again
	State   LetterState
	Made    time.Time
	Since   time.Time // from here it waits: Made, or when it was to be tried anew
	Tries   int
	Began   time.Time // the last try; zero without any
	Next    time.Time // not tried before
	Settled time.Time // when it got its last state; zero while it is open
	Fault   string    // of the last try, in the grower's words
	Hint    string    // the remedy
}

const (
	// mostLetter bounds a message. [chosen: what common mail servers take, memory]
	mostLetter = 10 << 20
	// bodiesKept is how long after its end the text of a letter is kept.
	// [chosen: a month to look back or to try again, the row stays for good]
	bodiesKept = 30 * 24 * time.Hour
	// farthestNext is the longest wait that is believed. Beyond it the clock was wrong
	// when it was written. [chosen: twice the longest wait there is]
	farthestNext = 48 * time.Hour
)

// Post keeps a letter until it is handed on. There is one of a kind, recipient and
// day: when there is one already it is given back and fresh is false. With again a
// further one is kept beside it, which needs an identity of its own. Errors besides
// those of Open: *LetterError.
func (s *Store) Post(ctx context.Context, l Letter, again bool) (p Posted, fresh bool, err error) {
	if err := checkLetter(&l); err != nil {
		return Posted{}, false, err
	}
	err = s.write(ctx, func() error {
		p, fresh = Posted{}, false
		before, err := s.letters(`WHERE kind = ? AND recipient = ? AND day = ? ORDER BY copy DESC LIMIT 1`, l.Kind, l.To, l.Day.String())
		switch {
		case err != nil:
			return err
		case len(before) > 0 && !again:
			p = before[0]
			return nil
		case len(before) > 0:
			p.Copy = before[0].Copy + 1
		}
		taken, err := number(s.db, `SELECT count(*) FROM outbox WHERE id = ?`, l.ID)
		switch {
		case err != nil:
			return err
		case taken > 0:
			return &LetterError{ID: l.ID, Fault: "there is another letter of this identity"}
		}
		now := fromMilli(s.now().UnixMilli())
		p.Letter, p.State, p.Made, p.Since, p.Next, fresh = l, LetterWaiting, now, now, now, true
		err = query(s.db, `INSERT INTO outbox (id, kind, recipient, day, copy, sender, body, made, since, next, state) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
			[]any{l.ID, l.Kind, l.To, l.Day.String(), p.Copy, l.From, l.Body, now.UnixMilli(), now.UnixMilli(), now.UnixMilli(), string(p.State)}, nil)
		if err != nil {
			return err
		}
		return query(s.db, `UPDATE outbox SET body = x'' WHERE settled < ? AND length(body) > 0`, []any{now.Add(-bodiesKept).UnixMilli()}, nil)
	})
	if err != nil {
		return Posted{}, false, err
	}
	return p, fresh, nil
}

// checkLetter refuses what could not be handed on.
func checkLetter(l *Letter) error {
	switch {
	case l.ID == "":
		return &LetterError{Fault: "it has no identity"}
	case l.To == "", l.From == "", l.Kind == "":
		return &LetterError{ID: l.ID, Fault: "it lacks recipient, sender or kind"}
	case !l.Day.Exists():
		return &LetterError{ID: l.ID, Fault: "its day does not exist"}
	case len(l.Body) == 0:
		return &LetterError{ID: l.ID, Fault: "it is empty"}
	case len(l.Body) > mostLetter:
		return &LetterError{ID: l.ID, Fault: "it is larger than 10 MiB"}
	}
	for _, text := range []string{l.ID, l.To, l.From, l.Kind} {
		if !utf8.ValidString(text) || strings.ContainsFunc(text, func(r rune) bool { return r < ' ' || r == 0x7f }) {
			return &LetterError{ID: l.ID, Fault: "its identity, recipient, sender or kind holds signs that are no text"}
		}
	}
	return nil
}

// columns are those that letters reads, in its order.
const columns = `id, recipient, sender, kind, day, body, copy, state, made, since, tries, began, next, settled, fault, hint`

// letters gives those that the rest of a query chooses.
func (s *Store) letters(rest string, args ...any) (out []Posted, err error) {
	err = query(s.db, `SELECT `+columns+` FROM outbox `+rest, args, func(row *sqlite3.Stmt) error {
		p := Posted{
			Letter: Letter{ID: row.ColumnText(0), To: row.ColumnText(1), From: row.ColumnText(2), Kind: row.ColumnText(3), Body: row.ColumnBlob(5, nil)},
			Copy:   row.ColumnInt(6), State: LetterState(row.ColumnText(7)), Made: instant(row, 8), Since: instant(row, 9),
			Tries: row.ColumnInt(10), Began: instant(row, 11), Next: instant(row, 12), Settled: instant(row, 13),
			Fault: row.ColumnText(14), Hint: row.ColumnText(15),
		}
		if err := p.Day.UnmarshalText([]byte(row.ColumnText(4))); err != nil {
			return &DamagedError{Path: s.path, What: "a letter of the outbox cannot be read", Err: err}
		}
		out = append(out, p)
		return nil
	})
	return out, err
}

// instant gives a time, zero for none.
func instant(row *sqlite3.Stmt, column int) time.Time {
	if row.ColumnType(column) == sqlite3.NULL {
		return time.Time{}
	}
	return fromMilli(row.ColumnInt64(column))
}

// Letters gives the outbox, oldest first: those that may still be tried, or all.
func (s *Store) Letters(ctx context.Context, all bool) (out []Posted, err error) {
	rest := `WHERE state IN ('waiting', 'trying') ORDER BY seq`
	if all {
		rest = `ORDER BY seq`
	}
	err = s.read(ctx, func() error {
		out, err = s.letters(rest)
		return err
	})
	return out, err
}

// LettersOf gives the letters of a kind, recipient and day, in the order in which
// they were asked for.
func (s *Store) LettersOf(ctx context.Context, kind, recipient string, day forecast.Date) (out []Posted, err error) {
	err = s.read(ctx, func() error {
		out, err = s.letters(`WHERE kind = ? AND recipient = ? AND day = ? ORDER BY copy`, kind, recipient, day.String())
		return err
	})
	return out, err
}

// LettersLost gives the letters that were refused or given up since an instant and
// are not waiting again, oldest first.
func (s *Store) LettersLost(ctx context.Context, since time.Time) (out []Posted, err error) {
	err = s.read(ctx, func() error {
		out, err = s.letters(`WHERE state IN ('refused', 'expired') AND settled >= ? ORDER BY settled, seq`, since.UnixMilli())
		return err
	})
	return out, err
}

// LetterError tells why a letter cannot be kept.
type LetterError struct {
	ID    string // "" without one
	Fault string
}

func (e *LetterError) Error() string {
	if e.ID == "" {
		return "the letter cannot be kept: " + e.Fault
	}
	return fmt.Sprintf("the letter %s cannot be kept: %s", e.ID, e.Fault)
}

// Hint tells the remedy.
func (e *LetterError) Hint() string {
	return "nothing was kept; `dawnbrush outbox --all` lists the letters there are"
}
