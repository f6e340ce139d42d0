// Package metno reads the point forecasts of MET Norway, the Norwegian
// Meteorological Institute: Locationforecast 2.0, https://api.met.no/weatherapi/locationforecast/2.0/documentation,
// nine to ten days for any place on earth.
//
// Terms, read in August 2026: free for everybody and without a key. Every program
// names itself and a contact in its User-Agent, asks in at most four decimals, not
// before the time of the Expires header, and then with If-Modified-Since; it shows a
// warning when the service answers 203. The data are under NLOD 2.0 and CC BY 4.0,
// with credit, a link to the licence and a word on changes. [METno, status read]
//
// The document `complete` is asked for; a saved `compact` one, which lacks dew point,
// gusts and chances, is read as well. Chances and gusts are not there for every part
// of the world; what is not sent is unknown.
//
// The forecast goes by the hour for two to three days and then by six hours. Readings
// of an instant (temperature, dew point, humidity, wind, gust, cloud) between two
// such steps are worked out in a straight line, and a note says so. Holding each
// reading for six hours instead would move a morning's warmth by up to six hours,
// and leaving the hours between unknown would end the plan on the third day. The
// highest temperature of each six hours, which the line cuts off, is taken as the
// service issues it (Series.DayMax). Rain sums and chances are never spread: they
// stay those of their six hours.
//
// Refused in words: the former product 1.9 and its XML, the nowcast of two hours.
package metno

import (
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
)

// Key is the name of this feed in the garden file.
const Key = "metno"

// Names inside sentences and at their own.
const (
	service    = "MET Norway service"
	sourceName = "MET Norway"
)

// attribution credits the service and the licence and says that the data are changed.
// [METno, status read]
const attribution = "Based on data from MET Norway (https://api.met.no/), CC BY 4.0 (https://creativecommons.org/licenses/by/4.0/)"

// DefaultBase is where the service answers.
const DefaultBase = "https://api.met.no"

// Reader reads the feed of MET Norway. The zero Reader asks the service itself.
type Reader struct {
	Base string // another address to ask, for tests and mirrors; "" for DefaultBase
}

var _ feed.Reader = Reader{}

// At gives the reader asking another address.
func (Reader) At(base string) feed.Reader { return Reader{Base: base} }

// Info describes the feed.
func (Reader) Info() feed.Info {
	return feed.Info{
		Key:         Key,
		Name:        "MET Norway",
		Coverage:    "the whole world; finest in the Nordic countries",
		Terms:       "free for everybody, no key; every program names itself and a contact, and does not ask again before the time that the service names",
		TermsURL:    "https://api.met.no/doc/TermsOfService",
		TermsRead:   "2026-08",
		Licence:     "NLOD 2.0 and CC BY 4.0",
		Attribution: attribution,
		Hosts:       []string{strings.TrimPrefix(DefaultBase, "https://")},
	}
}

// Covers tells whether the place is on earth.
func (Reader) Covers(p forecast.Place) bool { return feed.OnEarth(p) }
