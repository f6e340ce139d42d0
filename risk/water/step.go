package water

import (
	"dawnbrush/risk/water/kc"
	"dawnbrush/risk/water/soil"
)

// State is the water of a bed at the end of a day. The zero State is a root zone
// and a surface full to field capacity, no part of it wetted yet.
type State struct {
	Dr      float64 // depletion of the root zone, mm
	Surface kc.Surface
}

// Day is what a step needs: the weather, what the plants would take and what the
// ground holds. The zero Day changes nothing.
type Day struct {
	ET0        float64 // reference evapotranspiration, mm; below nought (dew) counts as nought
	Rain       float64 // mm
	Runoff     float64 // rain that ran off, mm
	Irrigation float64 // over the whole bed, mm
	Share      float64 // share of the ground that the irrigation wets, above 0 to 1

	Kcb     float64 // basal coefficient, or Kc where Single is set
	Top     float64 // bound of both coefficients together
	Cover   float64 // share of the ground in shade of the plants, 0 to 1
	Mulch   float64 // share of evaporation that mulch holds back, 0 to 1
	Covered bool    // irrigation wets the ground under leaves
	Single  bool    // one coefficient, soil evaporation in it: the surface is left alone

	TAW       float64 // available water of the root zone, mm
	Depletion float64 // share of it that may go before plants suffer, at 5 mm a day
	Fixed     bool    // the share is taken as it is, whatever the day's use
	Layer     kc.Layer
}

// Flux is what a day moved, mm, and the factors it went by.
type Flux struct {
	Intercepted   float64 // rain too little to count: it dries off leaves and litter
	Drainage      float64 // out of the root zone
	Through       float64 // out of the wetted part of the surface, into the root zone
	Evaporation   float64 // from the soil
	Transpiration float64 // by the plants; all of the use where Single is set
	Cut           float64 // depletion left below by a root zone that became shallower

	Kcb, P     float64 // basal coefficient (Kc where Single is set), share that may go before plants suffer
	Kr, Ke, Ks float64 // reduction of drying, coefficient of evaporation, stress
	Exposed    float64 // share of the ground that is wet and open
	Wanted     float64 // use of plants that want for nothing, with the evaporation, mm
	TAW, RAW   float64 // of the day, mm
	Start      State   // after the wetting, before the use
}

// ET gives all water that went into the air, mm.
func (f Flux) ET() float64 { return f.Intercepted + f.Evaporation + f.Transpiration }

// leastRain is the share of the day's reference below which rain does nothing for
// the soil. [FAO56 p 153, p 170]
const leastRain = 0.2

// Counts tells whether a day's rain (mm) does anything for the soil.
func Counts(rain, et0 float64) bool {
	return rain > 0 && rain >= leastRain*et0
}

// Infiltrate lets water in at the beginning of a day: it fills the depletion dr
// and the rest drains, all mm.
func Infiltrate(dr, in float64) (after, drained float64) {
	drained = max(0, in-dr)       // [FAO56 eq 88], in the order of example 38
	return max(0, dr-in), drained // [FAO56 eq 85, eq 86]
}

// Step takes a bed over a day, in the order of the package comment. All inputs
// have to be finite and not negative (ET0 may be). Rain less Runoff must not be
// negative.
func Step(s State, d Day) (State, Flux) {
	var f Flux
	et0 := max(0, d.ET0)
	rain := max(0, d.Rain-d.Runoff)
	if !Counts(rain, et0) {
		f.Intercepted, rain = rain, 0
	}
	if s.Dr > d.TAW {
		f.Cut, s.Dr = s.Dr-d.TAW, d.TAW
	}
	s.Dr, f.Drainage = Infiltrate(s.Dr, rain+d.Irrigation)
	if !d.Single {
		s.Surface, f.Through = d.Layer.Wet(s.Surface, rain, d.Irrigation, d.Share)
		f.evaporation(s.Surface, d, et0)
	}
	f.Start, f.TAW = s, d.TAW
	f.Wanted = d.Kcb*et0 + f.Evaporation // [FAO56 eq 58, eq 69]
	share := d.Depletion
	if !d.Fixed {
		share = soil.Share(share, f.Wanted)
	}
	f.Kcb, f.P = d.Kcb, share
	f.RAW = soil.RAW(share, d.TAW)
	f.Ks = soil.Stress(s.Dr, d.TAW, f.RAW)
	room := d.TAW - s.Dr
	f.Evaporation = min(f.Evaporation, room)
	f.Transpiration = min(f.Ks*d.Kcb*et0, room-f.Evaporation) // [FAO56 eq 80, eq 81]
	s.Dr += f.Evaporation + f.Transpiration                   // [FAO56 eq 85]
	if !d.Single && f.Evaporation > 0 {
		s.Surface = d.Layer.Dry(s.Surface, f.Evaporation, f.Exposed)
	}
	return s, f
}

// evaporation works out what the surface gives off.
func (f *Flux) evaporation(s kc.Surface, d Day, et0 float64) {
	wetted := s.Wetted
	if d.Covered && wetted < 1 { // rain wets the open ground too
		wetted = kc.UnderLeaves(wetted, d.Cover)
	}
	f.Exposed = kc.Exposed(d.Cover, wetted)
	f.Kr = d.Layer.Reduction(s.De)
	f.Ke = kc.Ke(f.Kr, d.Top, d.Kcb, f.Exposed) * (1 - d.Mulch)
	f.Evaporation = min(f.Ke*et0, max(0, d.Layer.TEW-s.De)*f.Exposed)
}
