// Package all holds the list of feed readers. It is written by hand: a new feed
// is one folder beside this one and one line here.
package all

import (
	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/brightsky"
	"dawnbrush/forecast/feed/metno"
	"dawnbrush/forecast/feed/nws"
	"dawnbrush/forecast/feed/openmeteo"
)

// Readers lists every reader. Where the garden file names none, the first one that
// serves the place and is free for everybody is asked, the next one beside it; so
// those with stations or finer models of their own country stand before those of
// the whole world.
func Readers() []feed.Reader {
	return []feed.Reader{
		nws.Reader{},
		brightsky.Reader{},
		metno.Reader{},
		openmeteo.Reader{},
	}
}

// Serving lists the readers that serve a place and whose terms shut nobody out.
func Serving(p forecast.Place) []feed.Reader {
	var out []feed.Reader
	for _, r := range Readers() {
		if !r.Info().NonCommercial && r.Covers(p) {
			out = append(out, r)
		}
	}
	return out
}

// ByKey gives the reader of that name in the garden file.
func ByKey(key string) (feed.Reader, bool) {
	for _, r := range Readers() {
		if r.Info().Key == key {
			return r, true
		}
	}
	return nil, false
}
