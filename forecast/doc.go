// Package forecast holds the nouns of weather that every feed reader fills and
// every model reads: a place, a civil day, an hour and a series of hours.
//
// Three rules hold everywhere. A value is known or unknown; the zero Value is
// unknown, so nothing forgotten turns into "0 mm, dry". Time inside a series is
// UTC, one Hour per full hour without holes; a gap is an hour of unknown values.
// A day is the garden's civil day in its IANA zone and has 23, 24 or 25 hours.
//
// The package and its children never import the risk tree and never read a
// clock; package feed/fetch alone reaches the network.
package forecast
