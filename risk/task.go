package risk

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk/bee"
)

// TaskKind is a thing to do, or to leave.
type TaskKind uint8

// The kinds of tasks.
const (
	LeaveToBees TaskKind = iota // bees will finish these flowers
	LookFirst                   // watch five minutes, then decide
	HandPollinate
	SavePollen    // tonight, for tomorrow
	BagFlowers    // tonight: keep tomorrow's flowers dry (or shut until one has time)
	Shade         // over the hot hours
	ShakeTassels  // corn
	TapTrusses    // tomato, pepper
	UncoverCrop   // take the cover off so that bees get in
	LookAtTagged  // flowers of 3-5 days ago: did they take
	NothingToGain // and why
	FewFemales    // heat on buds: few females now or ahead
	PickFruit     // growing fruit holds new ones back: pick
)

var taskNames = [...]string{"leave_to_bees", "look_first", "hand_pollinate", "save_pollen", "bag_flowers", "shade",
	"shake_tassels", "tap_trusses", "uncover", "look_at_tagged", "nothing_to_gain", "few_females", "pick_fruit"}

// String gives the word used in JSON.
func (k TaskKind) String() string { return taskNames[k] }

// MarshalText gives the word used in JSON.
func (k TaskKind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// Work tells whether the task asks for something to be done.
func (k TaskKind) Work() bool { return k != LeaveToBees && k != NothingToGain && k != FewFemales }

// Sureness says how sure a task is.
type Sureness uint8

// The degrees of sureness.
const (
	Unsure   Sureness = iota // something that decides is unknown
	Likely                   // pays at the middle of the range
	VerySure                 // pays across the whole range
)

var sureNames = [...]string{"unsure", "likely", "sure"}

// String gives the word used in JSON.
func (s Sureness) String() string { return sureNames[s] }

// MarshalText gives the word used in JSON.
func (s Sureness) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Cause says why a task stands, for words; more than one may apply.
type Cause uint8

// The causes.
const (
	CauseBeesCold Cause = iota
	CauseBeesWet
	CauseBeesWind
	CauseBeesDull
	CauseBeesHot
	CauseFewBees       // the supply itself is short, not the weather
	CauseCovered       // bees cannot get in
	CauseHotPollen     // heat kills pollen from an hour on
	CauseHotTubes      // tubes will not grow in the heat after
	CauseRainAhead     // rain likely on open flowers
	CausePollenOld     // dry air ages pollen fast
	CauseLateOpening   // cold keeps flowers shut
	CauseNoParent      // no pollen parent
	CauseNeedsNoPollen // parthenocarpic
	CauseOtherAir      // tunnel or house
	CauseHistory       // the days before are not known
	CauseOutsideHours  // the best hours are outside those one can work
	CauseCalm          // too little wind for corn or tomato
	CauseHotDays       // hot days before: fruit will not set whatever is done
	CauseFewBuds       // female buds lost to heat
	CauseUnknown       // weather layers unknown
	CauseSmallBlock    // few corn rows: pollen blows past
	CauseDampAir
	CauseColdNights
	CauseLookElsewhere // the look at another planting tells whether bees are few here too
	CauseDone          // the diary says it was done today
	CauseOldSilks      // corn silks past the age at which they take pollen
	CauseOver          // the day's flowers have shut
	CauseNoSun         // the sun does not rise or does not set
	CauseParentShut    // no pollen parent of the garden file is in flower
	CauseParentMaybe   // the pollen parent of the garden file may not be in flower
	CausePollenSpoils  // pollen that bees bring spoils parthenocarpic fruit
	CauseFullLoad      // growing fruit makes the plants drop new ones
)

var causeNames = [...]string{"bees_cold", "bees_wet", "bees_wind", "bees_dull", "bees_hot", "few_bees", "covered", "hot_pollen",
	"hot_tubes", "rain_ahead", "pollen_old", "late_opening", "no_pollen_parent", "needs_no_pollen", "other_air", "history_unknown",
	"outside_hours", "calm", "hot_days", "few_buds", "layers_unknown", "small_block", "damp_air", "cold_nights", "look_elsewhere", "done", "old_silks", "over", "no_sun",
	"parent_not_in_flower", "parent_maybe_in_flower", "pollen_spoils", "full_load"}

// String gives the word used in JSON.
func (c Cause) String() string { return causeNames[c] }

// MarshalText gives the word used in JSON.
func (c Cause) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// Task is one line of the plan.
type Task struct {
	Kind     TaskKind
	Planting *Planting // never nil
	Day      *PlantingDay
	From, To time.Time // the hours; From zero means "by To"
	Causes   []Cause   // most important first
	Flowers  int       // how many flowers; 0 when it does not matter
	Fits     int       // of these, how many the hours of work hold; 0 when all
	Counted  bool      // the grower counted them; otherwise the crop's default, chosen
	Minutes  int       // work it takes; 0 when it does not matter
	Bees     Range     // flowers whose fruit fills by bees (wind) alone, shares
	Hand     Range     // the same with the task done
	Gain     float64   // full fruits won at the middle of the range
	Sure     Sureness
	Lead     int            // days from the forecast's issue to the task, where they make it unsure; else 0
	Look     Look           // for LookFirst
	Also     []*Planting    // LookFirst: other plantings that the count settles; SavePollen, BagFlowers, Shade, LookAtTagged: others that the same is done for
	Tagged   forecast.Date  // for LookAtTagged: the day the flowers opened
	Told     bool           // FewFemales: the same spells were told the day before
	Second   bool           // the best hours are outside those one can work: this is the second best
	Rain     forecast.Value // chance of rain that the task guards against
	StoreFor float64        // for SavePollen: hours the pollen keeps
	Males    Males          // insect crops, a day's own tasks: other plantings with pollen that serves
}

// Look is a count that settles whether to brush.
type Look struct {
	At      time.Time
	Minutes int
	Flowers int
	Fewer   int // brush if fewer visits than this are seen
	Groups  [bee.Groups]bool
	worth   float64 // what knowing wins, in the grower's money
}

// lookBasis keeps what a Look is worked out from.
type lookBasis struct {
	visits float64 // visits per flower and hour at multiplier 1, in the hour to look
	at     time.Time
	law    bee.Supply // of the multiplier
	got    float64    // needs of a full fruit over the day at multiplier 1
	unit   float64    // portion of a typical visit
	form   form       // how full fruit follows from them
	groups [bee.Groups]bool
}

// DayPlan is the plan of one day, tasks in order of the hour.
type DayPlan struct {
	Date  forecast.Date
	Day   *Day
	Tasks []Task // at most MaxTasks that ask for work; see More
	Rest  []Task // what needs no work: leave to the bees, nothing to gain, few females
	More  []Task // work that did not fit, least gain
	Heat  WorkHeat
}

// MaxTasks is how many tasks a morning takes.
const MaxTasks = 7
