package assemble

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

// The table holds, for pairs of temperature and dew point, the humidity that
// psychrolib 1.1.1 gives by the ASHRAE equations and the one of the Magnus form
// with the constants of Alduchov and Eskridge, both computed apart from this
// program.
func TestHumidityAgainstIndependentTables(t *testing.T) {
	f, err := os.Open("testdata/rh_from_dewpoint.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 40)
	for _, row := range rows[1:] {
		var v [4]float64
		for i := range v {
			v[i], err = strconv.ParseFloat(row[i], 64)
			require.NoError(t, err)
		}
		temp, dew, ashrae, ae96 := v[0], v[1], v[2], v[3]
		assert.InDelta(t, ashrae, humidityFrom(temp, dew), 0.1, "at %v and %v", temp, dew)
		assert.InDelta(t, ae96, humidityFrom(temp, dew), 1e-4, "at %v and %v", temp, dew)
		assert.InDelta(t, dew, dewPointFrom(temp, ae96), 0.01, "back at %v", temp)
	}
}

func TestHumidityIsNotMadeUp(t *testing.T) {
	for _, h := range []forecast.Hour{
		{DewPoint: forecast.Known(5)}, {RH: forecast.Known(50)}, {Temp: forecast.Known(20)}, {},
	} {
		before := h
		rh, dew := FillHumidity(&h)
		assert.False(t, rh || dew)
		assert.Equal(t, before, h)
	}
}
