// Package table holds printed tables of FAO Irrigation and Drainage Paper 56
// (FAO56), each value with its unit, page and status: crops (11, 12, 17, 22, 24),
// soils (19), wetted shares (20), climate classes (13, 15, 16), mulch (25) and
// salt (23).
package table

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"

	"dawnbrush/risk/source"
)

//go:embed data/fao56.csv
var data string

// Entry is one printed value, or range of values, of the tables.
type Entry struct {
	Table, Key, Variant, Field string
	Low, High                  float64
	Unit                       string
	Source, Where              string
	Status                     source.Status
	Note                       string
}

// Middle gives the value, or the middle of the range.
func (e Entry) Middle() float64 { return (e.Low + e.High) / 2 }

// Param gives the entry as a number with its origin.
func (e Entry) Param() source.Param {
	name := "water.table" + e.Table + "." + strings.ToLower(e.Key+"."+e.Field)
	if e.Variant != "" {
		name += " (" + e.Variant + ")"
	}
	p := source.Param{Name: name, Value: e.Low, Unit: e.Unit, Key: e.Source, Where: e.Where, Status: e.Status, Note: e.Note}
	if e.High != e.Low {
		p.Kind, p.Value, p.Range = source.Span, 0, &source.Interval{Low: e.Low, High: e.High}
	}
	return p
}

// Tables are the printed tables of the paper, as far as the crops of a fruiting
// garden need them.
type Tables struct{ Entries []Entry }

var full = sync.OnceValues(func() (*Tables, error) { return parse(data) })

// Load gives the tables built into the program.
func Load() (*Tables, error) { return full() }

func parse(text string) (*Tables, error) {
	r := csv.NewReader(strings.NewReader(text))
	lines, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("water tables: %w", err)
	}
	t := &Tables{}
	for i, l := range lines[min(1, len(lines)):] {
		e := Entry{Table: l[0], Key: l[1], Variant: l[2], Field: l[3], Unit: l[6], Source: l[7], Where: l[8], Note: l[10]}
		var faults [3]error
		e.Low, faults[0] = number(l[4])
		e.High, faults[1] = number(l[5])
		e.Status, faults[2] = source.ParseStatus(l[9])
		for _, err := range faults {
			if err != nil {
				return nil, fmt.Errorf("water tables, line %d: %w", i+2, err)
			}
		}
		t.Entries = append(t.Entries, e)
	}
	return t, nil
}

func number(s string) (float64, error) {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not a number", s)
	}
	return v, nil
}

// Find gives the first entry of a table with a key, a variant ("" for any that
// begins so) and a field.
func (t *Tables) Find(table, key, variant, field string) (Entry, bool) {
	for _, e := range t.Entries {
		if e.Table == table && e.Key == key && e.Field == field && strings.HasPrefix(e.Variant, variant) {
			return e, true
		}
	}
	return Entry{}, false
}
