// Package source is the bibliography behind every number of the model, and the
// form in which a number states where it comes from.
//
// A number in a data file is a [Param]: value, unit, source key, place in the
// source, status. A number or an equation in Go code carries a comment in square
// brackets, one of
//
//	[KEY]                          a whole work
//	[KEY eq 47]                    with the place: eq, p, table, fig, sec, ch, ex, annex, col, box, method, row
//	[KEY, status quoted]           with a status, when it was not read in the work itself
//	[KEY table 7, status memory]   both
//	[KEY eq 3; OTHER p 5]          several works
//	[chosen]                       our own choice; the reason stands in the same comment
//	                               or in that of the declaration around it
//	[chosen: the reason]           the same in one
//
// KEY is letters and digits, beginning with a letter. A test reads the comments
// of the whole module and fails on a key that the bibliography does not hold, and
// on an entry that nothing cites. A bare word in brackets is taken for a citation
// when it ends like a key (two digits, perhaps a letter: VicBos00, Morand01b) or
// is a key; other bracketed words are left to godoc.
package source

import (
	_ "embed"
	"errors"
	"fmt"
	"maps"
	"slices"
	"sync"

	"github.com/go-json-experiment/json"
)

// The keys that stand for no publication.
const (
	KeyChosen         = "chosen"
	KeyCommonPractice = "common-practice"
	KeyMemory         = "memory"
)

// Entry is one work of the bibliography.
type Entry struct {
	Key      string `json:"key"`
	Citation string `json:"citation"`
	// Status is the strongest status a number from this work may claim: "quoted"
	// for a work seen only through another. Zero when no limit was recorded.
	Status Status `json:"status,omitzero"`
}

// Bibliography holds works by key. It never changes after it was built.
type Bibliography struct {
	entries map[string]Entry
}

//go:embed sources.json
var embedded []byte

var load = sync.OnceValues(func() (*Bibliography, error) { return Parse(embedded) })

// Load gives the bibliography built into the program.
func Load() (*Bibliography, error) { return load() }

// Parse reads a bibliography: a JSON list of entries. Unknown fields, missing
// keys or citations and a key with two texts are errors, all reported at once.
func Parse(data []byte) (*Bibliography, error) {
	list := make([]Entry, 0, 256)
	if err := json.Unmarshal(data, &list, json.RejectUnknownMembers(true)); err != nil {
		return nil, fmt.Errorf("bibliography: %w", err)
	}
	return (&Bibliography{}).Add(list...)
}

// Add gives a bibliography that also holds the extra entries; b stays as it is.
// An entry that is already there word for word is no fault; the same key with
// other text is, and so is an entry without key or citation. On error the result
// holds the entries without fault.
func (b *Bibliography) Add(extra ...Entry) (*Bibliography, error) {
	merged := make(map[string]Entry, len(b.entries)+len(extra))
	maps.Copy(merged, b.entries)
	var faults []error
	for _, e := range extra {
		have, known := merged[e.Key]
		switch {
		case !keyForm(e.Key):
			faults = append(faults, fmt.Errorf("source key %q is not letters and digits beginning with a letter", e.Key))
		case e.Citation == "":
			faults = append(faults, fmt.Errorf("source %s has no citation", e.Key))
		case known && have != e:
			faults = append(faults, fmt.Errorf("source %s is already cited with other text: %s", e.Key, have.Citation))
		default:
			merged[e.Key] = e
		}
	}
	return &Bibliography{entries: merged}, errors.Join(faults...)
}

func keyForm(key string) bool {
	if key == KeyCommonPractice {
		return true
	}
	for i, r := range key {
		letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
		if !letter && (i == 0 || r < '0' || r > '9') {
			return false
		}
	}
	return len(key) > 1
}

// Get gives the entry of a key.
func (b *Bibliography) Get(key string) (Entry, bool) {
	e, ok := b.entries[key]
	return e, ok
}

// Keys gives all keys in alphabetical order.
func (b *Bibliography) Keys() []string {
	return slices.Sorted(maps.Keys(b.entries))
}
