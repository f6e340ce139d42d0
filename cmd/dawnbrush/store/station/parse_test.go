package station

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
)

func eastern(t testing.TB) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	return zone
}

var now = time.Date(2026, 7, 16, 12, 0, 0, 0, time.UTC)

func parse(t *testing.T, text string) *Result {
	t.Helper()
	r, faults := Parse([]byte(text), eastern(t), now)
	require.Empty(t, faults)
	return r
}

func TestHourlyRows(t *testing.T) {
	r := parse(t, "time,temp_c,rh,rain_mm\n2026-07-16 05:00,17.2,91,0\n2026-07-16T06:00,18.9,,0.6\n2026-07-16T08:00:00-04:00,20,80,1\n")
	assert.Equal(t, 3, r.Rows)
	assert.False(t, r.OnlyRain)
	require.Len(t, r.Series.Hours, 4, "the hour nobody tells of is there, unknown")
	h := r.Series.Hours
	assert.Equal(t, time.Date(2026, 7, 16, 8, 0, 0, 0, time.UTC), h[0].Start, "a row at 05:00 EDT ends the hour from 08:00 UTC")
	assert.Equal(t, forecast.Known(17.2), h[0].Temp)
	assert.Equal(t, forecast.Value{}, h[1].RH)
	assert.Equal(t, forecast.Known(0.6), h[1].Rain)
	assert.Equal(t, forecast.OriginNone, h[2].Origin)
	assert.Equal(t, forecast.OriginLogger, h[3].Origin)
	assert.Equal(t, 1, r.Partial)
	assert.True(t, parse(t, "rain_in,time\n0.5,2026-07-16 05:00\n").OnlyRain)
}

// Points exact by definition: 32 F is 0 C, an inch 25.4 mm (ISO 80000-3), 15 mph
// 6.7056 m/s; wind at 2 m is 0.748 of that at 10 m (FAO 56 eq 47).
func TestUnits(t *testing.T) {
	h := parse(t, "time,temp_f,dew_point_f,gust_mph,rain_in,wind_2m_ms,radiation_wm2\n2026-07-16 05:00,32,50,15,1,0.748,800\n").Series.Hours[0]
	for _, c := range []struct {
		got  forecast.Value
		want float64
	}{{h.Temp, 0}, {h.DewPoint, 10}, {h.Gust, 6.7056}, {h.Rain, 25.4}, {h.Wind, 1}, {h.Radiation, 800}} {
		assert.InDelta(t, c.want, c.got.Or(-99), 5e-4)
	}
	h = parse(t, "time,wind_kmh\n2026-07-16 05:00,36\n").Series.Hours[0]
	assert.InDelta(t, 10, h.Wind.Or(0), 1e-12)
	h = parse(t, "time,wind_2m_mph\n2026-07-16 05:00,15\n").Series.Hours[0]
	assert.InDelta(t, 6.7056/0.748, h.Wind.Or(0), 5e-3)
}

// Rows of ten minutes make hours: means, the highest gust, the sum of rain. An
// hour needs three quarters of its rows, its rain all six.
func TestRowsMakeHours(t *testing.T) {
	var b strings.Builder
	b.WriteString("time,temp_c,gust_ms,rain_mm\n")
	row := func(minutes int) {
		fmt.Fprintf(&b, "2026-07-15 %02d:%02d,%d,%d,0.1\n", 4+minutes/60, minutes%60, 10+minutes/60, minutes%60)
	}
	for m := 10; m <= 120; m += 10 {
		row(m)
	}
	for m := 130; m <= 170; m += 10 { // five of six
		row(m)
	}
	row(190) // one of six
	r := parse(t, b.String())
	h := r.Series.Hours
	require.Len(t, h, 4)
	assert.InDelta(t, (5*10+11)/6.0, h[0].Temp.Or(0), 1e-12, "the row at the full hour ends the hour before")
	assert.Equal(t, forecast.Known(50), h[0].Gust)
	assert.InDelta(t, 0.6, h[0].Rain.Or(0), 1e-12)
	assert.True(t, h[2].Temp.IsKnown())
	assert.False(t, h[2].Rain.IsKnown(), "a sum that lacks a part is no sum")
	assert.False(t, h[3].Temp.IsKnown())
	assert.Equal(t, forecast.OriginNone, h[3].Origin)
	assert.Equal(t, 2, r.Partial)
}

// All faults are told at once, each with its line; with one there is no result.
func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string // "line:column words"
	}{
		{"empty", "", []string{"1:1 it is empty"}},
		{"only a header", "time,temp_c\n", []string{"2:1 there is no row below"}},
		{"header", "temp_c,temp_f,celsius\n", []string{"1:8 temp_c and temp_f both tell the temperature", `1:15 there is no column "celsius"`, "1:1 there is no column time"}},
		{"two times", "time,time,temp_c\n", []string{"1:6 the column time stands here twice"}},
		{"only times", "time\n", []string{"1:1 no column tells anything but the time"}},
		{"cells", "time,temp_c\n2026-07-16 05:00\n2026-07-16 06:00,1,2\n", []string{"2:1 this line has 1 cells, the header 2", "3:1 this line has 3 cells"}},
		{"numbers", "time,temp_c,rh\n2026-07-16 05:00,\"21,5\",x\n2026-07-16 06:00,NaN,Inf\n2026-07-16 07:00,1e999,0\n",
			[]string{`2:18 temp_c: "21,5" is not a number`, `2:25 rh: "x" is not a number`, `3:18 temp_c: "NaN" is not`, `3:22 rh: "Inf" is not`, `4:18 temp_c: "1e999" is not`}},
		{"sentinels", "time,temp_c,rh,rain_mm\n2026-07-16 05:00,-9999,140,-1\n", []string{"2:18 temp_c: no temperature is -9999", "2:24 rh: no humidity is 140", "2:28 rain_mm: no rain is -1"}},
		{"times", "time,temp_c\n16.7.2026,1\n2026-02-30 05:00,1\n2031-01-01 00:00,1\n1970-01-01 00:00,1\n", []string{`2:1 "16.7.2026" is not a time`, `3:1 "2026-02-30 05:00" is not a time`, "4:1 2031-01-01 00:00 lies in the future", "5:1 1970-01-01 00:00 lies more than 10 years back"}},
		{"order", "time,temp_c\n2026-07-16 05:00,1\n2026-07-16 05:00,1\n2026-07-16 04:00,1\n", []string{"3:1 this time is not after that of line 2", "4:1 this time is not after that of line 2"}},
		// Clock changes of New York 2026: forward on 8 March, back on 1 November
		// (Energy Policy Act of 2005 section 110).
		{"put forward", "time,temp_c\n2026-03-08 02:30,1\n", []string{"2:1 the clock does not show 2026-03-08 02:30 that day"}},
		{"put back", "time,temp_c\n2025-11-02 00:30,1\n2025-11-02 01:30,1\n2025-11-02 02:30,1\n", []string{"3:1 the clock shows 2025-11-02 01:30 twice"}},
		{"quotes", "time,temp_c\n2026-07-16 05:00,\"1\n", []string{"a quote is out of place"}},
		{"bytes", "time,temp_c\n2026-07-16 05:00,\xff\n", []string{"2:1 it is no text in UTF-8"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, faults := Parse([]byte(c.text), eastern(t), now)
			assert.Nil(t, r)
			require.Len(t, faults, len(c.want), "%v", faults)
			for i, f := range faults {
				assert.Contains(t, fmt.Sprintf("%d:%d %s", f.Line, f.Column, f.Message), c.want[i])
				assert.NotEmpty(t, f.Hint)
			}
		})
	}
}

func TestManyFaultsAreCounted(t *testing.T) {
	_, faults := Parse([]byte("time,temp_c\n"+strings.Repeat("yesterday,warm\n", 500)), eastern(t), now)
	require.Len(t, faults, mostFaults+1)
	assert.Equal(t, "and 900 more faults below", faults[mostFaults].Message)
}

func TestWhatSpreadsheetsAdd(t *testing.T) {
	r := parse(t, "\xef\xbb\xbftime,temp_c\r\n2026-07-16 05:00,17.2\r\n\r\n2026-07-16 06:00, 18\r\n")
	assert.Equal(t, 2, r.Rows)
	assert.Equal(t, forecast.Known(18), r.Series.Hours[1].Temp)
}

// No input makes more than faults or sound hours.
func FuzzParse(f *testing.F) {
	f.Add([]byte("time,temp_c,rain_mm\n2026-07-16 05:00,17.2,0\n2026-07-16 05:10,17,\n"))
	f.Add([]byte("rain_in,time\n1,2026-07-16T05:00:00Z\n"))
	f.Add([]byte("time,time\n\"\n"))
	zone := eastern(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		r, faults := Parse(text, zone, now)
		if (r == nil) == (len(faults) == 0) {
			t.Fatal("neither faults nor hours, or both")
		}
		if r == nil {
			return
		}
		for i, h := range r.Series.Hours {
			if v, ok := h.Temp.Get(); ok && (v < -90 || v > 60) {
				t.Fatal(v)
			}
			if i > 0 && h.Start.Sub(r.Series.Hours[i-1].Start) != time.Hour {
				t.Fatal("a hole")
			}
		}
	})
}

func TestFahrenheitUnderCelsius(t *testing.T) {
	_, faults := Parse([]byte("time,temp_c\n2026-07-16 05:00,77\n2026-07-16 06:00,-120\n"), eastern(t), now)
	require.Len(t, faults, 2)
	assert.Contains(t, faults[0].Hint, "name the column temp_f")
	assert.NotContains(t, faults[1].Hint, "temp_f")
}
