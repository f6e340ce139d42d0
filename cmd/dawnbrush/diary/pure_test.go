package diary_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The diary is a function of what was typed, the garden and the time it is given:
// so it can be tested for any day, and imports the same on every machine.
func TestNoInputOutputNoClock(t *testing.T) {
	files, err := os.ReadDir(".")
	require.NoError(t, err)
	seen := 0
	for _, entry := range files {
		if !strings.HasSuffix(entry.Name(), ".go") || strings.HasSuffix(entry.Name(), "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), entry.Name(), nil, 0)
		require.NoError(t, err)
		seen++
		for _, imp := range f.Imports {
			path, err := strconv.Unquote(imp.Path.Value)
			require.NoError(t, err)
			for _, refused := range []string{"os", "net", "database/sql", "dawnbrush/cmd/dawnbrush/store", "dawnbrush/cmd/dawnbrush/app", "dawnbrush/cmd/dawnbrush/report", "dawnbrush/forecast/feed", "dawnbrush/fixtures"} {
				assert.False(t, path == refused || strings.HasPrefix(path, refused+"/"), "%s imports %s", entry.Name(), path)
			}
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok {
				if x, ok := s.X.(*ast.Ident); ok {
					assert.False(t, x.Name == "time" && (s.Sel.Name == "Now" || s.Sel.Name == "Local"), "%s reads the clock", entry.Name())
				}
			}
			return true
		})
	}
	assert.Greater(t, seen, 5)
}
