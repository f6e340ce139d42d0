package feedtest

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// Recording gives a recorded document by its path below the folder of
// recordings: $DAWNBRUSH_RECORDINGS, else ../shared/recordings beside the
// repository. The recordings are not part of the repository, so the test is
// skipped where they are absent; continuous integration counts those skips by
// the words the message begins with.
func Recording(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(recordings(t), filepath.FromSlash(name)))
	if os.IsNotExist(err) {
		t.Skipf("RECORDING ABSENT: %s", name)
	}
	require.NoError(t, err)
	return b
}

// Recordings gives the names of the recordings that match a pattern, such as
// "nws/restored/*_raw_*.json"; the test is skipped when none does.
func Recordings(t testing.TB, pattern string) []string {
	t.Helper()
	dir := recordings(t)
	paths, err := filepath.Glob(filepath.Join(dir, filepath.FromSlash(pattern)))
	require.NoError(t, err)
	if len(paths) == 0 {
		t.Skipf("RECORDING ABSENT: %s", pattern)
	}
	for i, p := range paths {
		rel, err := filepath.Rel(dir, p)
		require.NoError(t, err)
		paths[i] = filepath.ToSlash(rel)
	}
	return paths
}

func recordings(t testing.TB) string {
	t.Helper()
	if dir := os.Getenv("DAWNBRUSH_RECORDINGS"); dir != "" {
		return dir
	}
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(filepath.Dir(dir), "shared", "recordings")
		}
		parent := filepath.Dir(dir)
		require.NotEqual(t, dir, parent, "no go.mod above the test")
		dir = parent
	}
}
