package risk

import (
	"strings"

	"dawnbrush/forecast"
)

// Bed is ground or pots that are watered together. What a balance of its water
// needs stands here; zero values were not told.
type Bed struct {
	Name          string
	Kind          BedKind
	Area          float64        // m2 of soil
	Soil          Soil           // by feel, after FAO 56 table 19
	FieldCapacity forecast.Value // m3 of water in a m3 of soil, measured
	WiltingPoint  forecast.Value // the same
	Depth         float64        // m of soil that roots can use in a raised bed
	Pots          int            // of pots and sacks
	PotVolume     float64        // L of one
	Watering      Watering
	Flow          float64 // L/h of the whole bed
	Mulch         Mulch
	Account       WaterAccount
}

// WaterAccount is how closely a bed's water is reckoned.
type WaterAccount string

// The accounts.
const (
	FullAccount   WaterAccount = "full"   // plants and bare soil apart: the dual coefficient of FAO 56 chapter 7
	SimpleAccount WaterAccount = "simple" // one coefficient for both, chapter 6: no account of the surface
)

// BedKind is what holds the soil.
type BedKind string

// The kinds of beds.
const (
	GroundBed BedKind = "ground"
	RaisedBed BedKind = "raised"
	Pots      BedKind = "pots"
)

// Soil is a texture class by the names of FAO 56 table 19.
type Soil string

// The texture classes.
const (
	Sand         Soil = "sand"
	LoamySand    Soil = "loamy sand"
	SandyLoam    Soil = "sandy loam"
	Loam         Soil = "loam"
	SiltLoam     Soil = "silt loam"
	Silt         Soil = "silt"
	SiltClayLoam Soil = "silt clay loam"
	SiltyClay    Soil = "silty clay"
	Clay         Soil = "clay"
	PottingSoil  Soil = "potting soil"
	Soilless     Soil = "soilless"
)

// Watering is how water comes to the soil, which decides how much of it gets wet
// (FAO 56 table 20).
type Watering string

// The ways of watering.
const (
	Drip      Watering = "drip"
	Soaker    Watering = "soaker hose"
	Can       Watering = "can"
	Hose      Watering = "hose"
	Sprinkler Watering = "sprinkler"
	Furrow    Watering = "furrow"
	Flood     Watering = "flood"
)

// Mulch is what covers the soil.
type Mulch string

// The mulches.
const (
	BareSoil Mulch = "none"
	Organic  Mulch = "organic" // straw, leaves, compost, clippings
	Plastic  Mulch = "plastic" // film or fabric
)

// Bed gives the bed that a planting stands in, nil where nothing is told of it.
func (g *Garden) Bed(p *Planting) *Bed {
	for i := range g.Beds {
		if strings.EqualFold(g.Beds[i].Name, p.Bed) {
			return &g.Beds[i]
		}
	}
	return nil
}
