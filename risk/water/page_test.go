package water

import (
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the figures anew into the manual's page on water")

const page = "../../cmd/dawnbrush/docs/water.md"

// onPage holds a part of the manual's page, between two remarks that name it, to what
// was worked out, or writes it.
func onPage(t *testing.T, part, want string) {
	t.Helper()
	text, err := os.ReadFile(page)
	require.NoError(t, err)
	begin, end := "<!-- "+part+", held by go test ./risk/water -->\n", "<!-- end of "+part+" -->\n"
	head, rest, ok := strings.Cut(string(text), begin)
	require.True(t, ok, "%s has no part %s", page, part)
	got, tail, ok := strings.Cut(rest, end)
	require.True(t, ok, "the part %s has no end", part)
	if *update {
		require.NoError(t, os.WriteFile(page, []byte(head+begin+want+end+tail), 0o644))
		return
	}
	assert.Equal(t, want, got, "run with -update")
}
