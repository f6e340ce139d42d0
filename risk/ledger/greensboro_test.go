package ledger

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/feedtest"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
	"dawnbrush/risk/water/et0"
)

// greensboro reads a typical year of Greensboro, North Carolina (TMY3, public
// domain), as measured hours of 2025. Its rain is written in tenths of a millimetre:
// a year of it comes to 834 mm that way, of 1070 in the mean of years (memory).
func greensboro(t testing.TB) (forecast.Place, *forecast.Series) {
	b := feedtest.Recording(t, "stations/greensboro_NC_tmy3_723170.csv")
	r := csv.NewReader(bytes.NewReader(b[bytes.IndexByte(b, '\n')+1:]))
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	require.NoError(t, err)
	col := map[string]int{}
	for i, k := range rows[0] {
		col[k] = i
	}
	zone := time.FixedZone("EST", -5*3600)
	s := forecast.New(time.Date(2025, 1, 1, 0, 0, 0, 0, zone), time.Date(2026, 1, 1, 0, 0, 0, 0, zone))
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
		h.Temp, h.RH, h.Wind = get("Dry-bulb (C)", -60, 60, 1), get("RHum (%)", 1, 100, 1), get("Wspd (m/s)", 0, 75, 1)
		h.Radiation, h.Rain = get("GHI (W/m^2)", 0, 1400, 1), get("Lprecip depth (mm)", 0, 300, 0.1)
		h.Origin = forecast.OriginObserved
	}
	return forecast.Place{Lat: 36.1, Lon: -79.95, Elevation: forecast.Known(273), Zone: zone}, s
}

// A grower waters as the account advises, each morning of a summer of Greensboro,
// and notes it. Then plants want for nothing, the season's account closes, and what
// was given is near what the account would have had given. The water against the
// rule of an inch a week is told beside.
func TestSummerOfGreensboroByAdvice(t *testing.T) {
	place, year := greensboro(t)
	first, last := forecast.Date{Year: 2025, Month: 5, Day: 10}, forecast.Date{Year: 2025, Month: 8, Day: 20}
	for _, soil := range []risk.Soil{risk.LoamySand, risk.Loam, risk.Clay} {
		g := plot(t, func(b *risk.Bed, p *risk.Planting) {
			b.Soil = soil
			p.Transplanted, p.FirstFemale = first, first.AddDays(35)
		})
		g.Place = place
		s := *year
		s.Hours = year.Hours[120*24 : 250*24]
		entries := []memory.Entry{{Kind: memory.Water, Date: first, At: first.At(7, place.Zone), Amount: forecast.Known(1)}}
		var b *Bed
		waterings, worst := 0, 1.0
		for d := first.AddDays(1); !d.After(last); d = d.AddDays(1) {
			a := Keep(g, &s, entries, d.At(6, place.Zone))
			b = &a.Beds[0]
			day, ok := b.Day(d)
			require.True(t, ok)
			if day.Advice.Verdict == Water {
				waterings++
				entries = append(entries, memory.Entry{Kind: memory.Water, Date: d, At: d.At(7, place.Zone), Amount: forecast.Known(day.Advice.Litres)})
			}
		}
		for k := range b.Days {
			if d := &b.Days[k]; d.Past {
				worst = min(worst, d.Stress.Mid)
				assert.Equal(t, et0.ByHours, d.Way)
				assert.Equal(t, RainStation, d.By)
			}
		}
		rest := balance(t, b)
		var rain, air, drained, given float64
		for k := range b.Days {
			if d := &b.Days[k]; d.Past {
				rain, air, drained, given = rain+d.Caught, air+d.Flux.ET(), drained+d.Flux.Drainage, given+d.Given
			}
		}
		today, _ := b.Day(b.Days[len(b.Days)-1].Date)
		require.NotNil(t, today)
		at, _ := b.Day(last)
		assert.InDelta(t, 0, rain+given-air-drained+at.Lacks.Mid, 1e-9, "the season closes")
		t.Logf("%-10s %3d days: rain %.0f mm, given %.0f mm in %d waterings, into the air %.0f, drained %.0f, lacking %.1f; worst Ks %.2f; litres given %.0f, wanted %.0f, rule %.0f; rest %.1g mm",
			soil, b.Season.Days, rain, given, waterings, air, drained, at.Lacks.Mid, worst, b.Season.Given, b.Season.Wanted, b.Season.Rule, rest)
		assert.GreaterOrEqual(t, worst, 0.9, "a morning's watering comes before plants suffer, but for the morning itself")
		assert.InDelta(t, 1, b.Season.Given/b.Season.Wanted, 0.15)
		assert.True(t, b.Season.Noted)
	}
}
