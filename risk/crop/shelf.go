package crop

import (
	"bytes"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"sync"

	"github.com/go-json-experiment/json/jsontext"

	"dawnbrush/risk/source"
)

// Shelf holds the crops built into the program as planning needs them, without Params.
// A crop is read when it is first asked for, from a lean copy of its file without
// origins, notes and conflicting evidence, so that the start grows neither with the
// crops that nobody grows nor with what is known of a number. The tests write the
// copies and load all with Load: a program never ships a fault.
type Shelf struct {
	books []book
	words map[string]int
}

// book is a crop's file.
type book struct {
	read func() *Crop
}

var shelf = sync.OnceValues(func() (*Shelf, error) { return openShelf(embedded) })

// OpenShelf gives the shelf; it reads the names of the crops alone. Several goroutines
// may use it.
func OpenShelf() (*Shelf, error) { return shelf() }

func openShelf(files fs.FS) (*Shelf, error) {
	names, err := fs.Glob(files, "lean/*.json")
	if err != nil {
		return nil, err
	}
	s := &Shelf{words: map[string]int{}}
	for i, name := range names {
		data, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		key := strings.TrimSuffix(path.Base(name), ".json")
		words, err := titles(data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		for _, w := range append(words, key) {
			s.words[plain(w)] = i
		}
		s.books = append(s.books, book{sync.OnceValue(func() *Crop { return read(name, key, data) })})
	}
	return s, nil
}

// titles reads the words that mean a crop, which stand at the head of its file.
func titles(data []byte) (words []string, err error) {
	dec := jsontext.NewDecoder(bytes.NewBuffer(data))
	if _, err := dec.ReadToken(); err != nil {
		return nil, err
	}
	missing := map[string]bool{"name": true, "plural": true, "aliases": true}
	for len(missing) > 0 && dec.PeekKind() == '"' {
		t, err := dec.ReadToken()
		if err != nil {
			return nil, err
		}
		member := t.String()
		if !missing[member] {
			if err := dec.SkipValue(); err != nil {
				return nil, err
			}
			continue
		}
		delete(missing, member)
		for depth := dec.StackDepth(); ; {
			t, err := dec.ReadToken()
			if err != nil {
				return nil, err
			}
			if t.Kind() == '"' {
				words = append(words, t.String())
			}
			if dec.StackDepth() == depth {
				break
			}
		}
	}
	return words, nil
}

// read makes a crop of its file.
func read(name, key string, data []byte) *Crop {
	tree, faults := parseTree(data)
	if len(faults) == 0 {
		r := &reader{file: name, bib: &source.Bibliography{}, plain: true}
		if c := r.crop(key, tree); len(r.faults) == 0 {
			return c
		}
		faults = r.faults
	}
	panic(fmt.Sprintf("%s: %v", name, faults)) // the tests have read it
}

// Find looks a crop up by key, name, plural or alias; case, hyphens and blanks
// make no difference.
func (s *Shelf) Find(word string) (*Crop, bool) {
	i, ok := s.words[plain(word)]
	if !ok {
		return nil, false
	}
	return s.books[i].read(), true
}

// Crops gives all crops in the order of their keys.
func (s *Shelf) Crops() []*Crop {
	out := make([]*Crop, len(s.books))
	for i := range s.books {
		out[i] = s.books[i].read()
	}
	return out
}

// Fetch reads the crops that words mean, side by side, and returns at once.
func (s *Shelf) Fetch(words []string) {
	for _, w := range words {
		if i, ok := s.words[plain(w)]; ok {
			go s.books[i].read()
		}
	}
}
