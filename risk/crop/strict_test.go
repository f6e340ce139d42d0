package crop

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path"
	"slices"
	"testing"
	"testing/fstest"
)

// spots calls visit with a setter for every value of a document, in a fixed order.
func spots(v any, where string, visit func(where string, set func(any))) {
	each := func(name string, child any, set func(any)) {
		visit(name, set)
		set(child)
		spots(child, name, visit)
	}
	switch v := v.(type) {
	case map[string]any:
		for _, k := range slices.Sorted(maps.Keys(v)) {
			each(where+"/"+k, v[k], func(x any) { v[k] = x })
		}
	case []any:
		for i, child := range v {
			each(fmt.Sprintf("%s/%d", where, i), child, func(x any) { v[i] = x })
		}
	}
}

// No value of a crop file may be lost in silence: with null, or with a list that
// holds an object, in its place the file must be refused. Every third place of
// each file is tried, which covers every field in one file or another.
func TestNothingIsReadLeniently(t *testing.T) {
	files, err := os.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	tried, place := 0, 0
	for _, f := range files {
		data, err := os.ReadFile(path.Join("data", f.Name()))
		if err != nil {
			t.Fatal(err)
		}
		var doc any
		if err := json.Unmarshal(data, &doc); err != nil {
			t.Fatal(err)
		}
		spots(doc, f.Name(), func(where string, set func(any)) {
			if place++; place%3 != 0 {
				return
			}
			bad := []any{nil, []any{map[string]any{"x": 1}}}[place%2]
			set(bad)
			text, err := json.Marshal(doc)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := LoadFS(fstest.MapFS{"data/" + f.Name(): {Data: text}}); err == nil {
				t.Errorf("%s = %v passes", where, bad)
			}
			tried++
		})
	}
	t.Logf("%d of %d places spoilt", tried, place)
	if tried < 1000 {
		t.Errorf("only %d places spoilt", tried)
	}
}
