package ledger

import (
	"testing"

	"github.com/stretchr/testify/require"

	"dawnbrush/risk"
	"dawnbrush/risk/source"
	"dawnbrush/risk/water"
)

// Every number has its origin, and no name stands twice among those of the program.
func TestEveryParamHasItsOrigin(t *testing.T) {
	bib, err := source.Load()
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, p := range append(append(Params(), water.Params()...), risk.Params()...) {
		require.NoError(t, p.Validate(bib), p.Name)
		require.False(t, seen[p.Name], "%s stands twice", p.Name)
		seen[p.Name] = true
	}
	for key := range canopies {
		if key == "okra" || key == "strawberry" || key == "eggplant" || key == "honeydew" || key == "dry-bean" {
			continue // crops of the tables that may have no file
		}
		cropOf(t, key)
	}
}
