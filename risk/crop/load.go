package crop

import (
	"embed"
	"io/fs"
	"path"
	"strings"
	"sync"

	"dawnbrush/risk/source"
)

// The crop files and, of each, what planning needs.
//
//go:embed data/*.json lean/*.json
var embedded embed.FS

var full = sync.OnceValues(func() (*Set, error) { return LoadFS(embedded) })

// Load gives the crops built into the program. Error: Faults.
func Load() (*Set, error) { return full() }

// LoadFS reads every data/*.json of a file system as a crop file. Error: Faults,
// everything wrong in all files at once.
func LoadFS(files fs.FS) (*Set, error) {
	bib, err := source.Load()
	if err != nil {
		return nil, err
	}
	names, err := fs.Glob(files, "data/*.json")
	if err != nil {
		return nil, err
	}
	if len(names) == 0 {
		return nil, Faults{{File: "data", Text: "no crop file here"}}
	}
	set := &Set{words: map[string]*Crop{}}
	trees, faults := parseAll(files, names)
	for i, name := range names { // sources first: a crop may cite what another file brings
		bib = mergeSources(name, trees[i], bib, &faults)
	}
	set.bib = bib
	for i, name := range names {
		if trees[i] == nil {
			continue
		}
		r := &reader{file: name, bib: bib}
		c := r.crop(strings.TrimSuffix(path.Base(name), ".json"), trees[i])
		set.add(r, c, trees[i].find("aliases"))
		faults = append(faults, r.faults...)
	}
	if len(faults) > 0 {
		return nil, faults.sorted()
	}
	return set, nil
}

// parseAll reads the files side by side.
func parseAll(files fs.FS, names []string) ([]*node, Faults) {
	trees, broken := make([]*node, len(names)), make([][]Fault, len(names))
	var all sync.WaitGroup
	for i, name := range names {
		all.Go(func() {
			data, err := fs.ReadFile(files, name)
			if err != nil {
				broken[i] = []Fault{{Text: err.Error()}}
				return
			}
			trees[i], broken[i] = parseTree(data)
		})
	}
	all.Wait()
	var faults Faults
	for i, list := range broken {
		for _, f := range list {
			f.File = names[i]
			faults = append(faults, f)
		}
	}
	return trees, faults
}

// mergeSources takes a file's own sources block into the bibliography.
func mergeSources(file string, tree *node, bib *source.Bibliography, faults *Faults) *source.Bibliography {
	if tree == nil || tree.find("sources") == nil {
		return bib
	}
	r := &reader{file: file, bib: bib}
	for _, item := range (section{r: r, n: tree}).items("sources") {
		f := fields{r, "sources", item}
		entry := source.Entry{Key: f.text("key"), Citation: f.text("citation")}
		if item.find("status") != nil {
			entry.Status = f.status()
		}
		f.done()
		merged, err := bib.Add(entry)
		if err != nil {
			r.fault(item.line, "%v", err)
			continue
		}
		bib = merged
	}
	*faults = append(*faults, r.faults...)
	return bib
}

// Set is all crops the program knows.
type Set struct {
	crops []*Crop
	words map[string]*Crop
	bib   *source.Bibliography
}

// Crops gives the crops in the order of their keys.
func (s *Set) Crops() []*Crop { return append([]*Crop(nil), s.crops...) }

// Bibliography gives all sources, those of the crop files included.
func (s *Set) Bibliography() *source.Bibliography { return s.bib }

// Find looks a crop up by key, name, plural or alias; case, hyphens and blanks
// make no difference.
func (s *Set) Find(word string) (*Crop, bool) {
	c, ok := s.words[plain(word)]
	return c, ok
}

// Words gives every word that Find knows for a crop, its key first.
func (c *Crop) Words() []string {
	return append([]string{c.Key, c.Name, c.Plural}, c.Aliases...)
}

func plain(word string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(word), func(r rune) bool {
		return r == ' ' || r == '-' || r == '_' || r == '\t'
	}), " ")
}

func (s *Set) add(r *reader, c *Crop, aliases *member) {
	line := 0
	if aliases != nil {
		line = aliases.line
	}
	s.crops = append(s.crops, c)
	for _, word := range c.Words() {
		if other, taken := s.words[plain(word)]; taken && other != c {
			r.fault(line, "%q already means %s", word, other.Key)
			continue
		}
		if word != "" {
			s.words[plain(word)] = c
		}
	}
}

// FindSpecies looks a species up by key or Latin name.
func (c *Crop) FindSpecies(word string) (Species, bool) {
	for _, sp := range c.Species {
		if plain(word) == plain(sp.Key) || plain(word) == plain(sp.Latin) {
			return sp, true
		}
	}
	return Species{}, false
}
