package openmeteo

import (
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
		feedtest.Doc{Name: "small", Body: small(t), NoIssue: true})
}

func TestParseReadsEveryVariable(t *testing.T) {
	s := parse(t, invented(asked))
	start := time.Date(2026, 7, 14, 0, 0, 0, 0, time.UTC)
	h := feedtest.At(t, s, start.Add(30*time.Hour))
	assert.Equal(t, 18.0, h.Temp.Or(0))
	assert.Equal(t, 12.5, h.DewPoint.Or(0))
	assert.Equal(t, 66.0, h.RH.Or(0))
	assert.Equal(t, 2.5, h.Wind.Or(0))
	assert.Equal(t, 0.25, h.Sky.Or(0))
	assert.Equal(t, forecast.OriginForecast, h.Origin)
	assert.False(t, h.Thunder.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, "Thunder"), "never")
	assert.Equal(t, Key, s.Feed)
	assert.Contains(t, s.Attribution, "https://open-meteo.com/")
	assert.Equal(t, forecast.Place{Lat: 40.02, Lon: -90, Elevation: forecast.Known(187)}, s.Point, "of the cell; GMT is not its zone")
	assert.True(t, s.Issued.IsZero(), "the service does not say")
}

// Instants stand at their hour, sums and means of the preceding hour one before.
func TestPrecedingHour(t *testing.T) {
	d := invented(asked)
	start := time.Date(2026, 7, 14, 0, 0, 0, 0, time.UTC)
	at15 := start.Add(15 * time.Hour)
	for _, name := range []string{"precipitation", "shortwave_radiation", "wind_gusts_10m", "precipitation_probability", "wind_speed_10m", "cloud_cover", "relative_humidity_2m"} {
		d.hourly()[name].([]any)[15] = 3
	}
	s := parse(t, d)
	h, before := feedtest.At(t, s, at15), feedtest.At(t, s, at15.Add(-time.Hour))
	assert.Equal(t, 3.0, before.Rain.Or(-1), "rain told at 15:00 fell from 14 to 15")
	assert.Equal(t, 3.0, before.Radiation.Or(-1))
	assert.Equal(t, 3.0, before.Gust.Or(-1))
	assert.Equal(t, 0.03, before.RainProb.Or(-1))
	assert.Equal(t, 3.0, h.Wind.Or(-1))
	assert.Equal(t, 0.03, h.Sky.Or(-1))
	assert.Equal(t, 3.0, h.RH.Or(-1))
	i, ok := blockAt(s, at15.Add(-time.Hour))
	require.True(t, ok)
	assert.Equal(t, forecast.RainBlock{Start: at15.Add(-time.Hour), End: at15, Amount: forecast.Known(3), Prob: forecast.Known(0.03)}, s.Blocks[i])

	assert.Equal(t, start.Add(-time.Hour), s.Start(), "the first sum belongs to the evening before")
	last := s.Hours[len(s.Hours)-1]
	assert.True(t, last.Temp.IsKnown())
	assert.False(t, last.Rain.IsKnown(), "of the last hour no sum has been told")
}

func blockAt(s *forecast.Series, start time.Time) (int, bool) {
	for i, b := range s.Blocks {
		if b.Start.Equal(start) {
			return i, true
		}
	}
	return 0, false
}

func TestRainEqualsTheDocumentsSums(t *testing.T) {
	d := invented(asked)
	want := 0.0
	for _, v := range d.hourly()["precipitation"].([]any) {
		want += v.(float64)
	}
	s := parse(t, d)
	hours, blocks := 0.0, 0.0
	for _, h := range s.Hours {
		hours += h.Rain.Or(0)
	}
	for _, b := range s.Blocks {
		blocks += b.Amount.Or(0)
		require.Equal(t, time.Hour, b.End.Sub(b.Start), "as issued, by the hour")
	}
	assert.InDelta(t, want, hours, 0.01)
	assert.InDelta(t, want, blocks, 0.01)
}

// Until October 2023 variables had other names; some documents mix both.
func TestOldNames(t *testing.T) {
	d, n := invented(asked), (pastDays+futureDays)*24
	for _, name := range []string{"dew_point_2m", "relative_humidity_2m", "wind_gusts_10m", "cloud_cover"} {
		delete(d.hourly(), name)
		delete(d.units(), name)
	}
	d.set("dewpoint_2m", "°C", same(n, 4))
	d.set("relativehumidity_2m", "%", same(n, 44))
	d.set("windspeed_10m", "km/h", same(n, 99))
	d.set("windgusts_10m", "km/h", same(n, 36))
	d.set("cloudcover", "%", same(n, 75))
	h := parse(t, d).Hours[40]
	assert.Equal(t, 4.0, h.DewPoint.Or(-99))
	assert.Equal(t, 44.0, h.RH.Or(-99))
	assert.InDelta(t, 10.0, h.Gust.Or(-99), 1e-9)
	assert.Equal(t, 0.75, h.Sky.Or(-99))
	assert.Equal(t, 2.5, h.Wind.Or(-99), "where both names are there, the new one")
}

// One offset holds for a whole document of local times, whatever the clocks do.
func TestOneOffsetForTheWholeDocument(t *testing.T) {
	// Summer time ends in Berlin on 25 October 2026 at 01:00 UTC. [memory of the rule: last Sunday of October]
	from := time.Date(2026, 10, 22, 9, 0, 0, 0, time.UTC)
	plain := parse(t, invented(from))
	s := parse(t, invented(from).local("Europe/Berlin", 2*time.Hour))
	assert.Equal(t, plain.Hours, s.Hours)
	assert.Equal(t, "Europe/Berlin", s.Point.Zone.String())
	assert.Contains(t, feedtest.NoteOn(s, ""), "the clocks of Europe/Berlin change on 25 October 2026")
	assert.Contains(t, feedtest.NoteOn(s, ""), "one offset to UTC (+2 h)")
	assert.Contains(t, feedtest.NoteOn(s, ""), "an hour off")

	assert.Empty(t, feedtest.NoteOn(parse(t, invented(asked).local("Europe/Berlin", 2*time.Hour)), ""), "no change in July")
	assert.Empty(t, feedtest.NoteOn(parse(t, invented(from).local("America/Sao_Paulo", -3*time.Hour)), ""), "none at all in Brazil since 2019")
	d := invented(from)
	d["timezone"], d["utc_offset_seconds"] = "Europe/Berlin", 7200
	s = parse(t, d)
	assert.Equal(t, plain.Hours, s.Hours, "unix times are in UTC")
	assert.Empty(t, feedtest.NoteOn(s, ""))
	d["timezone"] = "Local"
	assert.Nil(t, parse(t, d).Point.Zone, "never the machine's own")
}

// The server cuts a fractional offset to hours when it reads its models (getTimerange of
// its public source: (offset / 3600) * 3600) and shifts the times by the rest
// (hourlyTime.add(utcOffsetShift)). So 00:00 in Kolkata is written of 19:00 UTC, and 00:00
// in St. John's of 03:00.
func TestOffsetsOfHalfAnHour(t *testing.T) {
	for _, c := range []struct {
		zone     string
		offset   time.Duration
		wholeUTC int // of the local midnight
	}{{"Asia/Kolkata", 5*time.Hour + 30*time.Minute, 19}, {"America/St_Johns", -(2*time.Hour + 30*time.Minute), 2}, {"Asia/Kathmandu", 5*time.Hour + 45*time.Minute, 19}} {
		t.Run(c.zone, func(t *testing.T) {
			iso := invented(asked).local(c.zone, c.offset)
			times := iso.hourly()["time"].([]any)
			midnight := time.Date(2026, 7, 15, 0, 0, 0, 0, time.UTC)
			for i := range times {
				times[i] = midnight.Add(time.Duration(i) * time.Hour).Format("2006-01-02T15:04")
			}
			s := parse(t, iso)
			assert.Equal(t, c.wholeUTC, s.Hours[1].Start.Hour(), "the hour before it holds the first sums only")
			assert.Equal(t, 15.0, s.Hours[1].Temp.Or(0))
			for i := range times {
				times[i] = midnight.Add(time.Duration(i)*time.Hour - c.offset).Unix()
			}
			iso.units()["time"] = "unixtime"
			unix := parse(t, iso)
			assert.Equal(t, s.Hours, unix.Hours)
		})
	}
}

func TestUnusableDocuments(t *testing.T) {
	with := func(change func(d tree)) []byte {
		d := invented(asked)
		change(d)
		return d.bytes(t)
	}
	times := func(v ...any) []byte { return with(func(d tree) { d.hourly()["time"] = v }) }
	doc := invented(asked).bytes(t)
	for name, c := range map[string]struct {
		doc        []byte
		want, hint string
	}{
		"empty":          {nil, "it is empty", "again"},
		"cut":            {doc[:5000], "cut short", "again"},
		"several places": {append(append([]byte("["), doc...), ']'), "several places", "one place"},
		"days":           {[]byte(`{"latitude":1,"daily_units":{"time":"iso8601"},"daily":{"time":["2026-07-15"],"temperature_2m_max":[30]}}`), "days, not hours", "hourly=temperature_2m,"},
		"now only":       {[]byte(`{"latitude":1,"current":{"time":"2026-07-15T09:15","temperature_2m":20}}`), "no hours", "hourly="},
		"error":          {refusalBody("The service is overloaded"), "an error, the service is overloaded", "again"},
		"ensemble":       {with(func(d tree) { d.set("temperature_2m_member01", "°C", same(216, 1)) }), "an ensemble", "single forecast"},
		"earlier runs":   {with(func(d tree) { d.set("temperature_2m_previous_day1", "°C", same(216, 1)) }), "earlier forecasts", "single forecast"},
		"models": {with(func(d tree) {
			d.set("temperature_2m_icon_eu", "°C", same(216, 1))
			delete(d.hourly(), "temperature_2m")
		}), "several models", "single forecast"},
		"no temperature": {with(func(d tree) { delete(d.hourly(), "temperature_2m") }), "none of its temperatures", "again"},
		"every value nil": {with(func(d tree) {
			for name := range d.units() {
				if name != "time" {
					d.hourly()[name] = same(216, nil)
				}
			}
		}), "all its values are unknown", "again"},
		"three-hourly":      {times(int64(1784073600), int64(1784084400)), "do not go on by the hour", "hours"},
		"twice the same":    {times(int64(1784073600), int64(1784073600)), "do not go on by the hour", "hours"},
		"not on the hour":   {times(int64(1784073660)), "cannot be right", "again"},
		"far away":          {times(int64(1e12)), "is not a time", "again"},
		"of no year":        {times(int64(8e10 / 3600 * 3600)), "cannot be right", "again"},
		"words for times":   {times("tomorrow"), "cannot be read", "again"},
		"null for times":    {times(nil), "cannot be read", "again"},
		"two kinds":         {times(int64(1784073600), "2026-07-15T01:00"), "two kinds", "again"},
		"no offset":         {with(func(d tree) { d.local("X/Y", 0); delete(d, "utc_offset_seconds") }), "how far from UTC", "again"},
		"a list of objects": {with(func(d tree) { d.hourly()["temperature_2m"] = []any{map[string]any{}} }), "cannot be read", "again"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Reader{}.Parse(c.doc, time.Time{})
			var bad *feed.DocumentError
			require.ErrorAs(t, err, &bad)
			assert.Contains(t, err.Error(), c.want)
			assert.Contains(t, bad.Hint(), c.hint)
		})
	}
}

func TestRecognise(t *testing.T) {
	doc := invented(asked).bytes(t)
	for name, c := range map[string]struct {
		doc  string
		want bool
	}{
		"forecast":       {string(doc), true},
		"with a mark":    {"\xef\xbb\xbf\n" + string(doc), true},
		"several places": {"[" + string(doc) + "]", true},
		"days":           {`{"generationtime_ms":0.1,"utc_offset_seconds":0,"daily":{"temperature_2m_max":[1]}}`, true},
		"ensemble":       {`{"generationtime_ms":0.1,"utc_offset_seconds":0,"hourly":{"temperature_2m":[1],"temperature_2m_member01":[1]}}`, false},
		"earlier runs":   {`{"generationtime_ms":0.1,"utc_offset_seconds":0,"hourly":{"temperature_2m":[1],"temperature_2m_previous_day1":[1]}}`, false},
		"air":            {`{"generationtime_ms":0.1,"utc_offset_seconds":0,"hourly_units":{"pm10":"μg/m³"},"hourly":{"pm10":[1]}}`, false},
		"sea":            {`{"generationtime_ms":0.1,"utc_offset_seconds":0,"hourly_units":{"wave_height":"m"},"hourly":{"wave_height":[1]}}`, false},
		"places by name": {`{"results":[{"id":1,"name":"X"}],"generationtime_ms":0.1}`, false},
		"error":          {`{"error":true,"reason":"temperature_2m"}`, false},
	} {
		assert.Equal(t, c.want, Reader{}.Recognise([]byte(c.doc)), name)
	}
}

func TestInfoSaysWhoMayUseIt(t *testing.T) {
	i := Reader{}.Info()
	assert.True(t, i.NonCommercial)
	assert.Contains(t, i.Terms, "who sell")
	assert.Equal(t, "CC BY 4.0", i.Licence)
	assert.Contains(t, i.Attribution, "Open-Meteo.com", "the credit its licence page asks for")
	assert.Contains(t, i.Attribution, "https://open-meteo.com/")
	assert.Equal(t, []string{"api.open-meteo.com", "archive-api.open-meteo.com", "previous-runs-api.open-meteo.com"}, i.Hosts)
	assert.Equal(t, Reader{Base: "http://a.test", Archive: "http://a.test", Previous: "http://a.test"}, Reader{}.At("http://a.test"))
	assert.True(t, Reader{}.Covers(garden))
	assert.False(t, Reader{}.Covers(forecast.Place{Lat: 91}))
}
