package crop

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A plain load gives the same crops to the last number, less the evidence.
func TestPlainIsTheSameForPlanning(t *testing.T) {
	full, err := LoadFS(embedded)
	require.NoError(t, err)
	lean, err := openShelf(embedded)
	require.NoError(t, err)
	require.Len(t, lean.Crops(), len(full.Crops()))
	for i, want := range full.Crops() {
		got := *lean.Crops()[i]
		assert.Empty(t, got.Params)
		require.NotEmpty(t, want.Params)
		got.Params = want.Params
		assert.Equal(t, *want, got, want.Key)
		for _, word := range want.Words() {
			again, ok := lean.Find(word)
			require.True(t, ok, word)
			assert.Same(t, lean.Crops()[i], again)
		}
	}
}
