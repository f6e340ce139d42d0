package openmeteo

import (
	"bytes"
	"net/http"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
)

func TestFaults(t *testing.T) {
	feedtest.RunFaults(t, feedtest.Subject{
		Reader: func(base string) feed.Reader { return Reader{Base: base} },
		Place:  garden, Path: forecastPath, Now: asked,
		Document: func(at time.Time) []byte { return invented(at).bytes(t) },
		Refusal:  func(int) []byte { return refusalBody("Internal server error") },
	})
}

// What is asked: one place in four decimals, GMT, unix times and every unit by name.
func TestQuestion(t *testing.T) {
	f := newFake(t)
	f.On(forecastPath, feedtest.Body(invented(asked).bytes(t)))
	a, err := f.forecast()
	require.NoError(t, err)
	assert.Equal(t, []string{"/v1/forecast?latitude=40.0123&longitude=-90.01&hourly=temperature_2m,dew_point_2m,relative_humidity_2m," +
		"wind_speed_10m,wind_direction_10m,wind_gusts_10m,cloud_cover,shortwave_radiation,precipitation_probability,precipitation&past_days=1&forecast_days=8" +
		"&timezone=GMT&timeformat=unixtime&temperature_unit=celsius&wind_speed_unit=ms&precipitation_unit=mm&elevation=187"}, f.Asked)
	assert.Equal(t, asked, a.Fetched)
	assert.Zero(t, a.Age(asked), "counted from when it was fetched")

	f.Now = asked.Add(59 * time.Minute)
	a, err = f.forecast()
	require.NoError(t, err)
	assert.Len(t, f.Asked, 1, "not asked again within the hour, though the service names no time")
	assert.Equal(t, 59*time.Minute, a.Age(f.Now))
	f.Now = asked.Add(61 * time.Minute)
	_, err = f.forecast()
	require.NoError(t, err)
	assert.Len(t, f.Asked, 2)
}

// 4. Places that are not on earth are not asked for; one without data is told.
func TestFault04_PlaceOutside(t *testing.T) {
	f := newFake(t)
	req := f.request()
	req.Place = forecast.Place{Lat: -97.1, Lon: 39.7}
	_, err := f.reader().Forecast(t.Context(), f.Client, req)
	var out *feed.OutsideError
	require.ErrorAs(t, err, &out)
	assert.Contains(t, out.Hint(), "swapped")
	_, err = f.reader().Past(t.Context(), f.Client, req, asked.Add(-day))
	require.ErrorAs(t, err, &out)
	assert.Empty(t, f.Asked)

	f.On(forecastPath, feedtest.Status(400, "application/json", refusalBody("No data is available for this location")))
	_, err = f.forecast()
	require.ErrorAs(t, err, &out)
	assert.NotEmpty(t, out.Hint())
	assert.Empty(t, f.Waits, "asking again is in vain")
}

// 5. Variables that are missing.
func TestFault05_MissingVariables(t *testing.T) {
	d := invented(asked)
	delete(d.hourly(), "cloud_cover")
	delete(d.hourly(), "wind_gusts_10m")
	delete(d.units(), "shortwave_radiation")
	s := parse(t, d)
	for _, h := range s.Hours {
		require.False(t, h.Sky.IsKnown() || h.Gust.IsKnown() || h.Radiation.IsKnown())
	}
	assert.Contains(t, feedtest.NoteOn(s, "Sky"), "is not in this forecast")
	assert.Contains(t, feedtest.NoteOn(s, "Gust"), "is not in this forecast")
	assert.Contains(t, feedtest.NoteOn(s, "Radiation"), "left out", "a value without a unit is not guessed at")
}

// 9. A tail of nulls is unknown, not dry and not 0 degC.
func TestFault09_RainEndsEarly(t *testing.T) {
	d := invented(asked)
	for i := 100; i < 216; i++ {
		d.hourly()["precipitation"].([]any)[i] = nil
		d.hourly()["precipitation_probability"].([]any)[i] = nil
	}
	s := parse(t, d)
	h := s.Hours[120]
	assert.False(t, h.Rain.IsKnown() || h.RainProb.IsKnown())
	assert.True(t, h.Temp.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, "Rain"), "ends 5 days before the temperatures; after that it is unknown")
	assert.Contains(t, feedtest.NoteOn(s, "RainProb"), "ends 5 days before")
}

// 10. Units are those the document names.
func TestFault10_Units(t *testing.T) {
	d := invented(asked)
	d.set("temperature_2m", "°F", same(216, 68))
	d.set("dew_point_2m", "K", same(216, 283.15))
	d.set("wind_speed_10m", "mp/h", same(216, 10)) // the service's spelling
	d.set("wind_gusts_10m", "kn", same(216, 10))
	d.set("precipitation", "inch", same(216, 0.1))
	d.set("cloud_cover", "okta", same(216, 4))
	s := parse(t, d)
	h := s.Hours[50]
	assert.InDelta(t, 20.0, h.Temp.Or(-99), 1e-9)
	assert.InDelta(t, 10.0, h.DewPoint.Or(-99), 1e-9)
	assert.InDelta(t, 4.4704, h.Wind.Or(-99), 1e-9)
	assert.InDelta(t, 5.1444, h.Gust.Or(-99), 1e-4)
	assert.InDelta(t, 2.54, h.Rain.Or(-99), 1e-9)
	assert.False(t, h.Sky.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, "Sky"), "okta")
}

// 11. An answer that was made two days ago begins two days too early.
func TestFault11_OldAnswerIsToldByItsFirstDay(t *testing.T) {
	ask := func(made time.Duration) error {
		f := newFake(t)
		f.On(forecastPath, feedtest.Body(invented(asked.Add(made)).bytes(t)))
		_, err := f.forecast()
		return err
	}
	assert.NoError(t, ask(0))
	assert.NoError(t, ask(-10*time.Hour), "made yesterday, perhaps a minute before midnight")
	var stale *feed.StaleError
	require.ErrorAs(t, ask(-34*time.Hour), &stale, "made the day before yesterday: a day old at least")
	assert.ErrorContains(t, ask(26*time.Hour), "clock")
}

// 13. The service fails after it has sent 200: its error stands inside the answer, at its end
// or in its place, and is not shown as a fault of the JSON.
func TestFault13_ErrorInTheStream(t *testing.T) {
	doc := invented(asked).bytes(t)
	text := []byte("Unexpected error while streaming data: timeoutReached")
	for name, bad := range map[string][]byte{
		"inside":   append(bytes.Clone(doc[:5000]), text...),
		"at end":   append(bytes.Clone(doc), text...),
		"in place": text,
	} {
		t.Run(name, func(t *testing.T) {
			f := newFake(t)
			f.On(forecastPath, feedtest.Body(bad), feedtest.Body(doc))
			_, err := f.forecast()
			require.NoError(t, err)
			assert.Len(t, f.Waits, 1, "fetched again")

			f.Now = asked.Add(2 * time.Hour)
			f.On(forecastPath, feedtest.Body(bad))
			a, err := f.forecast()
			require.NoError(t, err)
			assert.True(t, a.Stored, "the good copy stands in")
			assert.Contains(t, feedtest.NoteOn(a.Series, ""), "the service failed while it was sending it")

			_, err = newFakeWith(t, bad).forecast()
			var none *feed.UnavailableError
			require.ErrorAs(t, err, &none)
			assert.Contains(t, none.Error(), "failed while it was sending")
		})
	}
	t.Run("an error document with 200", func(t *testing.T) {
		_, err := newFakeWith(t, refusalBody("The service is overloaded")).forecast()
		var none *feed.UnavailableError
		require.ErrorAs(t, err, &none)
		assert.Equal(t, "no forecast from the Open-Meteo service: the service is overloaded", none.Error())
	})
}

func newFakeWith(t *testing.T, doc []byte) *fake {
	f := newFake(t)
	f.On(forecastPath, feedtest.Body(doc))
	return f
}

// 14. 429 without Retry-After: the reason says which limit; and other reasons of the service.
func TestFault14_Reasons(t *testing.T) {
	for reason, c := range map[string]struct {
		status     int
		want, hint string
	}{
		"Minutely API request limit exceeded. Please try again in one minute.":     {429, "within a minute", "minutes"},
		"Hourly API request limit exceeded. Please try again in the next hour.":    {429, "within an hour", "full hour"},
		"Daily API request limit exceeded. Please try again tomorrow.":             {429, "used up", "midnight UTC"},
		"Too many concurrent requests":                                             {429, "at once", "minutes"},
		"The service is overloaded":                                                {503, "overloaded", "hour"},
		"Forecast days is invalid. Allowed range 0 to 16. Given 17.":               {400, `"Forecast days is invalid. Allowed range 0 to 16. Given 17"`, "another feed"},
		"Data corrupted at path ''. Cannot initialize X from invalid String value": {400, "does not know something", "newer version"},
		"": {400, "400 bad request", "document"},
	} {
		t.Run(reason, func(t *testing.T) {
			f := newFake(t)
			f.On(forecastPath, feedtest.Status(c.status, "application/json", refusalBody(reason)))
			_, err := f.forecast()
			var none *feed.UnavailableError
			require.ErrorAs(t, err, &none)
			assert.Contains(t, none.Error(), c.want)
			assert.Contains(t, none.Hint(), c.hint)
			assert.Equal(t, c.status == 400, len(f.Waits) == 0, "a question that is refused is not asked again")
		})
	}
	for _, name := range []string{"error400_bad_hourly_variable", "error400_bad_unit"} {
		t.Run(name, func(t *testing.T) {
			f := newFake(t)
			doc := feedtest.Recording(t, "openmeteo/errors/"+name+".json")
			f.On(forecastPath, feedtest.Status(400, "application/json", doc))
			_, err := f.forecast()
			var none *feed.UnavailableError
			require.ErrorAs(t, err, &none)
			assert.Contains(t, none.Error(), "does not know something that was asked for")
			assert.NotContains(t, none.Error(), "SurfacePressureVariable", "no name of a type")
			assert.Empty(t, f.Waits)
		})
	}
	t.Run("a web page", func(t *testing.T) {
		f := newFake(t)
		f.On(forecastPath, feedtest.Status(http.StatusBadGateway, "text/html", []byte("<html><h1>502 Bad Gateway</h1></html>")))
		_, err := f.forecast()
		var none *feed.UnavailableError
		require.ErrorAs(t, err, &none)
		assert.Contains(t, none.Error(), "502 bad gateway")
	})
}

// 15. Nulls at the end, a variable of nulls only, lists shorter than the times, minus zero
// and a little less than no light.
func TestFault15_NullsAndNegativeLight(t *testing.T) {
	d := invented(asked)
	light := d.hourly()["shortwave_radiation"].([]any)
	light[1], light[2], light[3] = -0.2, negativeZero(), -30
	d.hourly()["precipitation_probability"] = same(216, nil)
	d.hourly()["wind_speed_10m"] = same(100, 2.5)
	d.hourly()["cloud_cover"] = []any{}
	d.hourly()["dew_point_2m"] = same(300, 12.5)
	for i := 200; i < 216; i++ {
		d.hourly()["temperature_2m"].([]any)[i] = nil
	}
	s := parse(t, d)
	start := time.Date(2026, 7, 14, 0, 0, 0, 0, time.UTC)
	for i := range 2 {
		v, ok := feedtest.At(t, s, start.Add(time.Duration(i)*time.Hour)).Radiation.Get()
		assert.True(t, ok)
		assert.Equal(t, "0", string(mustJSON(t, v)), "no minus sign either")
	}
	assert.False(t, feedtest.At(t, s, start.Add(2*time.Hour)).Radiation.IsKnown(), "-30 W/m2 is no rounding")
	for _, h := range s.Hours {
		require.False(t, h.RainProb.IsKnown())
	}
	assert.Contains(t, feedtest.NoteOn(s, "RainProb"), "is not in this forecast")
	assert.True(t, feedtest.At(t, s, start.Add(99*time.Hour)).Wind.IsKnown())
	assert.False(t, feedtest.At(t, s, start.Add(100*time.Hour)).Wind.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, "Wind"), "only 100 of 216 hours")
	assert.Contains(t, feedtest.NoteOn(s, "Sky"), "only 0 of 216 hours")
	assert.Equal(t, start.Add(216*time.Hour), s.End(), "a list longer than the times is cut to them")
	assert.False(t, feedtest.At(t, s, start.Add(205*time.Hour)).Temp.IsKnown(), "null is unknown, not 0 degC")
}
