package water

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dawnbrush/risk/source"
)

// Every number has a unit, a source that the bibliography holds and a status.
func TestParams(t *testing.T) {
	bib, err := source.Load()
	require.NoError(t, err)
	tables, err := Tables()
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, p := range append(Params(), tables...) {
		require.NoError(t, p.Validate(bib), "%+v", p)
		require.False(t, seen[p.Name], "%s twice", p.Name)
		seen[p.Name] = true
	}
}
