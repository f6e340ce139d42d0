package air

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

func vectors(t *testing.T, name string) []map[string]float64 {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []map[string]float64
	for _, r := range rows[1:] {
		m := map[string]float64{}
		for i, name := range rows[0] {
			v, err := strconv.ParseFloat(r[i], 64)
			require.NoError(t, err, name)
			m[name] = v
		}
		out = append(out, m)
	}
	require.NotEmpty(t, out)
	return out
}

// ASHRAE's formulas as coded in psychrolib 1.1.1; 0.05 degC for 0 to 45 degC and
// dew points above freezing, where all are about water.
func TestDewPointAgainstASHRAE(t *testing.T) {
	worst, n := 0.0, 0
	for _, r := range vectors(t, "dewpoint_rh.csv") {
		if r["T_C"] > 45 || r["psychrolib_Td_C"] < 0 {
			continue
		}
		n++
		got := DewPoint(SaturationPressure(r["T_C"]) * r["RH_pct"] / 100)
		require.InDelta(t, r["psychrolib_Td_C"], got, 0.05, "%v", r)
		worst = max(worst, abs(got-r["psychrolib_Td_C"]))
	}
	t.Logf("%d dew points, worst difference %.3f degC", n, worst)
	require.Greater(t, n, 50)
}

// The same source; 0.1 points of humidity.
func TestHumidityAgainstASHRAE(t *testing.T) {
	worst := 0.0
	rows := vectors(t, "rh_from_dewpoint.csv")
	for _, r := range rows {
		got := RelativeHumidity(r["T_C"], r["Td_C"])
		require.InDelta(t, r["psychrolib_RH_pct"], got, 0.1, "%v", r)
		worst = max(worst, abs(got-r["psychrolib_RH_pct"]))
	}
	t.Logf("%d humidities, worst difference %.3f points", len(rows), worst)
}

func abs(v float64) float64 { return max(v, -v) }
