package risk

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
)

// Range is a result with its spread: one in ten lies under Lo, one in ten over
// Hi, half under Mid. Shares are 0..1.
type Range struct {
	Lo  float64 `json:"p10"`
	Mid float64 `json:"p50"`
	Hi  float64 `json:"p90"`
}

// Assessment is what the model makes of a garden and a series.
type Assessment struct {
	Garden  *Garden
	Series  *forecast.Series
	Days    []Day // consecutive civil days
	Learned Learned
}

// Day is one civil day of the garden.
type Day struct {
	Date      forecast.Date
	Sunrise   time.Time // zero when the sun does not rise or set
	Sunset    time.Time
	Weather   Weather
	Flags     []Flag // of the whole garden
	Plantings []PlantingDay
	Forecast  bool // some hour is a forecast
	Whole     bool // the series covers the whole day
	Missing   air.Layers
}

// Weather sums a day up. Unknown where hours are missing.
type Weather struct {
	Max, Min       forecast.Value // degC; Max counts the feed's own day maximum
	MaxAt          time.Time      // start of the hottest hour
	NightMin       forecast.Value // degC, 18 h of the day before to 8 h
	Wind           forecast.Value // m/s at 10 m, strongest hour of the flower morning, sunrise to noon
	RainProb       forecast.Value // 0..1, the largest chance of the day's blocks
	Rain           forecast.Value // mm; unknown when some hour has no amount
	RainAtLeast    forecast.Value // mm in the hours whose amount is known
	RainFrom       time.Time      // first hour with a chance of 30 % or more, or with measured rain; zero when none
	Sky            forecast.Value // mean cloud cover by day, 0..1
	Over105        bool           // an hour or the day maximum is above 105 degF
	BeeHours       [bee.Groups]float64
	MorningHours   float64 // hours from sunrise to noon that BeeHours counts in
	MissingTempHrs int     // hours of the day without temperature
}

// Bloom says whether a planting has flowers to pollinate on a day.
type Bloom uint8

// The stages of bloom.
const (
	NoBloom    Bloom = iota // not yet or no more
	MaybeBloom              // within the range of dates
	MalesOnly               // males open, females not yet expected
	InBloom
	UnknownBloom // nothing was told that dates it
)

var bloomNames = [...]string{"none", "maybe", "males only", "in bloom", "unknown"}

// String gives the word used in JSON.
func (b Bloom) String() string { return bloomNames[b] }

// MarshalText gives the word used in JSON.
func (b Bloom) MarshalText() ([]byte, error) { return []byte(b.String()), nil }

// PlantingDay is the verdict on one planting for one day.
type PlantingDay struct {
	Planting   *Planting
	Bloom      Bloom
	BloomBasis string // in words: what dates the bloom
	State      State
	Set, Fill  Range   // bees (corn: wind) alone: flowers that keep a fruit; flowers whose fruit comes full and well shaped
	Seeds      float64 // mean share of the seeds a fruit can have, bees alone, at the median supply
	Visits     float64 // bee visits to one flower expected over the day, at the median supply
	Both       Range   // fill by bees and a brush at the best hour
	BothSet    Range
	BrushSpan  [2]time.Time // run of hours within 10 % of the best; zero when there is none
	BestHour   int          // index into Hours; -1 when no hour is any good
	BestShare  float64      // share of flowers that a brush sets in the best hour
	Hours      []FlowerHour // the flower's hours
	Flags      []Flag
	Opens      time.Time // first instant the flowers are open; zero when not that day
	Closes     time.Time
	Missing    air.Layers
	Factor     forecast.Value // self-pollinating crops: set the days before leave, 0..1
	Catface    CatfaceLook    // what the days before say of cat-faced fruit
	CatfaceDry forecast.Value // days of dry soil among those just before bloom, where cat-faced fruit is asked for; unknown without an account of water
	Load       Load           // growing fruit; Set, Fill, Both and BothSet are what the plants keep beside it, BestShare and Hours what pollination gives
	DrySoil    DrySoil        // what want of water leaves of set, where the garden's account of water tells
	Inside     *Inside        // in a tunnel or house with a logger: its air; nil for the garden's
	HotOutside bool           // OtherAir: too hot even outside, and it is no cooler in there
	Ears       Ears           // corn: what the silks' days of pollen fill
	OverRows   OverRows       // corn: how the wind goes over few rows
	look       lookBasis
	bareFill   Range // under a row cover: what bees would fill without it
	bareBoth   Range
}

// State says what the verdict rests on.
type State uint8

// The states of a verdict.
const (
	Judged         State = iota
	NoTemperature        // temperature unknown while the flower is open
	NoSun                // polar day or night
	OtherAir             // tunnel or house whose weather inside is unknown
	NeedsNoPollen        // parthenocarpic
	NoPollenParent       // gynoecious or triploid without a pollen parent
	HistoryUnknown       // the days before decide and are not known
	StaysShut            // too cold to open all day
	SilksTooOld          // corn: no silk takes pollen any more
)

// Known tells whether the verdict's shares mean something. Otherwise what decides
// is not known, or pollen does not matter, and no number may be shown.
func (s State) Known() bool {
	switch s {
	case NoTemperature, NoSun, OtherAir, NeedsNoPollen, HistoryUnknown:
		return false
	}
	return true
}

var stateNames = [...]string{"judged", "no temperature", "no sun", "other air", "needs no pollen",
	"no pollen parent", "history unknown", "stays shut", "silks too old"}

// String gives the word used in JSON.
func (s State) String() string { return stateNames[s] }

// MarshalText gives the word used in JSON.
func (s State) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// FlowerHour is one hour of an open flower, expected over the worlds of rain.
type FlowerHour struct {
	Start     time.Time
	Open      float64 // share of the hour and of the flowers that are open
	Alive     float64 // pollen viability
	Heat      float64 // share that heat in this hour leaves
	Tube      float64 // share that heat in the hours after leaves
	Receptive float64 // share of stigmas that take pollen
	Offer     float64 // share of pollen still there for bees
	Dry       float64 // share not lost to rain
	Wet       float64 // chance that it rains in this hour
	Hand      float64 // flowers a brush in this hour sets, 0..1
	Flight    [bee.Groups]float64
	Bees      float64   // share of the day's fill by bees that falls in this hour
	Age       float64   // exponent of pollen ageing at mid-hour
	Air       *air.Hour // what the air was taken to be
}
