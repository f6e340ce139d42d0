// Package pollen says how much pollen is alive and what heat, age and wet take
// from it.
//
// One ageing law serves all crops: pollen dies at a rate that grows with the
// dryness of the air above a threshold. A plain integral of the vapour pressure
// deficit fits no curve: 20 C/80 % for 4 h and 20 C/90 % for 8 h have the same
// integral, yet 10 % and 50 % survive (ZuccPol20).
package pollen

import "math"

// Ageing holds the constants of the law V = exp(-Rate * integral of
// max(0, coupling*VPD - Threshold) dt).
type Ageing struct {
	Rate      float64 // per kPa and hour
	Threshold float64 // kPa
}

// Speed gives how fast the exponent grows, per hour, at vpd kPa. The coupling
// is 1 for loose pollen, a tray or a brush, and smaller inside a flower.
func (a Ageing) Speed(vpd, coupling float64) float64 {
	return a.Rate * max(0, coupling*vpd-a.Threshold)
}

// Viability gives the share alive (0..1) once the exponent has grown to x.
func Viability(x float64) float64 {
	if x <= 0 {
		return 1
	}
	return math.Exp(-x)
}

// AfterHours gives the share alive after hours at a steady vpd (kPa).
func (a Ageing) AfterHours(vpd, coupling, hours float64) float64 {
	return Viability(a.Speed(vpd, coupling) * hours)
}

// HeatShare gives the share (0..1) that heat leaves at t degC: full up to one
// temperature, nil from another.
func HeatShare(t, full, nil_ float64) float64 {
	switch {
	case t <= full:
		return 1
	case t >= nil_:
		return 0
	}
	return (nil_ - t) / (nil_ - full)
}

// Rain on an open flower.
const (
	RainStops = 0.1 // mm/h from which an open flower takes no pollen: any measurable rain [common-practice, status common-practice]
	WetShare  = 0.5 // while the rain film lasts; WienList has one voice for and one against [chosen, status chosen]
)

// DryShare gives the share (0..1) of pollen that a flower takes in an hour with
// rain (mm/h) and with or without a film of rain on it.
func DryShare(rain float64, film bool) float64 {
	switch {
	case rain > RainStops:
		return 0
	case film:
		return WetShare
	}
	return 1
}

// MouldBound is the largest share that mould may take. No figure is published;
// that wet moulds pollen is common practice. [chosen, status chosen]
const MouldBound = 0.2

// Limits of temperature between which wet hours count for mould, degC. [Bulger87, status read]
const (
	MouldCool = 15.0
	MouldWarm = 25.0
)

// MouldChance gives the chance (0..1) that a wet flower is infected after wet
// hours at t degC: the logit found for grey mould on strawberry flowers, a
// stand-in for want of a better one. Coefficients from memory; at 20 degC and
// 24 h it gives 0.96 where the abstract says about 1. [Bulger87, status memory]
func MouldChance(wetHours, t float64) float64 {
	if wetHours <= 0 {
		return 0
	}
	l := -4.268 - 0.0901*wetHours + 0.0294*wetHours*t - 0.0000235*wetHours*t*t*t // [Bulger87, status memory]
	return 1 / (1 + math.Exp(-l))
}

// MouldShare gives the share (0..1) that mould leaves after wet hours at t degC.
func MouldShare(wetHours, t float64) float64 {
	return 1 - MouldBound*MouldChance(wetHours, t)
}

// FlaggingShare is what is left of the set when vines flag at noon: 57 % of
// hand-pollinated cucumbers against 93 % on watered plants. [Szegedi93, status read]
const FlaggingShare = 57.0 / 93.0
