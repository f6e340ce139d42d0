package app

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every field of the forms is explained in the manual of JSON.
func TestFormsAreDocumented(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, (&program{out: &stream{w: &out}}).formsJSON())
	var got map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &got))
	manual, err := os.ReadFile("../docs/json.md")
	require.NoError(t, err)
	for _, list := range []string{"forms", "columns"} {
		rows, ok := got[list].([]any)
		require.True(t, ok, list)
		require.NotEmpty(t, rows)
		for _, row := range rows {
			for field := range row.(map[string]any) {
				assert.Contains(t, string(manual), "`"+field+"`", list)
			}
		}
	}
}
