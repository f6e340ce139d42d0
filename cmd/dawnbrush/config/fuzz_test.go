package config

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/pelletier/go-toml/v2"
)

// FuzzParse: no document panics; what is accepted is TOML to the library too and
// comes back equal through Write; what is refused says why.
func FuzzParse(f *testing.F) {
	files, err := filepath.Glob("testdata/*.toml")
	if err != nil {
		f.Fatal(err)
	}
	for _, path := range files {
		doc, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(doc)
	}
	f.Add([]byte(plot))
	k := known(f)
	f.Fuzz(func(t *testing.T, doc []byte) {
		file, faults := Parse("g", doc, k)
		if file == nil {
			if len(faults.Errors()) == 0 {
				t.Fatal("refused without a word")
			}
			return
		}
		if len(faults.Errors()) > 0 {
			t.Fatal("accepted with faults")
		}
		var any map[string]any
		if err := toml.Unmarshal(trimMark(doc), &any); err != nil {
			t.Fatalf("accepted, but the library says: %v", err)
		}
		written := Write(file)
		again, faults := Parse("g", written, k)
		if again == nil {
			t.Fatalf("%s\n%s", screen(faults), written)
		}
		assertSame(t, file, again)
	})
}
