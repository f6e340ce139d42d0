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
	lean, err := loadFS(embedded, true)
	require.NoError(t, err)
	require.Len(t, lean.Crops(), len(full.Crops()))
	for i, want := range full.Crops() {
		got := *lean.Crops()[i]
		assert.Empty(t, got.Params)
		require.NotEmpty(t, want.Params)
		got.Params = want.Params
		assert.Equal(t, *want, got, want.Key)
		again, ok := lean.Find(want.Aliases[0])
		require.True(t, ok)
		assert.Equal(t, want.Key, again.Key)
	}
}
