// Package packaging holds what a distribution needs beside the program: manual
// pages and completions written from the commands, units for systemd, a recipe for
// a Debian package. The tests keep them fresh:
//
//	go test ./cmd/dawnbrush/packaging -update
package packaging

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/cpuguy83/go-md2man/v2/md2man"
	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/app"
)

var update = flag.Bool("update", false, "write manual pages and completions anew")

// Every command has a manual page that says what its help says, and none is left of
// a command that is gone.
func TestManualPagesAreFresh(t *testing.T) {
	root, topics := app.Pages()
	want := map[string][]byte{}
	pages(t, root, want)
	want["dawnbrush.1"] = withTopics(want["dawnbrush.1"], topics)
	fresh(t, "man", want)
}

func TestCompletionsAreFresh(t *testing.T) {
	root, _ := app.Pages()
	var bash, zsh, fish bytes.Buffer
	require.NoError(t, root.GenBashCompletionV2(&bash, true))
	require.NoError(t, root.GenZshCompletion(&zsh))
	require.NoError(t, root.GenFishCompletion(&fish, true))
	fresh(t, "completions", map[string][]byte{"dawnbrush.bash": bash.Bytes(), "_dawnbrush": zsh.Bytes(), "dawnbrush.fish": fish.Bytes()})
}

// pages writes a page for a command and for each below it.
func pages(t *testing.T, c *cobra.Command, into map[string][]byte) {
	t.Helper()
	c.DisableAutoGenTag = true
	date := time.Date(2026, time.November, 25, 0, 0, 0, 0, time.UTC) // that of the version below
	var b bytes.Buffer
	header := &doc.GenManHeader{Title: strings.ToUpper(strings.ReplaceAll(c.CommandPath(), " ", "-")), Section: "1", Date: &date,
		Source: "dawnbrush " + app.Version(), Manual: "User commands"}
	require.NoError(t, doc.GenMan(c, header, &b))
	into[strings.ReplaceAll(c.CommandPath(), " ", "-")+".1"] = b.Bytes()
	for _, sub := range c.Commands() {
		if sub.IsAvailableCommand() && sub.Name() != "help" {
			pages(t, sub, into)
		}
	}
}

// withTopics puts the sections that the main page has beside its options before the
// last one, in the order of man-pages(7).
func withTopics(page []byte, topics map[string]string) []byte {
	var b strings.Builder
	for _, s := range []struct{ heading, topic string }{{"EXIT STATUS", "exit-codes"}, {"ENVIRONMENT", "environment"}, {"CRON", "cron"}} {
		b.WriteString("# " + s.heading + "\n\n```\n" + topics[s.topic] + "\n```\n\n")
	}
	b.WriteString("# FILES\n\n```\n" + files + "```\n\n")
	_, sections, _ := bytes.Cut(md2man.Render([]byte("x 1\n=\n\n"+b.String())), []byte(".SH EXIT STATUS"))
	head, tail, _ := bytes.Cut(page, []byte(".SH SEE ALSO"))
	return bytes.Join([][]byte{head, []byte(".SH EXIT STATUS"), sections, []byte("\n.SH SEE ALSO"), tail}, nil)
}

const files = `~/.config/dawnbrush/garden.toml   the garden file
~/.local/share/dawnbrush/         the garden's memory: what you wrote down,
                                  forecasts, measured hours
~/.cache/dawnbrush/               forecasts already fetched; may be deleted
`

// fresh compares a folder with what it has to hold, or writes it.
func fresh(t *testing.T, dir string, want map[string][]byte) {
	t.Helper()
	if *update {
		require.NoError(t, os.RemoveAll(dir))
		require.NoError(t, os.MkdirAll(dir, 0o755))
		for name, text := range want {
			require.NoError(t, os.WriteFile(filepath.Join(dir, name), text, 0o644))
		}
	}
	held, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, f := range held {
		assert.Contains(t, want, f.Name(), "%s is of no command: run with -update", f.Name())
	}
	for name, text := range want {
		got, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err, "run with -update")
		assert.Equal(t, string(text), string(got), "%s is stale: run with -update", name)
	}
}
