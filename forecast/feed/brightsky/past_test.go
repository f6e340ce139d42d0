package brightsky

import (
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

// history answers any question for days with measured hours, and forecasts after the clock.
func (f *fake) history(w http.ResponseWriter, r *http.Request) {
	first, err1 := time.Parse(time.DateOnly, r.URL.Query().Get("date"))
	last, err2 := time.Parse(time.DateOnly, r.URL.Query().Get("last_date"))
	require.NoError(f.t, err1)
	require.NoError(f.t, err2)
	feedtest.Body(span(first, f.Now, last).bytes(f.t))(w, r)
}

func TestPastInPages(t *testing.T) {
	f := newFake(t)
	f.On(path, f.history)
	since := time.Date(2026, 5, 1, 7, 30, 0, 0, time.UTC)
	s, err := f.past(since)
	require.NoError(t, err)
	require.NoError(t, feedtest.Check(s))
	assert.Equal(t, since.Truncate(time.Hour), s.Start())
	assert.Equal(t, asked.Truncate(time.Hour), s.End(), "the running hour is not past")
	rain := 0.0
	for _, h := range s.Hours {
		require.Equal(t, forecast.OriginObserved, h.Origin, "%v", h.Start)
		require.Equal(t, 15+float64(h.Start.Hour())/2, h.Temp.Or(0), "%v", h.Start)
		require.True(t, h.Rain.IsKnown() && h.Wind.IsKnown() && h.RH.IsKnown(), "%v, at the seams too", h.Start)
		rain += h.Rain.Or(0)
	}
	want := 0.0
	for at := s.Start().Add(time.Hour); !at.After(s.End()); at = at.Add(time.Hour) {
		want += float64(at.Hour()%5) / 10
	}
	assert.InDelta(t, want, rain, 0.01)
	assert.Empty(t, s.Blocks)
	assert.Empty(t, s.Notes)
	assert.Equal(t, "Deutscher Wetterdienst by Bright Sky, station Musterhausen, 4 km away", s.Source)
	assert.Equal(t, 214.0, s.Point.Elevation.Or(0))
	var asks []string
	for _, a := range f.Asked {
		asks = append(asks, a[strings.Index(a, "date="):strings.Index(a, "&max_dist")])
	}
	assert.Equal(t, []string{"date=2026-06-16&last_date=2026-07-16", "date=2026-05-17&last_date=2026-06-16", "date=2026-05-01&last_date=2026-05-17"}, asks)

	_, err = f.past(since)
	require.NoError(t, err)
	assert.Len(t, f.Asked, 3, "not asked again within the hour")
}

func TestPastOfNoTime(t *testing.T) {
	f := newFake(t)
	for _, since := range []time.Time{asked, asked.Add(time.Hour)} {
		s, err := f.past(since)
		require.NoError(t, err)
		assert.Empty(t, s.Hours)
	}
	assert.Empty(t, f.Asked)
}

// The service's hours begin in 2010.
func TestPastBegins2010(t *testing.T) {
	f := newFake(t)
	f.Now = time.Date(2010, 1, 12, 6, 0, 0, 0, time.UTC)
	f.On(path, f.history)
	s, err := f.past(time.Date(1815, 4, 10, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	require.Len(t, f.Asked, 1)
	assert.Contains(t, f.Asked[0], "date=2010-01-01&last_date=2010-01-13")
	assert.Equal(t, earliest, s.Start())
}

// Hours without a report yet, or with a hole filled by the forecast, tell so.
func TestPastWithoutAMeasurement(t *testing.T) {
	f := newFake(t)
	d := span(asked.Truncate(day), asked.Add(-3*time.Hour), asked.Truncate(day).Add(day))
	f.On(path, feedtest.Body(d.bytes(t)))
	s, err := f.past(asked.Truncate(day))
	require.NoError(t, err)
	require.NoError(t, feedtest.Check(s))
	for _, h := range s.Hours {
		want := forecast.OriginObserved
		if !h.Start.Before(asked.Add(-3 * time.Hour).Truncate(time.Hour)) {
			want = forecast.OriginForecast
		}
		require.Equal(t, want, h.Origin, "%v", h.Start)
	}
	assert.Contains(t, feedtest.NoteOn(s, ""), "with what was forecast: 3")
	assert.Contains(t, s.Source, "station Musterhausen")
}

// A month without any station near by is a hole, and so is one without hours.
func TestPastWithHoles(t *testing.T) {
	for name, hole := range map[string]http.HandlerFunc{
		"no source": feedtest.Status(404, "application/json", detail("No sources match your criteria")),
		"no hours":  feedtest.Body([]byte(`{"weather":[],"sources":[{"id":11,"observation_type":"current"}]}`)),
	} {
		t.Run(name, func(t *testing.T) {
			f := newFake(t)
			f.On(path, f.history, hole, f.history)
			s, err := f.past(time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC))
			require.NoError(t, err)
			require.NoError(t, feedtest.Check(s))
			assert.Equal(t, time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC), s.Start())
			assert.Equal(t, forecast.OriginNone, feedtest.At(t, s, time.Date(2026, 6, 1, 0, 0, 0, 0, time.UTC)).Origin)
			assert.Equal(t, forecast.OriginObserved, feedtest.At(t, s, time.Date(2026, 7, 1, 0, 0, 0, 0, time.UTC)).Origin)
			assert.Empty(t, f.Waits)

			f = newFake(t)
			f.On(path, hole)
			_, err = f.past(time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC))
			var none *feed.UnavailableError
			require.ErrorAs(t, err, &none)
			assert.Contains(t, none.Error(), "no station within 50 km")
			assert.Contains(t, none.Hint(), "rain gauge")
		})
	}
	t.Run("forecasts only", func(t *testing.T) {
		f := newFake(t)
		f.On(path, feedtest.Body(span(asked.Truncate(day), asked.Add(-2*day), asked.Truncate(day).Add(day)).bytes(t)))
		_, err := f.past(asked.Truncate(day))
		var none *feed.UnavailableError
		require.ErrorAs(t, err, &none, "a forecast is no past")
	})
}

func TestPastWhenTheServiceFails(t *testing.T) {
	down := feedtest.Status(500, "text/html", []byte("<html></html>"))
	f := newFake(t)
	f.On(path, f.history, down)
	s, err := f.past(time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC))
	require.NoError(t, err)
	assert.Equal(t, time.Date(2026, 6, 15, 23, 0, 0, 0, time.UTC), s.Start(), "the newest page; its first record tells of the hour before")
	assert.Contains(t, feedtest.NoteOn(s, ""), "the hours before 16 June 2026 could not be had: no forecast from the Bright Sky service")
	assert.Len(t, f.Asked, 5, "nothing more is asked of a service that is down")

	f = newFake(t)
	f.On(path, down)
	_, err = f.past(asked.Add(-day))
	var none *feed.UnavailableError
	require.ErrorAs(t, err, &none)

	f = newFake(t)
	f.Client.Contact = ""
	_, err = f.past(asked.Add(-day))
	assert.ErrorContains(t, err, "contact")
	assert.Empty(t, f.Asked)
}
