package feedtest

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// Greensboro reads a typical year of Greensboro, North Carolina (TMY3, public domain),
// as measured hours of a year of 365 days. Its rain is written in tenths of a
// millimetre: a year of it comes to 834 mm that way, of 1070 in the mean of years
// (memory). The test is skipped where the recording is absent.
func Greensboro(t testing.TB, year int) (forecast.Place, *forecast.Series) {
	t.Helper()
	b := Recording(t, "stations/greensboro_NC_tmy3_723170.csv")
	r := csv.NewReader(bytes.NewReader(b[bytes.IndexByte(b, '\n')+1:]))
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	require.NoError(t, err)
	col := map[string]int{}
	for i, k := range rows[0] {
		col[k] = i
	}
	zone := time.FixedZone("EST", -5*3600)
	s := forecast.New(time.Date(year, 1, 1, 0, 0, 0, 0, zone), time.Date(year+1, 1, 1, 0, 0, 0, 0, zone))
	require.Len(t, rows[1:], len(s.Hours))
	for i, row := range rows[1:] {
		get := func(k string, lo, hi, factor float64) forecast.Value {
			v, err := strconv.ParseFloat(row[col[k]], 64)
			if err != nil {
				return forecast.Value{}
			}
			return forecast.Within(v*factor, lo, hi)
		}
		h := &s.Hours[i]
		h.Temp, h.DewPoint, h.RH = get("Dry-bulb (C)", -60, 60, 1), get("Dew-point (C)", -60, 60, 1), get("RHum (%)", 1, 100, 1)
		h.Wind, h.Sky = get("Wspd (m/s)", 0, 75, 1), get("TotCld (tenths)", 0, 1, 0.1)
		h.Radiation, h.Rain = get("GHI (W/m^2)", 0, 1400, 1), get("Lprecip depth (mm)", 0, 300, 0.1)
		h.Origin = forecast.OriginObserved
	}
	return forecast.Place{Lat: 36.1, Lon: -79.95, Elevation: forecast.Known(273), Zone: zone}, s
}
