package kc

// Triple is a coefficient at its three stages.
type Triple struct{ Ini, Mid, End float64 }

// Stages are the lengths of the four stages of growth, days.
type Stages struct {
	Ini, Dev, Mid, Late float64
	Plant, Region       string // as in table 11: when and where they hold
	Row                 string // the row's mark among those of a crop, "" for none
}

// Total gives the length of all stages, days.
func (s Stages) Total() float64 { return s.Ini + s.Dev + s.Mid + s.Late }

// At gives a coefficient on a day since sowing or planting (0 is that day):
// level, rising, level, falling. After the last stage the last value stays.
func (s Stages) At(t Triple, day float64) float64 {
	dev, late := day-s.Ini, day-s.Ini-s.Dev-s.Mid
	switch {
	case dev <= 0:
		return t.Ini
	case dev < s.Dev:
		return t.Ini + dev/s.Dev*(t.Mid-t.Ini) // [FAO56 eq 66]
	case late <= 0:
		return t.Mid
	case late < s.Late:
		return t.Mid + late/s.Late*(t.End-t.Mid) // [FAO56 eq 66]
	}
	return t.End
}

// Grown gives the share of full size, 0 to 1, that plants have on a day: 0 to the
// end of the first stage, 1 from mid-season on.
func (s Stages) Grown(day float64) float64 {
	return s.At(Triple{0, 1, 1}, day)
}

// BloomAt stretches the first two stages so that mid-season begins on a day since
// sowing: for most vegetables full cover and first bloom fall together.
// [FAO56 p 97, status memory]
func (s Stages) BloomAt(day float64) Stages {
	if day > 0 && s.Ini+s.Dev > 0 {
		f := day / (s.Ini + s.Dev)
		s.Ini, s.Dev = s.Ini*f, s.Dev*f
	}
	return s
}
