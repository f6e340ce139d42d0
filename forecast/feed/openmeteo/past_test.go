package openmeteo

import (
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
)

// The days of these tests: it is 15 July, the archive's newest whole day is the 9th.
var (
	ninth = time.Date(2026, 7, 9, 0, 0, 0, 0, time.UTC)
	since = time.Date(2026, 6, 24, 9, 20, 0, 0, time.UTC)
)

// pastFake has an archive from 24 June to the 9th with 10 degC, and forecasts of the last
// days with 20 degC.
func pastFake(t *testing.T) *fake {
	f := newFake(t)
	old := days(time.Date(2026, 6, 24, 0, 0, 0, 0, time.UTC), 16)
	old.set("temperature_2m", "°C", same(16*24, 10))
	delete(old.hourly(), "precipitation_probability")
	recent := days(time.Date(2026, 7, 5, 0, 0, 0, 0, time.UTC), 11)
	recent.set("temperature_2m", "°C", same(11*24, 20))
	f.On(archivePath, feedtest.Body(old.bytes(t)))
	f.On(forecastPath, feedtest.Body(recent.bytes(t)))
	return f
}

func TestPastJoinsArchiveAndForecasts(t *testing.T) {
	f := pastFake(t)
	s, err := f.past(since)
	require.NoError(t, err)
	require.NoError(t, feedtest.Check(s))
	assert.Equal(t, since.Truncate(time.Hour), s.Start())
	assert.Equal(t, asked.Truncate(time.Hour), s.End(), "the running hour is not past")
	for _, h := range s.Hours {
		if h.Start.Before(ninth.Add(23 * time.Hour)) {
			require.Equal(t, forecast.OriginReanalysis, h.Origin, "%v", h.Start)
			require.Equal(t, 10.0, h.Temp.Or(0))
		} else {
			require.Equal(t, forecast.OriginForecast, h.Origin, "%v", h.Start)
			require.Equal(t, 20.0, h.Temp.Or(0))
		}
		require.True(t, h.Rain.IsKnown(), "rain of %v, at the seam too", h.Start)
	}
	assert.Empty(t, s.Blocks, "what is over makes no blocks")
	assert.Contains(t, s.Source, "ERA5")
	assert.Contains(t, s.Source, "the last days from forecasts")
	assert.Contains(t, s.Attribution, "Copernicus")
	require.Len(t, f.Asked, 2)
	assert.Contains(t, f.Asked[0], "/v1/archive?latitude=40.0123&longitude=-90.01&")
	assert.Contains(t, f.Asked[0], "start_date=2026-06-24&end_date=2026-07-09&models=era5_seamless&timezone=GMT&timeformat=unixtime")
	assert.NotContains(t, f.Asked[0], "probability", "the archive does not know it and would refuse all")
	assert.Contains(t, f.Asked[1], "past_days=10&forecast_days=1&timezone=GMT")

	_, err = f.past(since)
	require.NoError(t, err)
	assert.Len(t, f.Asked, 2, "not asked again within the hour")
}

// The rain of the archive's last hour is told at the next midnight: it comes from the forecasts.
func TestPastAtTheSeam(t *testing.T) {
	f := pastFake(t)
	s, err := f.past(since)
	require.NoError(t, err)
	h := feedtest.At(t, s, ninth.Add(23*time.Hour))
	assert.Equal(t, forecast.OriginForecast, h.Origin)
	assert.True(t, h.Rain.IsKnown())
}

// An archive that is later than usual leaves no hole.
func TestPastArchiveIsLate(t *testing.T) {
	f := pastFake(t)
	old := days(time.Date(2026, 6, 24, 0, 0, 0, 0, time.UTC), 16)
	for name, v := range old.hourly() {
		if name != "time" {
			for i := 13 * 24; i < 16*24; i++ {
				v.([]any)[i] = nil
			}
		}
	}
	f.On(archivePath, feedtest.Body(old.bytes(t)))
	s, err := f.past(since)
	require.NoError(t, err)
	assert.Equal(t, forecast.OriginReanalysis, feedtest.At(t, s, ninth.Add(-49*time.Hour)).Origin)
	assert.Equal(t, forecast.OriginForecast, feedtest.At(t, s, ninth.Add(-47*time.Hour)).Origin)
	for _, h := range s.Hours {
		require.True(t, h.Temp.IsKnown(), "%v", h.Start)
	}
}

func TestPastOfAFewDays(t *testing.T) {
	f := pastFake(t)
	recent := days(time.Date(2026, 7, 13, 0, 0, 0, 0, time.UTC), 3)
	f.On(forecastPath, feedtest.Body(recent.bytes(t)))
	s, err := f.past(asked.Add(-2 * day))
	require.NoError(t, err)
	assert.Equal(t, asked.Add(-2*day).Truncate(time.Hour), s.Start())
	require.Len(t, f.Asked, 1, "the archive is not asked for what it does not have")
	assert.Contains(t, f.Asked[0], "past_days=2&forecast_days=1")

	s, err = f.past(asked)
	require.NoError(t, err)
	assert.Empty(t, s.Hours)
	s, err = f.past(asked.Add(time.Hour))
	require.NoError(t, err)
	assert.Empty(t, s.Hours)
}

// Seasons back, longer than any forecast.
func TestPastOfSeasons(t *testing.T) {
	f := pastFake(t)
	first := time.Date(2025, 3, 1, 0, 0, 0, 0, time.UTC)
	n := int(ninth.Sub(first)/day) + 1
	f.On(archivePath, feedtest.Body(days(first, n).bytes(t)))
	s, err := f.past(first)
	require.NoError(t, err)
	assert.Equal(t, first, s.Start())
	assert.Len(t, s.Hours, int(asked.Sub(first)/time.Hour))
	_, err = f.past(time.Date(1815, 4, 10, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	assert.Contains(t, f.Asked[len(f.Asked)-1], "start_date=1940-01-01")
}

func TestPastWhenOneFails(t *testing.T) {
	down := feedtest.Status(500, "text/html", []byte("<html></html>"))
	t.Run("archive", func(t *testing.T) {
		f := pastFake(t)
		f.On(archivePath, down)
		s, err := f.past(since)
		require.NoError(t, err)
		assert.Equal(t, forecast.OriginForecast, s.Hours[0].Origin)
		assert.Equal(t, "Open-Meteo", s.Source)
		assert.Contains(t, feedtest.NoteOn(s, ""), "hours worked out afterwards could not be had: no forecast from the Open-Meteo service")
	})
	t.Run("forecasts", func(t *testing.T) {
		f := pastFake(t)
		f.On(forecastPath, down)
		s, err := f.past(since)
		require.NoError(t, err)
		assert.Equal(t, forecast.OriginReanalysis, s.Hours[len(s.Hours)-1].Origin)
		assert.Equal(t, ninth.Add(day), s.End(), "no hours are made up after the archive")
		assert.Contains(t, feedtest.NoteOn(s, ""), "the last days could not be had")
	})
	t.Run("both", func(t *testing.T) {
		f := pastFake(t)
		f.On(forecastPath, feedtest.Status(429, "application/json", refusalBody("Daily API request limit exceeded. Please try again tomorrow.")))
		f.On(archivePath, down)
		_, err := f.past(since)
		var none *feed.UnavailableError
		require.ErrorAs(t, err, &none)
		assert.Contains(t, none.Hint(), "midnight UTC")
	})
	t.Run("no contact", func(t *testing.T) {
		f := pastFake(t)
		f.Client.Contact = ""
		_, err := f.past(since)
		assert.ErrorContains(t, err, "contact")
		assert.Empty(t, f.Asked)
	})
}

// previous gives an invented document of earlier runs of a day: each is a degree warmer
// for every day it looked ahead, and none goes back further than five.
func previous(t *testing.T, first time.Time, n int) tree {
	t.Helper()
	d := days(first, n)
	delete(d.hourly(), "precipitation_probability")
	delete(d.hourly(), "wind_gusts_10m")
	for lead := 1; lead <= 7; lead++ {
		suffix := "_previous_day" + string(rune('0'+lead))
		d.set("temperature_2m"+suffix, "°C", list(n*24, func(i int) any {
			if lead > 5 {
				return nil
			}
			return 15 + float64(i%24)/2 + float64(lead)
		}))
		d.set("precipitation"+suffix, "mm", same(n*24, nil))
		d.set("relative_humidity_2m"+suffix, "%", same(n*24, map[bool]any{true: 70, false: nil}[lead < 3]))
	}
	return d
}

func TestPreviousRuns(t *testing.T) {
	first := time.Date(2026, 7, 12, 0, 0, 0, 0, time.UTC)
	f := newFake(t)
	f.On(previousPath, feedtest.Body(previous(t, first, 4).bytes(t)))
	runs, err := f.reader().PreviousRuns(t.Context(), f.Client, f.request(), first)
	require.NoError(t, err)
	require.Len(t, runs, 6, "the newest and five earlier: two lists hold nothing")
	for i, run := range runs {
		assert.Equal(t, i, run.Days)
		require.NoError(t, feedtest.Check(run.Series))
		assert.Equal(t, first, run.Start())
		assert.Equal(t, asked.Truncate(time.Hour), run.End())
		h := run.Hours[30]
		assert.Equal(t, 18.0+float64(i), h.Temp.Or(0))
		assert.Equal(t, forecast.OriginForecast, h.Origin)
		assert.Equal(t, i < 3, h.RH.IsKnown())
		assert.Equal(t, i == 0, h.Rain.IsKnown())
	}
	require.Len(t, f.Asked, 1)
	q, err := url.Parse(f.Asked[0])
	require.NoError(t, err)
	assert.Equal(t, "2026-07-12", q.Query().Get("start_date"))
	assert.Equal(t, "2026-07-15", q.Query().Get("end_date"))
	asks := strings.Split(q.Query().Get("hourly"), ",")
	assert.Len(t, asks, 8*7)
	assert.Contains(t, asks, "temperature_2m_previous_day7")
	assert.Contains(t, asks, "shortwave_radiation")
	assert.NotContains(t, asks, "wind_gusts_10m_previous_day1", "the service's list does not have it")

	runs, err = f.reader().PreviousRuns(t.Context(), f.Client, f.request(), asked)
	require.NoError(t, err)
	assert.Empty(t, runs)
	_, err = f.reader().PreviousRuns(t.Context(), f.Client, f.request(), time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	assert.Contains(t, f.Asked[len(f.Asked)-1], "start_date=2024-01-01")
}

func TestPreviousRunsThatAreNone(t *testing.T) {
	_, err := ParsePreviousRuns(invented(asked).bytes(t))
	assert.ErrorContains(t, err, "no earlier runs")
	_, err = ParsePreviousRuns(nil)
	assert.ErrorContains(t, err, "empty")
	d := previous(t, ninth, 1)
	for name, v := range d.hourly() {
		if name != "time" {
			d.hourly()[name] = same(len(v.([]any)), nil)
		}
	}
	_, err = ParsePreviousRuns(d.bytes(t))
	assert.ErrorContains(t, err, "unknown")
}
