package feedtest

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/fetch"
)

// Subject is what the faults of a service need to know of a reader.
type Subject struct {
	Reader   func(base string) feed.Reader
	Place    forecast.Place
	Path     string                        // of the forecast document
	Document func(issued time.Time) []byte // a good one that reaches a week from then
	Prepare  func(s *Service)              // answers that the reader needs besides; nil for none
	Now      time.Time                     // the service's clock at the start
	Refusal  func(status int) (doc []byte) // the service's own error document; nil for a web page
}

// run is one fault under test.
type run struct {
	*Service
	t testing.TB
	s Subject
}

func (s Subject) start(t testing.TB) *run {
	r := &run{NewService(t, s.Now), t, s}
	if s.Prepare != nil {
		s.Prepare(r.Service)
	}
	return r
}

func (r *run) ask() (feed.Answer, error) {
	return r.s.Reader(r.URL).Forecast(r.t.Context(), r.Client, feed.Request{Place: r.s.Place, Now: r.Now})
}

func (r *run) on(answers ...http.HandlerFunc) { r.On(r.s.Path, answers...) }

func (r *run) good() http.HandlerFunc { return Body(r.s.Document(r.Now)) }

func (r *run) refuse(status int) http.HandlerFunc {
	if r.s.Refusal != nil {
		return Status(status, "application/json", r.s.Refusal(status))
	}
	return Status(status, "text/html", []byte("<html><body>"+http.StatusText(status)+"</body></html>"))
}

// RunFaults lets the faults that any service can have come over a reader: what
// arrives, and what a good reader does. The numbers are those of the list that
// the readers' own tests go on with.
func RunFaults(t *testing.T, s Subject) {
	for _, f := range []struct {
		name string
		test func(r *run)
	}{
		{"01 one server error", oneServerError},
		{"02 errors without end", errorsWithoutEnd},
		{"02 too many requests", tooMany},
		{"04 forbidden", forbidden},
		{"11 stale", staleAnswer},
		{"11 from the future", fromTheFuture},
		{"12 not modified", notModified},
		{"12 not modified, nothing stored", notModifiedNothingStored},
		{"13 cut short", func(r *run) { broken(r, func(doc []byte) http.HandlerFunc { return Body(doc[:len(doc)/2]) }) }},
		{"13 broken off", func(r *run) { broken(r, Breaking) }},
		{"13 an error page", func(r *run) {
			broken(r, func([]byte) http.HandlerFunc { return Body([]byte("<html>504 Gateway Time-out</html>")) })
		}},
		{"no contact", noContact},
		{"nobody answers", nobodyAnswers},
	} {
		t.Run(f.name, func(t *testing.T) { f.test(s.start(t)) })
	}
}

func oneServerError(r *run) {
	r.on(r.refuse(500), r.good())
	a, err := r.ask()
	require.NoError(r.t, err)
	assert.False(r.t, a.Stored)
	require.Len(r.t, r.Waits, 1)
	assert.GreaterOrEqual(r.t, r.Waits[0], 1500*time.Millisecond, "about 2 s")
	assert.Len(r.t, r.Log, 1)
}

func errorsWithoutEnd(r *run) {
	r.on(r.refuse(503))
	_, err := r.ask()
	var none *feed.UnavailableError
	require.ErrorAs(r.t, err, &none)
	assert.NotEmpty(r.t, none.Hint())
	assert.Len(r.t, r.Waits, 3, "one try and three more")

	first := r.Now
	r.on(r.good())
	before, err := r.ask()
	require.NoError(r.t, err)
	r.Now = first.Add(5 * time.Hour)
	r.on(r.refuse(503))
	a, err := r.ask()
	require.NoError(r.t, err)
	assert.True(r.t, a.Stored)
	assert.Equal(r.t, first, a.Fetched)
	assert.Equal(r.t, before.Age(first)+5*time.Hour, a.Age(r.Now))
	assert.Contains(r.t, notes(a.Series), "stored forecast, fetched 5 h ago")

	r.Now = first.Add(feed.MaxStored + time.Minute)
	_, err = r.ask()
	require.ErrorAs(r.t, err, &none, "a stored copy past its age is no forecast")
}

func tooMany(r *run) {
	r.on(r.refuse(429))
	_, err := r.ask()
	var none *feed.UnavailableError
	require.ErrorAs(r.t, err, &none)
	assert.NotEmpty(r.t, none.Hint())
	assert.LessOrEqual(r.t, len(r.Waits), 3)

	r.on(func(w http.ResponseWriter, q *http.Request) {
		w.Header().Set("Retry-After", "7200")
		r.refuse(429)(w, q)
	})
	r.Waits = nil
	_, err = r.ask()
	require.ErrorAs(r.t, err, &none)
	assert.Empty(r.t, r.Waits, "two hours are not waited for")
}

func forbidden(r *run) {
	r.on(Status(403, "text/html", []byte("<html><body>Forbidden</body></html>")))
	_, err := r.ask()
	var none *feed.UnavailableError
	require.ErrorAs(r.t, err, &none)
	assert.Empty(r.t, r.Waits, "asking again is in vain")
	assert.Contains(r.t, none.Hint(), "contact")
}

// issues tells whether the service's documents say when they were issued; the
// faults of a wrong issue cannot strike one that does not.
func (r *run) issues() bool {
	s, err := r.s.Reader(r.URL).Parse(r.s.Document(r.Now), time.Time{})
	require.NoError(r.t, err)
	return !s.Issued.IsZero()
}

func staleAnswer(r *run) {
	old := func(w http.ResponseWriter, q *http.Request) {
		w.Header().Set("Last-Modified", r.Now.Add(time.Hour).Format(http.TimeFormat))
		Body(r.s.Document(r.Now.Add(-89*time.Hour)))(w, q)
	}
	r.on(old)
	_, err := r.ask()
	require.Error(r.t, err, "days old although its headers are fresh, or ending within two days")
	if r.issues() {
		var stale *feed.StaleError
		require.ErrorAs(r.t, err, &stale)
		assert.Contains(r.t, stale.Error(), "89 h old")
		assert.NotEmpty(r.t, stale.Hint())
	}
	r.on(r.good())
	good, err := r.ask()
	require.NoError(r.t, err)
	r.Now = r.Now.Add(3 * time.Hour)
	r.on(old)
	a, err := r.ask()
	require.NoError(r.t, err)
	assert.True(r.t, a.Stored, "a stored copy is better")
	assert.Equal(r.t, good.Hours, a.Hours, "the old answer has not replaced the copy")
}

func fromTheFuture(r *run) {
	if !r.issues() {
		return
	}
	r.on(Body(r.s.Document(r.Now.Add(26 * time.Hour))))
	_, err := r.ask()
	assert.ErrorContains(r.t, err, "clock")
}

const modified = "Wed, 15 Jul 2026 09:20:00 GMT"

func notModified(r *run) {
	doc := r.s.Document(r.Now)
	r.on(func(w http.ResponseWriter, q *http.Request) {
		w.Header().Set("Last-Modified", modified)
		if q.Header.Get("If-Modified-Since") == modified {
			w.WriteHeader(http.StatusNotModified)
			return
		}
		Body(doc)(w, q)
	})
	first, err := r.ask()
	require.NoError(r.t, err)
	r.Now = r.Now.Add(2 * time.Hour)
	a, err := r.ask()
	require.NoError(r.t, err)
	assert.False(r.t, a.Stored)
	assert.Equal(r.t, r.Now, a.Fetched, "confirmed now")
	assert.Equal(r.t, first.Hours, a.Hours)

	r.Damage()
	r.Now = r.Now.Add(2 * time.Hour)
	a, err = r.ask()
	require.NoError(r.t, err)
	assert.Equal(r.t, first.Hours, a.Hours)
	assert.Contains(r.t, strings.Join(r.Log, "\n"), "damaged")
}

func notModifiedNothingStored(r *run) {
	r.on(Status(http.StatusNotModified, "", nil), r.good())
	_, err := r.ask()
	require.NoError(r.t, err)
}

func broken(r *run, bad func(doc []byte) http.HandlerFunc) {
	r.on(bad(r.s.Document(r.Now)), r.good())
	first, err := r.ask()
	require.NoError(r.t, err)
	assert.Len(r.t, r.Waits, 1, "fetched again")

	before := r.Stored()
	r.Now = r.Now.Add(2 * time.Hour)
	r.on(bad(r.s.Document(r.Now)))
	a, err := r.ask()
	require.NoError(r.t, err)
	assert.True(r.t, a.Stored)
	assert.Equal(r.t, first.Hours, a.Hours)
	assert.Equal(r.t, before, r.Stored(), "the good copy is untouched")
}

func noContact(r *run) {
	r.on(r.good())
	r.Client.Contact = ""
	_, err := r.ask()
	var contact *fetch.ContactError
	require.ErrorAs(r.t, err, &contact)
	assert.NotEmpty(r.t, contact.Hint())
	assert.Empty(r.t, r.Asked)
}

func nobodyAnswers(r *run) {
	r.Stop()
	_, err := r.ask()
	var none *feed.UnavailableError
	require.ErrorAs(r.t, err, &none)
	var network *fetch.NetworkError
	require.ErrorAs(r.t, err, &network)
	assert.Contains(r.t, none.Hint(), "network")
}

// notes joins the notes of a series.
func notes(s *forecast.Series) string {
	var all []string
	for _, n := range s.Notes {
		all = append(all, n.Text)
	}
	return strings.Join(all, "\n")
}
