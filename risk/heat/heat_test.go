package heat

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast/unit"
	"dawnbrush/risk/source"
)

func each(t *testing.T, name string, f func(v map[string]float64)) int {
	t.Helper()
	file, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	for _, r := range rows[1:] {
		m := map[string]float64{}
		for i, k := range rows[0] {
			if v, err := strconv.ParseFloat(r[i], 64); err == nil {
				m[k] = v
			}
		}
		f(m)
	}
	return len(rows) - 1
}

// All cells of the chart of the National Weather Service (srh.noaa.gov/tsa, heat
// index) are the bare regression, rounded: half a degree and the chart's own digit.
func TestChart(t *testing.T) {
	worst := 0.0
	n := each(t, "heat_index_chart.csv", func(v map[string]float64) {
		d := math.Abs(regression(v["T_F"], v["RH_pct"]) - v["chart_HI_F"])
		assert.LessOrEqual(t, d, 0.51, "%v", v)
		worst = max(worst, d)
	})
	t.Logf("%d cells, worst %.3f degF", n, worst)
	require.Equal(t, 135, n)
}

// The full procedure against vectors computed apart from the service's page,
// 0.001 degF.
func TestProcedure(t *testing.T) {
	worst := 0.0
	n := each(t, "heat_index_vectors.csv", func(v map[string]float64) {
		got := fahrenheit(v["T_F"], v["RH_pct"])
		assert.InDelta(t, v["HI_F"], got, 0.001, "%v", v)
		assert.InDelta(t, v["HI_C"], Index(unit.FtoC(v["T_F"]), v["RH_pct"]), 0.001, "%v", v)
		worst = max(worst, math.Abs(got-v["HI_F"]))
	})
	t.Logf("%d vectors, worst %.5f degF", n, worst)
	require.Greater(t, n, 300)
}

func TestBands(t *testing.T) {
	for f, want := range map[float64]Band{79.9: None, 80: Caution, 89.9: Caution, 90: ExtremeCaution, 102.9: ExtremeCaution,
		103: Danger, 124.9: Danger, 125: ExtremeDanger} {
		assert.Equal(t, want, BandOf(unit.FtoC(f)), "%g", f)
	}
}

func TestParams(t *testing.T) {
	bib, err := source.Load()
	require.NoError(t, err)
	require.Len(t, Params(), 4)
	for _, p := range Params() {
		require.NoError(t, p.Validate(bib))
	}
}

func ExampleIndex() {
	index := Index(35, 60)
	fmt.Printf("%.0f degC: %v\n", index, BandOf(index))
	// Output: 45 degC: danger
}
