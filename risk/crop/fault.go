package crop

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Fault is one thing wrong in a crop file.
type Fault struct {
	File string // "data/cucumber.json"
	Line int    // 1-based; 0 when it concerns the whole file
	Text string
}

// String gives "file:line: text".
func (f Fault) String() string {
	if f.Line == 0 {
		return f.File + ": " + f.Text
	}
	return fmt.Sprintf("%s:%d: %s", f.File, f.Line, f.Text)
}

// Faults is the error of loading: everything wrong in all crop files at once.
type Faults []Fault

// Error lists one fault a line.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, one := range f {
		lines[i] = one.String()
	}
	return strings.Join(lines, "\n")
}

// Hint says what a crop file wants.
func (f Faults) Hint() string {
	return "each number is an object with value (or low and high, or curve and x), unit, source, where, status; " +
		"compare a crop file that loads"
}

func (f Faults) sorted() Faults {
	slices.SortStableFunc(f, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line))
	})
	return f
}
