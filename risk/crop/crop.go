// Package crop holds what is known about each crop: when its flowers open, what
// pollen needs and stands, how many visits a fruit takes, when it flowers after
// sowing, how it is pollinated by hand. Every number comes from one JSON file a
// crop in data/, with unit, source, place and status; a new crop is one new file
// there and no Go.
//
// A crop file is read strictly: an unknown or missing field, another unit than
// the model computes in, a number without source, a source nobody knows are
// faults, all reported at once with their lines.
//
// Which sections a file must have follows from its "pollination":
//
//	insect  window, pollen, need, bees, phenology, hand
//	wind    corn, phenology, hand
//	self    self, phenology, hand
//
// The place "abstract" means the abstract or the part of a paper that is open to
// read: tables inside the papers were not seen, and a number that needs one is
// derived, recalled or chosen and says so.
//
// types, buds, load and limits are optional for all; types holds the trade's types of a
// crop, each with what was published of it and by its own name; evidence holds published numbers that no
// equation uses but that a grower may ask for.
package crop

import (
	"dawnbrush/forecast"
	"dawnbrush/risk/source"
)

// Pollination is what carries the pollen.
type Pollination uint8

// The carriers of pollen.
const (
	Insect Pollination = iota + 1
	Wind
	Self
)

// Flowers is how the sexes stand on the plant.
type Flowers uint8

// The arrangements of the sexes.
const (
	SeparateSexes  Flowers = iota + 1 // male and female flowers
	Perfect                           // both in one flower
	TasselSilk                        // tassel above, silks on the ear
	MaleAndPerfect                    // male flowers and flowers with both, which alone fruit (andromonoecious)
)

// MalesApart tells whether pollen comes from male flowers that bear no fruit: the
// brush needs them, and they can be picked and kept.
func (f Flowers) MalesApart() bool { return f == SeparateSexes || f == MaleAndPerfect }

// Crop is one crop compiled for the model. Slices and pointers are shared by all
// readers: look, do not write.
type Crop struct {
	Key          string // file name without .json: "summer-squash"
	Name, Plural string // of the planting: "summer squash"
	Fruit        string // one fruit in the grower's word: "ear"
	Fruits       string // several: "ears"
	Aliases      []string
	Pollination  Pollination
	Flowers      Flowers
	Species      []Species // empty where the crop is one species
	Types        []Type    // the trade's types of the crop; empty where none were gathered
	Settings     []Setting // first is the usual one
	PollenFrom   []string  // keys of the crops that pollinate it; empty where its own kind does
	FlowerHeight float64   // m above ground

	Window    Window // insect crops
	Pollen    Pollen
	Need      Need
	Bees      Bees
	Buds      *Buds // nil where no heat limit of buds was found
	Phenology Phenology
	Hand      Hand
	Corn      *Corn      // wind crops, else nil
	Self      *SelfFruit // self-pollinating crops, else nil
	Load      *FruitLoad // nil where no limit of growing fruit is known
	Limits    Limits
	Look      Text // what badly pollinated fruit looks like

	Params []source.Param // every number and fact, in the order of the file
}

// Species is one botanical species a crop name can mean. Only pollen of the same
// species sets fruit.
type Species struct {
	Key    string // word for the garden file: "pepo"
	Latin  string
	Words  string  // the kinds growers know
	Window *Window // where its flowers keep their own hours; nil where they keep the crop's
}

// Setting is how the flowers of a cultivar set fruit.
type Setting string

// The settings a cultivar can have.
const (
	Monoecious     Setting = "monoecious"     // male and female flowers on each plant
	Gynoecious     Setting = "gynoecious"     // female flowers only, wants a pollen parent
	Parthenocarpic Setting = "parthenocarpic" // fills fruit without pollen
	Triploid       Setting = "triploid"       // seedless, wants a diploid pollen parent
)

// Range is a span of numbers, Low <= High.
type Range = source.Interval

// Text is a fact told to the grower, with its origin.
type Text struct {
	Text   string
	Key    string
	Where  string
	Status source.Status
}

// Window is the daily life of a flower that bees visit. Hours are after sunrise
// unless said otherwise; shares are 0..1.
type Window struct {
	Opens, Closes   float64        // h after sunrise
	OpensAtTemp     float64        // degC: shut until the air is this warm
	Receptive       Curve          // h after sunrise -> share of stigmas that take pollen
	ReceptiveHot    Curve          // the same on a hot day; empty when heat makes no difference
	HotDay          Curve          // day's maximum degC -> weight of ReceptiveHot; empty with it
	Offer           Curve          // h after sunrise -> share of pollen still there for bees
	CloseHeat       Curve          // degC -> open share; empty when heat does not shut the flower
	CloseHeatAfter  float64        // h after sunrise from which CloseHeat acts
	LastUsefulVisit forecast.Value // local hour; first visits later set nothing
}

// Pollen is what pollen stands and how it ages.
type Pollen struct {
	HeatFull, HeatNil float64 // degC: full below, nil above, on the anther and at deposit
	Coupling          float64 // share of the air's dryness that acts inside the open flower
	AgeRate           float64 // per kPa h
	AgeThreshold      float64 // kPa, no ageing below
	TubeFull, TubeNil float64 // degC: pollen tubes grow fully below, not at all above
	TubeHours         float64 // h after deposit in which the tube has to grow
}

// Need is what a flower must get. Visit-equivalents are single honey bee visits;
// grains are live grains on the stigma. Set and GrainsPerVisit share one unit.
type Need struct {
	Set          float64        // for 95 % of the set that is possible; for all of it where Straight
	Straight     bool           // set rises in a straight line up to Set, not bent
	FillFactor   float64        // times Set for full seed and shape
	BrushGrains  forecast.Value // one brush gives, in the unit of Set
	FlaggingSet  float64        // share of set left on a day the vines flag
	WithoutBees  forecast.Value // share of fruit that a parthenocarpic cultivar sets unpollinated
	VisitsNeeded Range          // honey bee (squash: squash bee) visits a flower, as published
	PollenSpoils Text           // what pollen does to parthenocarpic fruit; empty where it does no harm
}

// Bees holds the visitors; nil where a group does not matter to the crop.
type Bees struct {
	Honey, Bumble, Squash *Group
	WithoutSquash         float64 // factor on the other rates where no squash bees live; 1 when Squash is nil
	Stay                  float64 // share of visits still paid where no pollen is left; 1 where bees are not known to leave
}

// Group is one group of bees on a crop.
type Group struct {
	GrainsPerVisit float64 // in the unit of Need.Set
	VisitRate      float64 // median visits per flower and hour at full flight
	Shape          float64 // shape of the Gamma prior of the rate
}

// Buds is heat on flower buds in the days before they would open.
type Buds struct {
	Days               float64        // days in a row that do the harm
	DayTemp, NightTemp float64        // degC, day maximum and night minimum of such days
	NightAlone         forecast.Value // degC, nights that do harm with hot days already
	DayAlone           forecast.Value // degC, days that do harm whatever the nights
	ShareLeft          float64        // share of female flowers left after such a spell
	Lead               Range          // days from the spell to the missing flowers
}

// FruitLoad is how much growing fruit a plant carries before it drops new ones.
type FruitLoad struct {
	Limit Range   // growing fruits a plant: up to Low new fruit stays as ever, from High on the plant is full
	Left  float64 // share of new fruit that a full plant still keeps
	Young bool    // the fruit is picked young, so that picking frees the plant at any time
}

// Kept gives the share of new fruit, of what would set on a plant without a
// load, that a plant keeps under a load of so many growing fruits: all up to the
// lower end of the limit, Left from the upper end on, a straight line between,
// for plants are full at different loads.
func (l *FruitLoad) Kept(fruits float64) float64 {
	full := (fruits - l.Limit.Low) / (l.Limit.High - l.Limit.Low)
	return 1 - (1-l.Left)*min(1, max(0, full))
}

// Phenology is when the crop flowers and ripens. Days are whole civil days.
type Phenology struct {
	SowToMale, SowToFemale Range // to the first flower; corn: tassel, silk; self-pollinating: both the first flower
	TransplantToFirst      Range // transplanting to first female (perfect) flower; zero when unknown
	TransplantAge          Range // days from sowing to transplanting
	FemaleAfterMale        Range
	DegreeDays             []DegreeDays
	Bloom                  Range          // days that female flowers keep coming
	FlowerLife             forecast.Value // days one flower stays open
	HarvestAfter           Range          // days from pollination (corn: silk) to harvest
	SowToHarvest           Range
}

// DegreeDays is a published sum of warmth from sowing to flowering, or, without
// sums, the published temperature limits alone.
type DegreeDays struct {
	Species          string // empty: the whole crop
	Method           string // as package growth names it
	Base, Upper      forecast.Value
	ToMale, ToFemale forecast.Value // degC day from sowing
}

// Hand is how the crop is pollinated by hand.
type Hand struct {
	Best             Range          // local hours of the practice; the model's hours go first; zero where there is no work
	WithinOpening    forecast.Value // h after opening
	FemalesPerMale   Range          // zero when it does not apply
	FemalesPerDay    float64        // open female flowers (tomato: flowers) a plant on a day in full bloom
	MinutesPerFlower float64
	Set              forecast.Value // share of flowers that set where trials pollinated them well by hand; unknown where none was found
	LookAfter        Range          // days until one can see whether it took
	Store            Store
	Tell             Text // female from male; empty for perfect flowers
	Tool             Text
	BagBefore        Text // empty when bagging makes no sense
	BitterSeed       Text // caution for saved seed; empty where fruit from it does not turn bitter
}

// Store is whether and how pollen keeps for later.
type Store struct {
	OK     bool
	Hours  forecast.Value // h that it keeps, at most
	Method Text
}

// Corn is pollen shed and silks of a wind-pollinated crop.
type Corn struct {
	ShedFrom, ShedTo  float64        // h after sunrise
	Weights           []float64      // share of the day's pollen in the first, second, ... dry hour
	ShedDrying        float64        // mm/h that a film on the tassel loses in such an hour; slower air sheds later
	RHLimit           float64        // %, anthers stay shut above
	HeatFull, HeatNil float64        // degC
	HeatLoss          float64        // share of the kernels that a degree day of heat on the silks takes beside the pollen it kills, watered ...
	HeatLossDry       float64        // ... and not watered
	HeatAbove         float64        // degC above which such days count
	AgeRate           float64        // per kPa h
	AgeThreshold      float64        // kPa
	AgeHours          float64        // h in the air
	Carry             Curve          // m/s at 2 m -> share of the silks that pollen reaches
	SilkFresh         float64        // d up to which all silks take pollen ...
	SilkDays          float64        // d from which none do, falling straight between
	SilksOut          Range          // d until all silks are out
	GoodDays          float64        // good days that fill the ears
	Isolation         float64        // m from corn whose pollen makes kernels starchy
	IsolationDays     float64        // d between the silking of two types, the same by time
	FillRate          float64        // per good day at the height of shed: exponent by which waiting silks get a grain
	Shed              Curve          // d from the first tassel -> share of the best day's pollen
	ShedDays          Range          // d one planting sheds
	SilkDelayDrought  Range          // d
	Fertilisation     Range          // h from pollen on the silk to the kernel
	SilkAfterTassel   forecast.Value // d
}

// SelfFruit is fruit set of a self-pollinating crop (the name Self is the carrier).
type SelfFruit struct {
	MeanFrom, MeanTo   float64        // d from opening, negative: the days whose temperature counts
	EarlyFrom, EarlyTo float64        // earlier days that count as much, the worse of the two; both 0 when there are none
	Mean               Curve          // degC mean of daily means (ByNight: of night minima) -> share of set
	ByNight            bool           // the nights of those days count, not their means
	Day                Curve          // degC mean of day maxima -> share of set besides; empty where Mean says all
	MeanCoolPollen     Curve          // the same when pollen comes from cool plants
	AcuteTemp          float64        // degC
	AcuteHours         float64        // h above AcuteTemp ...
	AcuteDays          float64        // ... on so many days running end set; 0 when nothing of the kind is known
	AcuteReach         float64        // d before opening within which such days end set
	AloneTemp          float64        // degC
	AloneHours         float64        // h above AloneTemp on one day that end set; 0 when nothing of the kind is known
	Night              Curve          // minimum degC of the flower's own night -> share of set
	Heat               Curve          // degC in an hour of shed -> share of the pollen of that hour that germinates; empty when unknown
	ShedFrom, ShedTo   float64        // local hours
	Tap                Range          // local hours for tapping or vibrating; zero for a crop that is not tapped
	TapOne, TapMany    string         // what is tapped: "truss", "trusses"; empty for a crop that is not tapped
	WithoutBees        forecast.Value // share of set in still air without bees, of that with bees
	Visits             Range          // bumble bee visits that do all the good; zero when unknown
	RHLow, RHHigh      forecast.Value // %, pollen too dry to stick, too wet to shed
	Catface            *Catface       // nil where nothing of the kind is known
}

// Catface is the cool weather after which flowers make cat-faced fruit.
type Catface struct {
	Evening Range   // degC of such evenings
	Days    float64 // so many running
	Lead    Range   // d before bloom in which the flower is made
}

// Tapped tells whether shaking the flowers by hand can help the crop.
func (s *SelfFruit) Tapped() bool { return s.TapOne != "" }

// Early tells whether days before those of MeanFrom to MeanTo count too.
func (s *SelfFruit) Early() bool { return s.EarlyFrom < 0 }

// MeanParam is the name of the number behind Mean.
func (s *SelfFruit) MeanParam() string {
	if s.ByNight {
		return "self.mean_night"
	}
	return "self.mean"
}

// Limits are thresholds for flags in plain words; they change no verdict.
type Limits struct {
	PollenHot   forecast.Value // degC, too hot for the crop's pollen
	PollenUnfit forecast.Value // degC, the growers' rule that pollen is sterile
	DayHigh     forecast.Value // degC
	NightHigh   forecast.Value // degC
	NightLow    forecast.Value // degC
	RHLow       forecast.Value // %
	RHHigh      forecast.Value // %
}

// Allows tells whether cultivars of the crop can have the setting.
func (c *Crop) Allows(s Setting) bool {
	for _, have := range c.Settings {
		if have == s {
			return true
		}
	}
	return false
}

// ReceptiveAt gives the share of stigmas that take pollen h hours after sunrise
// on a day with the given maximum (degC).
func (w Window) ReceptiveAt(h, dayMax float64) float64 {
	r := w.Receptive.At(h)
	if w.ReceptiveHot.Empty() {
		return r
	}
	hot := w.HotDay.At(dayMax)
	return (1-hot)*r + hot*w.ReceptiveHot.At(h)
}
