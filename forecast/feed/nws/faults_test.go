package nws

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
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
		f.onGrid(answer, feedtest.Body(f.grid(issued)))
		a, err := f.forecast()
		require.NoError(t, err)
		assert.False(t, a.Stored)
		require.Len(t, f.Waits, 1)
		assert.GreaterOrEqual(t, f.Waits[0], 1500*time.Millisecond, "about 2 s")
		assert.Len(t, f.Log, 1)
		assert.Equal(t, "America/Chicago", a.Point.Zone.String())
	})
}

// 2. HTTP 503 ForecastGridExpired on every try.
func TestFault02_ExpiredGrid(t *testing.T) {
	withBody(t, 503, "ForecastGridExpired", "The requested forecast grid was issued x and has expired.", func(t *testing.T, answer http.HandlerFunc) {
		f := newFake(t)
		f.onGrid(answer)
		_, err := f.forecast()
		var none *feed.UnavailableError
		require.ErrorAs(t, err, &none)
		assert.Contains(t, none.Error(), "local office is late")
		assert.NotEmpty(t, none.Hint())
		assert.Len(t, f.Waits, 3, "one try and three more")

		f.onGrid(feedtest.Body(f.grid(issued)))
		_, err = f.forecast()
		require.NoError(t, err)
		f.Now = f.Now.Add(5 * time.Hour)
		f.onGrid(answer)
		a, err := f.forecast()
		require.NoError(t, err)
		assert.True(t, a.Stored)
		assert.Equal(t, issued, a.Fetched)
		assert.Equal(t, 5*time.Hour, a.Age(f.Now))
		assert.Contains(t, feedtest.NoteOn(a.Series, ""), "stored forecast, fetched 5 h ago")
		assert.Contains(t, feedtest.NoteOn(a.Series, ""), "local office is late")

		f.Now = issued.Add(feed.MaxStored + time.Minute)
		_, err = f.forecast()
		require.ErrorAs(t, err, &none, "a stored copy past its age is no forecast")
	})
}

// 3. 301 with a relative Location for too many decimals.
func TestFault03_Redirect(t *testing.T) {
	withBody(t, 301, "AdjustPointPrecision", "too precise", func(t *testing.T, answer http.HandlerFunc) {
		f := newFake(t)
		point := f.Answers("/points/40.01,-90.01")[0]
		f.On("/points/40.01,-90.01", func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Location", "/points/40,-90")
			answer(w, r)
		})
		f.On("/points/40,-90", point)
		f.onGrid(feedtest.Body(f.grid(issued)))
		_, err := f.forecast()
		require.NoError(t, err)
		assert.Equal(t, []string{"/points/40.01,-90.01", "/points/40,-90", gridPath}, f.Asked)
		f.Asked = nil
		_, err = f.forecast()
		require.NoError(t, err)
		assert.Equal(t, []string{gridPath}, f.Asked, "the cell is remembered")
	})
	for deg, want := range map[float64]string{39.7456789: "39.7457", -97.08920001: "-97.0892", 40: "40", -90.5: "-90.5", 0.00001: "0", -0.00001: "0", 100.1: "100.1"} {
		assert.Equal(t, want, feed.Coordinate(deg))
	}
}

// 4. 404 InvalidPoint: the place is in Canada, or latitude and longitude are swapped.
func TestFault04_PlaceOutside(t *testing.T) {
	withBody(t, 404, "InvalidPoint", "Unable to provide data for requested point 43.7,-79.4", func(t *testing.T, answer http.HandlerFunc) {
		f := newFake(t)
		f.On("/points/43.7,-79.4", answer)
		req := f.request()
		req.Place = forecast.Place{Lat: 43.7, Lon: -79.4}
		_, err := f.reader().Forecast(t.Context(), f.Client, req)
		var out *feed.OutsideError
		require.ErrorAs(t, err, &out)
		assert.Empty(t, f.Waits, "not retried")
		assert.False(t, out.Swapped)
		assert.Contains(t, out.Hint(), "whole world")
	})
	for name, p := range map[string]forecast.Place{
		"swapped": {Lat: -90.01, Lon: 40.01}, "sign": {Lat: 40.01, Lon: 90.01}} {
		t.Run(name, func(t *testing.T) {
			f := newFake(t)
			req := f.request()
			req.Place = p
			_, err := f.reader().Forecast(t.Context(), f.Client, req)
			var out *feed.OutsideError
			require.ErrorAs(t, err, &out)
			assert.True(t, out.Swapped)
			assert.Contains(t, out.Hint(), "minus sign")
			assert.Empty(t, f.Asked, "the service is not asked")
		})
	}
	t.Run("far away", func(t *testing.T) {
		f := newFake(t)
		req := f.request()
		req.Place = forecast.Place{Lat: -35, Lon: 20}
		_, err := f.reader().Forecast(t.Context(), f.Client, req)
		var out *feed.OutsideError
		require.ErrorAs(t, err, &out)
		assert.NotEmpty(t, out.Hint())
	})
}

// 11. A 200 whose forecast is days old although its headers are fresh.
func TestFault11_StaleAnswer(t *testing.T) {
	old := func(f *fake) http.HandlerFunc {
		return func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Last-Modified", f.Now.Add(time.Hour).Format(http.TimeFormat))
			feedtest.Body(f.grid(f.Now.Add(-89*time.Hour)))(w, r)
		}
	}
	t.Run("the other media type is fresh", func(t *testing.T) {
		f := newFake(t)
		f.onGrid(old(f), feedtest.Body(f.grid(issued)))
		a, err := f.forecast()
		require.NoError(t, err)
		assert.Equal(t, []string{acceptGeo, acceptAny}, f.accepts)
		assert.Equal(t, issued, a.Issued)
		assert.False(t, a.Stored)
		assert.Empty(t, f.Waits)
	})
	t.Run("both are stale", func(t *testing.T) {
		f := newFake(t)
		f.onGrid(old(f))
		_, err := f.forecast()
		var stale *feed.StaleError
		require.ErrorAs(t, err, &stale)
		assert.Equal(t, "the forecast of the National Weather Service is 89 h old", stale.Error())
		assert.NotEmpty(t, stale.Hint())
		assert.Len(t, f.accepts, 2, "once with each media type")
	})
	t.Run("ends too soon", func(t *testing.T) {
		f := newFake(t)
		p := invented(issued)
		p["temperature"] = layerOf("wmoUnit:degC", issued.Truncate(time.Hour), entry{24, 20})
		f.onGrid(feedtest.Body(document(t, p)))
		_, err := f.forecast()
		assert.ErrorContains(t, err, "end within 48 h")
	})
}

func TestMovedGrid(t *testing.T) {
	const moved = "/gridpoints/XYZ/4,4"
	mapping := func(x int) http.HandlerFunc {
		return feedtest.Body(fmt.Appendf(nil, `{"properties":{"gridId":"XYZ","gridX":%d,"gridY":4}}`, x))
	}
	for name, first := range map[string]func(f *fake) http.HandlerFunc{
		"the cell is gone": func(*fake) http.HandlerFunc { return problem(404, []byte(`{}`)) },
		"the cell no longer holds the garden": func(f *fake) http.HandlerFunc {
			return feedtest.Body([]byte(strings.ReplaceAll(string(f.grid(issued)), "90.02", "90.002")))
		},
	} {
		t.Run(name, func(t *testing.T) {
			f := newFake(t)
			f.On("/points/40.01,-90.01", mapping(3), mapping(4))
			f.onGrid(feedtest.Body(f.grid(issued)))
			_, err := f.forecast()
			require.NoError(t, err)
			f.onGrid(first(f))
			f.On(moved, feedtest.Body(f.grid(issued)))
			f.Asked = nil
			_, err = f.forecast()
			require.NoError(t, err)
			assert.Equal(t, []string{gridPath, "/points/40.01,-90.01", moved}, f.Asked)
		})
	}
}
