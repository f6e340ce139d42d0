package app

import (
	"bytes"
	"context"
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// around makes surroundings out of values.
func around(vars map[string]string, terminals ...any) (Env, *bytes.Buffer, *bytes.Buffer) {
	var out, errs bytes.Buffer
	return Env{In: strings.NewReader(""), Out: &out, Err: &errs, Now: func() time.Time { return time.Date(2026, 7, 16, 9, 0, 0, 0, time.UTC) },
		Getenv: func(name string) string { return vars[name] },
		Terminal: func(stream any) (int, bool) {
			for i := range terminals {
				if terminals[i] == stream {
					return 100, true
				}
			}
			return 0, false
		},
		Context: func() (context.Context, context.CancelFunc) { return context.WithCancel(context.Background()) }}, &out, &errs
}

// The order is flag, NO_COLOR, force, terminal and TERM; each stream is asked
// by itself.
func TestColour(t *testing.T) {
	stream, other := new(bytes.Buffer), new(bytes.Buffer)
	for _, row := range []struct {
		vars    map[string]string
		refused bool
		on      any
		want    bool
	}{
		{nil, false, stream, true},
		{nil, false, other, false},
		{nil, true, stream, false},
		{map[string]string{"NO_COLOR": "1"}, false, stream, false},
		{map[string]string{"NO_COLOR": ""}, false, stream, true},
		{map[string]string{"TERM": "dumb"}, false, stream, false},
		{map[string]string{"CLICOLOR_FORCE": "1"}, false, other, true},
		{map[string]string{"CLICOLOR_FORCE": "0"}, false, other, false},
		{map[string]string{"CLICOLOR_FORCE": "1", "NO_COLOR": "1"}, false, other, false},
		{map[string]string{"CLICOLOR_FORCE": "1"}, true, other, false},
	} {
		env, _, _ := around(row.vars, stream)
		assert.Equal(t, row.want, env.colour(row.on, row.refused), "%v", row)
	}
}

func TestWidth(t *testing.T) {
	env, out, _ := around(nil)
	assert.Zero(t, env.width(), "nobody tells")
	env.Terminal = func(s any) (int, bool) { return 100, s == any(out) }
	assert.Equal(t, 100, env.width())
	env.Getenv = func(name string) string { return map[string]string{"COLUMNS": "132"}[name] }
	assert.Equal(t, 132, env.width())
	env.Getenv = func(string) string { return "-3" }
	assert.Equal(t, 100, env.width())
}

// A panic anywhere ends as code 70 with a request to report it, not as Go's own
// code 2, which is that of wrong usage.
func TestPanicIsABug(t *testing.T) {
	env, out, errs := around(map[string]string{"HOME": t.TempDir()})
	env.Now = func() time.Time { panic("no clock") }
	home := t.TempDir()
	require.NoError(t, writeWhole(home+"/garden.toml", []byte("[place]\nlat = 40\nlon = -74\nzone = \"America/New_York\"\n")))
	assert.Equal(t, exitBug, Main([]string{"today", "-c", home + "/garden.toml"}, env))
	assert.Empty(t, out.String())
	assert.Contains(t, errs.String(), "a fault of dawnbrush itself: no clock")
	assert.Contains(t, errs.String(), "hint: please report it")
	assert.Contains(t, errs.String(), "env_test.go", "the lines that help to find it")
}

type endless struct{ started chan struct{} }

func (e endless) Read([]byte) (int, error) {
	close(e.started)
	select {}
}

// An interrupt ends a run that waits for input.
func TestInterruptWhileReading(t *testing.T) {
	env, _, errs := around(map[string]string{"HOME": t.TempDir()})
	in := endless{make(chan struct{})}
	env.In = in
	ctx, cancel := context.WithCancel(context.Background())
	env.Context = func() (context.Context, context.CancelFunc) { return ctx, cancel }
	file := t.TempDir() + "/garden.toml"
	require.NoError(t, writeWhole(file, []byte("[place]\nlat = 40\nlon = -74\nzone = \"America/New_York\"\n")))
	go func() { <-in.started; cancel() }()
	assert.Equal(t, exitInterrupted, Main([]string{"today", "-c", file, "--from", "-"}, env))
	assert.Contains(t, errs.String(), "interrupted")
}

func TestExplainKeepsCodes(t *testing.T) {
	assert.Equal(t, exitInterrupted, explain(context.Canceled).code)
	assert.Equal(t, exitNoForecast, explain(context.DeadlineExceeded).code)
	assert.Equal(t, exitFailed, explain(io.ErrUnexpectedEOF).code)
	assert.Equal(t, exitUsage, explain(errors.Join(usage("h", "m"))).code)
}

// Codes stand once, in order, below those of the shell.
func TestTable(t *testing.T) {
	seen := map[int]bool{}
	last := -1
	for _, c := range exitCodes() {
		assert.False(t, seen[c.code])
		seen[c.code] = true
		assert.Greater(t, c.code, last)
		last = c.code
		assert.LessOrEqual(t, c.code, 130)
		assert.NotEmpty(t, c.meaning)
		assert.NotEmpty(t, c.remedy)
	}
}

func TestParseAt(t *testing.T) {
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	for s, want := range map[string]string{
		"2026-07-16":                "2026-07-16T00:00:00-04:00",
		"2026-07-16T05:00":          "2026-07-16T05:00:00-04:00",
		"2026-07-16 05:00":          "2026-07-16T05:00:00-04:00",
		"2026-01-16T05:00":          "2026-01-16T05:00:00-05:00",
		"2026-07-16T05:00:00Z":      "2026-07-16T01:00:00-04:00",
		"2026-07-16T05:00:00+02:00": "2026-07-15T23:00:00-04:00",
	} {
		got, err := parseAt(s, zone)
		require.NoError(t, err, s)
		assert.Equal(t, want, got.In(zone).Format(time.RFC3339), s)
	}
	for _, s := range []string{"", "now", "16.7.2026", "2026-02-30", "05:00"} {
		_, err := parseAt(s, zone)
		assert.Error(t, err, s)
	}
}

func TestWriteWholeReplacesInOneStep(t *testing.T) {
	file := t.TempDir() + "/deep/er/garden.toml"
	require.NoError(t, writeWhole(file, []byte("one")))
	require.NoError(t, writeWhole(file, []byte("two")))
	assert.Error(t, writeWhole(file+"/below", []byte("x")), "a file is no folder")
}
