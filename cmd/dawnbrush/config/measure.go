package config

import (
	"math"
	"strconv"

	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
)

// measure is a quantity that growers write in their own units. Inside it is metric.
type measure struct {
	metric, us string                // the words for its units
	scale      float64               // of the metric unit a grower writes in one of the program
	fromUS     func(float64) float64 // to the program's unit
	toUS       func(float64) float64
}

// The measures of a garden file.
func lengths() measure { return measure{"metres", "feet", 1, unit.FtToM, unit.MToFt} }
func areas() measure {
	return measure{"square metres", "square feet", 1, unit.SqFtToM2, unit.M2ToSqFt}
}
func volumes() measure { return measure{"litres", "gallons", 1, unit.GalToL, unit.LToGal} }
func flows() measure {
	return measure{"litres an hour", "gallons an hour", 1, unit.GalToL, unit.LToGal}
}
func depths() measure {
	const mmPerM = 1000
	return measure{"centimetres", "inches", 0.01, func(v float64) float64 { return unit.InToMm(v) / mmPerM }, func(v float64) float64 { return unit.MmToIn(v * mmPerM) }}
}

func percent() measure {
	return measure{metric: "per cent", us: "per cent", scale: 0.01}
}

func (m measure) word(u risk.Units) string {
	if u == risk.US {
		return m.us
	}
	return m.metric
}

// in takes what the grower writes to the program's unit.
func (m measure) in(v float64, u risk.Units) float64 {
	if u == risk.US {
		return m.fromUS(v)
	}
	return v * m.scale
}

// out takes the program's number to the grower's unit.
func (m measure) out(v float64, u risk.Units) float64 {
	if u == risk.US {
		return m.toUS(v)
	}
	return v / m.scale
}

// show writes a number in the grower's unit with the fewest digits that come back
// as the same number. Conversions round, so the neighbours are tried too.
func (m measure) show(v float64, u risk.Units) string {
	if u != risk.US && m.scale == 1 {
		return decimal(v)
	}
	out := m.out(v, u)
	for digits := 1; digits <= 17; digits++ {
		for _, near := range []float64{out, math.Nextafter(out, math.Inf(1)), math.Nextafter(out, math.Inf(-1))} {
			short, err := strconv.ParseFloat(strconv.FormatFloat(near, 'g', digits, 64), 64)
			if err == nil && m.in(short, u) == v {
				return decimal(short)
			}
		}
	}
	return decimal(out)
}

// limits gives a range of the program's numbers in the grower's unit, rounded
// outwards to three digits, for a message tells it.
func (m measure) limits(lo, hi float64, u risk.Units) (float64, float64) {
	if u != risk.US {
		return m.out(lo, u), m.out(hi, u)
	}
	return threeDigits(m.out(lo, u), math.Floor), threeDigits(m.out(hi, u), math.Ceil)
}

func threeDigits(v float64, round func(float64) float64) float64 {
	if v == 0 {
		return 0
	}
	const digits = 3
	step := math.Pow10(int(math.Floor(math.Log10(math.Abs(v)))) + 1 - digits)
	return round(v/step) * step
}

// measured is a number in the grower's unit for which 0 means that it was not told.
func measured(m measure, key, doc, example string, lo, hi float64, field func(scope) *float64) setting {
	return setting{key: key, doc: doc, example: example, of: &m,
		read: func(in *reader, key string, v *node, s scope) {
			u := s.file.Garden.Units
			least, most := m.limits(lo, hi, u)
			if f, ok := in.number(key, v, least, most); ok {
				*field(s) = m.in(f, u)
			}
		},
		show: func(s scope) string {
			if *field(s) == 0 {
				return ""
			}
			return m.show(*field(s), s.file.Garden.Units)
		}}
}
