package diary

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// Column is one column of the CSV form.
type Column struct {
	Name    string
	Meaning string
}

// column is a column with how its cells are written and read.
type column struct {
	Column
	write func(*memory.Entry) string
	read  func(*memory.Entry, string) error
}

// Columns documents the CSV form in the order that is written.
func Columns() []Column {
	var out []Column
	for _, c := range columns() {
		out = append(out, c.Column)
	}
	return out
}

func columns() []column {
	out := []column{
		textColumn("id", "identity; empty in a file written by hand: it is made of the content", func(e *memory.Entry) *string { return &e.ID }),
		timeColumn("recorded", "when it was typed, RFC 3339; may be empty where id is", func(e *memory.Entry) *time.Time { return &e.Recorded }),
		dateColumn("date", "day of the garden it is about, YYYY-MM-DD", func(e *memory.Entry) *forecast.Date { return &e.Date }),
		timeColumn("at", "instant it is about, RFC 3339; empty when only the day is known", func(e *memory.Entry) *time.Time { return &e.At }),
		{Column{"kind", strings.Join(kinds(), ", ")}, func(e *memory.Entry) string { return string(e.Kind) },
			func(e *memory.Entry, s string) error { e.Kind = memory.Kind(s); return nil }},
		textColumn("planting", "its name in the garden file, or the name of a bed of several; empty for the whole garden", func(e *memory.Entry) *string { return &e.Planting }),
		textColumn("replaces", "id of the entry it amends or takes back", func(e *memory.Entry) *string { return &e.Replaces }),
		yesColumn("removed", "yes when it takes an entry back", func(e *memory.Entry) *bool { return &e.Removed }),
	}
	meanings := map[string]string{"male": "male flowers (tassels)", "female": "female flowers (silks), or buds", "count": "flowers, fruit, beetles or slugs counted",
		"of": "flowers pollinated, or plants looked at", "minutes": "minutes watched, or of drip", "flowers": "flowers watched", "visits": "visits of bees",
		"amount": "mm of rain, L of water or g of feed", "weight_kg": "kg picked", "misshapen": "misshapen among the fruit", "interval_days": "days before picking, by the label"}
	for _, n := range numbers() {
		out = append(out, numberColumn(n.name, meanings[n.name], n.of))
	}
	return append(out,
		textColumn("group", "honey_bee, bumble_bee or squash_bee; empty for all bees", func(e *memory.Entry) *string { return &e.Group }),
		textColumn("by", "bees or hand, of set", func(e *memory.Entry) *string { return &e.By }),
		textColumn("sex", "male or female, of first", func(e *memory.Entry) *string { return &e.Sex }),
		yesColumn("on", "yes when a cover was put on", func(e *memory.Entry) *bool { return &e.On }),
		dateColumn("flowers_on", "day the flowers of a set opened", func(e *memory.Entry) *forecast.Date { return &e.FlowersOn }),
		textColumn("product", "what was fed or sprayed", func(e *memory.Entry) *string { return &e.Product }),
		textColumn("text", "of symptom and remark", func(e *memory.Entry) *string { return &e.Text }))
}

func textColumn(name, meaning string, of func(*memory.Entry) *string) column {
	return column{Column{name, meaning}, func(e *memory.Entry) string { return guard(*of(e)) },
		func(e *memory.Entry, s string) error { *of(e) = unguard(s); return nil }}
}

// A spreadsheet takes a cell that begins with one of these for a formula.
// [OWASP CSV injection, memory]
const formula = "=+-@"

// guard puts a ' before a text that a spreadsheet would compute; unguard takes
// exactly that one away.
func guard(s string) string {
	if computes(s) {
		return "'" + s
	}
	return s
}

func unguard(s string) string {
	if rest, ok := strings.CutPrefix(s, "'"); ok && computes(rest) {
		return rest
	}
	return s
}

func computes(s string) bool {
	s = strings.TrimLeft(s, "'")
	return s != "" && strings.ContainsRune(formula, rune(s[0]))
}

func timeColumn(name, meaning string, of func(*memory.Entry) *time.Time) column {
	return column{Column{name, meaning}, func(e *memory.Entry) string {
		if of(e).IsZero() {
			return ""
		}
		return of(e).UTC().Format(time.RFC3339Nano)
	}, func(e *memory.Entry, s string) error {
		t, err := time.Parse(time.RFC3339Nano, s)
		if err != nil {
			return refuse("write it as 2026-07-16T05:35:00Z", "%s is not a time", said(s))
		}
		*of(e) = t.UTC()
		return nil
	}}
}

func dateColumn(name, meaning string, of func(*memory.Entry) *forecast.Date) column {
	return column{Column{name, meaning}, func(e *memory.Entry) string {
		if of(e).IsZero() {
			return ""
		}
		return of(e).String()
	}, func(e *memory.Entry, s string) error {
		d, err := forecast.ParseDate(s)
		if err != nil {
			return refuse("write it as 2026-07-16", "%v", err)
		}
		*of(e) = d
		return nil
	}}
}

func yesColumn(name, meaning string, of func(*memory.Entry) *bool) column {
	return column{Column{name, meaning}, func(e *memory.Entry) string {
		if *of(e) {
			return "yes"
		}
		return ""
	}, func(e *memory.Entry, s string) error {
		switch strings.ToLower(s) {
		case "yes", "true":
			*of(e) = true
		case "no", "false":
			*of(e) = false
		default:
			return refuse("write yes, or leave it empty", "%s is neither yes nor no", said(s))
		}
		return nil
	}}
}

func numberColumn(name, meaning string, of func(*memory.Entry) *forecast.Value) column {
	return column{Column{name, meaning}, func(e *memory.Entry) string {
		v, ok := of(e).Get()
		if !ok {
			return ""
		}
		return digits(v)
	}, func(e *memory.Entry, s string) error {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return refuse("write it with a decimal point, and leave it empty when it is not known", "%s is not a number", said(s))
		}
		*of(e) = forecast.Known(v)
		return nil
	}}
}

// WriteCSV writes entries with a line of column names. Read gives the same
// entries back, exactly.
func WriteCSV(w io.Writer, entries []memory.Entry) error {
	out := csv.NewWriter(w)
	cols := columns()
	row := make([]string, len(cols))
	for i, c := range cols {
		row[i] = c.Name
	}
	if err := out.Write(row); err != nil {
		return err
	}
	for k := range entries {
		for i, c := range cols {
			row[i] = c.write(&entries[k])
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// csv reads rows under a line of column names, in any order; columns that are not
// there are empty.
func (in *intake) csv(doc []byte) {
	r := csv.NewReader(bytes.NewReader(doc))
	r.ReuseRecord, r.FieldsPerRecord = true, -1
	head, err := r.Read()
	if err != nil {
		in.fault(1, "", "the first line of a CSV file names its columns; see dawnbrush note forms", "the file holds no entries")
		return
	}
	cols, ok := in.header(head)
	if !ok {
		return
	}
	for {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			return
		}
		var broken *csv.ParseError
		if errors.As(err, &broken) {
			in.fault(broken.Line, "", `quotes inside a cell are doubled: ""`, "the line cannot be read: %v", broken.Err)
			return // where the next row begins is not known
		}
		line, _ := r.FieldPos(0)
		in.row(cols, row, line)
	}
}

// header finds the columns of the first line.
func (in *intake) header(head []string) (cols []column, ok bool) {
	all := columns()
	var offered []string
	for _, c := range all {
		offered = append(offered, c.Name)
	}
	before, seen := in.count, map[string]bool{}
	for _, cell := range head {
		name := strings.ToLower(strings.TrimSpace(cell))
		found := false
		for _, c := range all {
			if c.Name == name {
				cols, found = append(cols, c), true
			}
		}
		switch near, ok := config.Nearest(name, offered); {
		case found && seen[name]:
			in.fault(1, name, "leave one of them out", "the column %s stands twice", name)
		case found:
		case ok:
			in.fault(1, name, "did you mean "+near+"?", "there is no column %s", said(cell))
		default:
			in.fault(1, name, "the columns are "+strings.Join(offered, ", "), "there is no column %s", said(cell))
		}
		seen[name] = true
	}
	for _, must := range []string{"date", "kind"} {
		if !seen[must] && in.count == before {
			in.fault(1, must, "the columns are "+strings.Join(offered, ", "), "the column %s is missing", must)
		}
	}
	return cols, in.count == before
}

// row reads one entry.
func (in *intake) row(cols []column, row []string, line int) {
	if len(row) > len(cols) {
		in.fault(line, "", "put a text with a comma into quotes", "the line has %d cells, there are %d columns", len(row), len(cols))
		return
	}
	var e memory.Entry
	before := in.count
	for i, cell := range row {
		if cell == "" {
			continue
		}
		var refused *Error
		if err := cols[i].read(&e, cell); errors.As(err, &refused) {
			in.fault(line, cols[i].Name, refused.Remedy, "%s", refused.Message)
		}
	}
	if in.count == before && e != (memory.Entry{}) {
		in.take(e, line)
	}
}
