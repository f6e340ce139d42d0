package nws

import (
	"errors"
	"fmt"
	"net/http"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
	"dawnbrush/forecast/feed/fetch"
)

// The tests here and in faults_body_test.go are the numbered list of faults that
// a feed has been seen to have: what arrives, and what a good reader does.

// withBody runs a test with a short error document and with the recorded one.
func withBody(t *testing.T, status int, kind, detail string, run func(t *testing.T, answer http.HandlerFunc)) {
	t.Run("short", func(t *testing.T) {
		run(t, problem(status, fmt.Appendf(nil, `{"type":"https://api.weather.gov/problems/%s","title":"T","status":%d,"detail":%q}`, kind, status, detail)))
	})
	t.Run("recorded", func(t *testing.T) {
		run(t, problem(status, feedtest.Recording(t, fmt.Sprintf("nws/errors/%d_%s.json", status, kind))))
	})
}

// 1. HTTP 500 once, then 200.
func TestFault01_OneServerErrorIsRetried(t *testing.T) {
	withBody(t, 500, "UnexpectedProblem", "An unexpected problem has occurred.", func(t *testing.T, answer http.HandlerFunc) {
		f := newFake(t)
		f.on(gridPath, answer, body(f.grid(issued)))
		a, err := f.forecast()
		require.NoError(t, err)
		assert.False(t, a.Stored)
		require.Len(t, f.waits, 1)
		assert.GreaterOrEqual(t, f.waits[0], 1500*time.Millisecond, "about 2 s")
		assert.Len(t, f.log, 1)
		assert.Equal(t, "America/Chicago", a.Point.Zone.String())
	})
}

// 2. HTTP 503 ForecastGridExpired on every try.
func TestFault02_ExpiredGrid(t *testing.T) {
	withBody(t, 503, "ForecastGridExpired", "The requested forecast grid was issued x and has expired.", func(t *testing.T, answer http.HandlerFunc) {
		f := newFake(t)
		f.on(gridPath, answer)
		_, err := f.forecast()
		var none *feed.UnavailableError
		require.ErrorAs(t, err, &none)
		assert.Contains(t, none.Error(), "local office is late")
		assert.NotEmpty(t, none.Hint())
		assert.Len(t, f.waits, 3, "one try and three more")

		f.on(gridPath, body(f.grid(issued)))
		_, err = f.forecast()
		require.NoError(t, err)
		f.now = f.now.Add(5 * time.Hour)
		f.on(gridPath, answer)
		a, err := f.forecast()
		require.NoError(t, err)
		assert.True(t, a.Stored)
		assert.Equal(t, issued, a.Fetched)
		assert.Equal(t, 5*time.Hour, a.Age(f.now))
		assert.Contains(t, noteOn(a.Series, ""), "stored forecast, fetched 5 h ago")
		assert.Contains(t, noteOn(a.Series, ""), "local office is late")

		f.now = issued.Add(feed.MaxStored + time.Minute)
		_, err = f.forecast()
		require.ErrorAs(t, err, &none, "a stored copy past its age is no forecast")
	})
}

// 3. 301 with a relative Location for too many decimals.
func TestFault03_Redirect(t *testing.T) {
	withBody(t, 301, "AdjustPointPrecision", "too precise", func(t *testing.T, answer http.HandlerFunc) {
		f := newFake(t)
		point := f.answers["/points/40.01,-90.01"][0]
		f.on("/points/40.01,-90.01", func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Location", "/points/40,-90")
			answer(w, r)
		})
		f.on("/points/40,-90", point)
		f.on(gridPath, body(f.grid(issued)))
		_, err := f.forecast()
		require.NoError(t, err)
		assert.Equal(t, []string{"/points/40.01,-90.01", "/points/40,-90", gridPath}, f.asked)
		f.asked = nil
		_, err = f.forecast()
		require.NoError(t, err)
		assert.Equal(t, []string{gridPath}, f.asked, "the cell is remembered")
	})
	for deg, want := range map[float64]string{39.7456789: "39.7457", -97.08920001: "-97.0892", 40: "40", -90.5: "-90.5", 0.00001: "0", -0.00001: "0", 100.1: "100.1"} {
		assert.Equal(t, want, feed.Coordinate(deg))
	}
}

// 4. 404 InvalidPoint: the place is in Canada, or latitude and longitude are swapped.
func TestFault04_PlaceOutside(t *testing.T) {
	withBody(t, 404, "InvalidPoint", "Unable to provide data for requested point 43.7,-79.4", func(t *testing.T, answer http.HandlerFunc) {
		f := newFake(t)
		f.on("/points/43.7,-79.4", answer)
		req := f.request()
		req.Place = forecast.Place{Lat: 43.7, Lon: -79.4}
		_, err := f.reader().Forecast(t.Context(), f.client, req)
		var out *feed.OutsideError
		require.ErrorAs(t, err, &out)
		assert.Empty(t, f.waits, "not retried")
		assert.False(t, out.Swapped)
		assert.Contains(t, out.Hint(), "whole world")
	})
	for name, p := range map[string]forecast.Place{
		"swapped": {Lat: -90.01, Lon: 40.01}, "sign": {Lat: 40.01, Lon: 90.01}} {
		t.Run(name, func(t *testing.T) {
			f := newFake(t)
			req := f.request()
			req.Place = p
			_, err := f.reader().Forecast(t.Context(), f.client, req)
			var out *feed.OutsideError
			require.ErrorAs(t, err, &out)
			assert.True(t, out.Swapped)
			assert.Contains(t, out.Hint(), "minus sign")
			assert.Empty(t, f.asked, "the service is not asked")
		})
	}
	t.Run("far away", func(t *testing.T) {
		f := newFake(t)
		req := f.request()
		req.Place = forecast.Place{Lat: -35, Lon: 20}
		_, err := f.reader().Forecast(t.Context(), f.client, req)
		var out *feed.OutsideError
		require.ErrorAs(t, err, &out)
		assert.NotEmpty(t, out.Hint())
	})
}

// 11. A 200 whose forecast is days old although its headers are fresh.
func TestFault11_StaleAnswer(t *testing.T) {
	old := func(f *fake) http.HandlerFunc {
		return func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Last-Modified", f.now.Add(time.Hour).Format(http.TimeFormat))
			body(f.grid(f.now.Add(-89*time.Hour)))(w, r)
		}
	}
	t.Run("the other media type is fresh", func(t *testing.T) {
		f := newFake(t)
		f.on(gridPath, old(f), body(f.grid(issued)))
		a, err := f.forecast()
		require.NoError(t, err)
		assert.Equal(t, []string{acceptGeo, acceptAny}, f.accepts)
		assert.Equal(t, issued, a.Issued)
		assert.False(t, a.Stored)
		assert.Empty(t, f.waits)
	})
	t.Run("both are stale", func(t *testing.T) {
		f := newFake(t)
		f.on(gridPath, old(f))
		_, err := f.forecast()
		var stale *feed.StaleError
		require.ErrorAs(t, err, &stale)
		assert.Equal(t, "the forecast of the National Weather Service is 89 h old", stale.Error())
		assert.NotEmpty(t, stale.Hint())
		assert.Len(t, f.accepts, 2, "once with each media type")
	})
	t.Run("a stored copy is better", func(t *testing.T) {
		f := newFake(t)
		f.on(gridPath, body(f.grid(issued)))
		_, err := f.forecast()
		require.NoError(t, err)
		f.now = f.now.Add(3 * time.Hour)
		f.on(gridPath, old(f))
		a, err := f.forecast()
		require.NoError(t, err)
		assert.True(t, a.Stored)
		assert.Equal(t, issued, a.Issued, "the old answer has not replaced the copy")
		assert.Equal(t, 3*time.Hour, a.Age(f.now))
	})
	t.Run("from the future", func(t *testing.T) {
		f := newFake(t)
		f.on(gridPath, body(f.grid(issued.Add(26*time.Hour))))
		_, err := f.forecast()
		assert.ErrorContains(t, err, "clock")
	})
	t.Run("ends too soon", func(t *testing.T) {
		f := newFake(t)
		p := invented(issued)
		p["temperature"] = layerOf("wmoUnit:degC", issued.Truncate(time.Hour), entry{24, 20})
		f.on(gridPath, body(document(t, p)))
		_, err := f.forecast()
		assert.ErrorContains(t, err, "end within 48 h")
	})
}

// 12. 304 Not Modified with and without a stored copy.
func TestFault12_NotModified(t *testing.T) {
	conditional := func(f *fake) http.HandlerFunc {
		return func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Last-Modified", "Wed, 15 Jul 2026 09:20:00 GMT")
			if r.Header.Get("If-Modified-Since") == "Wed, 15 Jul 2026 09:20:00 GMT" {
				w.WriteHeader(http.StatusNotModified)
				return
			}
			body(f.grid(issued))(w, r)
		}
	}
	t.Run("stored", func(t *testing.T) {
		f := newFake(t)
		f.on(gridPath, conditional(f))
		_, err := f.forecast()
		require.NoError(t, err)
		f.now = f.now.Add(2 * time.Hour)
		a, err := f.forecast()
		require.NoError(t, err)
		assert.False(t, a.Stored)
		assert.Equal(t, f.now, a.Fetched, "confirmed now")
		assert.Len(t, f.accepts, 2)
	})
	t.Run("damaged", func(t *testing.T) {
		f := newFake(t)
		f.on(gridPath, conditional(f))
		_, err := f.forecast()
		require.NoError(t, err)
		f.damage()
		a, err := f.forecast()
		require.NoError(t, err)
		assert.Len(t, a.Hours, 180)
		assert.Empty(t, f.waits)
		assert.Contains(t, strings.Join(f.log, "\n"), "damaged")
	})
	t.Run("304 to a plain question", func(t *testing.T) {
		f := newFake(t)
		f.on(gridPath, func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNotModified) }, body(f.grid(issued)))
		a, err := f.forecast()
		require.NoError(t, err)
		assert.Len(t, a.Hours, 180)
	})
}

// 13. Truncated JSON, and a connection that breaks inside a chunked body.
func TestFault13_BrokenOff(t *testing.T) {
	breaking := func(doc []byte) http.HandlerFunc {
		return func(w http.ResponseWriter, _ *http.Request) {
			_, _ = w.Write(doc[:len(doc)/2])
			w.(http.Flusher).Flush()
			panic(http.ErrAbortHandler)
		}
	}
	for name, bad := range map[string]func(doc []byte) http.HandlerFunc{
		"cut short":       func(doc []byte) http.HandlerFunc { return body(doc[:len(doc)/2]) },
		"broken off":      breaking,
		"an error inside": func(doc []byte) http.HandlerFunc { return body([]byte("<html>504 Gateway Time-out</html>")) },
	} {
		t.Run(name, func(t *testing.T) {
			f := newFake(t)
			f.on(gridPath, bad(f.grid(issued)), body(f.grid(issued)))
			a, err := f.forecast()
			require.NoError(t, err)
			assert.Len(t, a.Hours, 180)
			assert.Len(t, f.waits, 1, "fetched again")

			before := readAll(t, f.stored())
			f.now = f.now.Add(time.Hour)
			f.on(gridPath, bad(f.grid(f.now)))
			a, err = f.forecast()
			require.NoError(t, err)
			assert.True(t, a.Stored)
			assert.Equal(t, before, readAll(t, f.stored()), "the good copy is untouched")
		})
	}
}

func readAll(t *testing.T, names []string) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, n := range names {
		b, err := os.ReadFile(n)
		require.NoError(t, err)
		out[n] = string(b)
	}
	return out
}

func TestMovedGrid(t *testing.T) {
	const moved = "/gridpoints/XYZ/4,4"
	mapping := func(x int) http.HandlerFunc {
		return body(fmt.Appendf(nil, `{"properties":{"gridId":"XYZ","gridX":%d,"gridY":4}}`, x))
	}
	for name, first := range map[string]func(f *fake) http.HandlerFunc{
		"the cell is gone": func(*fake) http.HandlerFunc { return problem(404, []byte(`{}`)) },
		"the cell no longer holds the garden": func(f *fake) http.HandlerFunc {
			return body([]byte(strings.ReplaceAll(string(f.grid(issued)), "90.02", "90.002")))
		},
	} {
		t.Run(name, func(t *testing.T) {
			f := newFake(t)
			f.on("/points/40.01,-90.01", mapping(3), mapping(4))
			f.on(gridPath, body(f.grid(issued)))
			_, err := f.forecast()
			require.NoError(t, err)
			f.on(gridPath, first(f))
			f.on(moved, body(f.grid(issued)))
			f.asked = nil
			_, err = f.forecast()
			require.NoError(t, err)
			assert.Equal(t, []string{gridPath, "/points/40.01,-90.01", moved}, f.asked)
		})
	}
}

func TestNoContactNoQuestion(t *testing.T) {
	f := newFake(t)
	f.client.Contact = ""
	_, err := f.forecast()
	var contact *fetch.ContactError
	require.ErrorAs(t, err, &contact)
	assert.NotEmpty(t, contact.Hint())
	assert.Empty(t, f.asked)
}

func TestServiceUnavailable(t *testing.T) {
	f := newFake(t)
	f.server.Close()
	_, err := f.forecast()
	var none *feed.UnavailableError
	require.ErrorAs(t, err, &none)
	var network *fetch.NetworkError
	assert.True(t, errors.As(err, &network))
	assert.Contains(t, none.Hint(), "network")
}
