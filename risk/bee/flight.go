// Package bee says how many bees are out in an hour and how many visits a
// flower gets from them.
//
// Flight is the share (0..1) of full foraging activity of a bee group:
// temperature * light * wind * rain * wet flowers. Left out, with the reason:
// the fall of activity above 460 W/m2 (BurDietz81; found in no other place),
// nectar supply, and species other than the three groups.
package bee

import (
	"math"

	"dawnbrush/risk/air"
)

// Group is a group of bees that forage alike.
type Group uint8

// The groups.
const (
	Honey Group = iota
	Bumble
	Squash
	Groups int = iota
)

var groupNames = [Groups]string{"honey bees", "bumble bees", "squash bees"}

// String gives the grower's word.
func (g Group) String() string { return groupNames[g] }

var groupKeys = [Groups]string{"honey_bee", "bumble_bee", "squash_bee"}

// Key gives the word used in data files and JSON.
func (g Group) Key() string { return groupKeys[g] }

// Factor is what can keep bees at home.
type Factor uint8

// The factors, in the order in which they are multiplied.
const (
	Cold Factor = iota
	Heat
	Light
	Wind
	Rain
	WetFlowers
	Factors int = iota
)

var factorNames = [Factors]string{"cold", "heat", "light", "wind", "rain", "wet"}

// String gives the word used in JSON.
func (f Factor) String() string { return factorNames[f] }

// MarshalText gives the word used in JSON.
func (f Factor) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// Shares holds one share per factor.
type Shares [Factors]float64

// Product multiplies all factors: the flight share.
func (s *Shares) Product() float64 {
	p := s[0]
	for _, f := range s[1:] {
		p *= f
	}
	return p
}

// lin runs from y0 at x0 to y1 at x1 and is clamped outside.
func lin(x, x0, x1, y0, y1 float64) float64 {
	switch {
	case x <= x0:
		return y0
	case x >= x1:
		return y1
	}
	return y0 + (x-x0)/(x1-x0)*(y1-y0)
}

// curve is how one group answers to weather. The numbers stand in curves, with
// their sources in Params.
type curve struct {
	cold      [2]float64 // degC: no flight below, full from
	heat      [2]float64 // degC: full to, heatLeft from; equal when heat plays no part
	heatLeft  float64
	windPart  float64    // share of the honey bee's loss by wind
	windEnd   [2]float64 // m/s at 2 m: from here to there what is left falls to nil; zero when the honey bee's curve says all
	rain      [2]float64 // mm/h: full to, rainLeft from
	rainLeft  float64
	light     float64 // W/m2 of 95 % activity; 0 when the sun's elevation alone counts
	lightLeft float64 // least share once the sun is up enough
	sun       float64 // degrees: no flight below
	sunFull   float64 // degrees: where light is 0, full from
	wetLeft   float64 // share left on wet flowers
}

var curves = [Groups]curve{
	Honey: {cold: [2]float64{12, 18}, heat: [2]float64{34, 42}, heatLeft: 0.2, windPart: 1, rain: [2]float64{0.1, 0.5},
		light: 300, sun: -0.8, wetLeft: 0.5},
	Bumble: {cold: [2]float64{7, 13}, heat: [2]float64{28, 40}, heatLeft: 0.3, windPart: 0.6, windEnd: [2]float64{8, 11}, rain: [2]float64{0.1, 1}, rainLeft: 0.4,
		light: 150, lightLeft: 0.2, sun: -6, wetLeft: 0.8},
	Squash: {cold: [2]float64{10, 14}, windPart: 0.6, windEnd: [2]float64{8, 11}, rain: [2]float64{0.1, 0.5}, rainLeft: 0.2, sun: -6, sunFull: -1, wetLeft: 0.8},
}

// The honey bee's wind curve, m/s at 2 m.
const (
	windSlope = 0.105 // share lost per m/s up to windKnee
	windKnee  = 3.0
	windStop  = 8.0 // the bee's own flight speed
)

// Flyers is how the groups answer to weather; it does not change once made.
type Flyers struct {
	curves [Groups]curve
	// Sines of the sun's elevations in curves, so that the hour needs no arc sine.
	sinSun, sinFull [Groups]float64
}

var usual = newFlyers(curves)

func newFlyers(curves [Groups]curve) *Flyers {
	f := &Flyers{curves: curves}
	for g := range curves {
		f.sinSun[g] = math.Sin(curves[g].sun * math.Pi / 180)
		f.sinFull[g] = math.Sin(curves[g].sunFull * math.Pi / 180)
	}
	return f
}

// Usual gives the groups as the curves of Params have them.
func Usual() *Flyers { return usual }

// Limits gives between which temperatures (degC) a group's flight grows from nil to
// full in the cold, and falls in the heat; equal ends tell that heat plays no part.
func (f *Flyers) Limits(g Group) (cold, heat [2]float64) {
	return f.curves[g].cold, f.curves[g].heat
}

// WithLimits gives flyers that differ in one group's limits of temperature: what
// another published limit would make of a day.
func (f *Flyers) WithLimits(g Group, cold, heat [2]float64) *Flyers {
	other := f.curves
	other[g].cold, other[g].heat = cold, heat
	return newFlyers(other)
}

// WindShare gives the honey bee's share for wind at 2 m (m/s): a fall of
// 0.105 per m/s to 3 m/s, then to nil at 8 m/s, the bee's own flight speed.
// The trade's limit of 15 mph (6.7 m/s, UDel18) then leaves 0.18; a full stop
// at 12 mph (common practice) and no effect at all (Polatto14) stand against it.
func WindShare(u float64) float64 {
	if u <= windKnee {
		return 1 - windSlope*u // [Henn20, status derived]
	}
	return lin(u, windKnee, windStop, 1-windSlope*windKnee, 0) // [Wenner63, status quoted]
}

// FlightShares gives the factors of one of the usual groups for an hour with rain
// (mm/h) on flowers that are wet (any water film) or not.
func FlightShares(g Group, h *air.Hour, rain float64, wet bool) Shares {
	return usual.FlightShares(g, h, rain, wet)
}

// FlightShares is as the function of that name, for these flyers.
func (f *Flyers) FlightShares(g Group, h *air.Hour, rain float64, wet bool) (s Shares) {
	c := &f.curves[g]
	s[Cold] = lin(h.T, c.cold[0], c.cold[1], 0, 1)
	s[Heat] = 1
	if c.heat[1] > c.heat[0] {
		s[Heat] = lin(h.T, c.heat[0], c.heat[1], 1, c.heatLeft)
	}
	s[Light] = f.lightShare(g, h)
	s[Wind] = 1 - c.windPart*(1-WindShare(h.Wind2))
	if c.windEnd[1] > 0 {
		s[Wind] *= lin(h.Wind2, c.windEnd[0], c.windEnd[1], 1, 0)
	}
	s[Rain] = lin(rain, c.rain[0], c.rain[1], 1, c.rainLeft)
	s[WetFlowers] = 1
	if wet {
		s[WetFlowers] = c.wetLeft
	}
	return s
}

// lightShare reads "full activity at so much light" as 95 %: 1 - exp(-3 R/full).
func (f *Flyers) lightShare(g Group, h *air.Hour) float64 {
	c := &f.curves[g]
	switch {
	case h.SinSun <= f.sinSun[g]:
		return 0
	case c.light == 0:
		return lin(h.SinSun, f.sinSun[g], f.sinFull[g], 0, 1)
	}
	return max(c.lightLeft, 1-math.Exp(-3*h.Light/c.light)) // [VicBos00]
}

// Flight gives the flight share of one of the usual groups, 0..1.
func Flight(g Group, h *air.Hour, rain float64, wet bool) float64 {
	return usual.Flight(g, h, rain, wet)
}

// Flight gives the flight share, 0..1.
func (f *Flyers) Flight(g Group, h *air.Hour, rain float64, wet bool) float64 {
	s := f.FlightShares(g, h, rain, wet)
	return s.Product()
}

// OutShare is the flight share from which we say that bees are out.
// [chosen, status chosen] a third of full activity, so that an hour called
// "out" brings a flower visits worth counting.
const OutShare = 0.33

// Grounds names the factor that keeps a group in when its flight share is
// under OutShare: the smallest one. Light counts as dull only against the clear
// sky of that hour, for every dawn is dark; dew alone never counts, it is gone
// when the flower opens or only slows. ok is false when bees are out or the
// hour is simply dark.
func Grounds(g Group, h *air.Hour, rain float64, wetByRain bool) (f Factor, ok bool) {
	s := FlightShares(g, h, rain, wetByRain)
	if s.Product() >= OutShare {
		return 0, false
	}
	clear := *h
	clear.Light = h.ClearLight
	c := FlightShares(g, &clear, rain, wetByRain)
	if c[Light] <= 0 {
		return 0, false
	}
	s[Light] = min(1, s[Light]/c[Light])
	least := Factors
	for i := range s {
		if s[i] < 0.99 && (least == Factors || s[i] < s[least]) {
			least = i
		}
	}
	if least == Factors || s.Product() >= OutShare { // only the low sun of dawn
		return 0, false
	}
	return Factor(least), true
}

// RainFactor gives what rain (mm/h) and wet flowers leave of a group's flight
// in dry air.
func (f *Flyers) RainFactor(g Group, rain float64, wet bool) float64 {
	c := &f.curves[g]
	left := 1.0
	if rain > c.rain[0] {
		left = lin(rain, c.rain[0], c.rain[1], 1, c.rainLeft)
	}
	if wet {
		left *= c.wetLeft
	}
	return left
}
