package config

import (
	"fmt"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"
)

// Fault is one thing wrong with a garden file.
type Fault struct {
	File    string // the file's name as Parse was given it
	Line    int    // from 1
	Column  int    // in characters, from 1
	Message string // what is wrong, in the grower's words
	Hint    string // the remedy; may be empty
	Warning bool   // worth a look, but the garden can be used
}

// String writes "file:line:column: message"; the hint stays apart.
func (f Fault) String() string {
	return fmt.Sprintf("%s:%d:%d: %s", f.File, f.Line, f.Column, f.Message)
}

// Faults are all faults and warnings of one file in the order of its lines.
type Faults []Fault

// Errors gives the faults that make the file unusable.
func (fs Faults) Errors() Faults { return fs.only(false) }

// Warnings gives what is worth a look.
func (fs Faults) Warnings() Faults { return fs.only(true) }

func (fs Faults) only(warning bool) Faults {
	var out Faults
	for _, f := range fs {
		if f.Warning == warning {
			out = append(out, f)
		}
	}
	return out
}

// mostFaults bounds what one file can bring to the screen.
// [chosen: nobody reads more, and a broken megabyte must not take minutes]
const mostFaults = 1000

// collector gathers faults by byte offset and places them at the end.
type collector struct {
	file    string
	doc     []byte
	starts  []int // offset of each line's first byte
	pending []pendingFault
	errors  int
}

type pendingFault struct {
	offset int
	Fault
}

func newCollector(file string, doc []byte) *collector {
	c := &collector{file: file, doc: doc, starts: []int{0}}
	for i, b := range doc {
		if b == '\n' {
			c.starts = append(c.starts, i+1)
		}
	}
	return c
}

func (c *collector) fault(offset int, hint, format string, args ...any) {
	c.errors++
	c.pending = append(c.pending, pendingFault{offset, Fault{Message: fmt.Sprintf(format, args...), Hint: hint}})
}

func (c *collector) warn(offset int, hint, format string, args ...any) {
	c.pending = append(c.pending, pendingFault{offset, Fault{Message: fmt.Sprintf(format, args...), Hint: hint, Warning: true}})
}

// line gives the line number of a byte offset, from 1.
func (c *collector) line(offset int) int {
	return sort.Search(len(c.starts), func(i int) bool { return c.starts[i] > offset })
}

// lineText gives the text of the line that holds offset.
func (c *collector) lineText(offset int) string {
	n := c.line(offset)
	end := len(c.doc)
	if n < len(c.starts) {
		end = c.starts[n]
	}
	return strings.TrimRight(string(c.doc[c.starts[n-1]:end]), "\r\n")
}

// sorted places all faults by line and column. Beyond mostFaults only the
// count is kept.
func (c *collector) sorted() Faults {
	slices.SortStableFunc(c.pending, func(a, b pendingFault) int { return a.offset - b.offset })
	left := 0
	if len(c.pending) > mostFaults {
		left = len(c.pending) - mostFaults
		c.pending = c.pending[:mostFaults]
	}
	var out Faults
	for _, p := range c.pending {
		f, offset := p.Fault, min(p.offset, len(c.doc))
		f.File, f.Line = c.file, c.line(offset)
		f.Column = utf8.RuneCount(c.doc[c.starts[f.Line-1]:offset]) + 1
		out = append(out, f)
	}
	if left > 0 {
		last := out[len(out)-1]
		out = append(out, Fault{File: c.file, Line: last.Line, Column: last.Column,
			Message: fmt.Sprintf("and %d faults more", left), Hint: "mend these first, then check again"})
	}
	return out
}
