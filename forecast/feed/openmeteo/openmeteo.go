// Package openmeteo reads the hourly forecasts of Open-Meteo, https://open-meteo.com/en/docs:
// weather models of many national services, put together for any place on earth. It also
// reads what the models make of past hours (ERA5, the reanalysis of ECMWF and Copernicus)
// and what earlier runs said of an hour, by which a forecast's error is measured.
//
// Terms, read in August 2026: without a key the service is free for non-commercial use and
// fewer than 10,000 questions a day; a grower who sells needs a plan of the service or
// another feed. The data are under CC BY 4.0, with credit and a link.
//
// The service is asked for GMT, unix times and named units. Documents saved otherwise are
// read as well: local times with the document's one offset, old names of the variables,
// other units. Nothing in a document tells when the forecast was issued, so a series has
// no issue time and its age counts from when it was fetched.
//
// Not read, and refused in words: days without hours, lists of several places, several
// models side by side, ensembles (their control run is coarser than the forecast and says
// nothing of the members), earlier runs (see [ParsePreviousRuns]).
package openmeteo

import (
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
)

// Key is the name of this feed in the garden file.
const Key = "openmeteo"

// Names inside sentences and at their own.
const (
	service    = "Open-Meteo service"
	sourceName = "Open-Meteo"
	sourcePast = "Open-Meteo: ERA5 reanalysis" // Copernicus' model run again with the observations
)

// Credits as the licences ask for. [OpenMeteo]
const (
	attribution = "Weather data by Open-Meteo.com (https://open-meteo.com/), CC BY 4.0 (https://creativecommons.org/licenses/by/4.0/)"
	// Words of the licence of Copernicus products. [memory]
	attributionPast = attribution + "; contains modified Copernicus Climate Change Service information"
)

// Where the service answers.
const (
	DefaultBase     = "https://api.open-meteo.com"
	DefaultArchive  = "https://archive-api.open-meteo.com"
	DefaultPrevious = "https://previous-runs-api.open-meteo.com"
)

// Reader reads the feed of Open-Meteo. The zero Reader asks the service itself.
type Reader struct {
	Base     string // another address to ask for forecasts, for tests and mirrors; "" for DefaultBase
	Archive  string // the same for past hours; "" for DefaultArchive
	Previous string // the same for earlier runs; "" for DefaultPrevious
}

var _ feed.Reader = Reader{}

// At gives the reader asking another address for everything, such as a server of one's own.
func (Reader) At(base string) feed.Reader { return Reader{Base: base, Archive: base, Previous: base} }

// Info describes the feed.
func (Reader) Info() feed.Info {
	return feed.Info{
		Key:      Key,
		Name:     "Open-Meteo",
		Coverage: "the whole world",
		Terms: "free and without a key for those who do not sell what they grow, for fewer than 10,000 questions a day; " +
			"those who sell need a paid plan, which this program does not ask, or another feed",
		TermsURL:      "https://open-meteo.com/en/terms",
		TermsRead:     "2026-08",
		Licence:       "CC BY 4.0",
		Attribution:   attribution,
		Hosts:         hosts(),
		NonCommercial: true,
		Past:          "hours worked out afterwards (ERA5) since 1940, the last days from forecasts",
	}
}

// hosts names the service's addresses as a grower's firewall wants them.
func hosts() []string {
	var out []string
	for _, base := range []string{DefaultBase, DefaultArchive, DefaultPrevious} {
		out = append(out, strings.TrimPrefix(base, "https://"))
	}
	return out
}

// Covers tells whether the place is on earth.
func (Reader) Covers(p forecast.Place) bool { return feed.OnEarth(p) }
