package outbox

import (
	"fmt"
	"strings"
	"time"

	"dawnbrush/cmd/dawnbrush/store"
)

// Undelivered tells of letters that were not handed on.
type Undelivered struct {
	Lines []string // one a letter
	hint  string
}

func (e *Undelivered) Error() string { return strings.Join(e.Lines, "; ") }

// Hint tells the first remedy there is.
func (e *Undelivered) Hint() string { return e.hint }

// Err gives an error when a letter was not handed on, nil when all were. Times are
// told in zone.
func (r Report) Err(zone *time.Location) error {
	out := &Undelivered{}
	for _, t := range r.Tried {
		if t.State == store.LetterSent {
			continue
		}
		out.Lines = append(out.Lines, t.line(zone))
		if out.hint == "" {
			out.hint = t.Hint
		}
	}
	switch {
	case r.Held == 1:
		out.Lines = append(out.Lines, "another letter waits for the same reason")
	case r.Held > 1:
		out.Lines = append(out.Lines, fmt.Sprintf("%d other letters wait for the same reason", r.Held))
	}
	if len(out.Lines) == 0 {
		return nil
	}
	return out
}

// line says what became of a letter that was not sent.
func (t Tried) line(zone *time.Location) string {
	about := fmt.Sprintf("the %s letter of %s to %s", t.Letter.Kind, t.Letter.Day, t.Letter.To)
	switch t.State {
	case store.LetterRefused:
		return about + " was refused: " + t.Fault
	case store.LetterExpired:
		return about + " was given up: " + t.Fault
	}
	return about + " waits until " + t.Next.In(zone).Format("2006-01-02 15:04") + ": " + t.Fault
}
