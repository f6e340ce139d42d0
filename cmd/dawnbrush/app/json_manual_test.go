package app

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
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

// Every report that a command names itself stands in the manual's list of them.
func TestReportNamesAreDocumented(t *testing.T) {
	manual, err := os.ReadFile("../docs/json.md")
	require.NoError(t, err)
	row := regexp.MustCompile("(?m)^\\| `report` \\|.*$").Find(manual)
	require.NotEmpty(t, row)
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	named := regexp.MustCompile(`(?:"report": |"report":|Report: |Written\(p\.out, )"([a-z ]+)"`)
	found := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, m := range named.FindAllSubmatch(text, -1) {
			found++
			assert.Contains(t, string(row), "`"+string(m[1])+"`", file)
		}
	}
	assert.GreaterOrEqual(t, found, 8)
}
