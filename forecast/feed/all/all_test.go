package all

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestKeysAreUniqueAndFound(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Readers() {
		key := r.Info().Key
		assert.False(t, seen[key], key)
		seen[key] = true
		got, ok := ByKey(key)
		assert.True(t, ok)
		assert.Equal(t, r, got)
	}
	assert.True(t, seen["nws"])
	_, ok := ByKey("none such")
	assert.False(t, ok)
}
