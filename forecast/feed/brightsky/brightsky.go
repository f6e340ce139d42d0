// Package brightsky reads the hourly weather of Bright Sky, https://brightsky.dev/docs/: the
// observations of the stations of the Deutscher Wetterdienst (DWD), the German weather
// service, since 2010, and its MOSMIX forecasts for ten days, in one list.
//
// Terms, read in November 2026: the service is free for all purposes and without a key; the
// data are under the terms of the DWD, CC BY 4.0 with credit to it, and with a word on what
// was changed. [BrightSky; DWD]
//
// A record tells in one line of different times: temperature, dew point, humidity and cloud
// cover are those of its time stamp; rain, sunlight, wind, gusts and the chance of rain
// those of the hour before it. Its values may come from several stations, and some of a
// measured hour from the forecast; notes say so. A document does not name its units: the
// service is asked for its usual ones, and a saved document in SI units is told by its
// temperatures in kelvin. Nothing tells when the forecast was issued, so a series has no
// issue time and its age counts from when it was fetched.
//
// Not read, and refused in words: the weather of now, reports every ten minutes, lists of
// stations, radar and alerts.
package brightsky

import (
	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
)

// Key is the name of this feed in the garden file.
const Key = "brightsky"

// Names inside sentences and to credit.
const (
	service    = "Bright Sky service"
	sourceName = "Deutscher Wetterdienst by Bright Sky"
)

// The credit that the DWD asks for, with the change that was made. [DWD, status quoted]
const attribution = "Data basis: Deutscher Wetterdienst (https://www.dwd.de/), by way of Bright Sky (https://brightsky.dev/), " +
	"values converted and laid into hours; CC BY 4.0 (https://creativecommons.org/licenses/by/4.0/)"

// DefaultBase is where the service answers.
const DefaultBase = "https://api.brightsky.dev"

const host = "api.brightsky.dev"

// Reader reads the feed of Bright Sky. The zero Reader asks the service itself.
type Reader struct {
	Base string // another address to ask, for tests and servers of one's own; "" for DefaultBase
}

var _ feed.Reader = Reader{}

// At gives the reader asking another address, such as a server of one's own.
func (Reader) At(base string) feed.Reader { return Reader{Base: base} }

// Info describes the feed.
func (Reader) Info() feed.Info {
	return feed.Info{
		Key:         Key,
		Name:        "Deutscher Wetterdienst by Bright Sky",
		Coverage:    "Germany and about 50 km around it",
		Terms:       "free for any purpose, no key; the Deutscher Wetterdienst is to be named as the source, and what was changed",
		TermsURL:    "https://brightsky.dev/docs/",
		TermsRead:   "2026-11",
		Licence:     "CC BY 4.0",
		Attribution: attribution,
		Hosts:       []string{host},
		Past:        "measured hours of stations within 50 km, since 2010",
	}
}

// Covers tells whether the place lies in Germany or at most about 50 km from it. Farther off
// the service has forecasts here and there, and no stations.
func (Reader) Covers(p forecast.Place) bool { return nearGermany(p) }

// outside refuses a place, with a hint where the numbers, swapped, would be served.
func outside(p forecast.Place) error {
	return &feed.OutsideError{Service: service, Place: p, Swapped: !nearGermany(p) &&
		(nearGermany(forecast.Place{Lat: p.Lon, Lon: p.Lat}) || nearGermany(forecast.Place{Lat: p.Lat, Lon: -p.Lon}))}
}
