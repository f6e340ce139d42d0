package outbox_test

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/outbox"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
)

var (
	day     = forecast.Date{Year: 2026, Month: 7, Day: 16}
	morning = time.Date(2026, 7, 16, 5, 0, 0, 0, time.UTC)
)

// watch is a clock that tests set.
type watch struct{ at time.Time }

func (w *watch) now() time.Time          { return w.at }
func (w *watch) forward(d time.Duration) { w.at = w.at.Add(d) }

func memory(t *testing.T, w *watch) *store.Store {
	t.Helper()
	return opened(t, filepath.Join(t.TempDir(), "garden.db"), w)
}

func opened(t *testing.T, path string, w *watch) *store.Store {
	t.Helper()
	s, err := store.Open(context.Background(), path, store.Options{Now: w.now})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	return s
}

// text is a message with what trips careless senders: a line that begins with a
// dot, one that begins with "From ", and a letter that is not ASCII.
const text = "From: Garden <garden@example.org>\r\nTo: ann@example.org\r\nMessage-ID: <a@garden.example>\r\nSubject: brush at dawn\r\n" +
	"MIME-Version: 1.0\r\nContent-Type: text/plain; charset=utf-8\r\nContent-Transfer-Encoding: 8bit\r\n\r\n" +
	".5 in 10 by bees\r\nFrom 06:30 brush the cucumbers, 31 °C at noon\r\n.\r\n"

func letter(id, to string) store.Letter {
	return store.Letter{ID: id + "@garden.example", To: to, From: "Garden <garden@example.org>", Kind: "daily", Day: day, Body: []byte(text)}
}

func post(t *testing.T, s *store.Store, l store.Letter) store.Posted {
	t.Helper()
	p, fresh, err := s.Post(context.Background(), l, false)
	require.NoError(t, err)
	require.True(t, fresh)
	return p
}

func try(h outbox.Hook) outbox.Outcome {
	return h.Send(context.Background(), letter("a", "ann@example.org"), morning)
}

// states gives what the outbox says of each recipient.
func states(t *testing.T, s *store.Store) map[string]store.LetterState {
	t.Helper()
	list, err := s.Letters(context.Background(), true)
	require.NoError(t, err)
	out := map[string]store.LetterState{}
	for _, p := range list {
		out[p.To] = p.State
	}
	return out
}

// answers is a hook that gives what it is told, and counts.
type answers struct {
	to    func(l store.Letter) outbox.Outcome
	asked []string
}

func (a *answers) Send(_ context.Context, l store.Letter, _ time.Time) outbox.Outcome {
	a.asked = append(a.asked, l.To)
	return a.to(l)
}

func deliver(t *testing.T, s *store.Store, h outbox.Hook, w *watch) outbox.Report {
	t.Helper()
	r, err := outbox.Deliver(context.Background(), s, h, w.now)
	require.NoError(t, err)
	return r
}

func put(result outbox.Result, fault string) outbox.Outcome {
	return outbox.Outcome{Result: result, Fault: fault, Hint: "do this"}
}

// Each letter goes its own way: one is sent, one put off, one refused; what was sent
// or refused is not tried again.
func TestEachLetterItsOwnWay(t *testing.T) {
	w := &watch{morning}
	s := memory(t, w)
	for _, who := range []string{"ann", "bob", "cem"} {
		post(t, s, letter(who, who+"@example.org"))
	}
	h := &answers{to: func(l store.Letter) outbox.Outcome {
		return map[string]outbox.Outcome{"ann@example.org": put(outbox.Sent, ""), "bob@example.org": put(outbox.Later, "busy"), "cem@example.org": put(outbox.Refused, "no such mailbox")}[l.To]
	}}
	r := deliver(t, s, h, w)
	err := r.Err(time.UTC)
	require.Error(t, err)
	assert.Equal(t, "the daily letter of 2026-07-16 to bob@example.org waits until 2026-07-16 05:30: busy; "+
		"the daily letter of 2026-07-16 to cem@example.org was refused: no such mailbox", err.Error())
	assert.Equal(t, "do this", err.(interface{ Hint() string }).Hint())
	assert.Equal(t, map[string]store.LetterState{"ann@example.org": store.LetterSent, "bob@example.org": store.LetterWaiting, "cem@example.org": store.LetterRefused}, states(t, s))

	w.forward(29 * time.Minute)
	r = deliver(t, s, h, w)
	assert.Empty(t, r.Tried, "not before half an hour is over (RFC 5321 section 4.5.4.1)")
	assert.NoError(t, r.Err(time.UTC))
	w.forward(time.Minute)
	deliver(t, s, h, w)
	assert.Equal(t, []string{"ann@example.org", "bob@example.org", "cem@example.org", "bob@example.org"}, h.asked)
}

// A fault of the way itself is met once a run, not once a letter.
func TestABlockedWay(t *testing.T) {
	w := &watch{morning}
	s := memory(t, w)
	for _, who := range []string{"ann", "bob", "cem"} {
		post(t, s, letter(who, who+"@example.org"))
	}
	h := &answers{to: func(store.Letter) outbox.Outcome {
		return outbox.Outcome{Result: outbox.Later, Fault: "no network", Way: true}
	}}
	r := deliver(t, s, h, w)
	assert.Len(t, h.asked, 1)
	assert.Equal(t, 2, r.Held)
	assert.ErrorContains(t, r.Err(time.UTC), "no network; 2 other letters wait for the same reason")
	h.to = func(store.Letter) outbox.Outcome { return put(outbox.Sent, "") }
	deliver(t, s, h, w)
	w.forward(time.Hour)
	deliver(t, s, h, w)
	for who, state := range states(t, s) {
		assert.Equal(t, store.LetterSent, state, who)
	}
	assert.Len(t, h.asked, 4)
}

// The wait doubles from half an hour to three hours; a daily letter is given up
// within a day of being put in, a weekly one within three.
func TestBackOffAndGivingUp(t *testing.T) {
	for kind, age := range map[string]time.Duration{"daily": 24 * time.Hour, "weekly": 72 * time.Hour} {
		t.Run(kind, func(t *testing.T) {
			w := &watch{morning}
			s := memory(t, w)
			l := letter("a", "ann@example.org")
			l.Kind = kind
			post(t, s, l)
			var at []time.Duration
			h := &answers{to: func(store.Letter) outbox.Outcome {
				at = append(at, w.at.Sub(morning))
				return put(outbox.Later, "busy")
			}}
			for range int(4*24*time.Hour/(10*time.Minute)) + 1 { // a run every ten minutes
				deliver(t, s, h, w)
				w.forward(10 * time.Minute)
			}
			require.GreaterOrEqual(t, len(at), 5)
			assert.Equal(t, []time.Duration{0, 30 * time.Minute, 90 * time.Minute, 210 * time.Minute, 390 * time.Minute}, at[:5])
			for i := 5; i < len(at); i++ {
				assert.Equal(t, 3*time.Hour, at[i]-at[i-1])
			}
			assert.Less(t, at[len(at)-1], age)
			assert.Greater(t, at[len(at)-1], age-4*time.Hour)
			lost, err := s.LettersLost(context.Background(), morning)
			require.NoError(t, err)
			require.Len(t, lost, 1)
			assert.Equal(t, store.LetterExpired, lost[0].State)
			assert.Equal(t, "busy", lost[0].Fault)
		})
	}
}

// A letter that nobody tried in time is let go without a try: an old plan misleads.
func TestTooOldToTry(t *testing.T) {
	w := &watch{morning}
	s := memory(t, w)
	post(t, s, letter("a", "ann@example.org"))
	w.forward(25 * time.Hour)
	h := &answers{to: func(store.Letter) outbox.Outcome { return put(outbox.Sent, "") }}
	r := deliver(t, s, h, w)
	assert.Empty(t, h.asked)
	assert.ErrorContains(t, r.Err(time.UTC), "was given up: it could not be tried in time")

	_, err := s.RetryLetter(context.Background(), "a@garden.example", w.at)
	require.NoError(t, err)
	deliver(t, s, h, w)
	assert.Equal(t, []string{"ann@example.org"}, h.asked, "asked for by the grower it is tried")
}

// A wait that the other side asks for is kept, up to a day.
func TestWaitsThatAreAskedFor(t *testing.T) {
	w := &watch{morning}
	s := memory(t, w)
	post(t, s, letter("a", "ann@example.org"))
	h := &answers{to: func(store.Letter) outbox.Outcome {
		return outbox.Outcome{Result: outbox.Later, Fault: "busy", After: 5 * time.Hour}
	}}
	r := deliver(t, s, h, w)
	require.Len(t, r.Tried, 1)
	assert.Equal(t, morning.Add(5*time.Hour), r.Tried[0].Next)
}

// A process that ended in the middle leaves the letter, which is tried again after
// its turn under the same identity.
func TestLeftOnItsWay(t *testing.T) {
	w := &watch{morning}
	s := memory(t, w)
	p := post(t, s, letter("a", "ann@example.org"))
	_, ok, err := s.TakeLetter(context.Background(), p.ID, w.at, 15*time.Minute)
	require.NoError(t, err)
	require.True(t, ok)
	h := &answers{to: func(l store.Letter) outbox.Outcome {
		assert.Equal(t, p.Letter, l)
		return put(outbox.Sent, "")
	}}
	w.forward(14 * time.Minute)
	deliver(t, s, h, w)
	assert.Empty(t, h.asked)
	w.forward(time.Minute)
	deliver(t, s, h, w)
	assert.Len(t, h.asked, 1)
}

// An interruption ends the run after the letter in hand, whose end is noted.
func TestInterrupted(t *testing.T) {
	w := &watch{morning}
	s := memory(t, w)
	post(t, s, letter("a", "ann@example.org"))
	post(t, s, letter("b", "bob@example.org"))
	ctx, cancel := context.WithCancel(context.Background())
	h := &answers{to: func(store.Letter) outbox.Outcome { cancel(); return put(outbox.Sent, "") }}
	_, err := outbox.Deliver(ctx, s, h, w.now)
	require.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, map[string]store.LetterState{"ann@example.org": store.LetterSent, "bob@example.org": store.LetterWaiting}, states(t, s))
}

// No room on the disk: before a try nothing is sent; after one the error says that it
// was, and the letter is tried again when there is room.
func TestNoRoomToNote(t *testing.T) {
	w := &watch{morning}
	s := memory(t, w)
	post(t, s, letter("a", "ann@example.org"))
	asked := 0
	closing := &answers{to: func(store.Letter) outbox.Outcome {
		asked++
		require.NoError(t, s.Close()) // whatever keeps it from being written
		return put(outbox.Sent, "")
	}}
	path := s.Path()
	_, err := outbox.Deliver(context.Background(), s, closing, w.now)
	var unnoted *outbox.UnnotedError
	require.ErrorAs(t, err, &unnoted)
	assert.True(t, unnoted.Sent)
	assert.Contains(t, err.Error(), "was handed on, but that could not be noted")
	assert.Contains(t, unnoted.Hint(), "second time, with the same Message-ID")
	_, err = outbox.Deliver(context.Background(), s, closing, w.now)
	require.Error(t, err)
	assert.Equal(t, 1, asked, "nothing is sent when a try cannot be noted")
	again := opened(t, path, w)
	assert.Equal(t, store.LetterTrying, states(t, again)["ann@example.org"])
}
