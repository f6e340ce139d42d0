package forecast_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// layers states which package may import what, each rule with its reason. A
// rule applies to every package whose path begins with in; imports beginning
// with one of not are refused, except those in but.
var layers = []struct {
	in     string
	not    []string
	but    []string
	reason string
}{
	{"forecast", []string{"dawnbrush/risk", "dawnbrush/cmd", "dawnbrush/fixtures"}, nil,
		"weather knows nothing of crops: another tool could use it"},
	{"forecast/sun", []string{"dawnbrush/"}, nil, "sun and units stand below both trees"},
	{"forecast/unit", []string{"dawnbrush/"}, nil, "sun and units stand below both trees"},
	{"forecast/feed/fetch", []string{"dawnbrush/"}, nil, "fetching is about HTTP alone"},
	{"forecast/feed/nws", []string{"net/http", "os", "dawnbrush/forecast/feed/all"}, nil,
		"readers ask through a getter and know only the shared nouns"},
	{"forecast/feed/brightsky", []string{"net/http", "os", "dawnbrush/forecast/feed/all"}, nil, "a reader, like the one above"},
	{"forecast/feed/metno", []string{"net/http", "os", "dawnbrush/forecast/feed/all"}, nil, "a reader, like the one above"},
	{"forecast/feed/openmeteo", []string{"net/http", "os", "dawnbrush/forecast/feed/all"}, nil, "a reader, like the one above"},
	{"forecast/feed/assemble", []string{"net", "os", "dawnbrush/forecast/feed"}, nil,
		"putting hours together is about values alone"},
	{"risk", []string{"dawnbrush/forecast/feed", "dawnbrush/cmd", "dawnbrush/fixtures", "net", "net/http", "os", "os/exec", "database/sql"}, nil,
		"the model does no input or output: the same inputs give the same plan"},
	{"risk/air", []string{"dawnbrush/risk"}, []string{"dawnbrush/risk/source"}, "a family of equations stands alone"},
	{"risk/pollen", []string{"dawnbrush/risk"}, []string{"dawnbrush/risk/source"}, "a family of equations stands alone"},
	{"risk/bee", []string{"dawnbrush/risk"}, []string{"dawnbrush/risk/source", "dawnbrush/risk/air"}, "bees feel the air and nothing else"},
	{"risk/heat", []string{"dawnbrush/risk"}, []string{"dawnbrush/risk/source"}, "a family of equations stands alone"},
	{"risk/water", []string{"dawnbrush/risk"}, []string{"dawnbrush/risk/source", "dawnbrush/risk/air", "dawnbrush/risk/water"}, "a bed's water knows the air, and neither flowers nor bees"},
	{"risk/water/et0", []string{"dawnbrush/risk/water"}, []string{"dawnbrush/risk/water/et0"}, "the reference is of weather alone: it knows no crop and no soil"},
	{"risk/water/dose", []string{"dawnbrush/"}, nil, "litres and minutes are arithmetic"},
	{"risk/source", []string{"dawnbrush/"}, nil, "the bibliography stands below everything"},
	{"risk/crop", []string{"dawnbrush/risk"}, []string{"dawnbrush/risk/source", "dawnbrush/risk/crop"}, "crop data know no model"},
	{"risk/published", []string{"dawnbrush/risk"}, []string{"dawnbrush/risk/source", "dawnbrush/risk/crop", "dawnbrush/risk/published"},
		"the table of published results holds results and knows no model"},
	{"cmd/dawnbrush/report", []string{"dawnbrush/forecast/feed", "dawnbrush/cmd/dawnbrush/config", "dawnbrush/cmd/dawnbrush/store", "dawnbrush/cmd/dawnbrush/app", "net", "net/http", "os"}, nil,
		"a report is a function of values: it never fetches, reads or asks"},
	{"cmd/dawnbrush/config", []string{"dawnbrush/forecast/feed", "dawnbrush/cmd/dawnbrush/report", "dawnbrush/cmd/dawnbrush/app"}, nil,
		"the garden file is read without a network"},
	{"risk/memory", []string{"dawnbrush/risk"}, nil, "the diary's nouns know no model: store and reports share them"},
	{"cmd/dawnbrush/diary", []string{"dawnbrush/forecast/feed", "dawnbrush/cmd/dawnbrush/app", "dawnbrush/cmd/dawnbrush/store", "net", "net/http", "os", "database/sql"}, nil,
		"words become entries without a file, a clock or a network"},
	{"cmd/dawnbrush/store", []string{"dawnbrush/forecast/feed", "dawnbrush/cmd/dawnbrush/app", "dawnbrush/cmd/dawnbrush/report", "dawnbrush/cmd/dawnbrush/diary", "net/http"}, nil,
		"the memory keeps; it neither plans nor fetches nor tells"},
	{"cmd/dawnbrush/outbox", []string{"dawnbrush/forecast/feed", "dawnbrush/risk", "dawnbrush/cmd/dawnbrush/app", "dawnbrush/cmd/dawnbrush/report", "dawnbrush/cmd/dawnbrush/config", "dawnbrush/cmd/dawnbrush/diary"}, nil,
		"the outbox hands letters on and knows nothing of what they say"},
	{"fixtures", []string{"dawnbrush/risk", "dawnbrush/cmd"}, nil, "invented data know no verdict: the demo must not be fitted to the model"},
}

// Files are parsed afresh at every run; a test that asked the go command was
// served from the test cache and missed a planted violation.
func TestLayers(t *testing.T) {
	root := moduleRoot(t)
	seen := map[string]bool{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() && (strings.HasPrefix(d.Name(), ".") && path != root || d.Name() == "testdata") {
			if d != nil && d.IsDir() && err == nil {
				return filepath.SkipDir
			}
			return err
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		rel, err := filepath.Rel(root, path)
		require.NoError(t, err)
		dir := filepath.ToSlash(filepath.Dir(rel))
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		require.NoError(t, err)
		for _, imp := range f.Imports {
			name, err := strconv.Unquote(imp.Path.Value)
			require.NoError(t, err)
			for _, l := range layers {
				if !within(dir, l.in) {
					continue
				}
				seen[l.in] = true
				assert.False(t, refused(name, l.not, l.but), "%s imports %s, but %s", rel, name, l.reason)
			}
			outside := strings.HasPrefix(dir, "forecast") || strings.HasPrefix(dir, "risk") || strings.HasPrefix(dir, "cmd/dawnbrush/report")
			assert.False(t, outside && within(name, "dawnbrush/fixtures"), "%s imports the demo, which feeds the demo command and tests only", rel)
		}
		return nil
	})
	require.NoError(t, err)
	for _, l := range layers {
		if _, err := os.Stat(filepath.Join(root, filepath.FromSlash(l.in))); err == nil {
			assert.True(t, seen[l.in], "no import of %s was looked at: is the rule still about something?", l.in)
		}
	}
}

// The rule itself is tested: a planted violation is refused.
func TestLayersRefuse(t *testing.T) {
	assert.True(t, refused("dawnbrush/risk/bee", []string{"dawnbrush/risk"}, nil))
	assert.True(t, refused("os", []string{"os"}, nil))
	assert.False(t, refused("ostrich", []string{"os"}, nil))
	assert.False(t, refused("dawnbrush/risk/source", []string{"dawnbrush/risk"}, []string{"dawnbrush/risk/source"}))
	assert.True(t, within("risk/bee", "risk"))
	assert.False(t, within("riskier", "risk"))
}

func within(dir, parent string) bool {
	return dir == parent || strings.HasPrefix(dir, strings.TrimSuffix(parent, "/")+"/")
}

func refused(name string, not, but []string) bool {
	for _, b := range but {
		if within(name, b) {
			return false
		}
	}
	for _, n := range not {
		if within(name, n) {
			return true
		}
	}
	return false
}

func moduleRoot(t *testing.T) string {
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		require.NotEqual(t, dir, filepath.Dir(dir), "no go.mod above the test")
		dir = filepath.Dir(dir)
	}
}
