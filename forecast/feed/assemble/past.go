package assemble

import (
	"time"

	"dawnbrush/forecast"
)

// Past cuts a series to the full hours from since to now, drops hours at either end of which
// nothing is known, and its blocks: rain that is over is no block.
func Past(s *forecast.Series, since, now time.Time) {
	lo, hi := s.Slice(since.Truncate(time.Hour), now.Truncate(time.Hour))
	s.Hours, s.Blocks = known(s.Hours[lo:hi]), nil
}

// known drops hours at either end of which nothing is known.
func known(hs []forecast.Hour) []forecast.Hour {
	for len(hs) > 0 && hs[0].Origin == forecast.OriginNone {
		hs = hs[1:]
	}
	for len(hs) > 0 && hs[len(hs)-1].Origin == forecast.OriginNone {
		hs = hs[:len(hs)-1]
	}
	return hs
}
