package risk

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"text/tabwriter"

	"github.com/stretchr/testify/require"

	"dawnbrush/risk/crop"
	"dawnbrush/risk/source"
)

// How a row stands to the model's own numbers.
type standing int

const (
	unforced    standing = iota // no number of ours was drawn to it
	fitted                      // a number of ours was fitted to it, alone or among others
	constructed                 // true by construction: the number is our parameter, or the form allows nothing else
	standings   = iota
)

var standingNames = [standings]string{"unforced", "fitted", "by construction"}

// finding is one published result held against the model.
type finding struct {
	id      string // table/row, as in testdata
	setting string // in words
	says    string // the published result, with its spread where one is known
	rule    rule   // fixed before the model was run
	as      standing
	must    bool // the test fails when it misses
	model   func() float64
	miss    string // why it misses, in words; empty for a hit

	// Optional. Empty takes them from the evidence row, the crop also from what the
	// model looks up, the place also from what the crop files say of the work.
	crop, source, where string // crop: key, or bees or wet
	status              source.Status
}

// rule is the hit rule: the publication's own error or range, else 20 % of the
// value, or 0.10 for shares; a direction is a margin that must be above zero.
// Words are read so: full and none within 0.10, enough 0.9, full activity and
// no effect within 20 %, almost gone under 20 %, most, severely and "they set"
// a half.
type rule struct {
	lo, hi float64
	words  string
}

func (r rule) holds(v float64) bool { return v >= r.lo-1e-9 && v <= r.hi+1e-9 }

func share(v float64) rule    { return rule{v - 0.10, v + 0.10, "+-0.10"} }
func relative(v float64) rule { return rule{0.8 * v, 1.2 * v, "+-20 %"} }
func atLeast(v float64) rule  { return rule{v, math.Inf(1), fmt.Sprintf(">= %g", v)} }
func atMost(v float64) rule   { return rule{math.Inf(-1), v, fmt.Sprintf("<= %g", v)} }
func between(lo, hi float64) rule {
	return rule{lo, hi, fmt.Sprintf("%.3g to %.3g", lo, hi)}
}
func direction() rule { return rule{1e-6, math.Inf(1), "direction: > 0"} }

// aside is a group of rows that cannot be held against this model, and why.
type aside struct {
	why string
	ids []string
}

// evidence is a table of published results in testdata, by row name.
type evidence map[string]map[string]string

// readEvidence reads a table; key names the columns that make a row's name.
func readEvidence(t testing.TB, path string, key ...string) evidence {
	t.Helper()
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	out := evidence{}
	for _, rec := range all[1:] {
		row, name := map[string]string{}, []string{}
		for i, h := range all[0] {
			row[h] = rec[i]
		}
		for _, k := range key {
			name = append(name, row[k])
		}
		id := strings.Join(name, "/")
		require.NotContains(t, out, id, path)
		out[id] = row
	}
	return out
}

// tables are all evidence the rows come from. crops.csv is the copy that the
// crop files are tested against.
func tables(t testing.TB) map[string]evidence {
	return map[string]evidence{
		"visits":  readEvidence(t, "testdata/visits.csv", "id"),
		"further": readEvidence(t, "testdata/further.csv", "id"),
		"wet":     readEvidence(t, "testdata/wet.csv", "subject", "condition"),
		"bees":    readEvidence(t, "testdata/bees.csv", "group", "parameter"),
		"load":    readEvidence(t, "testdata/load.csv", "crop", "result"),
		"crops":   readEvidence(t, "crop/testdata/crops.csv", "crop", "parameter"),
		"hand":    readEvidence(t, "crop/testdata/hand.csv", "crop", "item"),
	}
}

// num reads a number of a row, so that no published figure is typed twice.
func (l *lab) num(id, col string) float64 {
	l.t.Helper()
	table, row, _ := strings.Cut(id, "/")
	v, err := strconv.ParseFloat(l.tables[table][row][col], 64)
	require.NoError(l.t, err, "%s %s", id, col)
	return v
}

// The crops of visits.csv that the model knows so far (a wild gourd stands for
// what one visit of a squash bee is worth), and those it does not.
var (
	ourVisits = []string{"cucumber", "cucumber,watermelon", "summer_squash", "squash", "zucchini", "courgette_uk", "buffalo_gourd_wild",
		"pumpkin", "pumpkin_cpepo", "pumpkin_hokkaido", "pumpkin_wizard", "pumpkin_cmaxima", "maize", "tomato", "bean", "honey_bee",
		"watermelon", "watermelon_triploid", "watermelon_seeded", "muskmelon"}
	otherVisits = []string{"strawberry"}
	ourCrops    = []string{"cucumber", "summer_squash", "pumpkin_winter_squash", "sweet_corn", "tomato", "sweet_pepper", "common_bean",
		"muskmelon", "watermelon_seeded", "watermelon_triploid"}
)

// What the table must reach. The goal is four in five (0.80) of all rows tested; it
// was met, 141 of 176, until the 41 rows of further.csv came, chosen before the
// model saw them: 21 of those hit, and 162 of 217 in all. Since then the model was
// changed where several sources showed the same lack; rows that a number was moved
// for are no longer unforced. Raise the shares as the model gets better, never lower
// them for the same rows.
const (
	leastShare      = 0.80 // of all rows tested; goal 0.80
	leastOtherShare = 0.77 // of those that need not hit
)

// The table of published results: every row of visits.csv for our crops and
// bees, and the measured results of crops.csv, wet.csv and bees.csv, against the
// model's own code. The rows that must hit are those the plan stands on.
func TestPublishedResults(t *testing.T) {
	l := newLab(t)
	var score [standings][2]int // hits, rows
	var must, other [2]int
	var text strings.Builder
	w := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "row\tpublished\trule\tmodel\tresult\tstanding\tsetting, and why it misses")
	for _, f := range l.findings() {
		got := f.model()
		require.False(t, math.IsNaN(got) || math.IsInf(got, 0), "%s: the model gives %g", f.id, got)
		hit, result, why := 0, "MISS", f.miss
		if f.rule.holds(got) {
			hit, result, why = 1, "hit", ""
		} else if f.miss == "" {
			t.Errorf("%s misses (%s, the model gives %.4g) and the table does not say why", f.id, f.rule.words, got)
		}
		if hit == 1 && f.miss != "" {
			why = "hits now, its reason can go"
		}
		add := func(s *[2]int) { s[0], s[1] = s[0]+hit, s[1]+1 }
		add(&score[f.as])
		if f.must {
			add(&must)
			result += ", must"
			if hit == 0 {
				t.Errorf("%s must hit: %s; published %s, rule %s, the model gives %.4g", f.id, f.setting, f.says, f.rule.words, got)
			}
		} else {
			add(&other)
		}
		if why != "" {
			why = " -- " + why
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%.3g\t%s\t%s\t%s%s\n", f.id, f.says, f.rule.words, got, result, standingNames[f.as], f.setting, why)
	}
	require.NoError(t, w.Flush())
	t.Log("\n" + text.String() + "\n" + l.scores(score, must, other) + "\n\n" + listed(l.asides()))
	enough := func(what string, hits, rows int, least float64) {
		if got := float64(hits) / float64(rows); got < least {
			t.Errorf("of %s %d of %d hit (%.1f %%), at least %.0f %% must", what, hits, rows, 100*got, 100*least)
		}
	}
	enough("all rows", must[0]+other[0], must[1]+other[1], leastShare)
	enough("the rows that need not hit", other[0], other[1], leastOtherShare)
}

func (l *lab) scores(score [standings][2]int, must, other [2]int) string {
	var b strings.Builder
	line := func(name string, s [2]int) {
		fmt.Fprintf(&b, "%-40s %3d of %3d, %3.0f %%\n", name, s[0], s[1], 100*float64(s[0])/float64(max(1, s[1])))
	}
	var all [2]int
	for i, s := range score {
		line(standingNames[i], s)
		all[0], all[1] = all[0]+s[0], all[1]+s[1]
	}
	line("together", all)
	line("rows that must hit", must)
	line("all other rows", other)
	return b.String()
}

func listed(asides []aside) string {
	var b strings.Builder
	n := 0
	for _, a := range asides {
		n += len(a.ids)
	}
	fmt.Fprintf(&b, "not held against the model, %d rows:\n", n)
	for _, a := range asides {
		fmt.Fprintf(&b, "  %s:\n    %s\n", a.why, strings.Join(a.ids, "; "))
	}
	return b.String()
}

// No row may be left out unsaid: each is tested, listed with why it cannot be,
// or (crops.csv, hand.csv) stands in a crop file as a number of ours or beside one.
func TestPublishedRowsAreComplete(t *testing.T) {
	l := newLab(t)
	seen := map[string]string{}
	put := func(id, where string) {
		table, row, _ := strings.Cut(id, "/")
		if _, ok := l.tables[table][row]; !ok {
			t.Errorf("%s stands in no table", id)
		}
		if was, twice := seen[id]; twice {
			t.Errorf("%s is %s and %s", id, was, where)
		}
		seen[id] = where
	}
	for _, f := range l.findings() {
		require.NotEmpty(t, f.setting, f.id)
		require.NotEmpty(t, f.says, f.id)
		require.NotEmpty(t, f.rule.words, f.id)
		put(f.id, "tested")
	}
	for _, a := range l.asides() {
		require.NotEmpty(t, a.why)
		for _, id := range a.ids {
			put(id, "listed")
		}
	}
	linked := linkedRows(l.set)
	for table, rows := range l.tables {
		for row, rec := range rows {
			id := table + "/" + row
			switch table {
			case "visits":
				ours := slices.Contains(ourVisits, rec["crop"])
				if !ours && !slices.Contains(otherVisits, rec["crop"]) {
					t.Errorf("%s: is %s one of our crops or not?", id, rec["crop"])
				}
				if ours && seen[id] == "" {
					t.Errorf("%s is neither tested nor listed", id)
				}
			case "crops":
				if slices.Contains(ourCrops, rec["crop"]) && seen[id] == "" && !linked[row] {
					t.Errorf("%s is neither tested nor listed, and no crop file holds it", id)
				}
			case "hand":
				if seen[id] == "" && !linked["hand:"+row] {
					t.Errorf("%s is neither tested nor listed, and no crop file holds it", id)
				}
			default:
				if seen[id] == "" {
					t.Errorf("%s is neither tested nor listed", id)
				}
			}
		}
	}
}

// linkedRows are the rows of crops.csv that the crop files name: our numbers and
// those kept beside them.
func linkedRows(set *crop.Set) map[string]bool {
	out := map[string]bool{}
	for _, c := range set.Crops() {
		link := func(row string) {
			if row != "" && !strings.Contains(row, "/") {
				row = strings.ReplaceAll(c.Key, "-", "_") + "/" + row
			}
			out[row] = true
		}
		for _, p := range c.Params {
			link(p.Row)
			for _, o := range p.Others {
				link(o.Row)
			}
		}
	}
	return out
}
