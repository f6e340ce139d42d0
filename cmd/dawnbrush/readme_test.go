package main

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/app"
)

// run gives what the program prints at an instant, on both streams, and its exit
// code.
func run(t *testing.T, now time.Time, args ...string) (string, int) {
	t.Helper()
	env := app.System()
	var out bytes.Buffer
	env.Out, env.Err = &out, &out
	env.Now = func() time.Time { return now }
	env.Getenv = func(string) string { return "" }
	env.Terminal = func(any) (int, bool) { return 0, false }
	code := app.Main(args, env)
	return out.String(), code
}

// shown is what a command prints that succeeds, on the demo's morning.
func shown(t *testing.T, args ...string) string {
	t.Helper()
	out, code := run(t, time.Date(2026, 7, 20, 10, 30, 0, 0, time.UTC), args...)
	require.Zero(t, code, out)
	return out
}

func readme(t *testing.T) string {
	t.Helper()
	b, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	return string(b)
}

// The session in the README is what the program prints: its lines stand in the
// output in this order, "..." for those left out.
func TestReadmeSessionIsReal(t *testing.T) {
	_, after, ok := strings.Cut(readme(t), "    $ dawnbrush today --demo\n")
	require.True(t, ok)
	session, _, _ := strings.Cut(after, "\nA line says")
	rest := shown(t, "today", "--demo")
	lines := 0
	for line := range strings.Lines(session) {
		line = strings.TrimPrefix(line, "    ")
		if line == "...\n" || strings.TrimSpace(line) == "" {
			continue
		}
		var found bool
		_, rest, found = strings.Cut(rest, line)
		require.True(t, found, "the program does not print %q there: renew the README's session", line)
		lines++
	}
	assert.Greater(t, lines, 10)
}

// The exit codes of the README are those of `help exit-codes`.
func TestReadmeExitCodes(t *testing.T) {
	row := regexp.MustCompile(`(?m)^\| (\d+) \|`)
	var inReadme []string
	for _, m := range row.FindAllStringSubmatch(readme(t), -1) {
		inReadme = append(inReadme, m[1])
	}
	var inHelp []string
	for _, m := range regexp.MustCompile(`(?m)^ +(\d+)  \w`).FindAllStringSubmatch(shown(t, "help", "exit-codes"), -1) {
		inHelp = append(inHelp, m[1])
	}
	assert.Equal(t, inHelp, inReadme)
	assert.Len(t, inHelp, 9)
}
