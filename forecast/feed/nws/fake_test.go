package nws

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

// fake is the service on loopback, with a clock and a record of what was asked.
type fake struct {
	t       *testing.T
	server  *httptest.Server
	client  *fetch.Client
	now     time.Time
	asked   []string // path and query
	accepts []string // of the grid requests
	waits   []time.Duration
	log     []string
	answers map[string][]http.HandlerFunc // by path; the last one stays
}

const gridPath = "/gridpoints/XYZ/3,4"

// newFake starts a service that knows the point of the invented garden.
func newFake(t *testing.T) *fake {
	f := &fake{t: t, now: issued, answers: map[string][]http.HandlerFunc{}}
	f.server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		f.asked = append(f.asked, r.URL.RequestURI())
		if r.URL.Path == gridPath {
			f.accepts = append(f.accepts, r.Header.Get("Accept"))
		}
		list := f.answers[r.URL.Path]
		if len(list) == 0 {
			http.Error(w, "no such path", http.StatusTeapot)
			return
		}
		if len(list) > 1 {
			f.answers[r.URL.Path] = list[1:]
		}
		list[0](w, r)
	}))
	t.Cleanup(f.server.Close)
	f.client = &fetch.Client{Product: "dawnbrush", Version: "test", Contact: "grower@garden.test", Dir: t.TempDir(),
		Now: func() time.Time { return f.now },
		Log: func(line string) { f.log = append(f.log, line) },
		Sleep: func(_ context.Context, d time.Duration) error {
			f.waits = append(f.waits, d)
			return nil
		}}
	f.json("/points/40.01,-90.01", map[string]any{"properties": map[string]any{
		"gridId": "XYZ", "gridX": 3, "gridY": "4", "timeZone": "America/Chicago"}})
	return f
}

func (f *fake) reader() Reader { return Reader{Base: f.server.URL} }

func (f *fake) request() feed.Request {
	return feed.Request{Place: forecast.Place{Lat: 40.01, Lon: -90.01}, Now: f.now}
}

func (f *fake) forecast() (feed.Answer, error) {
	return f.reader().Forecast(f.t.Context(), f.client, f.request())
}

// on sets the answers of a path, one after the other; the last one stays.
func (f *fake) on(path string, answers ...http.HandlerFunc) { f.answers[path] = answers }

func (f *fake) json(path string, v any) { f.on(path, body(mustJSON(f.t, v))) }

func (f *fake) queue(path string, docs ...any) {
	var list []http.HandlerFunc
	for _, d := range docs {
		list = append(list, body(mustJSON(f.t, d)))
	}
	f.on(path, list...)
}

// body answers 200 with a document.
func body(doc []byte) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "application/geo+json")
		_, _ = w.Write(doc) // a client that went away is no fault here
	}
}

// problem answers with an error document.
func problem(status int, doc []byte) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "application/problem+json")
		w.WriteHeader(status)
		_, _ = w.Write(doc)
	}
}

// stored lists the files of the store.
func (f *fake) stored() []string {
	files, err := filepath.Glob(filepath.Join(f.client.Dir, "*.copy"))
	require.NoError(f.t, err)
	return files
}

// damage flips a byte in the middle of every stored file.
func (f *fake) damage() {
	for _, name := range f.stored() {
		b, err := os.ReadFile(name)
		require.NoError(f.t, err)
		b[len(b)/2] ^= 1
		require.NoError(f.t, os.WriteFile(name, b, 0o600))
	}
}

// grid gives the invented grid document issued at a time.
func (f *fake) grid(at time.Time) []byte { return document(f.t, invented(at)) }
