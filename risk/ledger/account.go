// Package ledger keeps the water of a garden's beds: over the days that were, by
// measured hours, the rain gauge and the waterings of the diary, and on over the
// forecast; and says what each bed wants. The account of a day is that of package
// water, after FAO Irrigation and Drainage Paper 56 (FAO56).
//
//	keep.go      the days of a bed, in three tracks of doubt
//	rain.go      what fell, by whom it was told, and what may fall
//	bed.go       what stands in a bed, what holds its water, from the tables
//	weather.go   the pull of the air, days of which nothing is known
//	cover.go     the same in a tunnel or house
//	given.go     the waterings of the diary
//	advise.go    how much, why, what to wait for
//	when.go      the hours for it
//	season.go    evenness of a week, water against an inch a week, thirst
//
// Data flows one way: garden, series and diary in, an Account out. Nothing here
// reads a clock or does input or output.
package ledger

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/water"
	"dawnbrush/risk/water/et0"
	"dawnbrush/risk/water/kc"
	"dawnbrush/risk/water/table"
)

// Account is the water of all beds of a garden.
type Account struct {
	Garden *risk.Garden
	Today  forecast.Date
	Beds   []Bed // those of the garden file, in its order
}

// Bed is the account of one bed.
type Bed struct {
	Bed       *risk.Bed
	Plantings []*risk.Planting // those that grow in it on Today
	Lead      *risk.Planting   // the one the account goes by: of several the one that uses most; nil when none grows
	Why       Why              // why nothing can be reckoned; Reckoned when it can
	Crop      string           // crop of the FAO tables, in their words
	Borrowed  string           // why the crop's numbers are another's; "" when they are its own
	Assumed   []string         // what the garden file does not tell and was taken instead, plain words: "loam"
	Start     StartBasis       // how the account begins
	Canopy    float64          // pots: m2 of leaves over one of them, chosen by the crop, that its mm are spread over; 0 for ground
	Cover     risk.Cover       // what the bed stands under where its air is not the outside's: a tunnel or house; "" else
	Share     risk.Range       // under Cover: of the outside's reference what the air in there draws, 0..1, by papers that differ; Lo is the least
	NoStore   bool             // soilless: the days hold what is used and what to give, and nothing of Lacks, Left, Night and Stress
	Rows      []table.Entry    // the printed values that the account rests on
	Stages    kc.Stages        // lengths of its stages, stretched to its bloom
	Days      []Day            // consecutive, from the account's first day to the forecast's last whole day
	Swing     Swing            // of the seven days before Today
	Season    Season
}

// Why tells why a bed's water cannot be reckoned.
type Why uint8

// The reasons.
const (
	Reckoned  Why = iota
	Nothing       // nothing grows in it today
	NoDate        // no day of sowing, planting out or first flower is told
	NoTable       // no crop of the tables stands for it, or its soil is none of theirs
	NoWeather     // not even the temperature of Today is known
)

// StartBasis tells how full the soil was when the account began.
type StartBasis uint8

// The beginnings.
const (
	StartUnknown StartBasis = iota // anything between dry and full: the tracks lie apart until a soaking
	StartSown                      // on the day of sowing or planting out, watered in: full
	StartSoaked                    // after rain or a watering that fills any root zone
)

// Day is a bed's water on a day. mm are litres on a square metre of bed. In a Range
// Lo is the dry end (least water), Hi the wet one.
type Day struct {
	Date   forecast.Date
	Age    int            // days since sowing or planting out, 0 on that day
	Roots  float64        // depth of the roots, m
	Past   bool           // over; Today and later are ahead
	ET0    forecast.Value // reference, mm; unknown with et0.NoWay
	Way    et0.Way        // how it was come by
	Under  Under          // what the cover makes of it
	Rain   risk.Range     // mm that fell or counts, by its chance where it is to come
	By     RainBasis
	Chance forecast.Value // of measurable rain where it is still to come
	Given  float64        // mm of the diary's waterings that reached the roots, net; waterings in the afternoon count for the next morning, and what pots could not take in one on a day that asks for two counts as the second
	Litres float64        // the same as let out, gross
	Taken  float64        // mm, net, that the middle track was taken to be watered though nobody noted it, or noted minutes alone
	Caught float64        // mm of the middle track's rain that fell on soil: less than Rain in pots under leaves
	Flux   water.Flux     // middle track
	Lacks  risk.Range     // depletion of the root zone in the morning, mm; NB: Lo is the dry end, the greater depletion
	Left   risk.Range     // share of the plants' water that is left in the morning, 0..1
	Night  risk.Range     // the same at the day's end, without any further watering on Today and later
	Stress risk.Range     // Ks, 0..1: 1 wants for nothing; below, flowers flag; likewise without further watering
	TAW    float64        // mm
	RAW    float64        // mm
	Gap    bool           // nothing is known of the day's use: taken from the days around, the tracks widened
	Advice Advice

	// Where the advice of Today and the days after is followed; on past days and on
	// Today's morning as it is.
	Heeded struct {
		Left risk.Range // share left in the morning
		Used float64    // mm that plants and soil give off, middle track
	}

	kept risk.Range // Ks where the advice of Today and later is followed
	wide float64    // how far doubts about what was let the tracks lie apart in the morning, share of TAW
}

// Under is a day's air under a bed's cover; zero under the open sky.
type Under struct {
	Outside forecast.Value // reference outdoors, mm
	Draws   risk.Range     // reference in there, mm, from the least to the greatest
	Logged  bool           // by the logger's temperature and humidity, else as a share of Outside
	Own     bool           // the share is that of the days which the logger told, not of papers
}

// RainBasis tells who told the rain of a day.
type RainBasis uint8

// The tellers, best first.
const (
	RainGauge    RainBasis = iota + 1 // the grower's gauge
	RainStation                       // measured near by
	RainForecast                      // over, and only a forecast tells of it: not measured
	RainAhead                         // still to come, by its chance
	RainUnknown                       // nobody tells
	RainNone                          // none can fall here: under a roof
)

// Verdict is what a bed wants on a day.
type Verdict uint8

// The verdicts.
const (
	NoVerdict   Verdict = iota // past days, and beds that are not reckoned
	Enough                     // nothing to do
	Water                      // water it
	WaitForRain                // due, but rain is likely and waiting costs little
	LookFirst                  // the account cannot tell: feel the soil, see Depth
)

// Advice is what to do for a bed on a day. On days after Today it supposes that
// what is advised before was given, so that a week of advice can be followed.
type Advice struct {
	Verdict  Verdict
	MM       float64        // that the root zone takes, over the bed, net
	Litres   float64        // to let out for the whole bed, losses of the way of watering in it
	Span     risk.Range     // under a cover: Litres from the least to the greatest that its doubt leaves; zero under the open sky
	EachPot  float64        // litres for one pot; 0 where it is none
	PerPlant float64        // litres for one plant; 0 where plants are not told
	Run      time.Duration  // how long to let it run; 0 where no flow is told
	Cans     float64        // of the garden's can; 0 where water comes otherwise
	Times    int            // waterings to split it into: 2 where even full soil would not last the day, as in small pots in heat, and for more than soil takes at once; else 1
	From, To time.Time      // before sunrise to mid-morning in the hours of work; the evening as second best for water at the foot; zero where neither is worked
	Depth    float64        // m that the water should reach, or where to feel for it
	Causes   []Cause        // most important first
	Less     float64        // mm that were taken off for rain that is likely: should it not come, the bed still lasts the next day
	Chance   forecast.Value // of rain, where the advice hangs on it: WaitForRain, Less or CauseRainAhead
	IfDry    float64        // share left in the evening if that rain does not come
	Days     int            // until plants begin to suffer without water, 0 for today; -1 for beyond the forecast
	Sure     risk.Sureness
	Gauge    bool // a reading of the gauge would settle it
	NoLeaves bool // keep water off flowers and leaves: open flowers that rain would spoil

	later float64 // mm of MM that are for a second watering, after most of the day's use
}

// Cause is why a bed wants water, or none.
type Cause uint8

// The causes.
const (
	CauseDry       Cause = iota + 1 // little is left
	CauseHot                        // the day takes much: more than 6 mm of reference
	CauseFlower                     // in flower or fruit: want of water shows in fruit now
	CauseSmall                      // a pot holds little
	CauseSoilless                   // holds no store worth reckoning: the day's use alone
	CauseRainCame                   // rain has watered it
	CauseGiven                      // the grower has watered it
	CauseRainAhead                  // rain is likely
	CauseYoung                      // roots are short yet
	CauseUneven                     // the week swung widely
)

// Swing is how evenly a bed was watered in a week: the greatest less the least
// depletion, each in the moment it was reached, in shares of what may go before plants suffer.
type Swing struct {
	Known  bool
	Share  float64
	Uneven bool // above our own limit: no paper gives one
}

// Season is the water of a bed since its account began, in litres let out, up to
// the day before Today, against the common rule of an inch a week, rain counted in
// both. Wanted knows the rain that came, which on the morning nobody did.
type Season struct {
	Days   int
	Given  float64 // by the diary
	Rule   float64 // what the rule would have had the grower give
	Wanted float64 // what this account would have had the grower give
	Noted  bool    // at least one watering is noted: without, nothing is compared
}

// Day gives the bed's account of a date.
func (b *Bed) Day(date forecast.Date) (*Day, bool) {
	if len(b.Days) == 0 {
		return nil, false
	}
	k := date.DaysSince(b.Days[0].Date)
	if k < 0 || k >= len(b.Days) {
		return nil, false
	}
	return &b.Days[k], true
}
