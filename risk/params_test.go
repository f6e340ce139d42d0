package risk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dawnbrush/risk/source"
)

func TestEveryParamHasItsOrigin(t *testing.T) {
	bib, err := source.Load()
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, p := range Params() {
		require.NoError(t, p.Validate(bib), p.Name)
		require.False(t, seen[p.Name], "%s stands twice", p.Name)
		seen[p.Name] = true
	}
	for _, name := range beeParam {
		require.True(t, seen[name], name)
	}
}
