package outbox

import (
	"context"
	"fmt"
	"time"

	"dawnbrush/cmd/dawnbrush/store"
)

const (
	// MostTimeout is the longest that one try may take.
	// [chosen: RFC 5321 section 4.5.3.2.6 gives a server ten minutes to take a message]
	MostTimeout = 10 * time.Minute

	// turn is how long a try belongs to the process that began it. A letter left on its
	// way by a killed one is tried again after that.
	// [chosen: the longest try and half as much again]
	turn = 15 * time.Minute

	// The wait after a try, doubled with each. Half an hour is the least that RFC 5321
	// section 4.5.4.1 asks for; RFC 1123 section 5.3.1.1 goes on to "once every two or
	// three hours".
	firstWait = 30 * time.Minute
	// [chosen: eight tries within the day that a daily letter is good for]
	mostWait = 3 * time.Hour
)

// GiveUpAfter tells how long a letter of a kind is tried for. RFC 5321 section
// 4.5.4.1 has mail servers try for four to five days; a plan is of no use so late.
func GiveUpAfter(kind string) time.Duration {
	if kind == "weekly" {
		return 3 * 24 * time.Hour // [chosen: half of the week it tells of is left then]
	}
	return 24 * time.Hour // [chosen: the next day's letter is there by then]
}

// Report is what a delivery did.
type Report struct {
	Tried []Tried
	Held  int // due letters that were not tried, for the way is at fault
}

// Tried is a letter and what became of it.
type Tried struct {
	Letter store.Posted // as it was when the try began
	State  store.LetterState
	Next   time.Time // of a letter that waits
	Fault  string
	Hint   string
}

// Deliver tries every letter that is due, oldest first, each once. The clock is read
// through now. What became of the letters stands in the report, also when the error
// is not nil: that is one of the store, of the context, or *UnnotedError.
func Deliver(ctx context.Context, box *store.Store, hook Hook, now func() time.Time) (r Report, err error) {
	list, err := box.LettersDue(ctx, now(), turn)
	if err != nil {
		return r, err
	}
	for i, p := range list {
		if ctx.Err() != nil {
			return r, ctx.Err()
		}
		if !now().Before(p.Since.Add(GiveUpAfter(p.Kind))) {
			if err := r.giveUp(ctx, box, p, now()); err != nil {
				return r, err
			}
			continue
		}
		taken, ok, err := box.TakeLetter(ctx, p.ID, now(), turn)
		switch {
		case err != nil:
			return r, err
		case !ok: // another process has it
			continue
		}
		o := hook.Send(ctx, taken.Letter, now())
		v := verdict(taken, o, now())
		if err := box.SettleLetter(context.WithoutCancel(ctx), taken, v); err != nil {
			return r, &UnnotedError{Letter: taken.Letter, Sent: o.Result == Sent, Err: err}
		}
		r.add(taken, v)
		if o.Way {
			r.Held = len(list) - i - 1
			break
		}
	}
	return r, ctx.Err()
}

// giveUp lets go of a letter that waited too long.
func (r *Report) giveUp(ctx context.Context, box *store.Store, p store.Posted, now time.Time) error {
	v := store.Verdict{State: store.LetterExpired, At: now, Fault: p.Fault, Hint: p.Hint}
	if v.Fault == "" {
		v.Fault = "it could not be tried in time"
	}
	if err := box.SettleLetter(ctx, p, v); err != nil {
		return err
	}
	r.add(p, v)
	return nil
}

func (r *Report) add(p store.Posted, v store.Verdict) {
	t := Tried{Letter: p, State: v.State, Fault: v.Fault, Hint: v.Hint}
	if v.State == store.LetterWaiting {
		t.Next = v.Next
	}
	r.Tried = append(r.Tried, t)
}

// verdict is what to note of an outcome. A letter whose next try would come too late
// is given up at once, so that the next plan can say so.
func verdict(p store.Posted, o Outcome, now time.Time) store.Verdict {
	v := store.Verdict{State: store.LetterWaiting, At: now, Fault: o.Fault, Hint: o.Hint}
	switch o.Result {
	case Sent:
		v.State = store.LetterSent
		return v
	case Refused:
		v.State = store.LetterRefused
		return v
	}
	v.Next = now.Add(max(Wait(p.Tries), min(o.After, mostAfter)))
	if !v.Next.Before(p.Since.Add(GiveUpAfter(p.Kind))) {
		v.State = store.LetterExpired
	}
	return v
}

// mostAfter is the longest wait another side can ask for. [chosen: a day, as for a daily letter]
const mostAfter = 24 * time.Hour

// Wait gives the time between a letter's try, counted from 1, and its next.
func Wait(tries int) time.Duration {
	wait := firstWait
	for range min(tries, 10) - 1 {
		wait = min(2*wait, mostWait)
	}
	return wait
}

// UnnotedError tells that a try ended and that the garden's file could not be told.
type UnnotedError struct {
	Letter store.Letter
	Sent   bool
	Err    error
}

func (e *UnnotedError) Error() string {
	if e.Sent {
		return fmt.Sprintf("the letter to %s was handed on, but that could not be noted: %v", e.Letter.To, e.Err)
	}
	return fmt.Sprintf("the letter to %s waits, but that could not be noted: %v", e.Letter.To, e.Err)
}

func (e *UnnotedError) Unwrap() error { return e.Err }

// Hint tells the remedy.
func (e *UnnotedError) Hint() string {
	if !e.Sent {
		return "make room on the disk; the letter is safe and will be tried again"
	}
	return "make room on the disk; until then the letter may come a second time, with the same Message-ID"
}
