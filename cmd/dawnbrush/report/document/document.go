// Package document holds what a report is made of. Whoever plans fills a
// Document; every report reads it and nothing else, so that reports need no
// feed, no store, no garden file and no clock.
package document

import (
	"time"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/published"
	"dawnbrush/risk/source"
)

// Document is everything a report needs, as a value.
type Document struct {
	Garden     *risk.Garden
	Assessment *risk.Assessment
	Plans      []risk.DayPlan // consecutive days, the first one being the day asked for
	Now        time.Time      // when it was made, by the garden's clock or the one asked for
	Forecast   Provenance
	Measured   []string // credit lines for the hours before
	Second     *Second  // another forecast that was asked for; nil for none
	Notes      []string // what the grower has to know about the data, plain sentences
	Unlogged   bool     // work of today or tomorrow hangs on a logger that cannot be used; the notes say why
	Units      risk.Units
	Dates      words.Dates // the language of dates
	Demo       bool        // the garden and its weather are invented

	Width  int  // columns to fill; 0 for 80
	Colour bool // colour may be used; never needed to understand

	Water *ledger.Account // of the beds; nil where the garden file tells of none

	Matters []risk.Matters // for what matters: by planting in focus

	Taught *risk.Taught // for learned: what the diary teaches; nil for nothing

	Crops     *crop.Set      // for workings and sources
	Constants []source.Param // numbers of the model that belong to no crop
	Tables    []source.Param // for sources: printed tables that the account of water reads
	Focus     Focus          // for workings and sources

	Published *published.Table // for published: the model against published results
}

// Provenance says where the weather comes from and how old it is.
type Provenance struct {
	Feed        string // the reader's key
	Source      string // in words
	Attribution string // the credit line, "" when none is asked for
	Issued      time.Time
	Fetched     time.Time // zero for a saved document
	Stale       bool      // older than it should be
	Instead     string    // the service that it stands in for, "" for none
	Why         string    // why an old one had to do, "" when it is not stale or nothing is known of it
}

// Age is the time from the issue, or from the fetch where the issue is not told,
// to now; ok is false when neither is known.
func (p Provenance) Age(now time.Time) (age time.Duration, ok bool) {
	from := p.Issued
	if from.IsZero() {
		from = p.Fetched
	}
	return max(0, now.Sub(from)), !from.IsZero()
}

// Focus is what workings, water and sources are asked about.
type Focus struct {
	Date     forecast.Date
	Planting string // a planting's name
	Crop     string // a crop's key
	Bed      string // a bed's name
	Back     int    // for water: how many past days to show
	Key      string // a source's key
	Model    bool   // the numbers that belong to no crop
	Tables   bool   // the printed tables
	Row      string // a published result's name
	Subject  string // bees or wet air, for published results of no crop
	Misses   bool   // of the published results only those that miss
}

// Keeps tells whether a published result is asked for.
func (f Focus) Keeps(r *published.Row) bool {
	switch {
	case f.Misses && r.Verdict != published.Miss:
		return false
	case f.Row != "":
		return r.ID == f.Row
	case f.Key != "":
		return r.Source == f.Key
	case f.Crop != "":
		return r.Subject == f.Crop
	case f.Subject != "":
		return r.Subject == f.Subject
	}
	return true
}

// DefaultWidth is the width of a screen that does not tell its own.
const DefaultWidth = 80

// Columns gives the width to fill.
func (d *Document) Columns() int {
	if d.Width <= 0 {
		return DefaultWidth
	}
	return max(leastWidth, d.Width)
}

// leastWidth keeps sentences readable on the narrowest screen. [chosen: half of 80]
const leastWidth = 40

// Zone is the garden's time zone, UTC when none is told.
func (d *Document) Zone() *time.Location {
	if d.Garden == nil || d.Garden.Place.Zone == nil {
		return time.UTC
	}
	return d.Garden.Place.Zone
}

// Words gives the words in the document's units, zone and language of dates.
func (d *Document) Words() words.Words { return words.New(d.Units, d.Zone()).In(d.Dates) }

// Matches tells whether a planting is asked for: by its name, its crop, or as
// one of all. Whoever asks about a bed asks about its water.
func (f Focus) Matches(p *risk.Planting) bool {
	switch {
	case f.Bed != "":
		return false
	case f.Planting != "":
		return p.Name == f.Planting
	case f.Crop != "":
		return p.Crop.Key == f.Crop
	}
	return true
}
