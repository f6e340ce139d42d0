// Package sun computes where the sun stands and when it rises and sets, and the
// radiation a cloud cover leaves.
//
// The position follows the low-precision series of Meeus (Astronomical
// Algorithms, ch. 25) in the form published by NOAA; against full ephemerides
// it is good to 0.02 degrees and events to 15 s up to 60 degrees of latitude.
// What is left out: refraction in Elevation (the value is geometric), the
// observer's height, and delta T (it moves an event by less than 0.1 s).
package sun

import (
	"math"
	"time"
)

const rad = math.Pi / 180

// RiseElevation is the geometric elevation of the sun's centre at rise and
// set, degrees: 34' of refraction and 16' of radius. [NOAAsun, status read]
const RiseElevation = -0.8333

// CivilElevation ends civil twilight, degrees. [NOAAsun, status read]
const CivilElevation = -6.0

// Position is the sun's declination and the equation of time for an instant.
type Position struct {
	sinDecl, cosDecl float64
	eqTimeMin        float64 // equation of time, minutes
}

// At gives the sun's position at t.
func At(t time.Time) Position {
	jd := float64(t.UnixNano())/86400e9 + 2440587.5
	c := (jd - 2451545) / 36525 // centuries since J2000.0 [Meeus98 eq 25.1]
	l0 := math.Mod(280.46646+c*(36000.76983+c*0.0003032), 360) * rad
	m := (357.52911 + c*(35999.05029-c*0.0001537)) * rad // [Meeus98 eq 25.3]
	e := 0.016708634 - c*(0.000042037+c*0.0000001267)    // [Meeus98 eq 25.4]
	sm, cm := math.Sincos(m)
	s2 := 2 * sm * cm
	s3 := sm * (3 - 4*sm*sm)
	center := sm*(1.914602-c*(0.004817+c*0.000014)) + s2*(0.019993-0.000101*c) + s3*0.000289
	omega := (125.04 - 1934.136*c) * rad
	so, co := math.Sincos(omega)
	lambda := l0 + (center-0.00569-0.00478*so)*rad // apparent longitude [Meeus98 p 164]
	eps := (23 + (26+(21.448-c*(46.815+c*(0.00059-c*0.001813)))/60)/60 + 0.00256*co) * rad
	sinDecl := math.Sin(eps) * math.Sin(lambda) // [Meeus98 eq 25.7]
	y := math.Tan(eps / 2)
	y *= y
	sl, cl := math.Sincos(2 * l0)
	eq := y*sl - 2*e*sm + 4*e*y*sm*cl - 0.5*y*y*2*sl*cl - 1.25*e*e*s2 // [Meeus98 eq 28.3]
	return Position{sinDecl, math.Sqrt(1 - sinDecl*sinDecl), eq * 4 / rad}
}

// SinElevation gives the sine of the geometric elevation of the sun's centre
// at t seen from lat, lon (degrees, north and east positive).
func (p Position) SinElevation(t time.Time, sinLat, cosLat, lon float64) float64 {
	const day = 86400
	min := float64(((t.Unix()%day)+day)%day)/60 + float64(t.Nanosecond())/6e10
	ha := (min+p.eqTimeMin)/4 + lon - 180 // hour angle, degrees
	return sinLat*p.sinDecl + cosLat*p.cosDecl*math.Cos(ha*rad)
}

// Elevation gives the geometric elevation of the sun's centre, degrees.
func Elevation(t time.Time, lat, lon float64) float64 {
	sl, cl := math.Sincos(lat * rad)
	return math.Asin(max(-1, min(1, At(t).SinElevation(t, sl, cl, lon)))) / rad
}

// State says whether the sun crosses an elevation on a day.
type State uint8

// The states of a day.
const (
	Normal State = iota
	AlwaysAbove
	AlwaysBelow
)

// Noon gives the solar noon nearest to t at lon (degrees, east positive).
func (track *Track) Noon(t time.Time, lon float64) time.Time {
	n := t
	for range 3 { // the equation of time moves by under 30 s a day: two steps settle it
		p := track.At(n)
		tod := time.Duration((720 - 4*lon - p.eqTimeMin) * float64(time.Minute))
		day := n.UTC().Truncate(24 * time.Hour)
		best := day.Add(tod)
		for _, d := range []time.Duration{-48, -24, 24, 48} {
			if o := day.Add(tod + d*time.Hour); absDur(o.Sub(t)) < absDur(best.Sub(t)) {
				best = o
			}
		}
		n = best
	}
	return n
}

func absDur(d time.Duration) time.Duration {
	if d < 0 {
		return -d
	}
	return d
}

// Crossings gives the instants at which the sun's centre rises and falls
// through an elevation (degrees) in the 24 hours centred on the given solar
// noon. The times are zero unless the state is Normal.
func (track *Track) Crossings(noon time.Time, lat, lon, elevation float64) (rise, set time.Time, s State) {
	sl, cl := math.Sincos(lat * rad)
	target := math.Sin(elevation * rad)
	above := func(t time.Time) float64 { return track.At(t).SinElevation(t, sl, cl, lon) - target }
	before, after := noon.Add(-12*time.Hour), noon.Add(12*time.Hour)
	if above(noon) < 0 {
		return rise, set, AlwaysBelow
	}
	if above(before) > 0 && above(after) > 0 {
		return rise, set, AlwaysAbove
	}
	return track.event(noon, before, -1, target, sl, cl, lon), track.event(noon, after, 1, target, sl, cl, lon), Normal
}

// event finds one crossing: the hour angle is solved in closed form and the
// sun's place renewed at the result; near the polar day, where that does not
// settle, the crossing is halved in between noon and the dark end.
func (track *Track) event(noon, dark time.Time, side, target, sl, cl, lon float64) time.Time {
	t := noon.Add(time.Duration(side * 6 * float64(time.Hour)))
	for range 8 {
		p := track.At(t)
		c := (target - sl*p.sinDecl) / (cl * p.cosDecl)
		if !(math.Abs(c) < 1) {
			break
		}
		// The hour angle at t, and how far it is from the one wanted.
		have := math.Mod(float64(t.Unix()%86400)/60+float64(t.Nanosecond())/6e10+p.eqTimeMin+4*lon-720, 1440)
		step := side*math.Acos(c)/rad*4 - have
		step -= 1440 * math.Round(step/1440)
		t = t.Add(time.Duration(step * float64(time.Minute)))
		if math.Abs(step) < 0.001 {
			return t
		}
	}
	bright := noon
	for absDur(bright.Sub(dark)) > 100*time.Millisecond {
		mid := dark.Add(bright.Sub(dark) / 2)
		if track.At(mid).SinElevation(mid, sl, cl, lon) > target {
			bright = mid
		} else {
			dark = mid
		}
	}
	return bright
}

// Track gives positions for rising times cheaply: the series is worked out once
// per UTC day and joined linearly, which moves the sun by under 0.003 degrees.
// The zero Track is ready.
type Track struct {
	days [trackDays]trackDay // UTC days asked for, each in the slot of its remainder
}

// trackDays is how many days a Track keeps: a forecast's worth.
const trackDays = 16

type trackDay struct {
	known    bool
	day      int64 // UTC days since 1970
	from, to Position
}

// At gives the sun's position at t.
func (k *Track) At(t time.Time) Position {
	const day = 86400
	sec := t.Unix()
	d := sec / day
	if sec%day < 0 {
		d--
	}
	const mask = trackDays - 1 // trackDays is a power of two
	c := &k.days[d&mask]
	if !c.known || c.day != d {
		before, after := &k.days[(d-1)&mask], &k.days[(d+1)&mask]
		c.known, c.day = true, d
		if before.known && before.day == d-1 { // the day before ends where this one begins
			c.from = before.to
		} else {
			c.from = At(time.Unix(d*day, 0))
		}
		if after.known && after.day == d+1 {
			c.to = after.from
		} else {
			c.to = At(time.Unix((d+1)*day, 0))
		}
	}
	w := float64(sec-d*day) / day
	s := c.from.sinDecl + w*(c.to.sinDecl-c.from.sinDecl)
	return Position{s, math.Sqrt(1 - s*s), c.from.eqTimeMin + w*(c.to.eqTimeMin-c.from.eqTimeMin)}
}
