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

// Elevations of the sun as sines.
var (
	sinRise = math.Sin(-0.8 * math.Pi / 180)
	sinDusk = math.Sin(-6 * math.Pi / 180)
	sinDawn = math.Sin(-1 * math.Pi / 180)
)

// WindShare gives the honey bee's share for wind at 2 m (m/s): a fall of
// 0.105 per m/s to 3 m/s, then to nil at 8 m/s, the bee's own flight speed.
// The trade's limit of 15 mph (6.7 m/s, UDel18) then leaves 0.18; a full stop
// at 12 mph (common practice) and no effect at all (Polatto14) stand against it.
func WindShare(u float64) float64 {
	if u <= 3 {
		return 1 - 0.105*u // [Henn20, status derived]
	}
	return lin(u, 3, 8, 0.685, 0) // [Wenner63, status quoted]
}

// FlightShares gives the factors of one group for an hour with rain (mm/h) on
// flowers that are wet (any water film) or not.
func FlightShares(g Group, h *air.Hour, rain float64, wet bool) (s Shares) {
	w := WindShare(h.Wind2)
	switch g {
	case Honey:
		s[Cold] = lin(h.T, 12, 18, 0, 1)   // midway between [BurDietz81, status quoted] and [VicBos00, status read]
		s[Heat] = lin(h.T, 34, 42, 1, 0.2) // [Cooper85, status read] for the direction
		s[Wind] = w
		s[Rain] = lin(rain, 0.1, 0.5, 1, 0) // [Lundie25, status read] for the direction, sizes chosen
		if h.SinSun > sinRise {
			s[Light] = 1 - math.Exp(-3*h.Light/300) // "full at 300 W/m2" read as 95 % [VicBos00, status read]
		}
	case Bumble:
		s[Cold] = lin(h.T, 7, 13, 0, 1)     // [memory, status memory]
		s[Heat] = lin(h.T, 32, 40, 1, 0.3)  // [BT32, status read] for the direction
		s[Wind] = 1 - 0.6*(1-w)             // [Karb23, status read] for the direction, 0.6 chosen
		s[Rain] = lin(rain, 0.1, 1, 1, 0.4) // [Reeves24, status read] for the direction, sizes chosen
		if h.SinSun > sinDusk {
			s[Light] = max(0.2, 1-math.Exp(-3*h.Light/150)) // [chosen, status chosen] half the honey bee's light; dawn and dusk from memory
		}
	case Squash:
		s[Cold] = lin(h.T, 10, 14, 0, 1)                 // [WilKev95, status read] 10 degC; full at 14 chosen
		s[Heat] = 1                                      // no figure found; the flower shuts first
		s[Wind] = 1 - 0.6*(1-w)                          // as bumble bees [chosen, status chosen]
		s[Rain] = lin(rain, 0.1, 0.5, 1, 0.2)            // [chosen, status chosen]
		s[Light] = lin(h.SinSun, sinDusk, sinDawn, 0, 1) // before sunrise [Sampson, status read]
	}
	s[WetFlowers] = 1
	if wet {
		s[WetFlowers] = wetFlowers[g]
	}
	return s
}

// wetFlowers replaces "not seen above 90 % humidity" (VicBos00): water on the
// flower, not moist air, is what slows bees. [chosen, status chosen]
var wetFlowers = [Groups]float64{0.5, 0.8, 0.8}

// Flight gives the flight share, 0..1.
func Flight(g Group, h *air.Hour, rain float64, wet bool) float64 {
	s := FlightShares(g, h, rain, wet)
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
