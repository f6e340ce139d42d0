package crop

// clocks reads where a species' flowers keep other hours than those of the crop.
// What a species has no number for, it shares.
func (s section) clocks(c *Crop) {
	defer s.done()
	for i := range c.Species {
		sp := &c.Species[i]
		if !s.has(sp.Key) {
			continue
		}
		w := c.Window
		one := s.maybe(sp.Key)
		w.Opens, w.Closes = one.number("opens", afterSunrise), one.number("closes", afterSunrise)
		one.done()
		if one.n != nil && w.Opens >= w.Closes {
			s.r.fault(one.n.line, "%s: the flower closes before it opens", one.name)
		}
		sp.Window = &w
	}
}

// WindowOf gives the daily life of the flowers of a species, the crop's own where
// none was published or the species was not told. Two species of one clock give
// the same pointer.
func (c *Crop) WindowOf(species string) *Window {
	if i := c.clockOf(species); i >= 0 {
		return c.Species[i].Window
	}
	return &c.Window
}

// WindowParam is the name of the number behind a key of WindowOf, "opens" or
// "closes".
func (c *Crop) WindowParam(species, key string) string {
	if i := c.clockOf(species); i >= 0 {
		return "species_window." + c.Species[i].Key + "." + key
	}
	return "window." + key
}

func (c *Crop) clockOf(species string) int {
	for i := range c.Species {
		if c.Species[i].Key == species && c.Species[i].Window != nil {
			return i
		}
	}
	return -1
}
