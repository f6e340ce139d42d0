//go:build unix

package outbox_test

import (
	"bufio"
	"bytes"
	"context"
	"crypto/x509"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/outbox"
	"dawnbrush/cmd/dawnbrush/store"
)

// The test binary is also the other process: one that posts letters, hands them on
// to the mail server of the test, and is killed.
const childVariable = "DAWNBRUSH_OUTBOX_CHILD"

func TestMain(m *testing.M) {
	if how := os.Getenv(childVariable); how != "" {
		os.Exit(child(how))
	}
	os.Exit(m.Run())
}

// errand is what a child has to do.
type errand struct {
	Path  string
	Port  int
	Roots []byte // the server's certificate
	Now   time.Time
	Round int
	Count int    // letters to post
	Dies  string // "posted", "taken", "accepted", "settled", or "" for not by itself
}

// child says "kept ID" after each letter that it was told is kept.
func child(how string) int {
	var e errand
	if err := json.Unmarshal([]byte(how), &e); err != nil {
		fmt.Println(err)
		return 3
	}
	began := time.Now()
	now := func() time.Time { return e.Now.Add(time.Since(began)) }
	s, err := store.Open(context.Background(), e.Path, store.Options{Now: now})
	if err != nil {
		fmt.Println("error", err)
		return 1
	}
	for i := range e.Count {
		p, _, err := s.Post(context.Background(), numbered(e.Round, i), false)
		if err != nil {
			fmt.Println("error", err)
			return 1
		}
		fmt.Println("kept", p.ID)
	}
	if e.Dies == "posted" {
		die()
	}
	_, err = outbox.Deliver(context.Background(), s, mortal{e.hook(), e.Dies}, now)
	if e.Dies == "settled" {
		die()
	}
	if err != nil {
		fmt.Println("error", err)
		return 1
	}
	fmt.Println("done")
	return 0
}

func (e errand) hook() outbox.SMTP {
	roots := x509.NewCertPool()
	roots.AppendCertsFromPEM(e.Roots)
	return outbox.SMTP{Server: "127.0.0.1", Port: e.Port, Security: outbox.TLS, Roots: roots, Timeout: 20 * time.Second}
}

// die ends the process as kill -9 does.
func die() {
	_ = syscall.Kill(os.Getpid(), syscall.SIGKILL)
	select {}
}

// mortal is a hook that dies before or after the try.
type mortal struct {
	outbox.Hook
	dies string
}

func (m mortal) Send(ctx context.Context, l store.Letter, now time.Time) outbox.Outcome {
	if m.dies == "taken" {
		die()
	}
	o := m.Hook.Send(ctx, l, now)
	if m.dies == "accepted" {
		die()
	}
	return o
}

func numbered(round, i int) store.Letter {
	id := fmt.Sprintf("r%d-%d", round, i)
	l := letter(id, id+"@example.org")
	l.Body = []byte(strings.Replace(text, "<a@garden.example>", "<"+l.ID+">", 1))
	return l
}

func (e errand) start(t *testing.T) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	how, err := json.Marshal(e)
	require.NoError(t, err)
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), childVariable+"="+string(how))
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	return c, bufio.NewScanner(out)
}

// finish gives what a child was told is kept and whether it came to its end.
func finish(t *testing.T, c *exec.Cmd, out *bufio.Scanner) (kept []string, done bool) {
	t.Helper()
	for out.Scan() {
		id, ok := strings.CutPrefix(out.Text(), "kept ")
		switch {
		case ok:
			kept = append(kept, id)
		case out.Text() == "done":
			done = true
		default:
			t.Error(out.Text())
		}
	}
	_ = c.Wait() // killed or not, what it said counts
	return kept, done
}

// postOffice opens an office and gives an errand that goes there.
func postOffice(t *testing.T) (*office, errand) {
	t.Helper()
	o := &office{}
	h, pem := o.startPEM(t, outbox.TLS)
	return o, errand{Path: filepath.Join(t.TempDir(), "garden.db"), Port: h.Port, Roots: pem, Now: morning}
}

// arrived counts the letters of each recipient that the office took.
func arrived(t *testing.T, o *office) map[string]int {
	t.Helper()
	out := map[string]int{}
	for _, e := range o.all() {
		out[e.to]++
		id := []byte("Message-ID: <" + strings.Replace(e.to, "@example.org", "@garden.example", 1) + ">\r\n")
		assert.Equal(t, 1, bytes.Count(e.body, id), "doubles have the same identity")
		assert.Equal(t, len(text)-len("<a@garden.example>")+len(id)-len("Message-ID: \r\n"), len(e.body), "and are whole")
	}
	return out
}

// Killed between any two steps nothing is lost. The one double comes of the kill
// between the server's acceptance and our note of it.
func TestKilledBetweenSteps(t *testing.T) {
	for dies, copies := range map[string]int{"posted": 1, "taken": 1, "accepted": 2, "settled": 1} {
		t.Run(dies, func(t *testing.T) {
			o, e := postOffice(t)
			e.Count, e.Dies = 1, dies
			c, out := e.start(t)
			kept, done := finish(t, c, out)
			require.Equal(t, []string{"r0-0@garden.example"}, kept)
			require.False(t, done)
			w := &watch{morning.Add(20 * time.Minute)}
			s := opened(t, e.Path, w)
			deliver(t, s, e.hook(), w)
			assert.Equal(t, map[string]int{"r0-0@example.org": copies}, arrived(t, o))
			assert.Equal(t, map[string]store.LetterState{"r0-0@example.org": store.LetterSent}, states(t, s))
		})
	}
}

// Killed at any moment, also in the middle of a write or of a word to the server,
// nothing is lost, and each kill makes one double at the most. DAWNBRUSH_HEAVY=1
// kills 1,000; DAWNBRUSH_SEED repeats a run.
func TestLettersKilledAtRandomMoments(t *testing.T) {
	kills, seed := 20, rand.Uint64()
	if os.Getenv("DAWNBRUSH_HEAVY") == "1" {
		kills = 1000
	}
	if s := os.Getenv("DAWNBRUSH_SEED"); s != "" {
		n, err := strconv.ParseUint(s, 10, 64)
		require.NoError(t, err)
		seed = n
	}
	t.Logf("%d kills, DAWNBRUSH_SEED=%d", kills, seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var all tally
	for all.killed < kills {
		all.add(batch(t, r, min(20, kills-all.killed)))
	}
	t.Logf("%d kills: %d letters acknowledged, %d arrived, %d of them twice", all.killed, all.kept, all.arrived, all.doubles)
}

type tally struct{ killed, kept, arrived, doubles int }

func (a *tally) add(b tally) {
	a.killed, a.kept, a.arrived, a.doubles = a.killed+b.killed, a.kept+b.kept, a.arrived+b.arrived, a.doubles+b.doubles
}

// batch kills some times over one file and looks at what came of it. The letters
// that the last one leaves are still young enough to be tried.
func batch(t *testing.T, r *rand.Rand, kills int) (sum tally) {
	o, e := postOffice(t)
	e.Count = 8
	began := time.Now()
	c, out := e.start(t)
	kept, done := finish(t, c, out)
	require.True(t, done)
	span := int64(time.Since(began)) * 5 / 4 // some come to their end, most do not
	for sum.killed < kills {
		// A letter that was left on its way is due again in the next round.
		e.Round, e.Now = e.Round+1, e.Now.Add(20*time.Minute)
		require.Less(t, e.Round, 70, "the kills come too late to prove anything")
		c, out := e.start(t)
		kill := time.AfterFunc(time.Duration(r.Int64N(span)), func() { _ = c.Process.Kill() })
		more, done := finish(t, c, out)
		kill.Stop()
		kept = append(kept, more...)
		switch {
		case done: // too late; the machine was busier when the span was measured
			span = span * 7 / 8
		case len(more) == 0: // early
			span, sum.killed = span*9/8, sum.killed+1
		default:
			sum.killed++
		}
	}
	w := &watch{e.Now.Add(20 * time.Minute)}
	s := opened(t, e.Path, w)
	deliver(t, s, e.hook(), w)
	got := arrived(t, o)
	for _, id := range kept {
		require.NotZero(t, got[strings.Replace(id, "@garden.example", "@example.org", 1)], "%s was kept and never arrived", id)
	}
	list, err := s.Letters(context.Background(), true)
	require.NoError(t, err)
	for _, p := range list {
		require.Equal(t, store.LetterSent, p.State, p.ID)
		require.LessOrEqual(t, got[p.To], p.Tries)
		sum.doubles += got[p.To] - 1
	}
	require.LessOrEqual(t, sum.doubles, sum.killed)
	require.Equal(t, len(list), len(got), "nothing arrived that was not in the outbox")
	faults, err := s.Check(context.Background())
	require.NoError(t, err)
	require.Empty(t, faults)
	sum.kept, sum.arrived = len(kept), len(got)
	return sum
}
