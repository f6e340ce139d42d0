package risk

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/bee"
)

// FlagKind is a thing that weather does to flowers, bees or pollen.
type FlagKind uint8

// The kinds of flags.
const (
	Hot105      FlagKind = iota // above 105 degF: too hot for pollen by the growers' rule
	HotPollen                   // above the crop's own limit while pollen is on offer
	HotTubes                    // too hot in the hours after the flower opens for pollen tubes
	PollenWet                   // rain on open flowers
	PollenMould                 // wet long and mild enough for mould
	BeesIn                      // bees kept in; Factor says by what
	ColdOpening                 // flowers open late, or not at all, for cold
	ColdNight                   // night under the crop's limit
	HotNight                    // night over the crop's limit
	HotDays                     // days before over the limit that buds or fruit set stand
	DryAir                      // air too dry (corn pollen, tomato stigma)
	DampAir                     // air too damp for pollen to shed
	HeatOnBuds                  // heat of the last days took female buds: few females now
	FewAhead                    // heat of these days takes female buds: few females later
	EarlyClose                  // flowers close early in heat
	Catface                     // cool evenings at bloom or weeks before: fruit may grow cat-faced
	FullLoad                    // growing fruit makes the plants drop new ones
	OtherCorn                   // pollen of another type of corn makes starchy kernels; Limit is the distance that keeps it off, Other a planting that may bring it
	CoolNight                   // night that costs fruit, but lies over the crop's limit of cold nights; Limit is where nights cost none
)

var flagNames = [...]string{"above_105F", "hot_for_pollen", "hot_after_pollination", "pollen_wet", "pollen_mould",
	"bees_in", "cold_opening", "cold_night", "hot_night", "hot_days", "dry_air", "damp_air", "heat_on_buds", "few_females_ahead", "early_close", "catface", "full_load", "other_corn", "cool_night"}

// String gives the word used in JSON.
func (k FlagKind) String() string { return flagNames[k] }

// MarshalText gives the word used in JSON.
func (k FlagKind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// Flag is one such thing on one day, with its hours and what was measured.
type Flag struct {
	Kind   FlagKind
	Factor bee.Factor // for BeesIn: what keeps them in
	Group  bee.Group  // for BeesIn: the group that stands for all
	From   time.Time  // first instant; zero when the flag is about whole days
	To     time.Time
	Value  forecast.Value // the worst value: degC, mm, share or % by kind
	Limit  forecast.Value // the limit it passed, same unit
	Prob   forecast.Value // chance of it where it hangs on rain, 0..1
	Since  forecast.Date  // for spells of days
	Until  forecast.Date
	Other  *Planting // for OtherCorn: a planting of the garden that may spoil the kernels; nil for none
	Param  string    // dotted name of the parameter behind the limit, in the crop's file or in Params
}
