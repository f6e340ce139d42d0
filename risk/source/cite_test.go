package source

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The form of a citation in a comment; the package comment shows it.
const place = `(?:eqs?|pp?|tables?|figs?|secs?|ch|ex|annex|col|box|method|row)`

// spelled are the own names of standards and services under which comments may
// cite them, with whatever follows as the place.
var spelled = map[string]string{
	"ISO 80000-3:2019": "ISO80000", "ISO 8601-1:2019": "ISO8601", "WMO-No. 306": "WMO306",
	"api.weather.gov": "NWSapi", "weather.gov issue": "NWSapi", "MADIS quality control": "MADISqc",
}

var (
	bracket  = regexp.MustCompile(`\[([^\[\]]+)\]`)
	citation = regexp.MustCompile(`^([A-Za-z][A-Za-z0-9]*(?:-practice)?)` +
		`((?:,? ` + place + ` [^,;]+)*)(?:, status ([a-z-]+))?$`)
	reasoned = regexp.MustCompile(`^chosen: .*[a-z]{3,}.* .+`)
	likeKey  = regexp.MustCompile(`^[A-Z][A-Za-z]+[0-9]{2}[a-z]?$`)
	chosen   = regexp.MustCompile(`\[chosen[^\]]*\]`)
	anyForm  = regexp.MustCompile(`(, status |^chosen|^memory|^common-practice| eqs? [0-9A-Z]| pp? [0-9]| table [0-9A-Z])`)
)

// cites gives the keys a comment cites and what is wrong with its brackets.
func cites(bib *Bibliography, comment string) (keys []string, faults []string) {
	for _, m := range bracket.FindAllStringSubmatch(comment, -1) {
		for part := range strings.SplitSeq(m[1], ";") {
			key, fault := cite(bib, strings.Join(strings.Fields(part), " "))
			if fault != "" {
				faults = append(faults, fault)
			}
			if key != "" {
				keys = append(keys, key)
			}
		}
	}
	return keys, faults
}

func cite(bib *Bibliography, text string) (key, fault string) {
	for name, k := range spelled {
		if strings.HasPrefix(text, name) {
			return k, ""
		}
	}
	if reasoned.MatchString(text) {
		return KeyChosen, ""
	}
	m := citation.FindStringSubmatch(text)
	if m == nil {
		if anyForm.MatchString(text) {
			return "", fmt.Sprintf("[%s] is not of the form of a citation", text)
		}
		return "", "" // an interval, an index, a link for godoc
	}
	entry, known := bib.Get(m[1])
	switch {
	case m[2] == "" && m[3] == "" && !known && !likeKey.MatchString(m[1]):
		return "", "" // a link for godoc
	case !known:
		return "", fmt.Sprintf("[%s]: %s is not in the bibliography", text, m[1])
	case m[3] != "":
		s, err := ParseStatus(m[3])
		if err != nil {
			return "", fmt.Sprintf("[%s]: %v", text, err)
		}
		if entry.Status.Valid() && s > entry.Status {
			return "", fmt.Sprintf("[%s]: %s was seen as %s at best", text, m[1], entry.Status)
		}
	}
	return m[1], ""
}

func TestCitationForm(t *testing.T) {
	bib := bibliography(t)
	for comment, want := range map[string]string{
		"x [FAO56 eq 47]":                               "FAO56",
		"[VicBos00, status read] and [Wenner63]":        "VicBos00 Wenner63",
		"[FAO56 eq 3; Meeus98 p 164]":                   "FAO56 Meeus98",
		"[chosen: long enough to even out a cold week]": "chosen",
		"[memory] [Sampson]":                            "memory Sampson",
		"a share in [0, 1], see [Bibliography.Get]":     "",
		"[Nobody99]":                        "!",
		"[Nobody, status read]":             "!",
		"[FAO65 eq 47]":                     "!",
		"[FAO56 eq 11, eq 54]":              "FAO56",
		"[ISO 80000-3:2019, status memory]": "ISO80000",
		"[FAO56, status seen]":              "!",
		"[Holland, status read]":            "!", // only quoted
		"[ISO 1234-5:2019, status memory]":  "!",
		"[FAO56 eq 4, chapter 2]":           "!",
	} {
		keys, faults := cites(bib, comment)
		if want == "!" {
			if len(faults) == 0 {
				t.Errorf("%s passes", comment)
			}
			continue
		}
		if got := strings.Join(keys, " "); got != want || len(faults) > 0 {
			t.Errorf("%s: %q %v, want %q", comment, got, faults, want)
		}
	}
}

// cited is what the module cites.
type cited struct {
	keys   map[string]bool
	faults []string
}

func (c *cited) goFile(bib *Bibliography, path string) error {
	files := token.NewFileSet()
	tree, err := parser.ParseFile(files, path, nil, parser.ParseComments)
	if err != nil {
		return err
	}
	for _, group := range tree.Comments {
		// The package comment of this package shows the form with made-up keys.
		if group == tree.Doc && tree.Name.Name == "source" {
			continue
		}
		keys, faults := cites(bib, group.Text())
		for _, k := range keys {
			c.keys[k] = true
		}
		if chosen.MatchString(group.Text()) && !reason(files, tree, group) {
			faults = append(faults, "[chosen] without a reason beside it")
		}
		for _, f := range faults {
			c.faults = append(c.faults, fmt.Sprintf("%s: %s", files.Position(group.Pos()), f))
		}
	}
	// Tables of parameters name their source in a string.
	ast.Inspect(tree, func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if s, err := strconv.Unquote(lit.Value); err == nil {
				if _, known := bib.Get(s); known {
					c.keys[s] = true
				}
			}
		}
		return true
	})
	return nil
}

// reason tells whether a choice is argued: in its own comment or in the comment
// of the declaration it stands in.
func reason(files *token.FileSet, tree *ast.File, group *ast.CommentGroup) bool {
	line := files.Position(group.Pos()).Line
	around := func(n ast.Node) bool {
		return files.Position(n.Pos()).Line <= line && line <= files.Position(n.End()).Line
	}
	found := argued(group)
	ast.Inspect(tree, func(n ast.Node) bool {
		switch d := n.(type) {
		case *ast.GenDecl:
			found = found || around(d) && argued(d.Doc)
		case *ast.ValueSpec:
			found = found || around(d) && argued(d.Doc)
		case *ast.FuncDecl:
			found = found || around(d) && argued(d.Doc)
		}
		return !found
	})
	return found
}

// argued tells whether a comment says more than its brackets.
func argued(group *ast.CommentGroup) bool {
	if group == nil {
		return false
	}
	if strings.Contains(group.Text(), "[chosen: ") {
		return true
	}
	return len(strings.Fields(bracket.ReplaceAllString(group.Text(), ""))) >= 3
}

// jsonFile takes every "source" of a data file and the keys its own sources
// block brings, which are its own affair.
func (c *cited) jsonFile(path string) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	var any any
	if err := json.Unmarshal(data, &any); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	c.walk(any)
	return nil
}

func (c *cited) walk(v any) {
	switch v := v.(type) {
	case map[string]any:
		if key, ok := v["source"].(string); ok {
			c.keys[key] = true
		}
		for _, child := range v {
			c.walk(child)
		}
	case []any:
		for _, child := range v {
			c.walk(child)
		}
	}
}

// furtherResults are results that the model is held against and takes no number
// from: the published table cites their works, no other file does.
const furtherResults = "risk/testdata/further.csv"

// csvFile takes the column "source" of a table with a heading.
func (c *cited) csvFile(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	at := slices.Index(rows[0], "source")
	if at < 0 {
		return fmt.Errorf("%s: no column source", path)
	}
	for _, row := range rows[1:] {
		c.keys[row[at]] = true
	}
	return nil
}

func moduleRoot(t *testing.T) string {
	t.Helper()
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(root, "go.mod")); err != nil {
		t.Fatal(err)
	}
	return root
}

// scan reads all Go files but tests, all data files of the model and the further
// results.
func scan(t *testing.T, bib *Bibliography) *cited {
	t.Helper()
	root := moduleRoot(t)
	c := &cited{keys: map[string]bool{}}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		inTestdata := strings.Contains(rel, "testdata")
		switch {
		case filepath.ToSlash(rel) == furtherResults:
			return c.csvFile(path)
		case d.IsDir() && strings.HasPrefix(d.Name(), ".") && rel != ".":
			return filepath.SkipDir
		case d.IsDir() || inTestdata || strings.HasSuffix(rel, "_test.go"):
			return nil
		case strings.HasSuffix(rel, ".go"):
			return c.goFile(bib, path)
		case strings.HasPrefix(rel, "risk") && strings.HasSuffix(rel, ".json") && d.Name() != "sources.json":
			return c.jsonFile(path)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestEveryCitationIsKnown(t *testing.T) {
	c := scan(t, bibliography(t))
	for _, f := range c.faults {
		t.Error(f)
	}
	if len(c.keys) < 60 {
		t.Errorf("only %d works cited: the scan misses files", len(c.keys))
	}
}

func TestEveryEntryIsCited(t *testing.T) {
	bib := bibliography(t)
	c := scan(t, bib)
	awaited := awaitedKeys(t)
	var idle []string
	for _, key := range bib.Keys() {
		switch {
		case !c.keys[key] && !awaited[key]:
			idle = append(idle, key)
		case c.keys[key] && awaited[key]:
			t.Logf("testdata/awaited.txt: %s is cited now, take it off the list", key)
		}
	}
	for key := range awaited {
		if _, ok := bib.Get(key); !ok {
			t.Errorf("testdata/awaited.txt: %s is not in the bibliography", key)
		}
	}
	if len(idle) > 0 {
		t.Errorf("%d entries that nothing cites; cite them or take them out: %s", len(idle), strings.Join(idle, " "))
	}
}

// awaitedKeys are works whose crop or package is still to be written.
func awaitedKeys(t *testing.T) map[string]bool {
	t.Helper()
	data, err := os.ReadFile("testdata/awaited.txt")
	if err != nil {
		t.Fatal(err)
	}
	keys := map[string]bool{}
	for line := range strings.Lines(string(data)) {
		line, _, _ = strings.Cut(line, "#")
		for _, key := range strings.Fields(line) {
			keys[key] = true
		}
	}
	return keys
}
