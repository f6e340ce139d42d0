package metno

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/feedtest"
)

// The recorded documents, with the numbers of steps that were counted in them apart
// from this program.
var recorded = []struct {
	name                 string
	wrapped              bool // as a library saved it, with status and headers around
	steps, hourly, sixes int
}{
	{"metno/complete_london_51.5_-0.1.json", true, 82, 55, 76},
	{"metno/complete_berlin_53.5_13_2022-08-02.json", false, 84, 56, 78},
	{"metno/compact_gothenburg_2021-10-12.json", false, 89, 61, 83},
}

func recording(t testing.TB, i int) []byte {
	t.Helper()
	doc := feedtest.Recording(t, recorded[i].name)
	if !recorded[i].wrapped {
		return doc
	}
	var outer struct {
		Data json.RawMessage `json:"data"`
	}
	require.NoError(t, json.Unmarshal(doc, &outer))
	return outer.Data
}

// answerBook is the document read by another decoder and without this package's types.
type answerBook struct {
	Properties struct {
		Meta struct {
			UpdatedAt time.Time `json:"updated_at"`
		}
		TimeSeries []struct {
			Time time.Time
			Data map[string]struct {
				Details map[string]float64
			}
		}
	}
}

func book(t *testing.T, doc []byte) answerBook {
	t.Helper()
	var b answerBook
	require.NoError(t, json.Unmarshal(doc, &b))
	return b
}

func eachRecording(t *testing.T, test func(t *testing.T, doc []byte, b answerBook, s *forecast.Series)) {
	for i, r := range recorded {
		t.Run(r.name, func(t *testing.T) {
			doc := recording(t, i)
			s, err := Reader{}.Parse(doc, time.Time{})
			require.NoError(t, err)
			test(t, doc, book(t, doc), s)
		})
	}
}

func TestRecordedDocumentsPassTheSuite(t *testing.T) {
	var docs []feedtest.Doc
	for i, r := range recorded {
		docs = append(docs, feedtest.Doc{Name: r.name, Body: recording(t, i)})
	}
	feedtest.Run(t, Reader{}, docs...)
}

func TestRecordedSteps(t *testing.T) {
	for i, r := range recorded {
		t.Run(r.name, func(t *testing.T) {
			d, err := decode(recording(t, i))
			require.NoError(t, err)
			steps, bad := d.steps()
			assert.Zero(t, bad)
			assert.Len(t, steps, r.steps)
			hourly, sixes := 0, 0
			for _, s := range steps {
				if s.Data.NextHour.Details.Rain.IsKnown() {
					hourly++
				}
				if s.Data.NextSix.Details.Rain.IsKnown() {
					sixes++
				}
			}
			assert.Equal(t, r.hourly, hourly)
			assert.Equal(t, r.sixes, sixes)
		})
	}
}

// Every reading of every step stands in the hour that begins at its time.
func TestEveryRecordedReadingHasItsHour(t *testing.T) {
	eachRecording(t, func(t *testing.T, _ []byte, b answerBook, s *forecast.Series) {
		assert.Equal(t, b.Properties.Meta.UpdatedAt, s.Issued)
		list := b.Properties.TimeSeries
		assert.Equal(t, list[0].Time, s.Start())
		assert.Equal(t, list[len(list)-1].Time.Add(time.Hour), s.End())
		for _, x := range list {
			h := feedtest.At(t, s, x.Time)
			for name, c := range map[string]struct {
				v     forecast.Value
				scale float64
			}{
				"air_temperature": {h.Temp, 1}, "dew_point_temperature": {h.DewPoint, 1}, "relative_humidity": {h.RH, 1}, "wind_speed": {h.Wind, 1}, "wind_from_direction": {h.WindFrom, 1},
				"wind_speed_of_gust": {h.Gust, 1}, "cloud_area_fraction": {h.Sky, 100},
			} {
				want, ok := x.Data["instant"].Details[name]
				if !ok {
					if name != "dew_point_temperature" { // worked out
						assert.False(t, c.v.IsKnown(), "%s at %v", name, x.Time)
					}
					continue
				}
				assert.InDelta(t, want, c.scale*c.v.Or(math.NaN()), 1e-6, "%s at %v", name, x.Time)
			}
			for name, v := range map[string]forecast.Value{"probability_of_precipitation": h.RainProb, "probability_of_thunder": h.Thunder} {
				want, ok := x.Data["next_1_hours"].Details[name]
				if _, hourly := x.Data["next_1_hours"]; !hourly {
					want, ok = x.Data["next_6_hours"].Details[name]
				}
				require.Equal(t, ok, v.IsKnown(), "%s at %v", name, x.Time)
				assert.InDelta(t, want, 100*v.Or(0), 1e-6, "%s at %v", name, x.Time)
			}
		}
	})
}

// Nine readings read off the recorded files by eye.
func TestReadingsReadOffTheRecordings(t *testing.T) {
	day := func(y, m, d, h int) time.Time { return time.Date(y, time.Month(m), d, h, 0, 0, 0, time.UTC) }
	for i, want := range []struct {
		when             time.Time
		temp, wind, rain float64
	}{
		{day(2020, 7, 20, 11), 18.8, 2.3, 0},
		{day(2022, 8, 4, 23), 24.4, 1.7, 0},
		{day(2021, 10, 12, 11), 26.7, 7.4, 0.1},
	} {
		s, err := Reader{}.Parse(recording(t, i), time.Time{})
		require.NoError(t, err)
		h := feedtest.At(t, s, want.when)
		assert.Equal(t, want.temp, h.Temp.Or(-99))
		assert.Equal(t, want.wind, h.Wind.Or(-99))
		assert.Equal(t, want.rain, h.Rain.Or(-99))
	}
}

// The trap of the step change: sums of the next hour, and after it those of the next six,
// without counting an hour twice. The sum is taken here from the document's own times.
func TestRainOfTheDaysEqualsTheSumOfTheAmounts(t *testing.T) {
	eachRecording(t, func(t *testing.T, doc []byte, b answerBook, s *forecast.Series) {
		want, naive, told := 0.0, 0.0, time.Time{}
		const amount = "precipitation_amount"
		for _, x := range b.Properties.TimeSeries {
			one, ok1 := x.Data["next_1_hours"].Details[amount]
			six, ok6 := x.Data["next_6_hours"].Details[amount]
			naive += one + six
			switch {
			case ok1:
				want, told = want+one, x.Time.Add(time.Hour)
			case ok6:
				require.Equal(t, told, x.Time, "the periods follow one another")
				want, told = want+six, x.Time.Add(6*time.Hour)
			}
		}
		assert.Equal(t, told, s.End().Add(-time.Hour), "the last step is an instant")
		hours, blocks := feedtest.RainTotals(s)
		assert.InDelta(t, want, hours, 0.01)
		assert.InDelta(t, want, blocks, 0.01)
		assert.False(t, s.Hours[len(s.Hours)-1].Rain.IsKnown(), "nothing is said of the hour after the last instant")
		assert.GreaterOrEqual(t, naive, want)
		if strings.Contains(string(doc), `"air_temperature_max"`) {
			return // the long documents are dry where they go by the hour
		}
		assert.Greater(t, naive, want+1, "adding up everything counts hours twice")
	})
}

// Sums of six hours stay blocks of six hours.
func TestRecordedBlocksAreAsIssued(t *testing.T) {
	eachRecording(t, func(t *testing.T, _ []byte, b answerBook, s *forecast.Series) {
		i := 0
		for _, x := range b.Properties.TimeSeries {
			p, width := x.Data["next_1_hours"], time.Hour
			if p.Details == nil {
				p, width = x.Data["next_6_hours"], 6*time.Hour
			}
			if p.Details == nil {
				continue
			}
			require.Less(t, i, len(s.Blocks))
			got := s.Blocks[i]
			assert.Equal(t, x.Time, got.Start)
			assert.Equal(t, x.Time.Add(width), got.End)
			assert.InDelta(t, p.Details["precipitation_amount"], got.Amount.Or(math.NaN()), 1e-9)
			i++
		}
		assert.Len(t, s.Blocks, i)
	})
}

// Between two steps of six hours no hour lies outside its two readings, and the hours
// go from one to the other in equal parts.
func TestRecordedHoursBetweenSteps(t *testing.T) {
	eachRecording(t, func(t *testing.T, _ []byte, b answerBook, s *forecast.Series) {
		list, wide := b.Properties.TimeSeries, 0
		for i := range list[1:] {
			from, to := list[i], list[i+1]
			if to.Time.Sub(from.Time) == time.Hour {
				continue
			}
			wide++
			a, b := from.Data["instant"].Details["air_temperature"], to.Data["instant"].Details["air_temperature"]
			for k := range 6 {
				want := (a*float64(6-k) + b*float64(k)) / 6
				assert.InDelta(t, want, feedtest.At(t, s, from.Time.Add(time.Duration(k)*time.Hour)).Temp.Or(math.NaN()), 1e-9)
			}
		}
		steps, hourly := len(list), 0
		for _, x := range list {
			if _, ok := x.Data["next_1_hours"]; ok {
				hourly++
			}
		}
		assert.Equal(t, steps-hourly-1, wide)
		assert.Contains(t, feedtest.NoteOn(s, ""), "worked out in a straight line")
	})
}

// The document of Berlin reaches 35.3 degC, as was found by another program.
func TestHeatOfBerlin(t *testing.T) {
	s, err := Reader{}.Parse(recording(t, 1), time.Time{})
	require.NoError(t, err)
	highest := -99.0
	for _, h := range s.Hours {
		highest = max(highest, h.Temp.Or(-99))
	}
	assert.Equal(t, 35.3, highest)
	assert.Equal(t, 61.0, s.Point.Elevation.Or(-99))
	assert.Equal(t, [2]float64{53.5, 13}, [2]float64{s.Point.Lat, s.Point.Lon})
	assert.Contains(t, feedtest.NoteOn(s, "Thunder"), "chance of thunder ends 7 days before the temperatures")
	assert.Empty(t, feedtest.NoteOn(s, "Gust"), "they end as early, and nothing hangs on them")
}

// Where the hours are worked out, the highest temperatures are those issued; some are
// above every hour that the straight line gives.
func TestRecordedHighestTemperaturesAreAsIssued(t *testing.T) {
	for i := range recorded[:2] {
		t.Run(recorded[i].name, func(t *testing.T) {
			doc := recording(t, i)
			s, err := Reader{}.Parse(doc, time.Time{})
			require.NoError(t, err)
			var want []forecast.Extreme
			above := 0
			for _, x := range book(t, doc).Properties.TimeSeries {
				m, ok := x.Data["next_6_hours"].Details["air_temperature_max"]
				if _, hourly := x.Data["next_1_hours"]; !ok || hourly {
					continue
				}
				want = append(want, forecast.Extreme{Start: x.Time, End: x.Time.Add(6 * time.Hour), Temp: forecast.Known(m)})
				line := -99.0
				for k := range 7 {
					line = max(line, feedtest.At(t, s, x.Time.Add(time.Duration(k)*time.Hour)).Temp.Or(-99))
				}
				if m > line {
					above++
				}
			}
			assert.Equal(t, want, s.DayMax)
			assert.Positive(t, above)
			assert.Contains(t, feedtest.NoteOn(s, ""), "highest temperatures are as issued")
		})
	}
}

// London in 2020 had neither gusts nor chances; Gothenburg's document is the short one.
func TestWhatRecordedDocumentsLack(t *testing.T) {
	for i, layers := range map[int][]string{0: {"Gust", "RainProb", "Thunder"}, 2: {"Gust", "RainProb", "Thunder"}} {
		s, err := Reader{}.Parse(recording(t, i), time.Time{})
		require.NoError(t, err)
		for _, l := range layers {
			assert.Contains(t, feedtest.NoteOn(s, l), "is not in this forecast")
		}
		for _, h := range s.Hours {
			require.False(t, h.Gust.IsKnown() || h.RainProb.IsKnown() || h.Thunder.IsKnown() || h.Radiation.IsKnown())
			require.True(t, h.DewPoint.IsKnown())
		}
		short := i == 2
		assert.Equal(t, short, len(s.DayMax) == 0)
		if short {
			assert.Contains(t, feedtest.NoteOn(s, ""), "the service's short document")
			assert.Empty(t, feedtest.NoteOn(s, "DewPoint"), "it follows from temperature and humidity, and nothing else hangs on it")
		} else {
			assert.NotContains(t, feedtest.NoteOn(s, ""), "short document")
		}
	}
}

// The former product is refused by its name and not half read.
func TestFormerProductIsRefused(t *testing.T) {
	doc := feedtest.Recording(t, "metno/old_locationforecast_1.9_oslo_2017-04-18.json")
	assert.True(t, Reader{}.Recognise(doc), "to be refused by name")
	_, err := Reader{}.Parse(doc, time.Time{})
	require.ErrorContains(t, err, "Locationforecast 1.9")
}
