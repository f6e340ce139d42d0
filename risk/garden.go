package risk

import (
	"dawnbrush/forecast"
	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
)

// Garden is what the grower has told about the place, the hours to work and
// the plantings. The garden file fills it; the model only reads it.
type Garden struct {
	Name      string
	Place     forecast.Place
	Units     Units
	Contact   string    // e-mail or web address that weather services ask for
	Work      [7][]Span // hours one can work, by time.Weekday; empty on a day means none
	Shelter   float64   // wind at the plot against the open, 0.5..1.4; 1 when not told
	Bees      Bees
	Can       float64 // L of the watering can; 0 when not told
	Beds      []Bed   // those whose water can be reckoned
	Plantings []Planting
	Inside    map[string]*forecast.Series // what loggers in tunnels and houses measured, by Planting.Logger

	flyers *bee.Flyers // nil for the usual ones
}

// Units is the one setting for everything the grower reads.
type Units string

// The two systems.
const (
	Metric Units = "metric"
	US     Units = "us"
)

// Span is a stretch of the day in hours of the garden's clock, 0..24.
type Span struct{ From, To float64 }

// Level says how many bees of a group are about.
type Level string

// The levels a grower can tell. The number each stands for is a Param of
// package bee.
const (
	LevelUnknown Level = ""
	None         Level = "none"
	Few          Level = "few"
	Normal       Level = "normal"
	Many         Level = "many"
)

// Bees is what the grower knows of the bees nearby.
type Bees struct {
	Honey, Bumble, Squash Level
	Hives                 int  // honey bee hives within about 500 m; 0 when none or not told
	closed                bool // in a tunnel or house: the levels are assumed, not told
}

// Setting is how a cultivar sets fruit; "" takes the crop's usual one.
type Setting = crop.Setting

// Cover is what stands between the flowers and the air.
type Cover string

// The covers.
const (
	Open     Cover = "none"
	RowCover Cover = "row cover"
	Tunnel   Cover = "tunnel"
	House    Cover = "house"
)

// Support is how vines are led.
type Support string

// The supports.
const (
	OnGround  Support = "ground"
	OnTrellis Support = "trellis"
)

// Planting is one crop in one bed.
type Planting struct {
	Name             string // the grower's name for it, unique in the garden
	Crop             *crop.Crop
	Species          string // squash only: pepo, maxima or moschata; "" when not told
	Type             string // key of one of the crop's types: "pickling"; "" when not told
	Cultivar         string
	Setting          Setting
	Pollenizer       bool // a pollen parent (gynoecious) or diploid (triploid) stands nearby
	Bed              string
	Plants           int // 0 when not told
	Support          Support
	Rows             int       // corn
	RowLength        float64   // corn, m
	RowsRun          RowsRun   // corn
	Sweetness        Sweetness // corn
	Sown             forecast.Date
	Transplanted     forecast.Date
	FirstMale        forecast.Date // first male flower (or tassel shedding) seen
	FirstFemale      forecast.Date // first female flower (or silk, or any flower of a perfect kind) seen
	Finished         forecast.Date // pulled or done; zero while it grows
	Cover            Cover
	Logger           string        // names the logger in the tunnel or house; "" for none
	BumbleHive       bool          // a hive of bumble bees stands in there
	MinutesPerFlower float64       // the grower's own pace; 0 takes the crop's default
	FruitWorth       float64       // in the grower's money; 0 when not told
	Buds             int           // female buds showing colour at the last count
	BudsOn           forecast.Date // evening of that count; it holds for the next morning only
	// What only the diary tells.
	Open     int             // female flowers counted open
	OpenOn   forecast.Date   // on this day
	Brushed  []forecast.Date // days on which flowers were pollinated by hand, in order
	Growing  []FruitNote     // what was noted of growing and picked fruit, in order
	PickFrom forecast.Date   // the labels of noted sprays let nothing be picked before; zero when none does
}
