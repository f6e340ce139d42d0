//go:build unix

package store_test

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
)

// The test binary is also the other process: a writer that says on stdout what
// it was told is kept.
const childVariable = "DAWNBRUSH_STORE_CHILD"

func TestMain(m *testing.M) {
	if what := os.Getenv(childVariable); what != "" {
		os.Exit(child(what, os.Args[1], os.Args[2]))
	}
	os.Exit(m.Run())
}

// child writes entries, forecasts and measured hours to path. It says "kept ID"
// after each entry, and the error that ends it.
func child(what, path, count string) int {
	switch what {
	case "readonly":
		if os.Getuid() == 0 {
			if err := syscall.Setuid(65534); err != nil { // root may write anywhere
				fmt.Println("setuid:", err)
				return 3
			}
		}
	case "full":
		signal.Ignore(syscall.SIGXFSZ)
	}
	s, err := store.Open(context.Background(), path, store.Options{Now: time.Now})
	if err != nil {
		fmt.Println("error", typeOf(err), err)
		return 1
	}
	if what == "full" {
		info, err := os.Stat(path)
		if err != nil {
			fmt.Println(err)
			return 3
		}
		limit := uint64(info.Size() + 60_000)
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: limit, Max: limit}); err != nil {
			fmt.Println("setrlimit:", err)
			return 3
		}
	}
	n, _ := strconv.Atoi(count)
	for i := 0; n == 0 || i < n; i++ {
		if err := childStep(s, i); err != nil {
			fmt.Println("error", typeOf(err), err)
			if _, err := s.All(context.Background()); err != nil {
				fmt.Println("afterwards:", err)
				return 3
			}
			return 1
		}
	}
	return 0
}

func childStep(s *store.Store, i int) error {
	ctx := context.Background()
	e, err := s.AddEntry(ctx, remark(strconv.Itoa(os.Getpid())+" "+strings.Repeat("x", rand.IntN(2000))))
	if err != nil {
		return err
	}
	fmt.Println("kept", e.ID)
	now := time.Now().UTC().Truncate(time.Hour)
	switch i % 4 {
	case 1:
		_, err = s.KeepForecast(ctx, issued(now.Add(time.Duration(rand.IntN(1e6))*time.Second), 48))
	case 2:
		obs := forecast.New(now.Add(-30*time.Hour), now.Add(-2*time.Hour))
		for k := range obs.Hours {
			obs.Hours[k].Temp, obs.Hours[k].Origin = forecast.Known(float64(rand.IntN(30))), forecast.OriginObserved
		}
		_, _, err = s.KeepObserved(ctx, obs, store.Station)
	case 3:
		if e, err = s.Amend(ctx, e.ID, remark("amended")); err == nil {
			fmt.Println("kept", e.ID)
		}
	}
	return err
}

func typeOf(err error) string {
	var full *store.FullError
	var access *store.AccessError
	var busy *store.BusyError
	switch {
	case errors.As(err, &full):
		return "full"
	case errors.As(err, &access):
		return "access"
	case errors.As(err, &busy):
		return "busy"
	}
	return fmt.Sprintf("%T", err)
}

func start(t *testing.T, what, path string, count int) (*exec.Cmd, *bufio.Scanner) {
	t.Helper()
	c := exec.Command(os.Args[0], path, strconv.Itoa(count))
	c.Env = append(os.Environ(), childVariable+"="+what)
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	return c, bufio.NewScanner(out)
}

// finish reads all a child says: the entries it was told are kept, and the rest.
func finish(c *exec.Cmd, out *bufio.Scanner) (kept, said []string) {
	for out.Scan() {
		if id, ok := strings.CutPrefix(out.Text(), "kept "); ok {
			kept = append(kept, id)
		} else {
			said = append(said, out.Text())
		}
	}
	_ = c.Wait() // killed or not, what it said counts
	return kept, said
}

// holds wants every acknowledged entry in a sound file.
func holds(t *testing.T, path string, kept []string) {
	t.Helper()
	s, err := store.Open(context.Background(), path, store.Options{Now: clock()})
	require.NoError(t, err)
	defer s.Close()
	all, err := s.All(context.Background())
	require.NoError(t, err)
	have := map[string]bool{}
	for i := range all {
		have[all[i].ID] = true
	}
	for _, id := range kept {
		require.True(t, have[id], "the acknowledged entry %s is gone", id)
	}
	faults, err := s.Check(context.Background())
	require.NoError(t, err)
	require.Empty(t, faults)
}

// A process killed at any moment, also while it makes the file, loses nothing it
// had acknowledged. DAWNBRUSH_HEAVY=1 kills 1,000; DAWNBRUSH_SEED repeats a run.
func TestKilledAtRandomMoments(t *testing.T) {
	kills, seed := 60, rand.Uint64()
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
	// The kills fall in twice the time that a start and some entries take here, for
	// machines, and programs built to look for races, differ tenfold.
	began := time.Now()
	c, out := start(t, "write", filepath.Join(t.TempDir(), "garden.db"), 10)
	whole, _ := finish(c, out)
	require.NotEmpty(t, whole)
	span := int64(2 * time.Since(began))
	if span > int64(500*time.Millisecond) {
		kills = min(kills, 12) // a start takes a second when looking for races, and the children are not looked at
		t.Logf("slow starts: %d kills only", kills)
	}
	path, made := "", 0
	var kept []string
	acknowledged := 0
	for i := range kills {
		if i%20 == 0 || i%3 == 0 && i < kills/2 { // a new file: killed while it is made
			path, kept = filepath.Join(t.TempDir(), "garden.db"), nil
		}
		c, out := start(t, "write", path, 0)
		kill := time.AfterFunc(time.Duration(r.Int64N(span)), func() { _ = c.Process.Kill() })
		more, said := finish(c, out)
		kill.Stop()
		require.Empty(t, said)
		kept, acknowledged = append(kept, more...), acknowledged+len(more)
		if _, err := os.Stat(path); err == nil {
			holds(t, path, kept)
			made++
		} else {
			require.Empty(t, kept, "there is no file")
		}
	}
	t.Logf("%d entries acknowledged, all there; in %d rounds the file stood", acknowledged, made)
	require.Greater(t, acknowledged, kills/2, "the kills came too early to prove anything")
}

// Writers take turns, a reader sees each entry whole, and nobody is turned away.
func TestSeveralProcessesAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	const writers, each = 3, 40
	var kept []string
	done := make(chan []string)
	for range writers { // none has made the file yet: they race for that too
		c, out := start(t, "write", path, each)
		go func() {
			ids, said := finish(c, out)
			assert.Empty(t, said)
			done <- ids
		}()
	}
	seen := 0
	for n := 0; n < writers; {
		select {
		case ids := <-done:
			kept = append(kept, ids...)
			n++
		default:
			if s, err := store.Open(context.Background(), path, store.Options{ReadOnly: true}); err == nil {
				all, err := s.All(context.Background())
				assert.NoError(t, err)
				assert.GreaterOrEqual(t, len(all), seen, "entries never vanish")
				seen = len(all)
				assert.NoError(t, s.Close())
			}
			runtime.Gosched()
		}
	}
	assert.Len(t, kept, writers*each*5/4, "one in four is amended")
	holds(t, path, kept)
}

// A disk that fills up: the write that finds no room says so, and all before it
// stays. The limit is the kernel's own on a file's size.
func TestFullDisk(t *testing.T) {
	path := filepath.Join(t.TempDir(), "garden.db")
	open(t, path)
	c, out := start(t, "full", path, 0)
	kept, said := finish(c, out)
	require.Len(t, said, 1, "%v", said)
	assert.Contains(t, said[0], "error full there is no room to write the garden's memory")
	assert.NotEmpty(t, kept)
	holds(t, path, kept)
}

func TestFullFile(t *testing.T) {
	ctx := context.Background()
	path := filepath.Join(t.TempDir(), "garden.db")
	s, err := store.Open(ctx, path, store.Options{Now: clock(), MaxPages: 40})
	require.NoError(t, err)
	defer s.Close()
	var kept []string
	for {
		e, err := s.AddEntry(ctx, remark(strings.Repeat("x", 500)))
		if err != nil {
			var full *store.FullError
			require.ErrorAs(t, err, &full)
			assert.NotEmpty(t, full.Hint())
			break
		}
		kept = append(kept, e.ID)
		require.Less(t, len(kept), 10_000)
	}
	assert.NotEmpty(t, kept)
	require.NoError(t, s.Close())
	holds(t, path, kept)
}

// A folder that may not be written to.
func TestReadOnlyFolder(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Chmod(filepath.Dir(dir), 0o755))
	inside := filepath.Join(dir, "memory")
	require.NoError(t, os.Mkdir(inside, 0o755))
	path := filepath.Join(inside, "garden.db")
	open(t, path)
	require.NoError(t, os.Chmod(path, 0o644))
	require.NoError(t, os.Chmod(inside, 0o555))
	t.Cleanup(func() { _ = os.Chmod(inside, 0o755) })
	for _, p := range []string{path, filepath.Join(inside, "new.db"), filepath.Join(inside, "deeper", "new.db")} {
		c, out := start(t, "readonly", p, 1)
		kept, said := finish(c, out)
		assert.Empty(t, kept)
		require.Len(t, said, 1)
		assert.Contains(t, said[0], "error access cannot use the garden's memory "+p)
	}
}
