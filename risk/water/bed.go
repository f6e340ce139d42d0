package water

import (
	"errors"

	"dawnbrush/risk/water/kc"
	"dawnbrush/risk/water/soil"
	"dawnbrush/risk/water/table"
)

// Bed is a planting on its ground, as its water account needs it.
type Bed struct {
	Crop   kc.Crop
	Stages kc.Stages
	Ground soil.Ground
	Method kc.Method
	Mulch  kc.Mulch
	Often  bool // watered every day or two
	Single bool // the simpler single coefficient instead of the dual one
	ByRain bool // lives by rain: roots go deeper, see [kc.Crop]

	shares [kc.Hand + 1]float64 // of ground that each method wets
}

// NewBed fills a bed from the tables: a crop by the program's key, its typical
// stages, a ground and a way of watering. Fields may be changed before use.
// Errors: no table for the crop; a ground that holds no water.
func NewBed(crop string, g soil.Ground, m kc.Method) (*Bed, error) {
	t, err := table.Load()
	if err != nil {
		return nil, err
	}
	c, err := kc.Of(t, crop)
	if err != nil {
		return nil, err
	}
	if !(g.Available(0.3) > 0) {
		return nil, errors.New("this ground holds no water that plants could take")
	}
	b := &Bed{Crop: c, Stages: c.TypicalStages(), Ground: g, Method: m}
	for i := range b.shares {
		b.shares[i] = kc.Wetted(t, kc.Method(i), 0)
	}
	return b, nil
}

// Weather is a day of weather over a bed.
type Weather struct {
	ET0, Rain float64    // mm
	Climate   kc.Climate // kc.Standard where unknown
}

// seedling is the least share of their full height that plants count with: height
// follows cover. [chosen: a just planted tomato stands about a tenth of its height]
const seedling = 0.1

// Day gives the step of a day since sowing (0 is that day) with an irrigation of
// mm over the bed.
func (b *Bed) Day(day float64, w Weather, irrigation float64) Day {
	grown := b.Stages.Grown(day)
	h := b.Crop.Height * max(seedling, grown)
	basal := w.Climate.Adjust(b.Crop.Basal, b.Crop.Height)
	kcb := b.Stages.At(basal, day) * b.Mulch.Basal() // [FAO56 eq 66]
	top := kc.Max(w.Climate, h, kcb, b.Often)
	cover := kc.Cover(kcb, top, h)
	d := Day{
		ET0: w.ET0, Rain: w.Rain * b.Ground.Open(), Irrigation: irrigation, Share: b.shares[b.Method],
		Kcb: kcb, Top: top, Cover: cover, Mulch: 1 - b.Mulch.Evaporation(), Covered: b.Method == kc.DripCovered,
		TAW: b.Available(day), Depletion: b.Crop.Depletion, Layer: b.layer(),
	}
	if b.Single {
		single := b.Mulch.Single(w.Climate.Adjust(b.Crop.Single, b.Crop.Height), basal)
		d.Kcb, d.Single = b.Stages.At(single, day), true // [FAO56 eq 58, eq 66]
	}
	return d
}

// Step takes the bed over a day since sowing.
func (b *Bed) Step(s State, day float64, w Weather, irrigation float64) (State, Flux) {
	return Step(s, b.Day(day, w, irrigation))
}

// Roots gives the depth of the roots (m) on a day since sowing.
func (b *Bed) Roots(day float64) float64 {
	greatest := b.Crop.RootLow
	if b.ByRain {
		greatest = b.Crop.RootHigh
	}
	return b.Ground.Roots(soil.RootsAt(greatest, b.Stages.Grown(day)))
}

// Available gives the water (mm) that a full root zone holds for the plants on a
// day since sowing.
func (b *Bed) Available(day float64) float64 { return b.Ground.Available(b.Roots(day)) }

func (b *Bed) layer() kc.Layer {
	open := b.Ground.Open()
	l := kc.Layer{TEW: b.Ground.TEW(soil.Skin) * open, REW: b.Ground.REW * open}
	l.REW = min(l.REW, 0.9*l.TEW) // [chosen: a given soil may hold less than its texture's middle]
	return l
}

// Due tells whether a bed should be watered on a day and how much it lacks, mm:
// from the moment that plants begin to suffer, as much as fits in. A grower may
// give less.
func Due(s State, f Flux) (now bool, lacks float64) {
	return s.Dr >= f.RAW && f.RAW > 0, s.Dr // [FAO56 eq 83, eq 84]
}
