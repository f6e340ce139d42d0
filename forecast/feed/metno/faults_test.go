package metno

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
)

// The faults that any service can have, and those of this one by the numbers of the
// same list: what arrives, and what a good reader does.
func TestFaults(t *testing.T) {
	feedtest.RunFaults(t, feedtest.Subject{
		Reader: func(base string) feed.Reader { return Reader{Base: base} },
		Place:  garden, Path: path, Now: issued,
		Document: func(at time.Time) []byte { return invented(at).bytes(t) },
	})
}

// What is asked: four decimals at most, whole metres, and nothing before Expires; then
// with the exact Last-Modified.
func TestQuestion(t *testing.T) {
	f := newFake(t)
	const modified = "Wed, 15 Jul 2026 09:20:07 GMT"
	var headers []http.Header
	f.On(path, func(w http.ResponseWriter, r *http.Request) {
		headers = append(headers, r.Header)
		w.Header().Set("Date", f.Now.Format(http.TimeFormat))
		w.Header().Set("Expires", f.Now.Add(31*time.Minute).Format(http.TimeFormat))
		w.Header().Set("Last-Modified", modified)
		if r.Header.Get("If-Modified-Since") == modified {
			w.WriteHeader(http.StatusNotModified)
			return
		}
		feedtest.Body(invented(issued).bytes(t))(w, r)
	})
	a, err := f.forecast()
	require.NoError(t, err)
	assert.Equal(t, []string{path + "?lat=60.25&lon=10.0123&altitude=187"}, f.Asked)
	assert.Equal(t, "dawnbrush/test (grower@garden.test)", headers[0].Get("User-Agent"))
	assert.Equal(t, "application/json", headers[0].Get("Accept"))
	assert.Contains(t, headers[0].Get("Accept-Encoding"), "gzip")
	assert.Equal(t, issued, a.Issued)

	f.Now = issued.Add(30 * time.Minute)
	_, err = f.forecast()
	require.NoError(t, err)
	assert.Len(t, f.Asked, 1, "not asked before the time that the service names")
	f.Now = issued.Add(32 * time.Minute)
	a, err = f.forecast()
	require.NoError(t, err)
	require.Len(t, headers, 2)
	assert.Equal(t, modified, headers[1].Get("If-Modified-Since"))
	assert.Equal(t, f.Now, a.Fetched)
	assert.False(t, a.Stored)
}

func TestQuestionWithoutHeight(t *testing.T) {
	f := newFake(t)
	f.On(path, feedtest.Body(invented(issued).bytes(t)))
	_, err := Reader{Base: f.URL + "/"}.Forecast(t.Context(), f.Client, feed.Request{Place: forecast.Place{Lat: -33.123456, Lon: 151}, Now: f.Now})
	require.NoError(t, err)
	assert.Equal(t, []string{path + "?lat=-33.1235&lon=151"}, f.Asked)
	assert.Equal(t, "https://api.met.no"+path+"?lat=1&lon=2&altitude=-3",
		Reader{}.address(forecast.Place{Lat: 1, Lon: 2, Elevation: forecast.Known(-2.6)}))
}

// 3. Redirects are followed, as the service's terms ask; answers come packed.
func TestFault03_RedirectAndGzip(t *testing.T) {
	f := newFake(t)
	var packed bytes.Buffer
	z := gzip.NewWriter(&packed)
	_, err := z.Write(invented(issued).bytes(t))
	require.NoError(t, err)
	require.NoError(t, z.Close())
	f.On(path, func(w http.ResponseWriter, r *http.Request) {
		http.Redirect(w, r, "/moved?"+r.URL.RawQuery, http.StatusMovedPermanently)
	})
	f.On("/moved", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Encoding", "gzip")
		feedtest.Body(packed.Bytes())(w, r)
	})
	a, err := f.forecast()
	require.NoError(t, err)
	assert.Equal(t, 22.5, feedtest.At(t, a.Series, issued.Add(6*time.Hour)).Temp.Or(-99))
}

// 4. Places that are not on earth are not asked for; 422 says that there is nothing.
func TestFault04_PlaceOutside(t *testing.T) {
	f := newFake(t)
	_, err := Reader{Base: f.URL}.Forecast(t.Context(), f.Client, feed.Request{Place: forecast.Place{Lat: 151, Lon: -33}, Now: f.Now})
	var out *feed.OutsideError
	require.ErrorAs(t, err, &out)
	assert.Contains(t, out.Hint(), "swapped")
	assert.Empty(t, f.Asked)

	f.On(path, feedtest.Status(422, "text/html", []byte("<html><head><title>422 Unprocessable Entity</title></head></html>")))
	_, err = f.forecast()
	require.ErrorAs(t, err, &out)
	assert.NotEmpty(t, out.Hint())
	assert.Empty(t, f.Waits, "asking again is in vain")
}

// 5. Quantities that a part of the world does not have, and the short document.
func TestFault05_MissingQuantities(t *testing.T) {
	d := invented(issued)
	d.drop("wind_speed_of_gust", "probability_of_precipitation", "probability_of_thunder", "cloud_area_fraction")
	s := parse(t, d, issued)
	for _, h := range s.Hours {
		require.False(t, h.Gust.IsKnown() || h.RainProb.IsKnown() || h.Thunder.IsKnown() || h.Sky.IsKnown())
		require.True(t, h.Temp.IsKnown() && h.Wind.IsKnown())
	}
	for layer, words := range map[string]string{"Gust": "gust speed", "RainProb": "chance of rain", "Thunder": "chance of thunder", "Sky": "cloud cover"} {
		assert.Equal(t, words+" is not in this forecast; ", feedtest.NoteOn(s, layer))
	}
	hours, _ := feedtest.RainTotals(s)
	assert.Positive(t, hours, "amounts stay")

	d.drop("dew_point_temperature", "air_temperature_max")
	s = parse(t, d, issued)
	assert.Contains(t, feedtest.NoteOn(s, ""), "the service's short document")
	assert.NotContains(t, feedtest.NoteOn(s, "DewPoint"), "not in this forecast")
	assert.Empty(t, s.DayMax)
	assert.NotContains(t, feedtest.NoteOn(s, ""), "as issued")
}

// 6. The step from sums of one hour to sums of six: nothing twice, nothing lost. An hour
// has i%5 tenths of a millimetre: 12 rounds of 1.0 mm and 0 + 0.1 + 0.2 mm; 28 blocks
// follow of 1.5 mm.
func TestFault06_RainSums(t *testing.T) {
	s := parse(t, invented(issued), time.Time{})
	hours, blocks := feedtest.RainTotals(s)
	const want = 12*1.0 + 0.3 + 28*1.5
	assert.InDelta(t, want, hours, 0.01)
	assert.InDelta(t, want, blocks, 0.01)
	assert.Len(t, s.Blocks, hourlySteps+wideSteps-1)
}

// 7. The clock inside a block of six hours; hours that are over.
func TestFault07_PastAndPresent(t *testing.T) {
	now := firstWide.Add(8*time.Hour + 40*time.Minute)
	s := parse(t, invented(issued), now)
	var cut []forecast.RainBlock
	for _, b := range s.Blocks {
		if !b.Start.Before(firstWide.Add(6*time.Hour)) && b.Start.Before(firstWide.Add(12*time.Hour)) {
			cut = append(cut, b)
		}
	}
	require.Len(t, cut, 2)
	assert.Equal(t, firstWide.Add(8*time.Hour), cut[0].End)
	assert.InDelta(t, 0.5, cut[0].Amount.Or(-1), 1e-9)
	assert.InDelta(t, 1.0, cut[1].Amount.Or(-1), 1e-9)
	assert.Equal(t, issued.Truncate(time.Hour), s.Start(), "elapsed hours stay as forecast hours")
}

// 8. Null is unknown, and nothing is worked out from what is unknown or impossible.
func TestFault08_NullsAndSentinels(t *testing.T) {
	d := invented(issued)
	d.each("instant", func(i int, details tree) {
		switch i {
		case 5, hourlySteps + 1:
			details["air_temperature"] = nil
		case hourlySteps + 4:
			details["air_temperature"] = -99 // a line to it would pass through air that can be
		case hourlySteps + 7:
			details["wind_speed"] = 9.96921e36
		}
	})
	d.each("next_1_hours", func(i int, details tree) {
		if i == 7 {
			details["precipitation_amount"] = -9999
		}
	})
	s := parse(t, d, time.Time{})
	assert.False(t, feedtest.At(t, s, issued.Add(5*time.Hour)).Temp.IsKnown(), "null is unknown, not 0 degC")
	for k := 1; k <= 11; k++ {
		require.False(t, feedtest.At(t, s, firstWide.Add(time.Duration(k)*time.Hour)).Temp.IsKnown(), "beside null, hour %d", k)
		require.False(t, feedtest.At(t, s, firstWide.Add(time.Duration(18+k)*time.Hour)).Temp.IsKnown(), "beside -99, hour %d", k)
		require.False(t, feedtest.At(t, s, firstWide.Add(time.Duration(36+k)*time.Hour)).Wind.IsKnown(), "beside a fill value, hour %d", k)
	}
	assert.True(t, feedtest.At(t, s, firstWide.Add(12*time.Hour)).Temp.IsKnown())
	assert.False(t, feedtest.At(t, s, issued.Add(7*time.Hour)).Rain.IsKnown())
	assert.Equal(t, "temperature: impossible entries, taken as unknown: 1; ", feedtest.NoteOn(s, "Temp"))
	assert.Equal(t, "rain amount: impossible entries, taken as unknown: 1; ", feedtest.NoteOn(s, "Rain"))
}

// 9. Amounts end before the temperatures do.
func TestFault09_RainEndsEarly(t *testing.T) {
	d := invented(issued)
	d.each("next_6_hours", func(i int, details tree) {
		if i >= hourlySteps+4 {
			delete(details, "precipitation_amount")
		}
	})
	s := parse(t, d, time.Time{})
	h := feedtest.At(t, s, firstWide.Add(30*time.Hour))
	assert.False(t, h.Rain.IsKnown(), "unknown, not dry")
	assert.True(t, h.RainProb.IsKnown() && h.Temp.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, "Rain"), "ends 6 days before the temperatures; after that it is unknown")
}

// 10. Units are those that the document names; without one a number is not guessed at.
func TestFault10_Units(t *testing.T) {
	d := invented(issued)
	u := d.units()
	u["air_temperature"], u["dew_point_temperature"], u["wind_speed"], u["wind_speed_of_gust"], u["precipitation_amount"] = "degF", "K", "km/h", "kn", "furlong"
	delete(u, "cloud_area_fraction")
	u["probability_of_precipitation"] = "1"
	d.each("instant", func(_ int, details tree) {
		details["air_temperature"], details["dew_point_temperature"], details["wind_speed"] = 68, 283.15, 36
		details["wind_speed_of_gust"] = 20
	})
	d.each("next_1_hours", func(_ int, details tree) { details["probability_of_precipitation"] = 0.3 })
	s := parse(t, d, time.Time{})
	h := feedtest.At(t, s, issued)
	assert.InDelta(t, 20.0, h.Temp.Or(-99), 1e-9)
	assert.InDelta(t, 10.0, h.DewPoint.Or(-99), 1e-9)
	assert.InDelta(t, 10.0, h.Wind.Or(-99), 1e-9)
	assert.InDelta(t, 10.2889, h.Gust.Or(-99), 1e-4)
	assert.InDelta(t, 0.3, h.RainProb.Or(-99), 1e-9)
	assert.False(t, h.Rain.IsKnown() || h.Sky.IsKnown())
	assert.Contains(t, feedtest.NoteOn(s, "Rain"), "furlong")
	assert.Contains(t, feedtest.NoteOn(s, "Sky"), `its unit "" is not known here`)
}

// 14. 203 with a good body: used, and said once.
func TestFault14_Deprecated(t *testing.T) {
	f := newFake(t)
	f.On(path, feedtest.Status(203, "application/json", invented(issued).bytes(t)))
	a, err := f.forecast()
	require.NoError(t, err)
	assert.False(t, a.Stored)
	assert.Equal(t, 203, a.Status)
	warnings := 0
	for _, n := range a.Notes {
		if bytes.Contains([]byte(n.Text), []byte("is to be given up")) {
			warnings++
		}
	}
	assert.Equal(t, 1, warnings)

	f = newFake(t)
	f.On(path, feedtest.Body(invented(issued).bytes(t)))
	a, err = f.forecast()
	require.NoError(t, err)
	assert.NotContains(t, feedtest.NoteOn(a.Series, ""), "given up")
}

// 14. A web page instead of an answer: no contact, a bad question, an address that has
// gone. None is asked again; the first tells what to do.
func TestFault14_Refusals(t *testing.T) {
	for status, c := range map[int]struct{ want, hint string }{
		403: {"refuses this program", "check the contact"},
		400: {"does not understand", "newer version"},
		404: {"no forecast any more", "newer version"},
	} {
		t.Run(http.StatusText(status), func(t *testing.T) {
			f := newFake(t)
			page := feedtest.Status(status, "text/html", []byte("<!DOCTYPE html><html><head><title>"+http.StatusText(status)+"</title></head></html>"))
			f.On(path, page)
			_, err := f.forecast()
			var none *feed.UnavailableError
			require.ErrorAs(t, err, &none)
			assert.Contains(t, none.Error(), c.want)
			assert.Contains(t, none.Hint(), c.hint)
			assert.Empty(t, f.Waits)
		})
	}
	t.Run("stored copy", func(t *testing.T) {
		f := newFake(t)
		f.On(path, feedtest.Body(invented(issued).bytes(t)))
		_, err := f.forecast()
		require.NoError(t, err)
		f.Now = issued.Add(3 * time.Hour)
		f.On(path, feedtest.Status(403, "text/html", []byte("<html></html>")))
		a, err := f.forecast()
		require.NoError(t, err)
		assert.True(t, a.Stored)
		assert.Contains(t, feedtest.NoteOn(a.Series, ""), "stored forecast, fetched 3 h ago, because no forecast from the MET Norway service: it refuses this program")
	})
}

// 14. 429 without Retry-After: one pause, one more question, then the stored copy.
func TestFault14_TooManyRequests(t *testing.T) {
	f := newFake(t)
	busy := feedtest.Status(429, "text/html", []byte("<html></html>"))
	f.On(path, busy, feedtest.Body(invented(issued).bytes(t)))
	_, err := f.forecast()
	require.NoError(t, err)
	require.Len(t, f.Waits, 1)
	assert.GreaterOrEqual(t, f.Waits[0], 5*time.Second)

	f.Now, f.Waits, f.Asked = issued.Add(2*time.Hour), nil, nil
	f.On(path, busy)
	a, err := f.forecast()
	require.NoError(t, err)
	assert.True(t, a.Stored)
	assert.Len(t, f.Asked, 2)
	assert.Len(t, f.Waits, 1)
}

func TestNoPast(t *testing.T) {
	f := newFake(t)
	assert.Empty(t, Reader{}.Info().Past)
	_, err := Reader{Base: f.URL}.Past(t.Context(), f.Client, feed.Request{Place: garden, Now: f.Now}, issued.Add(-24*time.Hour))
	var none *feed.UnavailableError
	require.ErrorAs(t, err, &none)
	assert.NotEmpty(t, none.Hint())
	assert.Empty(t, f.Asked)
}
