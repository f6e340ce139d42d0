package nws

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/feedtest"
	"dawnbrush/forecast/unit"
)

// hourlyDocument is the service's own forecast by the hour, used here as an
// answer book: it is made from the same grid by the service's own code.
type hourlyDocument struct {
	Properties struct {
		Periods []struct {
			StartTime   time.Time `json:"startTime"`
			Temperature float64   `json:"temperature"`
			Unit        string    `json:"temperatureUnit"`
			DewPoint    struct{ Value *float64 }
			RH          struct{ Value *float64 } `json:"relativeHumidity"`
			RainProb    struct{ Value *float64 } `json:"probabilityOfPrecipitation"`
			WindSpeed   string                   `json:"windSpeed"`
			WindFrom    string                   `json:"windDirection"`
		} `json:"periods"`
	} `json:"properties"`
}

// windStep gives the steps in mph of the hourly wind: some offices round it to 5,
// as the values in their documents show, the others to whole miles.
func windStep(raw string) float64 {
	if strings.Contains(raw, "GUM") || strings.Contains(raw, "AFG") {
		return 5
	}
	return 1
}

// Half a degree Fahrenheit: the hourly document gives whole degrees.
const halfF = 0.5 / 1.8

// TestExpandedLayersEqualTheHourlyForecast expands every recorded raw grid and
// compares each hour with the hourly forecast recorded beside it.
func TestExpandedLayersEqualTheHourlyForecast(t *testing.T) {
	pairs := 0
	for _, raw := range feedtest.Recordings(t, "nws/restored/*_raw_*.json") {
		hourly := strings.Replace(raw, "_raw_", "_hourly_", 1)
		if strings.Contains(raw, "FWD_89_104") {
			continue // recorded without an hourly forecast
		}
		pairs++
		t.Run(raw, func(t *testing.T) {
			s, err := Reader{}.Parse(feedtest.Recording(t, raw), time.Time{})
			require.NoError(t, err)
			var d hourlyDocument
			require.NoError(t, json.Unmarshal(feedtest.Recording(t, hourly), &d))
			compared := 0
			for _, p := range d.Properties.Periods {
				i, ok := s.Index(p.StartTime)
				if !ok {
					continue
				}
				compared++
				h := s.Hours[i]
				want := p.Temperature
				if p.Unit == "F" {
					want = unit.FtoC(want)
				}
				assert.InDelta(t, want, h.Temp.Or(math.NaN()), halfF+1e-9, "temperature at %v", p.StartTime)
				same(t, p.DewPoint.Value, h.DewPoint, 1, "dew point", p.StartTime)
				same(t, p.RH.Value, h.RH, 1, "humidity", p.StartTime)
				same(t, p.RainProb.Value, h.RainProb, 100, "chance of rain", p.StartTime)
				sameWind(t, raw, p.WindSpeed, h.Wind, p.StartTime)
				sameDirection(t, p.WindFrom, h.WindFrom, p.StartTime)
			}
			assert.Equal(t, 156, compared, "hours in both")
		})
	}
	assert.Equal(t, 5, pairs, "pairs of recordings")
}

func same(t *testing.T, want *float64, got forecast.Value, scale float64, what string, when time.Time) {
	t.Helper()
	if want == nil {
		return
	}
	assert.InDelta(t, *want, scale*got.Or(math.NaN()), 1e-6, "%s at %v", what, when)
}

// sameWind compares with words such as "12 mph", rounded from the grid's knots.
func sameWind(t *testing.T, raw, words string, got forecast.Value, when time.Time) {
	t.Helper()
	number, ok := strings.CutSuffix(words, " mph")
	require.True(t, ok, words)
	var want float64
	require.NoError(t, json.Unmarshal([]byte(number), &want))
	assert.InDelta(t, want, unit.MsToMph(got.Or(math.NaN())), windStep(raw)/2+1e-6, "wind at %v", when)
}

// sameDirection compares with a point of the compass: offices name eight of them or
// sixteen, so it may lie half of an eighth away. A calm has none.
func sameDirection(t *testing.T, point string, got forecast.Value, when time.Time) {
	t.Helper()
	if point == "" {
		return
	}
	k := slices.Index([]string{"N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"}, point)
	require.GreaterOrEqual(t, k, 0, point)
	off := math.Remainder(got.Or(math.NaN())-22.5*float64(k), 360)
	assert.InDelta(t, 0, off, 22.5+1e-6, "wind from %s at %v, not %v", point, when, got)
}

// TestRainOfTheWeekEqualsTheSumOfTheAmounts adds up the amounts of the document
// by itself, without this package's reading of intervals.
func TestRainOfTheWeekEqualsTheSumOfTheAmounts(t *testing.T) {
	names := append(feedtest.Recordings(t, "nws/restored/*_raw_*.json"), "nws/pynws_gridpoint_raw_TAE_58_65.json")
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			doc := feedtest.Recording(t, name)
			var d struct {
				Properties struct {
					Rain struct {
						Values []struct{ Value *float64 }
					} `json:"quantitativePrecipitation"`
				}
			}
			require.NoError(t, json.Unmarshal(doc, &d))
			want := 0.0
			for _, v := range d.Properties.Rain.Values {
				want += *v.Value
			}
			s, err := Reader{}.Parse(doc, time.Time{})
			require.NoError(t, err)
			hours, blocks := feedtest.RainTotals(s)
			assert.InDelta(t, want, hours, 0.01)
			assert.InDelta(t, want, blocks, 0.01)
		})
	}
}
