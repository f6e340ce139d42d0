// Package published is the table of published results that the model is held
// against: what was published, the rule fixed beforehand, what the model gives,
// whether that is a hit, and where not, why. It holds results only and knows no
// model; the test of package risk works the numbers out, writes the table and
// fails when it has gone stale.
package published

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"dawnbrush/risk/source"
)

// Verdict is what became of a published result.
type Verdict string

// The verdicts. Only hits and misses are held against the model.
const (
	Hit    Verdict = "hit"
	Miss   Verdict = "miss"
	Aside  Verdict = "aside"   // cannot be held against the model; Reason says why
	Input  Verdict = "input"   // a number of a crop file is taken from it, or it stands beside one
	NoCrop Verdict = "no crop" // of a crop that has no crop file
)

// Standing is how a row stands to the model's own numbers.
type Standing string

// The standings. A row that is not held against the model has none.
const (
	Unforced    Standing = "unforced"        // no number of ours was drawn to it
	Fitted      Standing = "fitted"          // a number of ours was fitted to it, alone or among others
	Constructed Standing = "by construction" // the number is our parameter, or the form allows nothing else
)

// The subjects that are no crop.
const (
	Bees = "bees" // flight of bees, whatever they visit
	Wet  = "wet"  // pollen and flowers in wet air
)

// Row is one published result.
type Row struct {
	ID       string // table/row of the evidence: "visits/vidal_12"
	Subject  string // a crop's key, Bees or Wet
	Setting  string // of the trial, in words
	Says     string // the published result in words, with its spread where one is known
	Low      *float64
	High     *float64 // the published number, or its range; nil where it is in words alone
	Unit     string   // of Low and High
	Rule     string   // hit rule in words, "" for a row that is not held against the model
	RuleLow  float64  // a model value from here ...
	RuleHigh float64  // ... to here is a hit; infinite where the rule has no end
	Model    float64  // what the model gives, three digits; NaN for a row that is not held against it
	Verdict  Verdict
	Standing Standing
	Must     bool // the plan stands on it: the test fails when it misses
	Reason   string
	Source   string // key in the bibliography
	Where    string // place in the source
	Status   source.Status
}

// Tested tells whether the row is held against the model.
func (r *Row) Tested() bool { return r.Verdict == Hit || r.Verdict == Miss }

//go:embed table.csv
var tableCSV []byte

//go:embed fits.csv
var fitsCSV []byte

var load = sync.OnceValues(func() (*Table, error) {
	bib, err := source.Load()
	if err != nil {
		return nil, err
	}
	return Parse(tableCSV, fitsCSV, bib)
})

// Load gives the table built into the program.
func Load() (*Table, error) { return load() }

// Table is all rows and all fits. It never changes after it was read.
type Table struct {
	rows []Row
	byID map[string]int
	fits []Fit
}

// Rows gives all rows in their order.
func (t *Table) Rows() []Row { return slices.Clone(t.rows) }

// Row gives the row of a name.
func (t *Table) Row(id string) (Row, bool) {
	i, ok := t.byID[id]
	if !ok {
		return Row{}, false
	}
	return t.rows[i], true
}

// Fits gives all fits in their order.
func (t *Table) Fits() []Fit { return slices.Clone(t.fits) }

var columns = []string{"id", "subject", "setting", "published", "low", "high", "unit", "rule", "rule_low", "rule_high",
	"model", "verdict", "standing", "must", "reason", "source", "where", "status"}

// Parse reads a table and its fits strictly: an unknown column, word, source or
// row, a number that is none, a hit outside its rule, a miss without a reason
// are errors, all reported at once with their lines.
func Parse(table, fits []byte, bib *source.Bibliography) (*Table, error) {
	t := &Table{byID: map[string]int{}}
	var faults []error
	err := eachLine(table, "table.csv", columns, func(line int, cell func(string) string) {
		row, err := parseRow(cell, bib)
		if _, twice := t.byID[row.ID]; twice {
			err = errors.Join(err, fmt.Errorf("%s stands here twice", row.ID))
		}
		if err != nil {
			faults = append(faults, fmt.Errorf("table.csv line %d: %s: %w", line, row.ID, err))
		}
		t.byID[row.ID] = len(t.rows)
		t.rows = append(t.rows, row)
	})
	faults = append(faults, err, t.parseFits(fits))
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	return t, nil
}

// eachLine reads a CSV file with exactly these columns.
func eachLine(data []byte, name string, columns []string, take func(line int, cell func(string) string)) error {
	in := csv.NewReader(bytes.NewReader(data))
	header, err := in.Read()
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if !slices.Equal(header, columns) {
		return fmt.Errorf("%s: the columns are %s, not %s", name, strings.Join(header, ","), strings.Join(columns, ","))
	}
	for {
		rec, err := in.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		line, _ := in.FieldPos(0)
		take(line, func(column string) string { return rec[slices.Index(columns, column)] })
	}
}

// numbers reads cells and gathers what is wrong with them.
type numbers struct{ faults []error }

func (n *numbers) read(text string, empty float64) float64 {
	if text == "" {
		return empty
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		n.faults = append(n.faults, fmt.Errorf("%q is not a number", text))
	}
	return v
}

func (n *numbers) maybe(text string) *float64 {
	if text == "" {
		return nil
	}
	v := n.read(text, 0)
	return &v
}

func parseRow(cell func(string) string, bib *source.Bibliography) (Row, error) {
	var n numbers
	r := Row{ID: cell("id"), Subject: cell("subject"), Setting: cell("setting"), Says: cell("published"), Unit: cell("unit"),
		Low: n.maybe(cell("low")), High: n.maybe(cell("high")), Rule: cell("rule"),
		RuleLow: n.read(cell("rule_low"), math.Inf(-1)), RuleHigh: n.read(cell("rule_high"), math.Inf(1)), Model: n.read(cell("model"), math.NaN()),
		Verdict: Verdict(cell("verdict")), Standing: Standing(cell("standing")), Must: cell("must") == "must",
		Reason: cell("reason"), Source: cell("source"), Where: cell("where")}
	fault := func(bad bool, format string, args ...any) {
		if bad {
			n.faults = append(n.faults, fmt.Errorf(format, args...))
		}
	}
	status, err := source.ParseStatus(cell("status"))
	r.Status = status
	fault(err != nil, "%v", err)
	_, known := bib.Get(r.Source)
	fault(!known, "source %q is not in the bibliography", r.Source)
	fault(cell("must") != "" && !r.Must, "must is %q, not must or empty", cell("must"))
	for _, column := range []string{"id", "subject", "published", "where"} {
		fault(cell(column) == "", "%s is missing", column)
	}
	switch r.Verdict {
	case Hit, Miss:
		fault(cell("model") == "" || r.Rule == "" || r.Setting == "", "a row held against the model needs a setting, a rule and the model's value")
		fault(!slices.Contains([]Standing{Unforced, Fitted, Constructed}, r.Standing), "standing %q is none", r.Standing)
		fault(r.RuleLow > r.RuleHigh, "the rule ends before it begins")
		fault(r.Verdict == Miss && r.Reason == "", "a miss needs its reason")
		fault(r.Verdict == Miss && r.Must, "a row that must hit misses")
	case Aside, Input, NoCrop:
		fault(r.Reason == "", "a row that is not held against the model needs its reason")
		fault(cell("model") != "" || r.Rule != "" || r.Standing != "" || r.Must, "a row that is not held against the model has no rule, model value or standing")
	default:
		fault(true, "verdict %q is none", r.Verdict)
	}
	return r, errors.Join(n.faults...)
}

// Number writes a model's number with three digits, the same on every platform.
func Number(v float64) string {
	if math.Abs(v) < 1e-9 {
		return "0"
	}
	text := strconv.FormatFloat(v, 'g', 3, 64)
	if strings.Contains(text, "e+") { // thousands in full: 2000 for 2e+03
		if round, err := strconv.ParseFloat(text, 64); err == nil && math.Abs(round) < 1e6 {
			return strconv.FormatFloat(round, 'f', -1, 64)
		}
	}
	return text
}

// Encode writes rows as Parse reads them.
func Encode(rows []Row) ([]byte, error) {
	out := [][]string{columns}
	for i := range rows {
		r := &rows[i]
		maybe := func(v *float64) string {
			if v == nil {
				return ""
			}
			return strconv.FormatFloat(*v, 'g', -1, 64)
		}
		end := func(v float64) string {
			if math.IsInf(v, 0) {
				return ""
			}
			return Number(v)
		}
		lo, hi, model, must := "", "", "", ""
		if r.Tested() {
			lo, hi, model = end(r.RuleLow), end(r.RuleHigh), Number(r.Model)
		}
		if r.Must {
			must = "must"
		}
		out = append(out, []string{r.ID, r.Subject, r.Setting, r.Says, maybe(r.Low), maybe(r.High), r.Unit, r.Rule, lo, hi,
			model, string(r.Verdict), string(r.Standing), must, r.Reason, r.Source, r.Where, r.Status.String()})
	}
	return encode(out)
}

func encode(lines [][]string) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	err := w.WriteAll(lines)
	return b.Bytes(), err
}
