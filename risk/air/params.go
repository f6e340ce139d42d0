package air

import "dawnbrush/risk/source"

// Params lists every number of the air near the ground with its origin.
func Params() []source.Param {
	chosen := source.Choice
	return []source.Param{
		chosen("air.film_height", FilmHeight, "m", "height at which a flower's water film dries"),
		chosen("air.bee_height", BeeHeight, "m", "bees fly in above the crop, and growers' wind rules speak of station wind; at flower height the same curve leaves hardly any windy hour"),
		chosen("air.film_max", filmMax, "mm", "water that a leaf or flower holds"),
		chosen("air.dew_film", dewFilm, "mm", "water that a night of dew lays down"),
		chosen("air.dew_humidity", dewRH, "%", "from this humidity dew is taken to form on a still night"),
		chosen("air.dew_light", dewLight, "W/m2", "below this light it is night enough for dew"),
		chosen("air.dew_wind", dewWind, "m/s at 0.5 m", "above this wind the air is stirred too much for dew"),
		chosen("air.net_share", netShare, "share", "net radiation of a wet surface as a share of global: 0.77 absorbed (FAO56 eq 38) less about a fifth sent back"),
		{Name: "air.psychrometric", Value: psychro, Unit: "kPa/degC", Key: "FAO56", Where: "eq 8", Status: source.Derived, Note: "0.000665 times 101.3 kPa, near sea level"},
		{Name: "air.least_wind", Value: minFilmWind, Unit: "m/s", Key: "FAO56", Where: "p 63", Status: source.Read},
		chosen("air.unknown_humidity", fillRH[0], "%", "kind filling of an unknown humidity; the harsh one is 95: two runs bound what is not known"),
		chosen("air.unknown_wind", fillWind[0], "m/s", "kind filling of an unknown wind; the harsh one is 7"),
		chosen("air.unknown_cloud", fillSky[0], "share", "kind filling of an unknown cloud cover; the harsh one is 1"),
	}
}
