package brightsky

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
)

func TestReaderSuite(t *testing.T) {
	feedtest.Run(t, Reader{},
		feedtest.Doc{Name: "invented", Body: invented(asked).bytes(t), Now: asked, NoIssue: true},
		feedtest.Doc{Name: "small", Body: small(t), NoIssue: true},
		feedtest.Doc{Name: "measured", Body: span(asked.Truncate(day), asked, asked).bytes(t), NoIssue: true})
}

func TestParseReadsEveryQuantity(t *testing.T) {
	d := invented(asked)
	noon := time.Date(2026, 7, 16, 12, 0, 0, 0, time.UTC)
	r := d.at(noon)
	r["temperature"], r["dew_point"], r["cloud_cover"] = 22.5, 11.0, 88
	r = d.at(noon.Add(time.Hour)) // tells of the hour before it
	r["wind_speed"], r["wind_gust_speed"], r["solar"], r["precipitation"], r["precipitation_probability"] = 10.8, 36.0, 0.563, 1.8, 46
	s := parse(t, d)
	assert.Equal(t, Key, s.Feed)
	assert.Equal(t, "Deutscher Wetterdienst by Bright Sky, forecast for MUSTERHAUSEN, 5 km away", s.Source)
	assert.Contains(t, s.Attribution, "Deutscher Wetterdienst")
	assert.Equal(t, 50.03, s.Point.Lat)
	assert.Equal(t, 10.02, s.Point.Lon)
	assert.Equal(t, 212.0, s.Point.Elevation.Or(0))
	h := feedtest.At(t, s, noon)
	assert.Equal(t, 22.5, h.Temp.Or(0))
	assert.Equal(t, 11.0, h.DewPoint.Or(0))
	assert.InDelta(t, 0.88, h.Sky.Or(0), 1e-9)
	assert.InDelta(t, 3.0, h.Wind.Or(0), 1e-9)
	assert.InDelta(t, 10.0, h.Gust.Or(0), 1e-9)
	assert.InDelta(t, 563.0, h.Radiation.Or(0), 1e-9, "0.563 kWh/m2 in an hour are 563 W/m2, the service's own example")
	assert.Equal(t, 1.8, h.Rain.Or(0))
	assert.InDelta(t, 0.46, h.RainProb.Or(0), 1e-9)
	assert.False(t, h.Thunder.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, "Thunder"), "never in forecasts of this service")
	assert.Equal(t, forecast.OriginForecast, h.Origin)
}

// Sums and means belong to the hour before their time stamp, the air's state to the one after.
func TestSumsBelongToTheHourBefore(t *testing.T) {
	d := invented(asked)
	s := parse(t, d)
	first := time.Date(2026, 7, 14, 0, 0, 0, 0, time.UTC)
	assert.Equal(t, first.Add(-time.Hour), s.Start())
	assert.True(t, s.Hours[0].Wind.IsKnown() && !s.Hours[0].Temp.IsKnown())
	last := s.Hours[len(s.Hours)-1]
	assert.Equal(t, time.Date(2026, 7, 24, 0, 0, 0, 0, time.UTC), last.Start)
	assert.True(t, last.Temp.IsKnown() && !last.Wind.IsKnown() && !last.Rain.IsKnown())
}

// Forecasts have no humidity of their own.
func TestHumidityFromDewPoint(t *testing.T) {
	d := invented(asked)
	ten := time.Date(2026, 7, 16, 10, 0, 0, 0, time.UTC)
	d.at(ten)["temperature"], d.at(ten)["dew_point"] = 20.0, 12.0
	s := parse(t, d)
	// By psychrolib 1.1.1, the ASHRAE equations, as in the table of package assemble; its
	// tolerance.
	assert.InDelta(t, 59.9705, feedtest.At(t, s, ten).RH.Or(0), 0.1)
	assert.Contains(t, feedtest.NoteOn(s, "RH"), "worked out from temperature and dew point")
	h := feedtest.At(t, s, time.Date(2026, 7, 14, 10, 0, 0, 0, time.UTC))
	assert.Equal(t, 80.0, h.RH.Or(0), "as measured")
}

// The service calls an hour rainy by its own rules, whatever the amount.
func TestConditionInWordsIsNotRain(t *testing.T) {
	d := invented(asked)
	d.set("condition", "rain")
	d.set("precipitation", 0.0)
	s := parse(t, d)
	for _, h := range s.Hours[:len(s.Hours)-1] {
		v, ok := h.Rain.Get()
		require.True(t, ok)
		require.Zero(t, v)
	}
}

func TestMeasuredAndForecastHours(t *testing.T) {
	s := parse(t, invented(asked))
	now := asked.Truncate(time.Hour) // the last measured record
	for _, h := range s.Hours {
		want := forecast.OriginForecast
		if h.Start.Before(now) {
			want = forecast.OriginObserved
		}
		require.Equal(t, want, h.Origin, "%v: the rain of the running hour is not measured yet", h.Start)
		require.Equal(t, want == forecast.OriginForecast && h.Start.Before(s.End().Add(-time.Hour)), h.RainProb.IsKnown(), "%v: what was measured has no chance", h.Start)
	}
	for _, b := range s.Blocks {
		require.False(t, b.Start.Before(now), "measured rain is no block")
	}
}

// A record of a measured hour may hold forecasts. Where these are its temperature or its rain
// the hour does not pass for measured; other values are told.
func TestForecastsInMeasuredRecords(t *testing.T) {
	d := invented(asked)
	noon := time.Date(2026, 7, 14, 12, 0, 0, 0, time.UTC)
	d.at(noon)["fallback_source_ids"] = row{"cloud_cover": point, "visibility": point}
	d.at(noon.Add(time.Hour))["fallback_source_ids"] = row{"temperature": point, "cloud_cover": point}
	d.at(noon.Add(4 * time.Hour))["fallback_source_ids"] = row{"precipitation": point}
	d.at(noon.Add(5 * time.Hour))["fallback_source_ids"] = row{"precipitation": hill, "temperature": hill}
	s := parse(t, d)
	for i, want := range []forecast.Origin{forecast.OriginObserved, forecast.OriginForecast, forecast.OriginObserved,
		forecast.OriginForecast, forecast.OriginObserved, forecast.OriginObserved} {
		assert.Equal(t, want, feedtest.At(t, s, noon.Add(time.Duration(i)*time.Hour)).Origin, "hour %d", i)
	}
	assert.Contains(t, feedtest.NoteOn(s, ""), "measured hours with cloud cover, temperature and rain from the forecast, which the station lacks: 3")
	assert.Contains(t, feedtest.NoteOn(s, ""), "hours with temperature and rain from Beispielberg, 29 km away: 1")
}

func TestFarAndHighSources(t *testing.T) {
	d := invented(asked)
	d.set("fallback_source_ids", row{"cloud_cover": hill, "wind_speed": hill, "wind_gust_speed": hill})
	noon := time.Date(2026, 7, 17, 12, 0, 0, 0, time.UTC)
	d.at(noon)["source_id"] = mountain
	s := parse(t, d)
	assert.Contains(t, feedtest.NoteOn(s, ""), "hours with cloud cover, wind and gusts from Beispielberg, 29 km away: 241")
	assert.NotContains(t, feedtest.NoteOn(s, ""), "MUSTERHAUSEN", "5 km are not far")
	assert.Contains(t, feedtest.NoteOn(s, "Temp"), "between 212 m and 900 m")
	assert.Empty(t, feedtest.NoteOn(parse(t, invented(asked)), ""))
}

func TestSourcesThatAreNotTold(t *testing.T) {
	d := invented(asked)
	d.sources = nil
	s := parse(t, d)
	assert.Equal(t, "Deutscher Wetterdienst by Bright Sky", s.Source)
	assert.Zero(t, s.Point)
	for _, h := range s.Hours {
		require.Equal(t, forecast.OriginForecast, h.Origin, "what nobody is said to have measured is no measurement")
	}
	assert.Contains(t, feedtest.NoteOn(s, ""), "tells nothing of")

	d = invented(asked)
	for _, src := range d.sources {
		src["observation_type"], src["distance"], src["station_name"] = "radar", nil, nil
	}
	s = parse(t, d)
	assert.Equal(t, forecast.OriginForecast, s.Hours[0].Origin, "a kind not known here is no measurement")
}

// Only where the other products of the service are told apart can their faults be said.
func TestOtherProductsAreRefused(t *testing.T) {
	for name, c := range map[string]struct{ doc, want string }{
		"now":      {`{"weather":{"source_id":1,"timestamp":"2023-08-07T12:30:00+00:00","precipitation_10":0.0,"temperature":17.6},"sources":[{"id":1}]}`, "one moment"},
		"synop":    {`{"weather":[{"source_id":1,"timestamp":"2023-08-07T12:30:00+00:00","precipitation_10":0.0,"wind_speed_10":5.0,"temperature":17.6}],"sources":[{"id":1}]}`, "ten minutes"},
		"sources":  {`{"sources":[{"id":1,"lat":52.1,"lon":7.7}]}`, "no hours"},
		"radar":    {`{"radar":[{"timestamp":"2023-08-07T08:00:00+00:00","source":"x","precipitation_5":"eJ"}],"geometry":{}}`, "no hours"},
		"alerts":   {`{"alerts":[]}`, "no hours"},
		"no hours": {`{"weather":[],"sources":[{"id":2252,"observation_type":"forecast"}]}`, "no hours"},
		"error":    {`{"detail":"No sources match your criteria"}`, `the service says "No sources match your criteria"`},
		"no times": {`{"weather":[{"timestamp":"2023-08-07 12:30","source_id":1,"temperature":17.6}],"sources":[]}`, "time that can be read"},
		"nulls":    {`{"weather":[{"timestamp":"2023-08-07T12:00:00Z","source_id":1,"temperature":null}],"sources":[]}`, "all its values are unknown"},
		"empty":    {"\xef\xbb\xbf ", "empty"},
		"list":     {`[1]`, "cannot be read"},
	} {
		t.Run(name, func(t *testing.T) {
			if name != "no times" && name != "nulls" {
				assert.False(t, Reader{}.Recognise([]byte(c.doc)))
			}
			_, err := Reader{}.Parse([]byte(c.doc), time.Time{})
			var bad *feed.DocumentError
			require.ErrorAs(t, err, &bad)
			assert.Contains(t, bad.Error(), c.want)
			assert.NotEmpty(t, bad.Hint())
		})
	}
}

// Times that are broken, twice there, no full hour, or of another age are left out; the
// others stay, in order.
func TestDamagedTimes(t *testing.T) {
	d := span(asked.Truncate(day), asked, asked.Add(2*day).Truncate(time.Hour))
	n := len(d.rows)
	for i, when := range []string{"yesterday", "2026-07-15T10:30:00Z", "2026-07-15T12:00:00+02:00", "1970-01-01T00:00:00Z", "2199-01-01T00:00:00Z", "2026-07-16T05:00:00"} {
		d.rows = append(d.rows, row{"timestamp": when, "source_id": station, "temperature": 40.0 + float64(i)})
	}
	d.rows[3], d.rows[20] = d.rows[20], d.rows[3]
	s := parse(t, d)
	assert.Len(t, s.Hours, n+1)
	assert.Contains(t, feedtest.NoteOn(s, ""), "left out: 6")
	for _, h := range s.Hours {
		require.Less(t, h.Temp.Or(0), 30.0)
	}
}

// A saved document of a year is as long as a year.
func TestLongDocuments(t *testing.T) {
	first := time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC)
	s := parse(t, span(first, first.AddDate(1, 0, 0), first.AddDate(1, 0, 0)))
	assert.Len(t, s.Hours, 365*24+2)
	assert.Equal(t, "Deutscher Wetterdienst by Bright Sky, station Musterhausen, 4 km away", s.Source)
	assert.Empty(t, feedtest.NoteOn(s, "RainProb"), "what was measured lacks no chance")
	assert.Empty(t, feedtest.NoteOn(s, "Thunder"))
}

// Places by their coordinates in degrees. [memory]
func TestCovers(t *testing.T) {
	for name, p := range map[string][2]float64{
		"Berlin": {52.52, 13.40}, "Munich": {48.14, 11.58}, "Hamburg": {53.55, 9.99}, "Cologne": {50.94, 6.96}, "Flensburg": {54.78, 9.44},
		"Westerland": {54.91, 8.31}, "Heligoland": {54.18, 7.89}, "Borkum": {53.59, 6.67}, "Sassnitz": {54.51, 13.64}, "Goerlitz": {51.15, 14.99},
		"Passau": {48.57, 13.46}, "Berchtesgaden": {47.63, 13.00}, "Oberstdorf": {47.41, 10.28}, "Freiburg": {48.00, 7.85}, "Loerrach": {47.61, 7.66},
		"Saarbruecken": {49.24, 6.99}, "Trier": {49.76, 6.64}, "Aachen": {50.78, 6.08}, "Kleve": {51.79, 6.14}, "Nordhorn": {52.43, 7.07}, "Emden": {53.37, 7.21},
		"Strasbourg": {48.58, 7.75}, "Salzburg": {47.80, 13.05}, "Basel": {47.56, 7.59}, "Luxembourg": {49.61, 6.13}, "Enschede": {52.22, 6.89},
	} {
		assert.True(t, Reader{}.Covers(forecast.Place{Lat: p[0], Lon: p[1]}), name)
	}
	for name, p := range map[string][2]float64{
		"Paris": {48.86, 2.35}, "Vienna": {48.21, 16.37}, "Copenhagen": {55.68, 12.57}, "Amsterdam": {52.37, 4.90}, "Brussels": {50.85, 4.35},
		"Warsaw": {52.23, 21.01}, "Bern": {46.95, 7.45}, "Milan": {45.46, 9.19}, "Albany": {42.65, -73.75}, "swapped": {13.40, 52.52}, "south": {-52.52, 13.40},
		"no place": {math.NaN(), math.NaN()},
	} {
		assert.False(t, Reader{}.Covers(forecast.Place{Lat: p[0], Lon: p[1]}), name)
	}
}
