// Package memory holds what a grower wrote down and what it teaches: how many
// bees this garden has, how its flowers set by bees and by hand, when its
// plantings flower. It does no input or output; a store keeps the entries.
package memory

import (
	"time"

	"dawnbrush/forecast"
)

// Kind is what an entry is about.
type Kind string

// The kinds of entries.
const (
	Buds    Kind = "buds"    // female buds showing colour: Female, for tomorrow
	Opened  Kind = "opened"  // flowers open today: Male, Female
	Brushed Kind = "brushed" // flowers pollinated by hand: Count
	Bees    Kind = "bees"    // a count: Minutes, Flowers watched, Visits, Group
	Set     Kind = "set"     // Count of Of flowers set; By bees or hand; FlowersOn
	Rain    Kind = "rain"    // gauge: Amount mm since the last reading, or of the day
	Water   Kind = "water"   // watering: Amount litres, or Minutes of drip
	Feed    Kind = "feed"    // feeding: Product, Amount
	Beetles Kind = "beetles" // beetles counted: Count on Of plants
	Slugs   Kind = "slugs"   // the same
	Fruits  Kind = "fruits"  // growing fruits: Count, Of plants where not all were looked at
	Symptom Kind = "symptom" // Text
	Spray   Kind = "spray"   // Product, Interval days before picking by its label
	Picked  Kind = "picked"  // Count fruit, Misshapen among them, Weight kg
	Cover   Kind = "cover"   // On or off
	First   Kind = "first"   // first flower seen: Sex male or female
	Remark  Kind = "remark"  // anything else: Text
)

// Kinds lists all kinds in the order of help texts.
func Kinds() []Kind {
	return []Kind{Buds, Opened, Brushed, Bees, Set, Fruits, Rain, Water, Feed, Beetles, Slugs, Symptom, Spray, Picked, Cover, First, Remark}
}

// Who set a flower.
const (
	ByBees = "bees"
	ByHand = "hand"
)

// Entry is one thing written down. Which numbers matter follows from Kind; the
// others are unknown. An entry never changes: an amendment is a new entry that
// Replaces the old one.
type Entry struct {
	ID       string        `json:"id"`                 // unique, sorts by when it was recorded
	Recorded time.Time     `json:"recorded"`           // when it was typed, UTC
	Date     forecast.Date `json:"date"`               // the garden's day it is about
	At       time.Time     `json:"at,omitzero"`        // the instant it is about, UTC; zero when only the day is known
	Kind     Kind          `json:"kind"`               //
	Planting string        `json:"planting,omitempty"` // name in the garden file, of a planting or of a bed with several; "" for the whole garden
	Replaces string        `json:"replaces,omitempty"` // the entry it amends
	Removed  bool          `json:"removed,omitempty"`  // with Replaces: takes the entry back

	Male      forecast.Value `json:"male,omitzero"`
	Female    forecast.Value `json:"female,omitzero"`
	Count     forecast.Value `json:"count,omitzero"`
	Of        forecast.Value `json:"of,omitzero"`
	Minutes   forecast.Value `json:"minutes,omitzero"`
	Flowers   forecast.Value `json:"flowers,omitzero"`
	Visits    forecast.Value `json:"visits,omitzero"`
	Amount    forecast.Value `json:"amount,omitzero"` // mm of rain, L of water, g of feed
	Weight    forecast.Value `json:"weight,omitzero"` // kg
	Misshapen forecast.Value `json:"misshapen,omitzero"`
	Interval  forecast.Value `json:"interval,omitzero"`   // days
	Group     string         `json:"group,omitempty"`     // honey_bee, bumble_bee, squash_bee; "" for all bees together
	By        string         `json:"by,omitempty"`        // bees or hand
	Sex       string         `json:"sex,omitempty"`       // male or female
	On        bool           `json:"on,omitempty"`        // cover put on
	FlowersOn forecast.Date  `json:"flowers_on,omitzero"` // day the flowers of a set opened
	Product   string         `json:"product,omitempty"`
	Text      string         `json:"text,omitempty"`
}
