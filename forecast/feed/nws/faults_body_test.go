package nws

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/feedtest"
)

// 5. Empty and missing layers.
func TestFault05_MissingLayers(t *testing.T) {
	p := invented(issued)
	delete(p, "skyCover")
	delete(p, "probabilityOfThunder")
	p["windGust"] = map[string]any{"values": []any{}}
	s := parse(t, p, issued)
	for _, h := range s.Hours {
		require.False(t, h.Sky.IsKnown() || h.Gust.IsKnown() || h.Thunder.IsKnown())
		require.True(t, h.Temp.IsKnown() && h.Wind.IsKnown())
	}
	assert.Equal(t, "cloud cover is not in this forecast; ", feedtest.NoteOn(s, "Sky"))
	assert.Equal(t, "gust speed is not in this forecast; ", feedtest.NoteOn(s, "Gust"))
	assert.Equal(t, "chance of thunder is not in this forecast; ", feedtest.NoteOn(s, "Thunder"))
}

// 6. Rain as sums over 6 and 12 hours.
func TestFault06_RainSums(t *testing.T) {
	p := invented(issued)
	start := time.Date(2026, 7, 15, 21, 0, 0, 0, time.UTC)
	p["quantitativePrecipitation"] = layerOf("wmoUnit:mm", start, entry{6, 6}, entry{12, 24}, entry{1, 0.5})
	s := parse(t, p, time.Time{})
	hours, blocks := feedtest.RainTotals(s)
	assert.InDelta(t, 30.5, hours, 0.01)
	assert.InDelta(t, 30.5, blocks, 0.01)
	midnight := time.Date(2026, 7, 16, 0, 0, 0, 0, time.UTC)
	sum := 0.0
	for _, h := range s.Hours {
		if h.Start.Before(midnight) {
			sum += h.Rain.Or(0)
		}
	}
	assert.InDelta(t, 3.0, sum, 0.01, "half of the block that midnight cuts")

	t.Run("recorded", func(t *testing.T) {
		s, err := Reader{}.Parse(feedtest.Recording(t, "nws/restored/wg2026may_raw_GUM_47_48.json"), time.Time{})
		require.NoError(t, err)
		hours, _ := feedtest.RainTotals(s)
		assert.InDelta(t, 43.434, hours, 0.01, "43 mm, not the 490 of a sum repeated in every hour")
	})
}

// 7. The first intervals lie in the past and one straddles the clock.
func TestFault07_PastAndPresent(t *testing.T) {
	p := invented(issued)
	start := issued.Truncate(time.Hour).Add(-6 * time.Hour) // 03:00
	p["quantitativePrecipitation"] = layerOf("wmoUnit:mm", start, entry{5, 5}, entry{5, 10}, entry{2, 1})
	p["probabilityOfPrecipitation"] = layerOf("wmoUnit:percent", start, entry{8, 20}, entry{172, 40})
	now := time.Date(2026, 7, 15, 10, 35, 0, 0, time.UTC) // inside 08:00 to 13:00
	s := parse(t, p, now)
	require.GreaterOrEqual(t, len(s.Blocks), 4)
	over, left := s.Blocks[1], s.Blocks[2]
	hour := now.Truncate(time.Hour)
	assert.Equal(t, hour, over.End)
	assert.Equal(t, hour, left.Start)
	assert.Equal(t, hour.Add(3*time.Hour), left.End)
	// The hours from 08 to 10 have 20 %, 11 and 12 have 40 %: 140 in all.
	assert.InDelta(t, 10*40/140.0, over.Amount.Or(-1), 1e-9)
	assert.InDelta(t, 10*100/140.0, left.Amount.Or(-1), 1e-9)
	assert.InDelta(t, 0.2, over.Prob.Or(-1), 1e-9)
	assert.InDelta(t, 0.4, left.Prob.Or(-1), 1e-9)
	assert.Equal(t, start, s.Start(), "elapsed hours stay as forecast hours")
	assert.Equal(t, forecast.OriginForecast, s.Hours[0].Origin)
}

// 8. Long compressed intervals with nulls.
func TestFault08_LongIntervalsAndNulls(t *testing.T) {
	p := invented(issued)
	start := issued.Truncate(time.Hour)
	stamp := start.Format(time.RFC3339)
	p["temperature"] = map[string]any{"uom": "wmoUnit:degC", "values": []any{
		map[string]any{"validTime": stamp + "/PT10H", "value": 21.5},
		map[string]any{"validTime": start.Add(10*time.Hour).Format(time.RFC3339) + "/P1DT2H", "value": nil},
		map[string]any{"validTime": start.Add(36*time.Hour).Format(time.RFC3339) + "/P6DT15H", "value": 18},
		map[string]any{"validTime": start.Add(195*time.Hour).Format(time.RFC3339) + "/P2D", "value": nil}}}
	s := parse(t, p, time.Time{})
	assert.Equal(t, 21.5, feedtest.At(t, s, start.Add(9*time.Hour)).Temp.Or(-99))
	assert.False(t, feedtest.At(t, s, start.Add(10*time.Hour)).Temp.IsKnown(), "null is unknown, not 0 degC")
	assert.False(t, feedtest.At(t, s, start.Add(35*time.Hour)).Temp.IsKnown())
	assert.Equal(t, 18.0, feedtest.At(t, s, start.Add(36*time.Hour)).Temp.Or(-99))
	assert.Equal(t, 18.0, feedtest.At(t, s, start.Add(194*time.Hour)).Temp.Or(-99))
	assert.Equal(t, start.Add(195*time.Hour), s.End(), "hours of nothing at the end are no hours")

	t.Run("recorded", func(t *testing.T) {
		s, err := Reader{}.Parse(feedtest.Recording(t, "nws/pynws_gridpoint_raw_TAE_58_65.json"), time.Time{})
		require.NoError(t, err)
		assert.True(t, s.Hours[0].Temp.IsKnown())
	})
}

// 9. Rain amounts end on day three, temperatures on day seven.
func TestFault09_RainEndsEarly(t *testing.T) {
	s := parse(t, invented(issued), time.Time{})
	late := s.Hours[24]
	assert.False(t, late.Rain.IsKnown(), "unknown, not dry")
	assert.True(t, late.RainProb.IsKnown(), "its chance is still known")
	assert.Equal(t, "rain amount ends 6 days before the temperatures; after that it is unknown; ", feedtest.NoteOn(s, "Rain"))

	for _, name := range []string{"nws/restored/wg2026jul_raw_ALY_71_67.json", "nws/restored/wg2026mar_raw_OKX_1_1.json"} {
		t.Run(name, func(t *testing.T) {
			s, err := Reader{}.Parse(feedtest.Recording(t, name), time.Time{})
			require.NoError(t, err)
			h := feedtest.At(t, s, s.Issued.Add(78*time.Hour))
			assert.False(t, h.Rain.IsKnown())
			assert.True(t, h.RainProb.IsKnown() && h.Temp.IsKnown())
			assert.Contains(t, feedtest.NoteOn(s, "Rain"), "ends 4 days before")
		})
	}
}

// 10. Old spellings of units, other units, and one that nobody knows.
func TestFault10_Units(t *testing.T) {
	start := issued.Truncate(time.Hour)
	p := invented(issued)
	p["temperature"] = layerOf("unit:degC", start, entry{100, 20})
	p["dewpoint"] = layerOf("wmoUnit:degF", start, entry{100, 50})
	p["windSpeed"] = layerOf("wmoUnit:m_s-1", start, entry{100, 10})
	p["windGust"] = layerOf("wmo:km_h-1", start, entry{100, 36})
	p["quantitativePrecipitation"] = layerOf("wmoUnit:furlong", start, entry{6, 1})
	p["skyCover"] = layerOf("", start, entry{100, 50})
	s := parse(t, p, time.Time{})
	h := feedtest.At(t, s, start)
	assert.Equal(t, 20.0, h.Temp.Or(-99))
	assert.InDelta(t, 10.0, h.DewPoint.Or(-99), 1e-9)
	assert.InDelta(t, 10.0, h.Wind.Or(-99), 1e-9, "10 m/s, not 10 km/h")
	assert.InDelta(t, 10.0, h.Gust.Or(-99), 1e-9)
	assert.False(t, h.Rain.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, "Rain"), "furlong")
	assert.False(t, h.Sky.IsKnown(), "a value without a unit is not guessed at")
	assert.Equal(t, "cloud cover is left out: its unit \"\" is not known here; ", feedtest.NoteOn(s, "Sky"), "said once")
}
