package diary

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// Fault is one thing wrong with a file of entries.
type Fault struct {
	Line    int // from 1
	Column  string
	Message string
	Hint    string
}

// Faults are all faults of a file in the order of its lines.
type Faults []Fault

// Known is what entries of a file are held against.
type Known struct {
	Garden *risk.Garden
	Today  forecast.Date
	Former bool // plantings that the garden file does not name any more are let through
}

const (
	// MostBytes bounds a file. [chosen: a hundred seasons of a market garden's notes]
	MostBytes = 64 << 20
	// mostFaults bounds what one file can bring to the screen. [chosen: nobody reads more]
	mostFaults = 1000
)

// Read reads a file of entries, CSV or JSON lines, whichever it is. All faults
// come back at once; with any there are no entries. A file of nothing is a diary of
// nothing, as JSON lines write one.
func Read(doc []byte, k Known) ([]memory.Entry, Faults) {
	doc = bytes.TrimPrefix(doc, []byte("\ufeff"))
	if len(doc) > MostBytes {
		return nil, Faults{{Line: 1, Message: "the file is larger than 64 MB", Hint: "a diary is not that long: is it the right file?"}}
	}
	in := &intake{known: k, lines: map[string]int{}, copies: map[string]int{}}
	switch start := bytes.TrimLeft(doc, " \t\r\n"); {
	case len(start) == 0:
	case start[0] == '{':
		in.jsonLines(doc)
	default:
		in.csv(doc)
	}
	if len(in.faults) > 0 {
		return nil, in.faults
	}
	return in.entries, nil
}

// intake gathers the entries and faults of one file.
type intake struct {
	known   Known
	entries []memory.Entry
	faults  Faults
	lines   map[string]int // where each ID stands
	copies  map[string]int // how often a content without ID was met
	count   int            // of all faults, those not kept too
}

func (in *intake) fault(line int, column, hint, format string, args ...any) {
	in.count++
	switch {
	case in.count > mostFaults:
		in.faults[mostFaults-1] = Fault{Line: line, Message: fmt.Sprintf("and %d faults more, the last one here", in.count-mostFaults+1), Hint: "mend the first ones, then import again"}
	default:
		in.faults = append(in.faults, Fault{Line: line, Column: column, Message: fmt.Sprintf(format, args...), Hint: hint})
	}
}

// take checks an entry of a line and keeps it.
func (in *intake) take(e memory.Entry, line int) {
	e.Recorded, e.At = e.Recorded.UTC().Round(0), e.At.UTC().Round(0)
	before := in.count
	for _, f := range Check(&e, in.known.Today) {
		in.fault(line, "", f.Remedy, "%s", f.Message)
	}
	in.planting(&e, line)
	if in.count > before {
		return
	}
	if e.ID == "" {
		in.name(&e)
	}
	if y := e.Recorded.Year(); !e.Recorded.IsZero() && (y < firstYear || y > in.known.Today.Year+1) {
		in.fault(line, "recorded", "write the time as 2026-07-16T05:35:00Z", "nothing was recorded in the year %d", y)
		return
	}
	if e.Recorded.IsZero() {
		in.fault(line, "recorded", "write the time as 2026-07-16T05:35:00Z", "an entry with an id has no time of recording")
		return
	}
	if first, again := in.lines[e.ID]; again {
		in.fault(line, "id", "leave one of the two out", "the id %s stands on line %d already", said(e.ID), first)
		return
	}
	in.lines[e.ID] = line
	in.entries = append(in.entries, e)
}

// planting holds an entry against the garden.
func (in *intake) planting(e *memory.Entry, line int) {
	if e.Planting == "" || in.known.Former || e.Removed {
		return
	}
	z := gazetteer{in.known.Garden, e.Date}
	if p, ok := z.named(e.Planting); ok && p.Name == e.Planting {
		return
	}
	if s := specOf(e.Kind); s != nil && s.beds() && z.isBed(e.Planting) {
		return
	}
	err := z.unknown(e.Planting, "Entries of plantings that are gone come in with --former")
	in.fault(line, "planting", err.Remedy, "%s", err.Message)
}

// name gives an entry without identity one made of its content, so that the same
// file twice adds nothing; it counts as recorded when its day began. The same
// content twice in one file is two entries.
func (in *intake) name(e *memory.Entry) {
	if e.Recorded.IsZero() {
		e.Recorded = e.Date.Start(time.UTC)
	}
	content := fmt.Sprintf("%q", Words(e)) + e.Recorded.Format(time.RFC3339Nano) + e.At.Format(time.RFC3339Nano) + e.Date.String() + e.Replaces
	in.copies[content]++
	sum := sha256.Sum256(fmt.Appendf([]byte(content), " %d", in.copies[content]))
	e.ID = memory.ID(e.Recorded, binary.LittleEndian.Uint64(sum[:]))
}
