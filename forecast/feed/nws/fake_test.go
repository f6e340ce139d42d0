package nws

import (
	"net/http"
	"testing"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/feedtest"
)

// fake is the service on loopback.
type fake struct {
	*feedtest.Service
	t       *testing.T
	accepts []string // of the grid requests
}

const (
	gridPath  = "/gridpoints/XYZ/3,4"
	pointPath = "/points/40.01,-90.01"
)

var garden = forecast.Place{Lat: 40.01, Lon: -90.01}

// prepare lets a service know the point of the invented garden.
func prepare(t testing.TB, s *feedtest.Service) {
	s.On(pointPath, feedtest.Body(mustJSON(t, map[string]any{"properties": map[string]any{
		"gridId": "XYZ", "gridX": 3, "gridY": "4", "timeZone": "America/Chicago"}})))
}

// newFake starts a service that knows the point of the invented garden.
func newFake(t *testing.T) *fake {
	f := &fake{Service: feedtest.NewService(t, issued), t: t}
	prepare(t, f.Service)
	return f
}

func (f *fake) reader() Reader { return Reader{Base: f.URL} }

func (f *fake) request() feed.Request { return feed.Request{Place: garden, Now: f.Now} }

func (f *fake) forecast() (feed.Answer, error) {
	return f.reader().Forecast(f.t.Context(), f.Client, f.request())
}

// onGrid sets the answers of the grid and notes the media types asked for.
func (f *fake) onGrid(answers ...http.HandlerFunc) {
	for i, a := range answers {
		answers[i] = func(w http.ResponseWriter, r *http.Request) {
			f.accepts = append(f.accepts, r.Header.Get("Accept"))
			a(w, r)
		}
	}
	f.On(gridPath, answers...)
}

func (f *fake) json(path string, v any) { f.On(path, feedtest.Body(mustJSON(f.t, v))) }

func (f *fake) queue(path string, docs ...any) {
	var list []http.HandlerFunc
	for _, d := range docs {
		list = append(list, feedtest.Body(mustJSON(f.t, d)))
	}
	f.On(path, list...)
}

// problem answers with an error document.
func problem(status int, doc []byte) http.HandlerFunc {
	return feedtest.Status(status, "application/problem+json", doc)
}

// grid gives the invented grid document issued at a time.
func (f *fake) grid(at time.Time) []byte { return document(f.t, invented(at)) }

func TestFaults(t *testing.T) {
	feedtest.RunFaults(t, feedtest.Subject{
		Reader: func(base string) feed.Reader { return Reader{Base: base} },
		Place:  garden, Path: gridPath, Now: issued,
		Document: func(at time.Time) []byte { return document(t, invented(at)) },
		Prepare:  func(s *feedtest.Service) { prepare(t, s) },
		Refusal: func(status int) []byte {
			return mustJSON(t, map[string]any{"type": "https://api.weather.gov/problems/UnexpectedProblem", "title": "Unexpected Problem", "status": status, "detail": "An unexpected problem has occurred."})
		},
	})
}
