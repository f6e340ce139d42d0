package store_test

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"github.com/ncruces/go-sqlite3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
)

func letter(id, to string) store.Letter {
	return store.Letter{ID: id + "@garden.example", To: to, From: "garden@example.org", Kind: "daily", Day: day, Body: []byte("Subject: " + id + "\r\n\r\nbrush at dawn\r\n")}
}

func post(t *testing.T, s *store.Store, l store.Letter) store.Posted {
	t.Helper()
	p, fresh, err := s.Post(context.Background(), l, false)
	require.NoError(t, err)
	require.True(t, fresh)
	return p
}

// turn is how long a try of these tests may last.
const turn = 5 * time.Minute

// One letter of a kind, recipient and day; a further one only when it is asked for,
// under another identity.
func TestOneLetterADay(t *testing.T) {
	ctx, s := context.Background(), fresh(t)
	first := post(t, s, letter("a", "ann@example.org"))
	assert.Equal(t, store.LetterWaiting, first.State)

	other := letter("b", "ann@example.org")
	p, fresh, err := s.Post(ctx, other, false)
	require.NoError(t, err)
	assert.False(t, fresh)
	assert.Equal(t, first, p, "the letter that was there, as it was kept")

	p, fresh, err = s.Post(ctx, other, true)
	require.NoError(t, err)
	assert.True(t, fresh)
	assert.Equal(t, 1, p.Copy)

	var fault *store.LetterError
	_, _, err = s.Post(ctx, other, true)
	require.ErrorAs(t, err, &fault)
	assert.Contains(t, err.Error(), "another letter of this identity")

	post(t, s, letter("c", "bob@example.org"))
	weekly := letter("d", "ann@example.org")
	weekly.Kind = "weekly"
	post(t, s, weekly)
	tomorrow := letter("e", "ann@example.org")
	tomorrow.Day = day.AddDays(1)
	post(t, s, tomorrow)
	list, err := s.Letters(ctx, false)
	require.NoError(t, err)
	assert.Len(t, list, 5)
	of, err := s.LettersOf(ctx, "daily", "ann@example.org", day)
	require.NoError(t, err)
	require.Len(t, of, 2)
	assert.Equal(t, first.Letter, of[0].Letter)
}

// What could not be handed on is not kept.
func TestLettersThatCannotBeKept(t *testing.T) {
	s := fresh(t)
	for name, spoil := range map[string]func(*store.Letter){
		"no identity":  func(l *store.Letter) { l.ID = "" },
		"no recipient": func(l *store.Letter) { l.To = "" },
		"line break":   func(l *store.Letter) { l.To = "a@example.org\r\nBcc: b@example.org" },
		"no day":       func(l *store.Letter) { l.Day = forecast.Date{} },
		"empty":        func(l *store.Letter) { l.Body = nil },
		"huge":         func(l *store.Letter) { l.Body = make([]byte, 10<<20+1) },
	} {
		l := letter("a", "ann@example.org")
		spoil(&l)
		var fault *store.LetterError
		_, _, err := s.Post(context.Background(), l, false)
		require.ErrorAs(t, err, &fault, name)
		assert.NotEmpty(t, fault.Hint())
	}
	list, err := s.Letters(context.Background(), true)
	require.NoError(t, err)
	assert.Empty(t, list)
}

// A letter in one process's hand is nobody else's until its turn is over; a late
// answer of the first gives way to the second unless it says that it was sent.
func TestTurns(t *testing.T) {
	ctx, s := context.Background(), fresh(t)
	posted := post(t, s, letter("a", "ann@example.org"))
	now := posted.Next
	due := func(at time.Time) int {
		list, err := s.LettersDue(ctx, at, turn)
		require.NoError(t, err)
		return len(list)
	}
	assert.Equal(t, 0, due(now.Add(-time.Second)))
	require.Equal(t, 1, due(now))
	first, ok, err := s.TakeLetter(ctx, posted.ID, now, turn)
	require.NoError(t, err)
	require.True(t, ok)
	assert.Equal(t, 1, first.Tries)
	assert.Equal(t, posted.Body, first.Body)
	_, ok, err = s.TakeLetter(ctx, posted.ID, now.Add(turn-time.Second), turn)
	require.NoError(t, err)
	assert.False(t, ok)
	assert.Equal(t, 0, due(now.Add(turn-time.Second)))

	second, ok, err := s.TakeLetter(ctx, posted.ID, now.Add(turn), turn)
	require.NoError(t, err)
	require.True(t, ok, "the first one's process is gone")
	require.NoError(t, s.SettleLetter(ctx, first, store.Verdict{State: store.LetterRefused, At: now.Add(turn), Fault: "late"}))
	list, err := s.Letters(ctx, false)
	require.NoError(t, err)
	require.Len(t, list, 1, "the second try is still under way")
	require.NoError(t, s.SettleLetter(ctx, first, store.Verdict{State: store.LetterSent, At: now.Add(turn)}))
	require.NoError(t, s.SettleLetter(ctx, second, store.Verdict{State: store.LetterWaiting, Next: now.Add(time.Hour), Fault: "busy"}))
	list, err = s.Letters(ctx, true)
	require.NoError(t, err)
	assert.Equal(t, store.LetterSent, list[0].State, "what was sent stays sent")
}

// A clock that was wrong once does not hold a letter up for ever.
func TestLettersOfAWrongClock(t *testing.T) {
	ctx, s := context.Background(), fresh(t)
	p := post(t, s, letter("a", "ann@example.org"))
	ahead := p.Next.AddDate(3, 0, 0)
	taken, ok, err := s.TakeLetter(ctx, p.ID, ahead, turn)
	require.NoError(t, err)
	require.True(t, ok)
	list, err := s.LettersDue(ctx, p.Next, turn)
	require.NoError(t, err)
	assert.Len(t, list, 1, "a try that begins in three years")
	require.NoError(t, s.SettleLetter(ctx, taken, store.Verdict{State: store.LetterWaiting, Next: ahead}))
	list, err = s.LettersDue(ctx, p.Next, turn)
	require.NoError(t, err)
	assert.Len(t, list, 1, "a next try in three years")
}

// What was refused or given up is told of, can be tried anew or let go.
func TestRetryAndDrop(t *testing.T) {
	ctx, s := context.Background(), fresh(t)
	p := post(t, s, letter("a", "ann@example.org"))
	now := p.Next
	taken, _, err := s.TakeLetter(ctx, p.ID, now, turn)
	require.NoError(t, err)
	require.NoError(t, s.SettleLetter(ctx, taken, store.Verdict{State: store.LetterRefused, At: now, Fault: "no such mailbox", Hint: "mend the address"}))
	lost, err := s.LettersLost(ctx, now)
	require.NoError(t, err)
	require.Len(t, lost, 1)
	assert.Equal(t, "no such mailbox", lost[0].Fault)
	lost, err = s.LettersLost(ctx, now.Add(time.Second))
	require.NoError(t, err)
	assert.Empty(t, lost)

	again, err := s.RetryLetter(ctx, p.ID, now.Add(time.Hour))
	require.NoError(t, err)
	assert.Equal(t, store.LetterWaiting, again.State)
	list, err := s.LettersDue(ctx, now.Add(time.Hour), turn)
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, now.Add(time.Hour), list[0].Since)
	assert.True(t, list[0].Settled.IsZero())

	_, err = s.DropLetter(ctx, p.ID, now.Add(2*time.Hour))
	require.NoError(t, err)
	var settled *store.LetterSettledError
	_, err = s.DropLetter(ctx, p.ID, now)
	require.ErrorAs(t, err, &settled)
	var unknown *store.UnknownLetterError
	_, err = s.RetryLetter(ctx, "none", now)
	require.ErrorAs(t, err, &unknown)
	_, fresh, err := s.Post(ctx, letter("b", "ann@example.org"), false)
	require.NoError(t, err)
	assert.False(t, fresh, "a dropped one was that day's")
}

// The texts of letters long settled are let go, their rows stay.
func TestOldBodiesGo(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "garden.db")
	s := open(t, path)
	p := post(t, s, letter("a", "ann@example.org"))
	require.NoError(t, s.SettleLetter(ctx, p, store.Verdict{State: store.LetterSent, At: p.Made}))
	waiting := post(t, s, letter("b", "bob@example.org"))
	later, err := store.Open(ctx, path, store.Options{Now: func() time.Time { return p.Made.AddDate(0, 0, 31) }})
	require.NoError(t, err)
	defer later.Close()
	next := letter("c", "ann@example.org")
	next.Day = day.AddDays(31)
	post(t, later, next)
	list, err := s.Letters(ctx, true)
	require.NoError(t, err)
	require.Len(t, list, 3)
	assert.Empty(t, list[0].Body)
	assert.Equal(t, waiting.Body, list[1].Body, "one that waits keeps its text")
	var settled *store.LetterSettledError
	_, err = s.RetryLetter(ctx, p.ID, p.Made)
	require.ErrorAs(t, err, &settled)

	db, err := sqlite3.Open(path)
	require.NoError(t, err)
	defer db.Close()
	assert.ErrorContains(t, db.Exec(`DELETE FROM outbox`), "letters are never deleted")
}

// A disk that fills up while letters are posted: the one that finds no room says so,
// those before it stay, and none is half kept.
func TestOutboxFull(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "garden.db")
	s, err := store.Open(ctx, path, store.Options{Now: clock(), MaxPages: 60})
	require.NoError(t, err)
	defer s.Close()
	kept := 0
	for {
		l := letter(fmt.Sprint(kept), fmt.Sprintf("g%d@example.org", kept))
		l.Body = append(l.Body, make([]byte, 9000)...)
		_, _, err := s.Post(ctx, l, false)
		if err != nil {
			var full *store.FullError
			require.ErrorAs(t, err, &full)
			assert.NotEmpty(t, full.Hint())
			break
		}
		kept++
		require.Less(t, kept, 1000)
	}
	require.NotZero(t, kept)
	list, err := s.Letters(ctx, false)
	require.NoError(t, err)
	assert.Len(t, list, kept)
	faults, err := s.Check(ctx)
	require.NoError(t, err)
	assert.Empty(t, faults)
}
