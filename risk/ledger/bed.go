package ledger

import (
	"math"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/water"
	"dawnbrush/risk/water/dose"
	"dawnbrush/risk/water/kc"
	"dawnbrush/risk/water/soil"
	"dawnbrush/risk/water/table"
)

const (
	// trellis is the height, m, to which vines and tomatoes are trained: staked crops
	// stand 1.5 to 2 m. [FAO56 table 12, status memory]
	trellis = 1.5
	// leastGrown is the least share of their usual time that plants take to their full
	// cover: those planted out in flower are not grown yet.
	leastGrown = 0.5 // [chosen: a plant set out with its first bud still doubles its leaves several times]
	// potting soil by volume. [memory]
	pottingFull = 0.40 // m3/m3 at field capacity
	pottingDry  = 0.15 // m3/m3 that roots cannot get
	// surfaceEfficiency is the share of a furrow's or a flood's water that stays with
	// the roots: the head of a furrow drains while its tail still waits. With it a
	// bed of corn that lacks 48 mm in 0.8 m of sandy loam (TAW 104 mm, all within
	// FAO56 p 171: at most what the root zone lacks) gets 80 L on a square metre. By
	// drip it would be 53: much, for it came late, not for the furrow alone. It is the
	// lower end of what FAO has for all ways of watering. [FAOTM4 annex I, status quoted]
	surfaceEfficiency = 0.60
	// litresPerM3 turns litres to m3.
	litresPerM3 = 1000
)

// canopies is the ground, m2, that one grown plant in a pot shades with its leaves.
// [chosen: the spacings at which such plants close their rows; a big tomato 0.4 to 0.5]
var canopies = map[string]float64{
	"tomato": 0.45, "sweet-pepper": 0.2, "eggplant": 0.3, "cucumber": 0.4, "summer-squash": 0.8, "pumpkin-winter-squash": 1.5,
	"muskmelon": 0.8, "honeydew": 0.8, "watermelon": 1.5, "seedless-watermelon": 1.5, "sweet-corn": 0.15, "common-bean": 0.08,
	"dry-bean": 0.08, "okra": 0.25, "strawberry": 0.09,
}

// otherCanopy stands for a crop that is not listed. [chosen: about a pepper's to a tomato's]
const otherCanopy = 0.3

// ground is a bed compiled: what stands in it, what holds the water, how it comes.
type ground struct {
	bed        *risk.Bed
	plan       *water.Bed
	area       float64       // m2 that a mm is spread over: in pots that of the leaves
	start      forecast.Date // day 0 of the plants
	told       bool          // start is the grower's, not reckoned back
	bloom      growth.Estimate
	efficiency dose.Efficiency
	plants     int // 0 where some planting does not tell
	inBloom    []growth.Estimate
	soilless   bool
}

// compile fills the standing part of a bed's account; ok is false where nothing can
// be reckoned, which b.Why then tells.
func (w *weather) compile(b *Bed) (g ground, ok bool) {
	b.Plantings = w.growing(b.Bed)
	if len(b.Plantings) == 0 {
		b.Why = Nothing
		return g, false
	}
	b.Why = NoDate
	most := -1.0
	var lead ground
	for _, p := range b.Plantings {
		g, why := w.candidate(b, p)
		if why != Reckoned {
			if b.Lead == nil && why > b.Why {
				b.Why = why
			}
			continue
		}
		use := g.plan.Stages.At(g.plan.Crop.Basal, float64(w.today.DaysSince(g.start)))
		if use > most {
			most, lead, b.Lead = use, g, p
		}
	}
	if b.Lead == nil {
		return g, false
	}
	b.Why = Reckoned
	w.dress(b, &lead)
	return lead, true
}

// growing gives the plantings that stand in a bed today.
func (w *weather) growing(bed *risk.Bed) (out []*risk.Planting) {
	for i := range w.g.Plantings {
		p := &w.g.Plantings[i]
		begun := p.Transplanted
		if begun.IsZero() {
			begun = p.Sown
		}
		if strings.EqualFold(p.Bed, bed.Name) && (p.Finished.IsZero() || p.Finished.After(w.today)) && !begun.After(w.today) {
			out = append(out, p)
		}
	}
	return out
}

// candidate makes the bed as one of its plantings would have it.
func (w *weather) candidate(b *Bed, p *risk.Planting) (ground, Why) {
	g := ground{bed: b.Bed, soilless: b.Bed.Soil == risk.Soilless}
	earth, area, err := groundOf(b.Bed, p)
	if err != nil {
		return g, NoTable
	}
	g.area = area
	if g.plan, _, err = planOf(p.Crop.Key, earth, methodOf(b.Bed.Watering)); err != nil {
		return g, NoTable
	}
	if p.Support == risk.OnTrellis {
		g.plan.Crop = g.plan.Crop.Staked(trellis)
	}
	g.plan.Mulch = kc.Mulch{}
	switch b.Bed.Mulch {
	case risk.Organic:
		g.plan.Mulch.Organic = 1
	case risk.Plastic:
		g.plan.Mulch.Plastic = 1
	}
	g.plan.Often = b.Bed.Kind == risk.Pots
	g.plan.Single = b.Bed.Account == risk.SimpleAccount
	if !w.dates(&g, p) {
		return g, NoDate
	}
	return g, Reckoned
}

// dates gives the planting its day 0 and stretches its first stages to its bloom.
func (w *weather) dates(g *ground, p *risk.Planting) bool {
	male, female := w.firsts.Teach(p)
	est, err := growth.Flowering(p.Crop.Phenology, growth.Planting{Sown: p.Sown, Transplanted: p.Transplanted,
		SeenMale: p.FirstMale, SeenFemale: p.FirstFemale, Species: p.Species, Male: male, Female: female}, w.grown)
	usual := g.plan.Stages.Ini + g.plan.Stages.Dev
	g.start = p.Transplanted
	if g.start.IsZero() {
		g.start = p.Sown
	}
	g.told = !g.start.IsZero()
	if err != nil {
		return !g.start.IsZero()
	}
	first := est.Female
	mid := first.From.AddDays(first.To.DaysSince(first.From) / 2)
	if g.start.IsZero() {
		g.start = mid.AddDays(-int(math.Round(usual)))
	} else if taught := female != nil && female.Days.Learned(); taught || first.Basis >= growth.FromMale {
		// seen, by warmth or by this garden's own: the book's counted days know no more than the tables
		day := max(float64(mid.DaysSince(g.start)), leastGrown*usual)
		g.plan.Stages = g.plan.Stages.BloomAt(day)
	}
	g.bloom = est
	return true
}

// planOf gives a crop on its ground from the tables; borrowed tells whose numbers
// stand for the crop's own.
func planOf(key string, earth soil.Ground, m kc.Method) (plan *water.Bed, borrowed string, err error) {
	switch key {
	case "okra": // [chosen: of the tables' crops an eggplant is nearest in height, roots and season]
		plan, err = water.NewBed("eggplant", earth, m)
		return plan, "the FAO tables have no okra; eggplant is the nearest in height and season", err
	case "strawberry": // [chosen: low plants that are picked for many weeks]
		if plan, err = water.NewBed("sweet-pepper", earth, m); err != nil {
			return nil, "", err
		}
		plan.Crop, err = strawberry(plan.Crop)
		return plan, "the FAO tables tell a strawberry's water but not its stages; a sweet pepper's stand for them", err
	}
	plan, err = water.NewBed(key, earth, m)
	return plan, "", err
}

// strawberry puts the printed values of strawberries in the place of another crop's.
func strawberry(c kc.Crop) (kc.Crop, error) {
	t, err := table.Load()
	if err != nil {
		return c, err
	}
	get := func(no, field string) float64 {
		e, _ := t.Find(no, "strawberry", "", field)
		return e.Middle()
	}
	c.Key, c.Ky = "strawberry", 0
	c.Single = kc.Triple{Ini: get("12", "Kc_ini"), Mid: get("12", "Kc_mid"), End: get("12", "Kc_end")}   // [FAO56 table 12]
	c.Basal = kc.Triple{Ini: get("17", "Kcb_ini"), Mid: get("17", "Kcb_mid"), End: get("17", "Kcb_end")} // [FAO56 table 17]
	c.Height, c.Depletion = get("12", "max_height"), get("22", "p_depletion_fraction")                   // [FAO56 table 12, table 22]
	root, _ := t.Find("22", "strawberry", "", "root_depth_max")                                          // [FAO56 table 22]
	c.RootLow, c.RootHigh = root.Low, root.High
	return c, nil
}

// methodOf puts a way of watering into the words of the tables. Drip lines in a bed
// lie in the shade of its plants.
func methodOf(way risk.Watering) kc.Method {
	switch way {
	case risk.Drip, risk.Soaker:
		return kc.DripCovered
	case risk.Sprinkler:
		return kc.Sprinkler
	case risk.Furrow:
		return kc.Furrow
	case risk.Flood:
		return kc.Basin
	}
	return kc.Hand
}

// efficiencyOf gives the share of what is let out that reaches the roots.
func efficiencyOf(way risk.Watering) dose.Efficiency {
	switch way {
	case risk.Drip, risk.Soaker:
		return dose.Drip
	case risk.Sprinkler:
		return dose.Sprinkler
	case risk.Furrow, risk.Flood:
		return surfaceEfficiency
	}
	return dose.Hand
}

// Reaches gives the share of what is let out that reaches the roots by a way of
// watering, and the name of that number among those of the model.
func Reaches(way risk.Watering) (share float64, name string) {
	switch e := efficiencyOf(way); e {
	case dose.Drip:
		return float64(e), "water.drip_efficiency"
	case dose.Sprinkler:
		return float64(e), "water.sprinkler_efficiency"
	case surfaceEfficiency:
		return float64(e), "ledger.surface_efficiency"
	default:
		return float64(e), "water.hand_efficiency"
	}
}

// groundOf gives what holds a bed's water and the area that a mm of it is spread
// over. In pots that is the ground which the leaves shade.
func groundOf(bed *risk.Bed, p *risk.Planting) (soil.Ground, float64, error) {
	earth, err := soilOf(bed)
	if err != nil {
		return soil.Ground{}, 0, err
	}
	switch bed.Kind {
	case risk.Pots:
		pots := max(1, bed.Pots)
		mouth := mouthOf(bed.PotVolume)
		each := 1.0
		if p.Plants > pots {
			each = float64(p.Plants) / float64(pots)
		}
		canopy := max(mouth, each*canopyOf(p.Crop.Key))
		g, err := soil.Container(earth, bed.PotVolume, mouth, canopy)
		return g, canopy * float64(pots), err
	case risk.RaisedBed:
		return soil.Raised(earth, bed.Depth, bed.Depth > 0), bed.Area, nil
	}
	return soil.Field(earth), bed.Area, nil
}

func canopyOf(key string) float64 {
	if a, ok := canopies[key]; ok {
		return a
	}
	return otherCanopy
}

// mouthOf gives the opening, m2, of a pot of litres that is as deep as it is wide.
// [chosen: common pots are about as deep as wide]
func mouthOf(litres float64) float64 {
	d := math.Cbrt(4 * litres / litresPerM3 / math.Pi)
	return math.Pi / 4 * d * d
}

// soilOf gives the soil of a bed: measured, by its name, or what is taken instead.
func soilOf(bed *risk.Bed) (soil.Soil, error) {
	full, ok1 := bed.FieldCapacity.Get()
	dry, ok2 := bed.WiltingPoint.Get()
	if ok1 && ok2 {
		return soil.Given(full, dry)
	}
	name := bed.Soil
	if name == "" {
		name = assumedSoil(bed)
	}
	if name == risk.PottingSoil || name == risk.Soilless {
		return soil.Given(pottingFull, pottingDry)
	}
	t, err := table.Load()
	if err != nil {
		return soil.Soil{}, err
	}
	return soil.Of(t, string(name))
}

// assumedSoil is taken where the garden file tells none.
func assumedSoil(bed *risk.Bed) risk.Soil {
	if bed.Kind == risk.Pots {
		return risk.PottingSoil
	}
	return risk.Loam // [chosen: between sand and clay]
}

// dress tells what the account goes by.
func (w *weather) dress(b *Bed, g *ground) {
	bed := b.Bed
	_, b.Borrowed, _ = planOf(b.Lead.Crop.Key, g.plan.Ground, g.plan.Method)
	b.Crop = strings.ReplaceAll(g.plan.Crop.Key, "-", " ")
	_, measured := bed.FieldCapacity.Get()
	if bed.Soil == "" && !measured {
		b.Assumed = append(b.Assumed, string(assumedSoil(bed)))
	}
	if bed.Watering == "" {
		b.Assumed = append(b.Assumed, "watered by hand at the foot of each plant")
	}
	if b.Lead.Transplanted.IsZero() && b.Lead.Sown.IsZero() {
		b.Assumed = append(b.Assumed, "grown as long as usual before the first flower")
	}
	b.Rows, b.Stages = rowsOf(b, g), g.plan.Stages
	g.efficiency = efficiencyOf(bed.Watering)
	for _, p := range b.Plantings {
		if p.Plants == 0 {
			g.plants = 0
			break
		}
		g.plants += p.Plants
	}
	for _, p := range b.Plantings {
		other := ground{plan: &water.Bed{Stages: g.plan.Stages}}
		if w.dates(&other, p) {
			g.inBloom = append(g.inBloom, other.bloom)
		}
	}
	b.NoStore = g.soilless
	if share, ok := shareUnder(b.Lead.Cover); ok {
		b.Cover, b.Share = b.Lead.Cover, share
	}
	if bed.Kind == risk.Pots {
		b.Canopy = g.area / float64(max(1, bed.Pots))
	}
}
