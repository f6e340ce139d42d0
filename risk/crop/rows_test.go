package crop

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"dawnbrush/risk/source"
)

// evidenceRow is a line of the evidence tables in testdata, which were gathered
// from the publications before any crop file was written; only the last rows of
// pepper and bean came with their files.
type evidenceRow struct {
	low, high, unit, evidence, key string
}

func evidenceRows(t *testing.T) map[string]evidenceRow {
	t.Helper()
	rows := map[string]evidenceRow{}
	for file, prefix := range map[string]string{"crops.csv": "", "hand.csv": "hand:"} {
		f, err := os.Open("testdata/" + file)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		lines, err := csv.NewReader(f).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range lines[1:] {
			rows[prefix+l[0]+"/"+l[1]] = evidenceRow{l[2], l[3], l[4], l[6], l[7]}
		}
	}
	return rows
}

// claim is what a crop file says with reference to a row.
type claim struct {
	name, row, unit, key string
	status               source.Status
	values               []float64 // single value, or low and high
	span                 bool
}

func claims(c *Crop) []claim {
	full := func(row string) string {
		if strings.Contains(row, "/") {
			return row
		}
		return strings.ReplaceAll(c.Key, "-", "_") + "/" + row
	}
	var out []claim
	for _, p := range c.Params {
		if p.Row != "" {
			k := claim{name: c.Key + " " + p.Name, row: full(p.Row), unit: p.Unit, key: p.Key, status: p.Status}
			switch p.Kind {
			case source.Number:
				k.values = []float64{p.Value}
			case source.Span:
				k.values, k.span = []float64{p.Range.Low, p.Range.High}, true
			}
			out = append(out, k)
		}
		for i, o := range p.Others {
			if o.Row == "" {
				continue
			}
			k := claim{name: fmt.Sprintf("%s %s others %d", c.Key, p.Name, i+1), row: full(o.Row), unit: o.Unit, key: o.Key, status: o.Status}
			if k.unit == "" {
				k.unit = p.Unit
			}
			if o.Value != nil {
				k.values = []float64{*o.Value}
			} else if o.Range != nil {
				k.values, k.span = []float64{o.Range.Low, o.Range.High}, true
			}
			out = append(out, k)
		}
	}
	return out
}

// Every number that names a row of the evidence tables must lie in the row's
// range, come from the row's source and claim no better status than the row.
func TestValuesAgreeWithTheEvidenceTables(t *testing.T) {
	set, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	rows := evidenceRows(t)
	linked := map[string]bool{}
	for _, c := range set.Crops() {
		for _, k := range claims(c) {
			row, ok := rows[k.row]
			if !ok {
				t.Errorf("%s: no row %s", k.name, k.row)
				continue
			}
			linked[k.row] = true
			compareClaim(t, k, row)
		}
	}
	ours, got := 0, 0
	for name := range rows {
		if !ofOurCrops(name) {
			continue
		}
		ours++
		if linked[name] {
			got++
		} else {
			t.Logf("not linked: %s", name)
		}
	}
	t.Logf("%d of %d rows of these crops are linked, all tables %d rows", got, ours, len(linked))
	if got < 236 {
		t.Errorf("only %d rows of crops.csv are linked", got)
	}
}

func ofOurCrops(row string) bool {
	for _, crop := range []string{"cucumber/", "summer_squash/", "pumpkin_winter_squash/", "sweet_corn/", "tomato/",
		"sweet_pepper/", "common_bean/",
		"muskmelon/", "watermelon_seeded/", "watermelon_triploid/", "hand:muskmelon/", "hand:watermelon/", "hand:melon/"} {
		if strings.HasPrefix(row, crop) {
			return true
		}
	}
	return false
}

func compareClaim(t *testing.T, k claim, row evidenceRow) {
	t.Helper()
	wantKey := map[string]string{"none": source.KeyCommonPractice, "mem": source.KeyMemory}[row.key]
	if wantKey == "" {
		wantKey = row.key
	}
	if k.key != wantKey && k.key != source.KeyChosen {
		t.Errorf("%s: source %s, row %s has %s", k.name, k.key, k.row, wantKey)
	}
	best, err := source.ParseStatus(row.evidence)
	if err != nil {
		t.Fatalf("row %s: %v", k.row, err)
	}
	if k.status > best {
		t.Errorf("%s: status %s, row %s was only %s", k.name, k.status, k.row, best)
	}
	low, errLow := strconv.ParseFloat(row.low, 64)
	high, errHigh := strconv.ParseFloat(row.high, 64)
	if len(k.values) == 0 || errLow != nil || errHigh != nil {
		return // words, curves and rows without numbers
	}
	scale := 1.0
	if strings.HasPrefix(row.unit, "pct") && k.unit == "share" {
		scale = 0.01
	}
	if k.unit == "days from opening" && (row.unit == "days" || row.unit == "days before anthesis") {
		scale = -1 // the tables count days before opening, the model days after
		low, high = high, low
	}
	const exact = 1e-9
	if k.span {
		if math.Abs(k.values[0]-low*scale) > exact || math.Abs(k.values[1]-high*scale) > exact {
			t.Errorf("%s: %g to %g, row %s has %s to %s", k.name, k.values[0], k.values[1], k.row, row.low, row.high)
		}
		return
	}
	if v := k.values[0]; v < low*scale-exact || v > high*scale+exact {
		t.Errorf("%s: %g, row %s has %s to %s %s", k.name, v, k.row, row.low, row.high, row.unit)
	}
}
