//go:build unix

package outbox_test

import (
	"context"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/outbox"
)

// tool writes a program for a hook and gives its path.
func tool(t *testing.T, script string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "mailer")
	require.NoError(t, os.WriteFile(path, []byte("#!/bin/sh\n"+script), 0o755))
	return path
}

func command(path string, args ...string) outbox.Command {
	return outbox.Command{Args: append([]string{path}, args...), Env: []string{"PATH=/usr/bin:/bin", "TEST_MARK=here"}, Timeout: 30 * time.Second}
}

// The command gets the letter, its arguments as they stand, and the environment that
// it was given and no other. No shell reads them.
func TestCommandGetsTheLetter(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("SECRET_OF_THE_TEST", "x")
	path := tool(t, `cat > "$1"; shift; printf '%s|' "$@" > "`+dir+`/args"; env > "`+dir+`/env"`)
	o := try(command(path, filepath.Join(dir, "letter"), "-oi", "$(touch "+dir+"/pwned); ls *"))
	require.Equal(t, outbox.Outcome{Result: outbox.Sent}, o)
	got, err := os.ReadFile(filepath.Join(dir, "letter"))
	require.NoError(t, err)
	assert.Equal(t, strings.ReplaceAll(text, "\r\n", "\n"), string(got))
	args, err := os.ReadFile(filepath.Join(dir, "args"))
	require.NoError(t, err)
	assert.Equal(t, "-oi|$(touch "+dir+"/pwned); ls *|", string(args))
	assert.NoFileExists(t, filepath.Join(dir, "pwned"))
	env, err := os.ReadFile(filepath.Join(dir, "env"))
	require.NoError(t, err)
	assert.Contains(t, string(env), "TEST_MARK=here")
	assert.NotContains(t, string(env), "SECRET_OF_THE_TEST")
}

// How a command ends tells what became of the letter. The names of the statuses are
// those of sysexits.h.
func TestCommandEnds(t *testing.T) {
	for _, c := range []struct {
		name, script string
		want         outbox.Result
		way          bool
		words        string
	}{
		{"sent", "cat >/dev/null", outbox.Sent, false, ""},
		{"EX_TEMPFAIL", "cat >/dev/null; echo queue is full >&2; exit 75", outbox.Later, false, "put it off (exit status 75): queue is full"},
		{"another fault", "cat >/dev/null; echo boom; exit 1", outbox.Refused, false, "failed (exit status 1): boom"},
		{"EX_NOUSER", "cat >/dev/null; exit 67", outbox.Refused, false, "knows no such recipient"},
		{"EX_DATAERR", "cat >/dev/null; exit 65", outbox.Refused, false, "does not take the letter"},
		{"EX_CONFIG", "cat >/dev/null; exit 78", outbox.Later, true, "cannot send now (exit status 78)"},
		{"EX_USAGE", "cat >/dev/null; exit 64", outbox.Later, true, "cannot send now"},
		{"EX_NOINPUT", "cat >/dev/null; exit 66", outbox.Later, true, "cannot send now"},
		{"a status without a name", "cat >/dev/null; exit 79", outbox.Refused, false, "failed (exit status 79)"},
		{"EX_NOHOST", "cat >/dev/null; exit 68", outbox.Later, true, "cannot send now"},
		{"not found inside", "exec 0</dev/null; exec /nowhere/at/all", outbox.Later, true, "cannot send now (exit status 127)"},
		{"killed by a signal", "cat >/dev/null; kill -SEGV $$", outbox.Later, true, "ended by a signal (signal: segmentation fault"},
		{"words with signs that steer terminals", `cat >/dev/null; printf '\033[2J\a\rno\n\nroom' ; exit 75`, outbox.Later, false, ": [2J no room"},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := try(command(tool(t, c.script)))
			assert.Equal(t, c.want, o.Result, o.Fault)
			assert.Equal(t, c.way, o.Way)
			assert.Contains(t, o.Fault, c.words)
			assert.NotContains(t, o.Fault, "\x1b")
		})
	}
}

func TestCommandMissing(t *testing.T) {
	dir := t.TempDir()
	plain := filepath.Join(dir, "plain")
	require.NoError(t, os.WriteFile(plain, []byte("x"), 0o600))
	for path, words := range map[string]string{filepath.Join(dir, "none"): "no such file or directory", plain: "permission denied", dir: "permission denied"} {
		o := try(command(path))
		assert.Equal(t, outbox.Later, o.Result)
		assert.True(t, o.Way)
		assert.Equal(t, "the mail command "+path+" cannot be run: "+words, o.Fault)
		assert.NotEmpty(t, o.Hint)
	}
}

// A command that hangs is stopped with all that it began.
func TestCommandHangs(t *testing.T) {
	pids := filepath.Join(t.TempDir(), "pids")
	path := tool(t, `echo $$ > `+pids+`; sleep 600 & echo $! >> `+pids+`; echo waiting for the server; wait`)
	c := command(path)
	c.Timeout = 2 * time.Second
	o := try(c)
	assert.Equal(t, outbox.Later, o.Result)
	assert.True(t, o.Way)
	assert.Contains(t, o.Fault, "did not end in time and was stopped: waiting for the server")
	text, err := os.ReadFile(pids)
	require.NoError(t, err)
	list := strings.Fields(string(text))
	require.Len(t, list, 2)
	for _, word := range list {
		pid, err := strconv.Atoi(word)
		require.NoError(t, err)
		assert.Eventually(t, func() bool { return gone(pid) }, 20*time.Second, 20*time.Millisecond, "process %d goes on", pid)
	}
}

// gone tells whether a process has ended; one that nobody has waited for counts.
func gone(pid int) bool {
	if syscall.Kill(pid, 0) != nil {
		return true
	}
	stat, err := os.ReadFile("/proc/" + strconv.Itoa(pid) + "/stat")
	return err == nil && strings.Contains(string(stat), ") Z ")
}

// A command that writes without end is read and forgotten, and stopped when its time
// is over; megabytes before a good end are no fault.
func TestCommandTalks(t *testing.T) {
	o := try(command(tool(t, "cat >/dev/null; head -c 20000000 /dev/zero | tr '\\0' x; exit 75")))
	assert.Equal(t, outbox.Later, o.Result)
	assert.Less(t, len(o.Fault), 400)
	assert.Equal(t, outbox.Sent, try(command(tool(t, "cat >/dev/null; head -c 20000000 /dev/zero >&2"))).Result)
	c := command(tool(t, "cat >/dev/null; exec cat /dev/zero"))
	c.Timeout = time.Second
	o = try(c)
	assert.Equal(t, outbox.Later, o.Result)
	assert.Contains(t, o.Fault, "did not end in time")
	assert.Less(t, len(o.Fault), 400)
}

// Status 0 is not believed of a command that did not take all of the letter, however
// short it is.
func TestCommandDoesNotRead(t *testing.T) {
	for _, script := range []string{"exit 0", "head -c 10 >/dev/null"} {
		o := try(command(tool(t, script)))
		assert.Equal(t, outbox.Later, o.Result, script)
		assert.Contains(t, o.Fault, "ended before it had read the letter", script)
	}
	assert.Equal(t, outbox.Sent, try(command(tool(t, "cat >/dev/null"))).Result)
}

// The letter is laid out whole before the command begins, and leaves no file: a run
// that is killed meanwhile cannot leave it half a letter.
func TestCommandReadsAFile(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("TMPDIR", dir)
	assert.Equal(t, outbox.Sent, try(command(tool(t, `[ -f /dev/stdin ] || exit 70; ls "`+dir+`" | grep letter && exit 70; cat >/dev/null`))).Result)
}

// A mail program that goes on in the background after it took the letter has taken it.
func TestCommandGoesOnInTheBackground(t *testing.T) {
	o := try(command(tool(t, "cat >/dev/null; sleep 3 & exit 0")))
	assert.Equal(t, outbox.Sent, o.Result, o.Fault)
}

func TestCommandInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	time.AfterFunc(300*time.Millisecond, cancel)
	o := command(tool(t, "cat >/dev/null; sleep 600")).Send(ctx, letter("a", "ann@example.org"), morning)
	assert.Equal(t, outbox.Later, o.Result)
	assert.Contains(t, o.Fault, "interrupted")
}
