package fetch

import (
	"net/http"
	"time"
)

// Request asks for one document.
type Request struct {
	URL    string
	Accept string // media type; "" for any

	// Validate decides whether a body is worth keeping. It runs inside the
	// retries, so a body cut short is fetched again, and a stored copy is never
	// replaced by a body it refuses. Wrap its error with Permanent when asking
	// again is in vain. nil accepts every body.
	Validate func(body []byte) error

	// MaxStored is the age up to which a stored copy may stand in when the
	// service fails; 0 for never. A service that says the document does not
	// exist (404, 410) has not failed.
	MaxStored time.Duration

	// MinFresh is how long a stored copy is used without asking, even when the
	// service names a shorter time.
	MinFresh time.Duration

	// Fresh asks the service now and for the whole body, whatever is stored and
	// however long that was to be valid.
	Fresh bool

	// NoStore neither reads nor keeps a copy: for addresses that will not be
	// asked again, such as those that hold the time of day.
	NoStore bool
}

// Response is a document and how it came.
type Response struct {
	Body    []byte
	URL     string      // after redirects
	Status  int         // of the answer the body came with
	Header  http.Header // of that answer, nil for a stored body
	Fetched time.Time   // when the service last confirmed the body
	Cached  bool        // the body comes from the store
	Stored  bool        // the service failed and the stored copy stands in
	Why     error       // why it failed; nil unless Stored
}

// Age gives the time since the service last confirmed the body.
func (r *Response) Age(now time.Time) time.Duration { return max(0, now.Sub(r.Fetched)) }
