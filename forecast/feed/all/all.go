// Package all holds the list of feed readers. It is written by hand: a new feed
// is one folder beside this one and one line here.
package all

import (
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/nws"
	"dawnbrush/forecast/feed/openmeteo"
)

// Readers lists every reader, the first being the one used when the garden file
// names none.
func Readers() []feed.Reader {
	return []feed.Reader{
		nws.Reader{},
		openmeteo.Reader{},
	}
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
