// Package feed says what a weather feed reader is. Each feed has a folder of
// its own with three parts: wire.go mirrors the published schema, adapt.go turns
// it into the nouns of package forecast, parse.go puts the two together. A
// reader knows the shared nouns and never another reader; package feed/all
// holds the hand-written list; package feed/feedtest holds the tests that every
// reader has to pass.
package feed

import (
	"context"
	"math"
	"strconv"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/fetch"
)

// Info describes a feed to the grower who chooses one.
type Info struct {
	Key         string // in the garden file: lower case letters and digits
	Name        string // in words
	Coverage    string // where it serves, in words
	Terms       string // what its terms of use ask for, in words
	TermsURL    string
	TermsRead   string // the month the terms were read, YYYY-MM
	Licence     string // of the data
	Attribution string // the line to print beside the data; "" when none is asked for

	Hosts         []string // that are asked
	NonCommercial bool     // its terms exclude those who sell what they grow
	Past          string   // the past hours it has, in words; "" for none
}

// Getter fetches documents. *fetch.Client is one.
type Getter interface {
	Get(ctx context.Context, r fetch.Request) (*fetch.Response, error)
}

// Request says for where and when a feed is asked.
type Request struct {
	Place forecast.Place
	Now   time.Time // readers never look at a clock
}

// Answer is a series and how it came.
type Answer struct {
	*forecast.Series
	Fetched time.Time // when the document left the service
	Status  int       // of the answer it came with: 200, or 203 where the service warns
	Stored  bool      // the service failed and a stored copy stands in
	Why     error     // why it failed; nil unless Stored
}

// Age gives the time since the forecaster published it, or since it was fetched
// where the document does not say.
func (a Answer) Age(now time.Time) time.Duration {
	if a.Series != nil && !a.Issued.IsZero() {
		return now.Sub(a.Issued)
	}
	return now.Sub(a.Fetched)
}

// Reader reads one feed.
//
// Errors are *OutsideError, *UnavailableError, *StaleError, *DocumentError,
// *fetch.ContactError or one of the context. All but the last have a hint.
type Reader interface {
	Info() Info

	// At gives the reader asking another address: a mirror, or a test's.
	At(base string) Reader

	// Covers tells whether the feed serves the place as far as that is known
	// without asking. The service has the last word.
	Covers(p forecast.Place) bool

	// Forecast asks for the coming days. Hours of the document that lie before
	// req.Now stay in the series, so that a morning's elapsed hours are known;
	// who plans starts at now.
	Forecast(ctx context.Context, g Getter, req Request) (Answer, error)

	// Past asks for the hours from since to req.Now as they were: observed, or
	// worked out afterwards. A feed without any gives an *UnavailableError.
	Past(ctx context.Context, g Getter, req Request, since time.Time) (*forecast.Series, error)

	// Recognise tells whether a document comes from this feed, from a glance.
	Recognise(doc []byte) bool

	// Parse reads a saved forecast document, however old. Where now lies inside
	// a rain block the block is cut in two there, so that the part that is
	// over can be told apart; the zero time cuts nothing.
	Parse(doc []byte, now time.Time) (*forecast.Series, error)
}

// OnEarth tells whether the coordinates are those of a place on earth: what a feed
// of the whole world covers.
func OnEarth(p forecast.Place) bool {
	return p.Lat >= -90 && p.Lat <= 90 && p.Lon >= -180 && p.Lon <= 180
}

// Coordinate writes degrees with at most four decimals and no trailing zeros:
// services redirect or refuse anything longer.
// [api.weather.gov, AdjustPointPrecision; MET Norway, terms of service]
func Coordinate(deg float64) string {
	r := math.Round(deg*1e4) / 1e4
	if r == 0 {
		r = 0 // no minus sign on zero
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}
