package published

import (
	"errors"
	"fmt"
	"strings"
)

// Fit is one row left out of one drawing of numbers of ours: what they are with
// it, what they would be without it, and whose verdict changes then.
type Fit struct {
	Name    string   // of the drawing: "grains a honey bee brings to squash"
	Crops   []string // whose files hold the numbers
	Params  []string // dotted names in those files
	Way     string   // how they were drawn
	Row     string   // the row left out
	Value   string   // with all rows, in the order of Params
	Redrawn string   // without the row; "" where nothing is left to draw from
	Changes []Change // of all other rows of those crops
	Note    string   // what else is to be known
}

// Change is a row whose verdict is another once a row is left out of a drawing.
type Change struct {
	Row string
	To  Verdict
}

var fitColumns = []string{"fit", "crops", "parameters", "way", "row", "value", "redrawn", "changes", "note"}

func (t *Table) parseFits(data []byte) error {
	var faults []error
	seen := map[string]bool{}
	err := eachLine(data, "fits.csv", fitColumns, func(line int, cell func(string) string) {
		f := Fit{Name: cell("fit"), Crops: strings.Fields(cell("crops")), Params: strings.Fields(cell("parameters")), Way: cell("way"), Row: cell("row"),
			Value: cell("value"), Redrawn: cell("redrawn"), Note: cell("note")}
		fault := func(format string, args ...any) {
			faults = append(faults, fmt.Errorf("fits.csv line %d: "+format, append([]any{line}, args...)...))
		}
		row, known := t.Row(f.Row)
		if !known {
			fault("there is no row %q", f.Row)
		} else if !row.Tested() {
			fault("%s is not held against the model", f.Row)
		}
		if f.Name == "" || f.Way == "" || f.Value == "" || len(f.Crops) == 0 || len(f.Params) == 0 {
			fault("fit, crops, parameters, way and value must be told")
		}
		if seen[f.Name+"|"+f.Row] {
			fault("%s is left out of %q twice", f.Row, f.Name)
		}
		seen[f.Name+"|"+f.Row] = true
		if f.Redrawn == "" && f.Note == "" {
			fault("nothing redrawn, and no note says why")
		}
		for part := range strings.SplitSeq(cell("changes"), "; ") {
			if part == "" {
				continue
			}
			id, to, ok := strings.Cut(part, " -> ")
			if _, known := t.Row(id); !ok || !known || Verdict(to) != Hit && Verdict(to) != Miss {
				fault("%q is no change of a row", part)
			}
			f.Changes = append(f.Changes, Change{id, Verdict(to)})
		}
		t.fits = append(t.fits, f)
	})
	return errors.Join(append(faults, err)...)
}

// EncodeFits writes fits as Parse reads them.
func EncodeFits(fits []Fit) ([]byte, error) {
	out := [][]string{fitColumns}
	for i := range fits {
		f := &fits[i]
		var changes []string
		for _, c := range f.Changes {
			changes = append(changes, c.Row+" -> "+string(c.To))
		}
		out = append(out, []string{f.Name, strings.Join(f.Crops, " "), strings.Join(f.Params, " "), f.Way, f.Row, f.Value, f.Redrawn, strings.Join(changes, "; "), f.Note})
	}
	return encode(out)
}
