package feedtest

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast/feed/fetch"
)

// Service is a weather service on loopback, with a clock and a record of what was
// asked.
type Service struct {
	URL    string
	Client *fetch.Client // stores its copies in a folder of the test's
	Now    time.Time
	Asked  []string        // path and query
	Waits  []time.Duration // of the client between its tries; nobody really waits
	Log    []string

	t       testing.TB
	server  *httptest.Server
	answers map[string][]http.HandlerFunc // by path; the last one stays
}

// NewService starts a service at an instant.
func NewService(t testing.TB, now time.Time) *Service {
	s := &Service{t: t, Now: now, answers: map[string][]http.HandlerFunc{}}
	s.server = httptest.NewServer(http.HandlerFunc(s.answer))
	t.Cleanup(s.server.Close)
	s.URL = s.server.URL
	s.Client = &fetch.Client{Product: "dawnbrush", Version: "test", Contact: "grower@garden.test", Dir: t.TempDir(),
		Now: func() time.Time { return s.Now },
		Log: func(line string) { s.Log = append(s.Log, line) },
		Sleep: func(_ context.Context, d time.Duration) error {
			s.Waits = append(s.Waits, d)
			return nil
		}}
	return s
}

func (s *Service) answer(w http.ResponseWriter, r *http.Request) {
	s.Asked = append(s.Asked, r.URL.RequestURI())
	list := s.answers[r.URL.Path]
	if len(list) == 0 {
		http.Error(w, "no such path", http.StatusTeapot)
		return
	}
	if len(list) > 1 {
		s.answers[r.URL.Path] = list[1:]
	}
	list[0](w, r)
}

// Stop ends the service: nobody answers any more.
func (s *Service) Stop() { s.server.Close() }

// On sets the answers of a path, one after the other; the last one stays.
func (s *Service) On(path string, answers ...http.HandlerFunc) { s.answers[path] = answers }

// Answers gives the answers of a path.
func (s *Service) Answers(path string) []http.HandlerFunc { return s.answers[path] }

// Body answers 200 with a document.
func Body(doc []byte) http.HandlerFunc { return Status(http.StatusOK, "application/json", doc) }

// Status answers with a status and a body.
func Status(status int, kind string, doc []byte) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", kind)
		w.WriteHeader(status)
		_, _ = w.Write(doc) // a client that went away is no fault here
	}
}

// Breaking answers 200, sends half of the document and breaks the connection.
func Breaking(doc []byte) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		_, _ = w.Write(doc[:len(doc)/2])
		w.(http.Flusher).Flush()
		panic(http.ErrAbortHandler)
	}
}

// Stored gives the files of the client's store by name.
func (s *Service) Stored() map[string]string {
	s.t.Helper()
	out := map[string]string{}
	files, err := filepath.Glob(filepath.Join(s.Client.Dir, "*.copy"))
	require.NoError(s.t, err)
	for _, name := range files {
		b, err := os.ReadFile(name)
		require.NoError(s.t, err)
		out[name] = string(b)
	}
	return out
}

// Damage flips a byte in the middle of every stored file.
func (s *Service) Damage() {
	for name, text := range s.Stored() {
		b := []byte(text)
		b[len(b)/2] ^= 1
		require.NoError(s.t, os.WriteFile(name, b, 0o600))
	}
}
