package report_test

import (
	"bytes"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/report"
	"dawnbrush/cmd/dawnbrush/report/reporttest"
	"dawnbrush/risk"
	"dawnbrush/risk/published"
)

// Every report in the list prints both ways, under a name of its own.
func TestEveryReportPrints(t *testing.T) {
	results, err := published.Load()
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, r := range report.Reports() {
		assert.False(t, seen[r.Name], r.Name)
		seen[r.Name] = true
		assert.NotEmpty(t, r.Short)
		for _, write := range []report.Write{r.Text, r.JSON} {
			d := reporttest.Fixed(t, risk.US)
			d.Constants, d.Focus.Date = risk.Params(), d.Plans[0].Date
			d.Published = results
			var b bytes.Buffer
			require.NoError(t, write(&b, d), r.Name)
			assert.NotEmpty(t, b.String(), r.Name)
		}
		got, ok := report.Named(r.Name)
		assert.True(t, ok)
		assert.Equal(t, r.Name, got.Name)
	}
	_, ok := report.Named("nothing")
	assert.False(t, ok)
}

// Reports are made of a document: they reach no feed, no store, no garden file,
// no network, no clock's program. Otherwise the same plan could read one way in
// a table and another in a mail.
func TestReportsImportNothingOfTheOutside(t *testing.T) {
	files := 0
	require.NoError(t, filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.HasPrefix(path, "reporttest") {
			return err
		}
		files++
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		require.NoError(t, err)
		for _, i := range f.Imports {
			for _, outside := range []string{"dawnbrush/forecast/feed", "dawnbrush/cmd/dawnbrush/store", "dawnbrush/cmd/dawnbrush/config", "dawnbrush/cmd/dawnbrush/app",
				"dawnbrush/fixtures", "net/", "os"} {
				p := strings.Trim(i.Path.Value, `"`)
				assert.False(t, p == outside || strings.HasPrefix(p, strings.TrimSuffix(outside, "/")+"/"), "%s imports %s", path, p)
			}
		}
		return nil
	}))
	assert.Greater(t, files, 20)
}
