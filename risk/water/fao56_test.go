package water

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inputs are those of one worked example.
type inputs map[string]any

func (in inputs) f(key string) float64 {
	v, ok := in[key].(float64)
	if !ok {
		panic("no number " + key)
	}
	return v
}

func (in inputs) list(key string) []float64 {
	var out []float64
	for _, v := range in[key].([]any) {
		out = append(out, v.(float64))
	}
	return out
}

func (in inputs) sub(key string) inputs { return in[key].(map[string]any) }

// degrees reads "13 deg 44 min N".
func degrees(text string) float64 {
	var d, m float64
	var side string
	if _, err := fmt.Sscanf(text, "%f deg %f min %s", &d, &m, &side); err != nil {
		panic(text)
	}
	if side == "S" || side == "W" {
		return -(d + m/60)
	}
	return d + m/60
}

type example struct {
	Title  string
	Page   int
	Inputs inputs
	Notes  []string
}

// values are what an example works out, by the names of fao56_examples.csv.
type values map[string]float64

var examples = map[string]func(all map[string]example, in inputs) values{
	"ex02": ex02, "ex03": ex03, "ex04": ex04, "ex05": ex05, "ex06": ex06, "ex07": ex07, "ex08": ex08, "ex09": ex09,
	"ex10": ex10, "ex11": ex11, "ex12": ex12, "ex13": ex13, "ex14": ex14, "ex15": ex15, "ex16": ex16, "ex17": ex17,
	"ex18": ex18, "ex19_night": ex19night, "ex19_day": ex19day, "ex20": ex20,
	"table2.9": windTable, "table2.8": emissionTable, "table2.4": slopeTable,
	"ex23": ex23, "ex24": ex24, "ex25": ex25, "ex26": ex26, "box14": box14, "ex27": ex27, "box15": box15, "fig36": fig36,
	"ex28": ex28, "eq68": eq68, "ex29": ex29, "ex30": ex30, "ex31": ex31, "ex32": ex32, "ex33": ex33, "ex34": ex34,
	"ex35": ex35, "ex36": ex36, "ex37": ex37, "ex38": ex38, "ex39": ex39, "ex44": ex44, "ex45": ex45,
}

// Every printed value of the worked examples of FAO-56, each within half a unit
// of its last printed digit, and the unrounded values to 1e-5. Where the paper
// went on from rounded values, or misprinted, the tolerance is the gap that an
// exact calculation leaves and a tenth more; those values are listed with what was
// found. `go test -v` prints all.
func TestFAO56Examples(t *testing.T) {
	raw, err := os.ReadFile("testdata/fao56_inputs.json")
	require.NoError(t, err)
	var doc struct{ Examples map[string]example }
	require.NoError(t, json.Unmarshal(raw, &doc))
	f, err := os.Open("testdata/fao56_examples.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)

	worked := map[string]values{}
	var order, flagged []string
	hit, missed := map[string]int{}, map[string]int{}
	for _, r := range rows[1:] {
		id, name := r[0], r[2]
		got, ok := worked[id]
		if !ok {
			require.Contains(t, examples, id)
			got = examples[id](doc.Examples, doc.Examples[id].Inputs)
			worked[id] = got
			order = append(order, id)
		}
		v, ok := got[name]
		require.True(t, ok, "%s gives no %s", id, name)
		printed, exact, tolerance := num(t, r[4]), num(t, r[6]), num(t, r[7])
		good := assert.InDelta(t, printed, v, tolerance+1e-6, "%s %s, page %s", id, name, r[1])
		good = assert.InDelta(t, exact, v, 1e-5, "%s %s, unrounded", id, name) && good
		if good {
			hit[id]++
		} else {
			missed[id]++
		}
		if r[8] == "1" {
			flagged = append(flagged, fmt.Sprintf("%-6s p. %s %-18s printed %-6s exact %.4f", id, r[1], name, r[4], v))
		}
	}
	sum := 0
	t.Logf("%-10s %5s %6s  %s", "example", "hit", "missed", "title")
	for _, id := range order {
		t.Logf("%-10s %5d %6d  %s", id, hit[id], missed[id], doc.Examples[id].Title)
		sum += hit[id]
	}
	t.Logf("%d of %d printed values", sum, len(rows)-1)
	t.Logf("%d of them printed from rounded steps or misprinted, within the gap of an exact calculation:\n%s", len(flagged), strings.Join(flagged, "\n"))
	for _, id := range order {
		for _, n := range doc.Examples[id].Notes {
			t.Logf("%s: %s", id, n)
		}
	}
	require.Equal(t, 708, len(rows)-1, "all values of the collection")
	var told strings.Builder
	told.WriteString("| example or table | hit | missed | what it works out |\n|---|---:|---:|---|\n")
	for _, id := range order {
		fmt.Fprintf(&told, "| %s | %d | %d | %s |\n", id, hit[id], missed[id], doc.Examples[id].Title)
	}
	fmt.Fprintf(&told, "| all | %d | %d | |\n\nPrinted from rounded steps or misprinted, %d of them, within the gap of an exact calculation:\n\n    %s\n", sum, len(rows)-1-sum, len(flagged), strings.Join(flagged, "\n    "))
	onPage(t, "examples", told.String())
}

func num(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	require.False(t, math.IsNaN(v))
	return v
}
