package risk

import (
	"flag"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/risk/crop"
	"dawnbrush/risk/published"
	"dawnbrush/risk/source"
)

var update = flag.Bool("update", false, "write risk/published/table.csv and fits.csv anew")

// renew tells how to make the files match the model again.
const renew = "renew with `go test ./risk -run Published -update`, then `go test ./cmd/dawnbrush -run Published -update`, and read what changed"

const tableFile, fitsFile = "published/table.csv", "published/fits.csv"

// reasons of rows that are no result held against the model and need no word of their own.
const (
	whyInput  = "a number of a crop file is taken from it, or it stands there beside one"
	whyNoCrop = "there is no crop file of that crop"
)

// rowTrial is a finding that was run.
type rowTrial struct {
	finding
	got  float64
	hit  bool
	used map[string]bool // crops whose numbers it asked for
}

// trials runs all findings for which keep is true. A finding that looks its crop
// up while it is made shows none in used.
func (l *lab) trials(keep func(*finding) bool) (out []rowTrial) {
	for _, f := range l.findings() {
		if !keep(&f) {
			continue
		}
		l.used = map[string]bool{}
		got := f.model()
		out = append(out, rowTrial{f, got, f.rule.holds(got), l.used})
		l.used = nil
	}
	return out
}

func everyRow(*finding) bool { return true }

// The names under which the evidence speaks of crops whose files are called
// otherwise.
var evidenceCrops = map[string]string{
	"watermelon_seeded": "watermelon", "watermelon_triploid": "seedless-watermelon", "squash": "summer-squash", "courgette_uk": "summer-squash",
	"buffalo_gourd_wild": "summer-squash", "pumpkin": "pumpkin-winter-squash", "pumpkin_cpepo": "pumpkin-winter-squash", "squash_pumpkin": "summer-squash",
	"pumpkin_hokkaido": "pumpkin-winter-squash", "pumpkin_wizard": "pumpkin-winter-squash", "pumpkin_cmaxima": "pumpkin-winter-squash",
	"cucumber,watermelon": "cucumber", "maize": "sweet-corn", "melon": "muskmelon", "honey_bee": published.Bees,
	"all": noSingleCrop, "all_cucurbits": noSingleCrop, "cucurbits": noSingleCrop,
}

// noSingleCrop is the subject of rows that speak of no single crop.
const noSingleCrop = "all"

// subject gives whose row it is: what the finding says, the crop in the row's own
// name, or the one crop whose numbers the model looked up.
func (l *lab) subject(id, told string, used map[string]bool) string {
	word := l.whose(id, told, used)
	if c, ok := l.set.Find(word); ok {
		return c.Key
	}
	return word
}

func (l *lab) whose(id, told string, used map[string]bool) string {
	if told != "" {
		return told
	}
	table, row, _ := strings.Cut(id, "/")
	word, _, _ := strings.Cut(row, "/")
	if c := l.tables[table][row]["crop"]; c != "" {
		word = c
	}
	own := table == published.Bees || table == published.Wet // tables of no crop
	if key := evidenceCrops[word]; key != "" && !own {
		return key
	}
	if c, ok := l.set.Find(word); ok && !own {
		return c.Key
	}
	if len(used) == 1 {
		for key := range used {
			return key
		}
	}
	if own {
		return table
	}
	return word
}

// origin fills in what the evidence says of a row: number, unit, source, status.
func (l *lab) origin(r *published.Row) {
	l.t.Helper()
	table, name, _ := strings.Cut(r.ID, "/")
	rec := l.tables[table][name]
	first := func(columns ...string) string {
		for _, c := range columns {
			if rec[c] != "" {
				return rec[c]
			}
		}
		return ""
	}
	number := func(column string) *float64 {
		v, err := strconv.ParseFloat(rec[column], 64)
		if err != nil {
			return nil
		}
		return &v
	}
	r.Low, r.High, r.Unit = number("low"), number("high"), rec["unit"]
	if _, pairs := rec["x"]; pairs { // a setting and its result, a range, or a number alone
		switch {
		case rec["y"] == "":
			r.Low, r.High, r.Unit = number("x"), number("x"), rec["x_unit"]
		case rec["x_unit"] == rec["y_unit"]:
			r.Low, r.High, r.Unit = number("x"), number("y"), rec["y_unit"]
		default:
			r.Low, r.High, r.Unit = number("y"), number("y"), rec["y_unit"]
		}
	}
	if v := number("value"); v != nil && r.Low == nil {
		r.Low, r.High = v, v
	}
	if r.High == nil {
		r.High = r.Low
	}
	if r.Source == "" {
		r.Source = first("source_id", "source", "key")
	}
	if special := map[string]string{"none": source.KeyCommonPractice, "mem": source.KeyMemory}[r.Source]; special != "" {
		r.Source = special
	}
	if !r.Status.Valid() {
		status, err := source.ParseStatus(first("evidence", "status"))
		require.NoError(l.t, err, r.ID)
		r.Status = status
	}
	if r.Where == "" {
		r.Where = first("where", "place")
	}
	if r.Where == "" {
		r.Where = l.placeOf(r)
	}
	if r.Says == "" {
		r.Says = toldOf(rec, first("condition", "note", "effect", "practice"))
		if _, subject := rec["subject"]; subject {
			r.Says = rec["condition"] + ": " + toldOf(rec, rec["effect"])
		}
		if strings.TrimSpace(r.Says) == "" {
			r.Says = name
		}
	}
}

// toldOf puts a row's numbers and words into a line.
func toldOf(rec map[string]string, words string) string {
	var parts []string
	for _, pair := range [][2]string{{"x", "x_unit"}, {"y", "y_unit"}} {
		if text := strings.TrimSpace(rec[pair[0]] + " " + rec[pair[1]]); text != "" {
			parts = append(parts, text)
		}
	}
	if low, high := rec["low"], rec["high"]; low != "" || high != "" {
		if low != high && high != "" && low != "" {
			low += " to " + high
		}
		parts = append(parts, strings.TrimSpace(low+" "+rec["unit"]))
	}
	if words != "" {
		parts = append(parts, words)
	}
	return strings.Join(parts, ", ")
}

// placeOf looks up where in the work a row stands: where a crop file links it,
// else all places that our numbers name in that work.
func (l *lab) placeOf(r *published.Row) string {
	if r.Source == source.KeyMemory || r.Source == source.KeyCommonPractice {
		return "none"
	}
	linked, places := "", []string{}
	look := func(key, row, where, of string) {
		if of != r.Source || where == "" {
			return
		}
		if rest, ok := strings.CutPrefix(where, "p. "); ok && strings.Contains(rest, "-") {
			where = "pp. " + rest
		}
		if published.RowName(key, row) == r.ID {
			linked = where
		}
		if !slices.Contains(places, where) {
			places = append(places, where)
		}
	}
	all := func(key string, params []source.Param) {
		for _, p := range params {
			look(key, p.Row, p.Where, p.Key)
			for _, o := range p.Others {
				look(key, o.Row, o.Where, o.Key)
			}
		}
	}
	for _, c := range l.set.Crops() {
		all(c.Key, c.Params)
	}
	all("", Params())
	switch {
	case linked != "":
		return linked
	case len(places) > 0:
		slices.Sort(places)
		return strings.Join(places, " or ")
	}
	return "not noted"
}

// build makes the whole table from the model: every row of the evidence.
func (l *lab) build() []published.Row {
	l.t.Helper()
	var rows []published.Row
	seen := map[string]bool{}
	add := func(r published.Row) {
		l.origin(&r)
		rows, seen[r.ID] = append(rows, r), true
	}
	before := ""
	for _, f := range l.trials(everyRow) {
		setting := f.setting
		if rest, same := strings.CutPrefix(setting, "the same"); same {
			setting = "as " + before + rest
		} else {
			before = f.id
		}
		r := published.Row{ID: f.id, Subject: l.subject(f.id, f.crop, f.used), Setting: setting, Says: f.says, Rule: f.rule.words, RuleLow: f.rule.lo, RuleHigh: f.rule.hi,
			Model: f.got, Verdict: published.Hit, Standing: published.Standing(standingNames[f.as]), Must: f.must, Source: f.source, Where: f.where, Status: f.status}
		if !f.hit {
			r.Verdict, r.Reason = published.Miss, f.miss
		}
		add(r)
	}
	plain := func(id string, v published.Verdict, why string) {
		add(published.Row{ID: id, Subject: l.subject(id, "", nil), Verdict: v, Reason: why, Model: math.NaN(), RuleLow: math.Inf(-1), RuleHigh: math.Inf(1)})
	}
	for _, a := range l.asides() {
		for _, id := range a.ids {
			plain(id, published.Aside, a.why)
		}
	}
	for table, evidence := range l.tables {
		for name := range evidence {
			id := table + "/" + name
			if seen[id] {
				continue
			}
			subject := l.subject(id, "", nil)
			_, known := l.set.Find(subject)
			if known || subject == noSingleCrop || subject == published.Bees || subject == published.Wet {
				plain(id, published.Input, whyInput)
			} else {
				plain(id, published.NoCrop, whyNoCrop)
			}
		}
	}
	slices.SortStableFunc(rows, func(a, b published.Row) int { // those tested stay in their order
		if c := strings.Compare(a.Subject, b.Subject); c != 0 || a.Tested() && b.Tested() {
			return c
		}
		if a.Tested() != b.Tested() {
			return map[bool]int{true: -1, false: 1}[a.Tested()]
		}
		return strings.Compare(a.ID, b.ID)
	})
	return rows
}

// The published table in its file is what the model gives today.
func TestPublishedTableIsFresh(t *testing.T) {
	l := newLab(t)
	want := l.build()
	text, err := published.Encode(want)
	require.NoError(t, err)
	if *update {
		require.NoError(t, os.WriteFile(tableFile, text, 0o666))
		return
	}
	have, err := os.ReadFile(tableFile) // alone: a fit of a row that went must not hide which row went
	require.NoError(t, err)
	table, err := published.Parse(have, noFits(t), l.set.Bibliography())
	require.NoError(t, err, renew)
	fresh, err := published.Parse(text, noFits(t), l.set.Bibliography())
	require.NoError(t, err)
	for _, r := range fresh.Rows() {
		old, ok := table.Row(r.ID)
		if !ok {
			t.Errorf("%s is missing in risk/%s; %s", r.ID, tableFile, renew)
			continue
		}
		for _, d := range staleCells(old, r) {
			t.Errorf("%s: %s; %s", r.ID, d, renew)
		}
	}
	for _, r := range table.Rows() {
		if _, ok := fresh.Row(r.ID); !ok {
			t.Errorf("%s stands in risk/%s and in no evidence; %s", r.ID, tableFile, renew)
		}
	}
}

func noFits(t *testing.T) []byte {
	t.Helper()
	text, err := published.EncodeFits(nil)
	require.NoError(t, err)
	return text
}

// staleCells tells in which cells two rows differ. The model's number may differ by
// one in its third digit: platforms round the last bits of a sum differently.
func staleCells(old, fresh published.Row) (out []string) {
	if old.Verdict != fresh.Verdict {
		out = append(out, fmt.Sprintf("was a %s, is a %s", old.Verdict, fresh.Verdict))
	}
	a, b := old.Model, fresh.Model
	if math.IsNaN(a) != math.IsNaN(b) || math.Abs(a-b) > lastDigit(b) {
		out = append(out, fmt.Sprintf("the model gave %s, gives %s", published.Number(a), published.Number(b)))
	}
	old.Verdict, old.Model, fresh.Verdict, fresh.Model = "", 0, "", 0
	if !assert.ObjectsAreEqual(old, fresh) {
		out = append(out, "its words, rule, standing or origin changed")
	}
	return out
}

func lastDigit(v float64) float64 {
	if v == 0 || math.IsNaN(v) {
		return 1e-9
	}
	return 1.01 * math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-2)
}

// A planted change is found, one of rounding is not.
func TestPublishedStaleness(t *testing.T) {
	r := published.Row{ID: "visits/x", Verdict: published.Hit, Model: 0.123}
	near, far, other, worded := r, r, r, r
	near.Model, far.Model, other.Verdict, worded.Says = 0.124, 0.126, published.Miss, "else"
	assert.Empty(t, staleCells(r, r))
	assert.Empty(t, staleCells(r, near))
	assert.Len(t, staleCells(r, far), 1)
	assert.Len(t, staleCells(r, other), 1)
	assert.Len(t, staleCells(r, worded), 1)
}

// subjects of tested rows are crops, bees or wet air.
func TestPublishedSubjects(t *testing.T) {
	if *update {
		t.Skip("the table is being written")
	}
	table, err := published.Load()
	require.NoError(t, err, renew)
	set, err := crop.Load()
	require.NoError(t, err)
	for _, s := range table.Subjects() {
		if _, ok := set.Find(s); !ok && s != published.Bees && s != published.Wet {
			t.Errorf("rows are held against %q, which is neither a crop nor bees nor wet air", s)
		}
	}
}
