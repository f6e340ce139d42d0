// Package nws reads the raw grid forecasts and the station observations of the
// US National Weather Service, https://www.weather.gov/documentation/services-web-api.
//
// The raw grid is taken, not the forecast in words: only it has cloud cover,
// gusts and amounts of rain, with a unit on every layer. Layers are decoded by
// github.com/go-json-experiment/json into a struct of the ten that are used; it
// skips the other fifty at three times the speed of encoding/json and reads
// numbers in quotes without a second pass.
package nws

import (
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
)

// Key is the name of this feed in the garden file.
const Key = "nws"

// service is the feed's name inside sentences.
const service = "National Weather Service"

// The credit is a custom; the data are in the public domain.
const (
	attribution         = "Forecast: NOAA / National Weather Service"
	attributionObserved = "Observations: NOAA / National Weather Service"
)

// DefaultBase is where the service answers.
const DefaultBase = "https://api.weather.gov"

// Reader reads the feed of the National Weather Service. The zero Reader asks
// the service itself.
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
		Name:        "US National Weather Service",
		Coverage:    "the United States with Alaska, Hawaii, Puerto Rico, the Virgin Islands, Guam, the Northern Marianas and American Samoa",
		Terms:       "free for any purpose, no key; every program names itself and a contact",
		TermsURL:    "https://www.weather.gov/documentation/services-web-api",
		TermsRead:   "2026-08",
		Licence:     "public domain",
		Attribution: attribution,
		Hosts:       []string{strings.TrimPrefix(DefaultBase, "https://")},
		Past:        "reports of up to three stations within 60 km, of the last weeks",
	}
}

// area is a rectangle in degrees.
type area struct{ south, north, west, east float64 }

// areas encloses where the service has land forecasts, with about a degree to
// spare: Canada and Mexico are partly inside, and the service says no to them.
// [memory]
var areas = [...]area{
	{23.5, 50.5, -126, -65},    // the 48 states
	{50, 72.5, -180, -128},     // Alaska
	{50, 54.5, 171, 180},       // western Aleutians
	{17.5, 29.5, -179, -153.5}, // Hawaii and the chain to Kure
	{16.5, 19.5, -68.5, -63.5}, // Puerto Rico, Virgin Islands
	{12.5, 21.5, 143.5, 147},   // Guam, Northern Marianas
	{-15.5, -10, -172, -167.5}, // American Samoa
}

// Covers tells whether the place lies in or near the United States.
func (Reader) Covers(p forecast.Place) bool { return covers(p.Lat, p.Lon) }

func covers(lat, lon float64) bool {
	for _, a := range areas {
		if lat >= a.south && lat <= a.north && lon >= a.west && lon <= a.east {
			return true
		}
	}
	return false
}

// outside builds the refusal of a place, with a hint where the numbers, turned
// round, would be served.
func outside(p forecast.Place) error {
	turned := !covers(p.Lat, p.Lon) &&
		(covers(p.Lon, p.Lat) || covers(p.Lat, -p.Lon) || covers(-p.Lat, p.Lon) || covers(-p.Lon, p.Lat) || covers(p.Lon, -p.Lat))
	return &feed.OutsideError{Service: service, Place: p, Swapped: turned}
}
