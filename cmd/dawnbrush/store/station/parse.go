package station

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
)

// Fault is one thing wrong with a file.
type Fault struct {
	Line    int // from 1
	Column  int // in bytes, from 1
	Message string
	Hint    string
}

// Result is what a file tells.
type Result struct {
	Series   *forecast.Series // hours of OriginLogger; others between are unknown
	OnlyRain bool             // a rain gauge's file
	Rows     int
	Partial  int // hours that too few rows tell of to be known, or to know their rain
}

// row is one line of measurements.
type row struct {
	end    time.Time
	line   int
	values []float64 // NaN where the cell is empty
}

// mostFaults bounds the list: a wrong column makes a fault on every line. [chosen: more than anybody mends by hand]
const mostFaults = 100

// reader gathers rows and faults.
type reader struct {
	zone    *time.Location
	now     time.Time
	columns []Column // by cell; Name "" at the time
	at      int      // the cell of the time
	rows    []row
	faults  []Fault
	more    int // faults beyond the list
}

func (r *reader) fault(line, column int, hint, format string, args ...any) {
	if len(r.faults) >= mostFaults {
		r.more++
		return
	}
	r.faults = append(r.faults, Fault{line, column, fmt.Sprintf(format, args...), hint})
}

// Parse reads a file. Local times are those of zone; no row may lie after now.
// With any fault there is no result.
func Parse(text []byte, zone *time.Location, now time.Time) (*Result, []Fault) {
	r := &reader{zone: zone, now: now}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf")) // spreadsheets begin a file with this mark
	if !utf8.Valid(text) {
		line := 1 + bytes.Count(text[:firstInvalid(text)], []byte("\n"))
		return nil, []Fault{{line, 1, "it is no text in UTF-8", "save it as CSV in UTF-8"}}
	}
	in := csv.NewReader(bytes.NewReader(text))
	in.FieldsPerRecord = -1
	in.ReuseRecord = true
	header, err := in.Read()
	switch {
	case errors.Is(err, io.EOF):
		return nil, []Fault{{1, 1, "it is empty", "the first line names the columns: " + columnNames()}}
	case err != nil:
		return nil, []Fault{brokenLine(err)}
	}
	r.header(in, header)
	if len(r.faults) > 0 {
		return nil, r.faults // what a cell means is not known
	}
	for {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil { // where the next line begins is not known
			r.faults = append(r.faults, brokenLine(err))
			break
		}
		r.row(in, cells)
	}
	if len(r.faults) == 0 && len(r.rows) == 0 {
		r.fault(2, 1, "write one line for each measurement below the header", "there is no row below the header")
	}
	if r.more > 0 {
		last := r.faults[len(r.faults)-1]
		r.faults = append(r.faults, Fault{last.Line, 1, fmt.Sprintf("and %d more faults below", r.more), ""})
	}
	if len(r.faults) > 0 {
		return nil, r.faults
	}
	return r.hours(), nil
}

func firstInvalid(text []byte) int {
	for i := 0; i < len(text); {
		c, size := utf8.DecodeRune(text[i:])
		if c == utf8.RuneError && size <= 1 {
			return i
		}
		i += size
	}
	return len(text)
}

func brokenLine(err error) Fault {
	f := Fault{1, 1, err.Error(), "a cell with a comma or a quote stands in double quotes"}
	var broken *csv.ParseError
	if errors.As(err, &broken) {
		f.Line, f.Column, f.Message = broken.Line, max(1, broken.Column), "a quote is out of place"
	}
	return f
}

// header settles what each cell of a row means.
func (r *reader) header(in *csv.Reader, cells []string) {
	r.at = -1
	taken := map[string]string{}
	for i, cell := range cells {
		line, column := in.FieldPos(i)
		name := strings.TrimSpace(cell)
		if name == timeColumn {
			if r.at >= 0 {
				r.fault(line, column, "leave one of them out", "the column time stands here twice")
			}
			r.at = i
			r.columns = append(r.columns, Column{})
			continue
		}
		c, ok := columnNamed(name)
		r.columns = append(r.columns, c)
		if !ok {
			r.fault(line, column, "the columns are "+columnNames(), "there is no column %q", name)
			continue
		}
		if other, ok := taken[c.what.key]; ok {
			r.fault(line, column, "leave one of them out", "%s and %s both tell the %s", other, c.Name, c.what.key)
		}
		taken[c.what.key] = c.Name
	}
	if r.at < 0 {
		r.fault(1, 1, "the columns are "+columnNames(), "there is no column time")
	}
	if len(taken) == 0 && len(r.faults) == 0 {
		r.fault(1, 1, "the columns are "+columnNames(), "no column tells anything but the time")
	}
}

// row reads one line.
func (r *reader) row(in *csv.Reader, cells []string) {
	line, _ := in.FieldPos(0)
	if len(cells) != len(r.columns) {
		r.fault(line, 1, "leave a cell empty where nothing is known", "this line has %d cells, the header %d", len(cells), len(r.columns))
		return
	}
	_, column := in.FieldPos(r.at)
	end, ok := r.time(line, column, strings.TrimSpace(cells[r.at]))
	if n := len(r.rows); ok && n > 0 && !end.After(r.rows[n-1].end) {
		r.fault(line, column, "sort the lines by time and leave out repeated ones", "this time is not after that of line %d", r.rows[n-1].line)
		ok = false
	}
	values := make([]float64, len(cells))
	for i, cell := range cells {
		if i == r.at {
			continue
		}
		_, column := in.FieldPos(i)
		values[i] = r.number(line, column, r.columns[i], strings.TrimSpace(cell))
	}
	if ok {
		r.rows = append(r.rows, row{end, line, values})
	}
}

// number reads a cell into the program's unit; NaN is unknown.
func (r *reader) number(line, column int, c Column, cell string) float64 {
	if cell == "" {
		return math.NaN()
	}
	v, err := strconv.ParseFloat(cell, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		r.fault(line, column, "write it as 21.5, with a point, or leave the cell empty", "%s: %q is not a number", c.Name, cell)
		return math.NaN()
	}
	if u := c.convert(v); u < c.what.lo || u > c.what.hi {
		hint := "leave the cell empty where the instrument failed"
		if f := unit.FtoC(v); c.Name == "temp_c" && u > c.what.hi && f <= c.what.hi {
			hint = "if these are degrees Fahrenheit, name the column temp_f; " + hint
		}
		r.fault(line, column, hint, "%s: no %s is %s", c.Name, c.what.key, cell)
		return math.NaN()
	}
	return c.convert(v)
}

// mostYears bounds how far back a row may lie: a clock that was never set begins
// in 1970 or 2000. [chosen: longer than a station lasts]
const mostYears = 10

// localForms are the forms of a time without an offset.
var localForms = [...]string{"2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02T15:04:05"}

// time reads when a row ends.
func (r *reader) time(line, column int, cell string) (time.Time, bool) {
	t, err := time.Parse(time.RFC3339, cell)
	if err != nil {
		var form string
		for _, form = range localForms {
			if t, err = time.ParseInLocation(form, cell, r.zone); err == nil {
				break
			}
		}
		switch {
		case err != nil:
			r.fault(line, column, "write it as 2026-07-16 05:00 or 2026-07-16T05:00:00-04:00", "%q is not a time", cell)
			return t, false
		case t.Format(form) != cell:
			r.fault(line, column, "write it with its offset, as 2026-07-16T05:00:00-04:00", "the clock does not show %s that day: it is put forward", cell)
			return t, false
		case r.twice(t):
			r.fault(line, column, "write it with its offset, as 2026-07-16T05:00:00-04:00", "the clock shows %s twice that day: it is put back", cell)
			return t, false
		}
	}
	switch {
	case t.After(r.now):
		r.fault(line, column, "is the year right, and the zone?", "%s lies in the future", cell)
		return t, false
	case t.Before(r.now.AddDate(-mostYears, 0, 0)):
		r.fault(line, column, "is the year right?", "%s lies more than %d years back", cell, mostYears)
		return t, false
	}
	return t.UTC(), true
}

// twice tells whether the clock shows the same time again a little before or
// after t. Clocks are put back by half an hour or an hour.
func (r *reader) twice(t time.Time) bool {
	const wall = "2006-01-02 15:04:05"
	for _, d := range []time.Duration{-time.Hour, -30 * time.Minute, 30 * time.Minute, time.Hour} {
		if t.Add(d).In(r.zone).Format(wall) == t.In(r.zone).Format(wall) {
			return true
		}
	}
	return false
}
