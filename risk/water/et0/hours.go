package et0

import (
	"math"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/sun"
	"dawnbrush/risk/air"
)

// OfPlace gives the site of a place, with the whole hours that its standard time
// is ahead of UTC taken from its longitude. An unknown elevation counts as sea
// level, which moves the reference by about 1 % for each 300 m.
func OfPlace(p forecast.Place) Site {
	return NewSite(p.Lat, p.Lon, p.Elevation.Or(0), math.Round(p.Lon/15))
}

// Clock goes over the hours of a site in order and remembers the sun of the day
// and what the last high sun told of the clouds. The zero Clock is not ready; use
// [NewClock].
type Clock struct {
	site    Site
	shelter float64
	sky     Sky
	day     int64 // days since 1970 of the sky, in standard time
	ready   bool
	clear   float64
}

// NewClock starts at a site; shelter is the garden's share of the open wind, 0 to 1.
func NewClock(s Site, shelter float64) *Clock {
	return &Clock{site: s, shelter: shelter, clear: FirstNight}
}

// Hour is the reference of one hour.
type Hour struct {
	MM        forecast.Value // mm, below nought for dew; unknown where a layer is
	Light     forecast.Value // global radiation used, W/m2
	Ra        float64        // extraterrestrial radiation of the hour, MJ m-2
	FromCloud bool           // the radiation was worked out from cloud cover
}

// Next works out an hour, which has to follow the one before. Temperature,
// humidity (or dew point) and wind at 10 m have to be known, and by day radiation
// or cloud cover. Nothing is allocated.
func (c *Clock) Next(f *forecast.Hour) Hour {
	hour := c.turnTo(f.Start)
	out := Hour{Ra: c.sky.Ra[hour]}
	out.Light, out.FromCloud = c.light(f, hour)
	light, lit := out.Light.Get()
	if lit && c.sky.Sine[hour] > highSun {
		c.clear = ClearRatio(joules*light, c.site.clear*out.Ra) // [FAO56 eq 37]
	}
	t, ok := f.Temp.Get()
	rh, wet := humidity(f, t)
	wind, blown := f.Wind.Get()
	if !ok || !wet || !blown || !lit {
		return out
	}
	es := air.SaturationPressure(t)
	ea := es * rh / 100                                                                // [FAO56 eq 54]
	rn := NetShort(joules*light) - EmissionHour(t)*HumidityTerm(ea)*CloudTerm(c.clear) // [FAO56 eq 38, eq 39, eq 40]
	out.MM = forecast.Known(Hourly(Terms{
		Slope: air.Slope(t), Gamma: c.site.gamma, T: t, VPD: es - ea,
		Wind2: max(LeastWind, wind*c.shelter*air.WindAt2(10)), // [FAO56 eq 47]
		Net:   rn * c.sky.Share[hour],
	})) // [FAO56 eq 53]
	return out
}

// turnTo brings the sky to the day of an instant and gives its hour of the day.
func (c *Clock) turnTo(start time.Time) int {
	sec := start.Unix() + int64(c.site.zone*3600)
	day := sec / 86400
	if sec%86400 < 0 {
		day--
	}
	if !c.ready || day != c.day {
		c.day, c.ready = day, true
		c.site.Sky(&c.sky, time.Unix(day*86400, 0).UTC().YearDay())
	}
	return int(sec-day*86400) / 3600
}

// light gives the radiation of an hour, W/m2: as sent, nil at night, or from the
// cloud cover and the clear sky of mid-hour.
func (c *Clock) light(f *forecast.Hour, hour int) (w forecast.Value, fromCloud bool) {
	if f.Radiation.IsKnown() {
		return f.Radiation, false
	}
	if c.sky.Ra[hour] == 0 {
		return forecast.Known(0), false
	}
	cover, ok := f.Sky.Get()
	if !ok {
		return forecast.Value{}, false
	}
	return forecast.Known(FromCloud(c.sky.Sine[hour], cover)), true
}

// FromCloud gives the global radiation (W/m2) for the sine of the sun's elevation
// and the share of the sky under cloud. A single hour is easily a quarter off.
func FromCloud(sine, cover float64) float64 {
	return sun.ClearSky(sine) * sun.CloudTransmission(cover) // [Haurwitz45; KasCze80]
}

func humidity(f *forecast.Hour, t float64) (rh float64, ok bool) {
	if rh, ok = f.RH.Get(); ok {
		return rh, true
	}
	if dew, known := f.DewPoint.Get(); known {
		return min(100, air.RelativeHumidity(t, dew)), true // [FAO56 eq 14]
	}
	return 0, false
}
