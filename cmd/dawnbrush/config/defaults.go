package config

import (
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// Defaults is a garden file before anything is told. What is not listed here
// stays unknown until the grower tells it.
//
//	name     "garden"
//	units    metric
//	feed     auto, chosen by place and licence; so is second_feed
//	shelter  1, as windy as open land
//	work     05:00-21:00 on every day: nobody wants to be called at night
func Defaults() *File {
	f := &File{Feed: Auto, Second: Auto, Garden: risk.Garden{Name: "garden", Units: risk.Metric, Shelter: 1}}
	for day := range f.Garden.Work {
		f.Garden.Work[day] = []risk.Span{{From: 5, To: 21}} // [chosen: daylight of the season in temperate latitudes]
	}
	return f
}

// plantingDefaults is a planting of a crop before more is told.
//
//	sets     the usual one of the crop; none where all its flowers set alike
//	species  that of the crop, where it has one to choose only
//	support  ground
//	cover    none
//
// c may be nil, where the crop was not understood.
func plantingDefaults(c *crop.Crop) risk.Planting {
	p := risk.Planting{Crop: c, Support: risk.OnGround, Cover: risk.Open}
	if c == nil {
		return p
	}
	if len(c.Settings) > 0 {
		p.Setting = c.Settings[0]
	}
	if len(c.Species) == 1 {
		p.Species = c.Species[0].Key
	}
	return p
}
