package diary_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

func knownTo(t testing.TB) diary.Known { return diary.Known{Garden: garden(t), Today: day} }

// lines joins lines to a document.
func lines(l ...string) []byte { return []byte(strings.Join(l, "\n") + "\n") }

type fault struct {
	line             int
	column, in, hint string
}

func requireFaults(t *testing.T, doc []byte, want ...fault) {
	t.Helper()
	entries, got := diary.Read(doc, knownTo(t))
	require.Empty(t, entries, "with a fault nothing is read")
	require.Len(t, got, len(want), "%+v", got)
	for i, w := range want {
		assert.Equal(t, w.line, got[i].Line)
		assert.Equal(t, w.column, got[i].Column)
		assert.Contains(t, got[i].Message, w.in)
		assert.Contains(t, got[i].Hint, w.hint)
	}
}

// All faults of a table come at once, each with its line and column.
func TestCSVFaults(t *testing.T) {
	requireFaults(t, lines(
		"date,kind,planting,count,of,by,male,on,text",
		"2026-07-12,set,zucchini,11,10,hand,,,",
		"2026-07-12,set,zucchini,7,10,nobody,,,",
		"2026-07-17,brushed,zucchini,3,,,,,",
		"2026-02-30,brushed,zucchini,3,,,,,",
		"2026-07-12,brushed,zuchini,3,,,,,",
		"2026-07-12,brushed,zucchini,three,,,,,",
		"2026-07-12,brushed,zucchini,NaN,,,,,",
		"2026-07-12,brushed,zucchini,3,,,2,,",
		"2026-07-12,cover,zucchini,,,,,maybe,",
		`2026-07-12,remark,,,,,,,"two`,
		`lines"`,
		"2026-07-12,brushed,zucchini,3,,,,,,,,",
		",brushed,zucchini,3,,,,,",
		"2026-07-12,bees,zucchini,,,,,,",
	),
		fault{2, "", "11 flowers cannot have set of 10", "write: note set"},
		fault{3, "", `by cannot be "nobody"; it is bees or hand`, ""},
		fault{4, "", "2026-07-17 has not come yet", ""},
		fault{5, "date", `"2026-02-30" is not a date`, "write it as"},
		fault{6, "planting", `there is no planting "zuchini"`, `did you mean "zucchini"?`},
		fault{7, "count", `"three" is not a number`, "decimal point"},
		fault{8, "count", `"NaN" is not a number`, ""},
		fault{9, "", "male does not belong to a note of brushed", ""},
		fault{10, "on", `"maybe" is neither yes nor no`, ""},
		fault{11, "", "the text holds a line break", ""},
		fault{13, "", "the line has 12 cells, there are 9 columns", ""},
		fault{14, "", "the entry has no date", ""},
		fault{15, "", "minutes watched", ""}, fault{15, "", "flowers watched", ""}, fault{15, "", "visits", ""}, fault{15, "", "at what time", ""},
	)
	requireFaults(t, lines("date,kind,plantings,date", ""), fault{1, "plantings", "no column", "did you mean planting?"}, fault{1, "date", "stands twice", ""})
	requireFaults(t, lines("kind,planting", ""), fault{1, "date", "missing", ""})
	requireFaults(t, lines("date,kind", `2026-07-12,"rain`), fault{2, "", "cannot be read", "doubled"})
	requireFaults(t, []byte("\x00"), fault{1, "\x00", "no column", ""})
	requireFaults(t, []byte("SQLite format 3\x00 and so on"), fault{1, "sqlite format 3\x00 and so on", "no column", ""})
}

// A line of JSON is read as strictly.
func TestJSONFaults(t *testing.T) {
	requireFaults(t, lines(
		`{"id":"a","recorded":"2026-07-12T06:00:00Z","date":"2026-07-12","kind":"brushed","planting":"zucchini","count":3}`,
		`{"id":"b","recorded":"2026-07-12T06:00:00Z","date":"2026-07-12","kind":"brushed","planting":"zucchini","cuont":3}`,
		`{"id":"c","recorded":"2026-07-12T06:00:00Z","date":"2026-07-12","kind":"brushed","planting":"zucchini","count":3,"count":4}`,
		`{"id":"a","recorded":"2026-07-12T06:00:00Z","date":"2026-07-12","kind":"brushed","planting":"zucchini","count":5}`,
		`{"id":"d","date":"2026-07-12","kind":"brushed","planting":"zucchini","count":3}`,
		`{"id":"e","recorded":"2026-07-12T06:00:00Z","date":"2026-07-12","kind":"brushed","planting":"zucchini","count":1e999}`,
		`{"id":"f","recorded":"2026-07-12T06:00:00Z","date":"2026-07-12","kind":"harvest","planting":"zucchini"}`,
		`{"id":"g","recorded":"2026-07-12T06:00:00Z","date":"2026-07-12","kind":"cover","planting":"zucchini","removed":true}`,
		`{"id":"h","recorded":"0026-07-12T06:00:00Z","date":"2026-07-12","kind":"cover","planting":"zucchini"}`,
		`{"id":"i"`,
		`[]`,
	),
		fault{2, "cuont", `there is no field "cuont"`, "one entry a line"},
		fault{3, "count", `"count" stands twice`, ""},
		fault{4, "id", `"a" stands on line 1 already`, ""},
		fault{5, "recorded", "has no time of recording", ""},
		fault{6, "count", `"count" cannot be read`, ""},
		fault{7, "", `no kind of note "harvest"`, "it can be buds"},
		fault{8, "", "does not say what", ""},
		fault{9, "recorded", "the year 26", ""},
		fault{10, "", "the line is no JSON", ""},
		fault{11, "", "cannot be read", ""},
	)
}

// A table from a spreadsheet: columns in another order, a byte order mark, CRLF,
// no ids. The same table twice gives the same ids, and the same row twice is two
// entries.
func TestHandMadeTable(t *testing.T) {
	doc := []byte("\ufeffplanting,kind,date,count,weight_kg,misshapen\r\nzucchini,picked,2025-07-12,12,2.5,\r\nzucchini,picked,2025-07-12,12,2.5,\r\n,,,,,\r\nroma,picked,2025-07-13,,1,\r\n")
	got, faults := diary.Read(doc, knownTo(t))
	require.Empty(t, faults)
	require.Len(t, got, 3)
	assert.Equal(t, memory.Entry{ID: got[0].ID, Recorded: forecast.Date{Year: 2025, Month: 7, Day: 12}.At(0, got[0].Recorded.Location()),
		Date: forecast.Date{Year: 2025, Month: 7, Day: 12}, Kind: memory.Picked, Planting: "zucchini", Count: known(12), Weight: known(2.5)}, got[0])
	again, _ := diary.Read(doc, knownTo(t))
	assert.Equal(t, got, again)
	assert.NotEqual(t, got[0].ID, got[1].ID)
	assert.Len(t, got[0].ID, 15)
	assert.Less(t, got[0].ID, got[2].ID, "identities sort by day")
}

// Plantings of other years come in when that is asked for.
func TestFormerPlantings(t *testing.T) {
	doc := lines("date,kind,planting,count", "2024-07-12,brushed,melons,3")
	requireFaults(t, doc, fault{2, "planting", `there is no planting "melons"`, "--former"})
	k := knownTo(t)
	k.Former = true
	got, faults := diary.Read(doc, k)
	require.Empty(t, faults)
	assert.Equal(t, "melons", got[0].Planting)
}

// However broken a file is, what comes back is bounded.
func TestFaultsAreBounded(t *testing.T) {
	_, faults := diary.Read([]byte("date,kind\n"+strings.Repeat("x,y\n", 50_000)), knownTo(t))
	assert.Len(t, faults, 1000)
	assert.Equal(t, "and 49001 faults more, the last one here", faults[999].Message)
	assert.Equal(t, 50_001, faults[999].Line)
}

// The table is one that any reader of RFC 4180 takes, a cell that a spreadsheet
// would compute is marked as text, and JSON lines are JSON by another reader.
func TestForms4180(t *testing.T) {
	entries := []memory.Entry{entry(memory.Remark, "", func(e *memory.Entry) { e.ID, e.Recorded, e.Text = "1", now.UTC(), `=HYPERLINK("x"), 3" of hail` })}
	var table, objects bytes.Buffer
	require.NoError(t, diary.WriteCSV(&table, entries))
	require.NoError(t, diary.WriteJSONL(&objects, entries))
	rows, err := csv.NewReader(&table).ReadAll()
	require.NoError(t, err)
	var names []string
	for _, c := range diary.Columns() {
		names = append(names, c.Name)
		assert.NotEmpty(t, c.Meaning, c.Name)
	}
	assert.Equal(t, names, rows[0])
	assert.Equal(t, `'=HYPERLINK("x"), 3" of hail`, rows[1][len(names)-1])
	var object map[string]any
	require.NoError(t, json.Unmarshal(objects.Bytes(), &object))
	assert.Equal(t, map[string]any{"id": "1", "recorded": "2026-07-16T13:35:20Z", "date": "2026-07-16", "kind": "remark", "text": `=HYPERLINK("x"), 3" of hail`}, object)
}

// The columns are a promise: they are spelled out here and only ever added.
func TestColumns(t *testing.T) {
	var names []string
	for _, c := range diary.Columns() {
		names = append(names, c.Name)
	}
	assert.Equal(t, strings.Fields(`id recorded date at kind planting replaces removed male female count of minutes flowers visits
		amount weight_kg misshapen interval_days group by sex on flowers_on product text`), names)
}

// A diary of nothing comes back as nothing, whichever form it was written in.
func TestEmptyDiary(t *testing.T) {
	for _, write := range []func(io.Writer, []memory.Entry) error{diary.WriteJSONL, diary.WriteCSV} {
		var doc bytes.Buffer
		require.NoError(t, write(&doc, nil))
		entries, faults := diary.Read(doc.Bytes(), knownTo(t))
		assert.Empty(t, faults)
		assert.Empty(t, entries)
	}
	for _, blank := range []string{"", "\n", "\ufeff \r\n"} {
		_, faults := diary.Read([]byte(blank), knownTo(t))
		assert.Empty(t, faults, "%q", blank)
	}
}
