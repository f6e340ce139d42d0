package risk

import (
	"math"
	"slices"

	"dawnbrush/forecast"
	"dawnbrush/risk/air"
	"dawnbrush/risk/source"
)

// tenToNinety is how many standard deviations one in ten lies beyond, on either
// side of a normal law. [AS64 table 26.1, status memory]
const tenToNinety = 1.2816

// meanToSD turns a mean absolute error into a standard deviation: a normal law's
// is sqrt(pi/2) of it. [AS64 table 26.1, status memory]
const meanToSD = 1.2533

// Errors of a forecast by days ahead, 1 to 7: the day's maximum as standard
// deviation (degF), wind as mean error (knots), cloud as mean error (share).
// [NWSverif21, status derived] the maximum of the first two days, 2.56 and 2.93;
// [memory] days 3 to 7 and all of wind and cloud.
var (
	errTemp  = [7]float64{2.6, 2.9, 3.4, 3.9, 4.4, 5.0, 5.4}
	errWind  = [7]float64{2.8, 3.0, 3.1, 3.3, 3.4, 3.6, 3.7}
	errCloud = [7]float64{0.15, 0.17, 0.19, 0.21, 0.23, 0.25, 0.275}
)

// errRH is the error of a forecast of relative humidity, standard deviation in
// points: the middle of 12 to 18. [DTCwrf, status quoted]
const errRH = 15.0

// errFrom is the error of a forecast of the wind's direction, a mean of the days ahead
// in the light winds of a morning. [memory, status memory]
const errFrom = 35 // degrees mean error

// surelyWet and surelyDry are the chances of rain beyond which its falling is not
// in doubt: one in ten, as for every other end. [chosen, status chosen]
const (
	surelyWet = 0.9
	surelyDry = 0.1
)

// mattersParams lists the numbers of what matters that no crop owns.
func mattersParams() []source.Param {
	number := func(name string, v float64, unit, key, where string, status source.Status, note string) source.Param {
		return source.Param{Name: name, Value: v, Unit: unit, Key: key, Where: where, Status: status, Note: note}
	}
	byDay := func(name string, v [7]float64, unit, note string) source.Param {
		p := source.Param{Name: name, Kind: source.Points, X: "days ahead", Unit: unit, Key: source.KeyMemory, Status: source.Memory, Note: note}
		for i := range v {
			p.Curve = append(p.Curve, [2]float64{float64(i + 1), v[i]})
		}
		return p
	}
	temp := byDay("matters.error_temperature", errTemp, "degF standard deviation", "of the day's maximum; the first two days were measured")
	temp.Others = []source.Alternative{{Text: "2.56 a day ahead, 2.93 two days", Key: "NWSverif21", Where: "maxima of May to September, contiguous US", Status: source.Derived}}
	return []source.Param{temp,
		byDay("matters.error_wind", errWind, "knots mean error", "of a forecast's wind"),
		byDay("matters.error_cloud", errCloud, "share mean error", "15 to 20 points on the first day, 25 to 30 on the seventh; days between by a straight line"),
		number("matters.error_humidity", errRH, "points standard deviation", "DTCwrf", "executive summary", source.Quoted, "middle of 12 to 18"),
		number("matters.error_wind_from", errFrom, "degrees mean error", source.KeyMemory, "", source.Memory, "of a forecast's wind direction in light winds; strong winds are foretold better"),
		number("matters.cultivar_heat", cultivarHeat, "degC", source.KeyChosen, "", source.Chosen, "how far cultivars stand apart in the heat they bear"),
		number("matters.step_hours", stepHours, "h", source.KeyChosen, "", source.Chosen, "ends of an hour of the flower's day where none were published"),
		number("matters.surely", surelyWet, "chance of rain", source.KeyChosen, "", source.Chosen, "beyond it rain is not in doubt; below one in ten neither"),
		number("matters.least_move", leastMove, "share", source.KeyChosen, "", source.Chosen, "a smaller change shows as the same percent"),
	}
}

const knot = 0.514444 // m/s [ISO80000, status memory]

// weather is what a forecast may miss. Measured hours are not in doubt.
func (b *bench) weather() []input {
	k := b.leadDays() - 1
	remembered := func(name string, by float64, unit, note string) source.Param {
		p := source.Param{Name: name, Kind: source.Span, Range: &source.Interval{Low: -by, High: by}, Unit: unit,
			Key: source.KeyMemory, Status: source.Memory, Note: note}
		if day, ok := b.a.Day(b.date); ok && !day.Forecast {
			p.Range, p.Note = &source.Interval{}, "measured"
		}
		return p
	}
	shift := func(hour func(h *forecast.Hour, x float64)) func(*trial, float64) {
		return func(t *trial, x float64) { t.shift(hour, x) }
	}
	temp := remembered("weather.temperature", tenToNinety*errTemp[k]*5/9, "degC", "error of a forecast so many days ahead; the dew point is held")
	if k < 2 {
		temp.Key, temp.Where, temp.Status = "NWSverif21", "maxima of May to September, contiguous US", source.Derived
	}
	damp := remembered("weather.humidity", tenToNinety*errRH, "points of relative humidity", "error of a forecast within a day")
	damp.Key, damp.Where, damp.Status = "DTCwrf", "executive summary", source.Quoted
	out := []input{
		{temp, CannotKnow,
			func(t *trial, x float64) { t.shift(warmer, x); t.extremes(x) }},
		{remembered("weather.wind", tenToNinety*meanToSD*errWind[k]*knot, "m/s at 10 m", "error of a forecast so many days ahead"), CannotKnow,
			shift(func(h *forecast.Hour, x float64) { h.Wind = moved(h.Wind, x, 0, 80) })},
		{damp, CannotKnow,
			shift(func(h *forecast.Hour, x float64) { h.RH = moved(h.RH, x, 1, 100) })},
		{remembered("weather.cloud", tenToNinety*meanToSD*errCloud[k], "share of the sky", "error of a forecast so many days ahead; where the feed tells the light, the light moves by as large a share"), CannotKnow,
			shift(func(h *forecast.Hour, x float64) {
				h.Sky = moved(h.Sky, x, 0, 1)
				if r, ok := h.Radiation.Get(); ok {
					h.Radiation = forecast.Known(r * (1 - x))
				}
			})},
	}
	if few, told := b.p.FewRows(); few && told {
		out = append(out, input{remembered("weather.wind_from", tenToNinety*meanToSD*errFrom, "degrees", "error of a forecast's wind direction in light winds"), CannotKnow,
			shift(func(h *forecast.Hour, x float64) {
				if v, ok := h.WindFrom.Get(); ok {
					h.WindFrom = forecast.Known(math.Mod(v+x+360, 360))
				}
			})})
	}
	return append(out, b.rain())
}

// warmer shifts the air's warmth and holds its moisture.
func warmer(h *forecast.Hour, x float64) {
	t, ok := h.Temp.Get()
	if !ok {
		return
	}
	h.Temp = forecast.Known(t + x)
	if rh, ok := h.RH.Get(); ok {
		h.RH = forecast.Known(min(100, rh*air.SaturationPressure(t)/air.SaturationPressure(t+x)))
	}
}

func moved(v forecast.Value, by, lo, hi float64) forecast.Value {
	x, ok := v.Get()
	if !ok {
		return v
	}
	return forecast.Known(max(lo, min(hi, x+by)))
}

// shift changes the forecast hours of a copied series.
func (t *trial) shift(hour func(h *forecast.Hour, x float64), x float64) {
	own := *t.s
	own.Hours = slices.Clone(t.s.Hours)
	for i := range own.Hours {
		if own.Hours[i].Origin == forecast.OriginForecast {
			hour(&own.Hours[i], x)
		}
	}
	t.s = &own
}

// extremes shifts the days' highest temperatures as issued.
func (t *trial) extremes(x float64) {
	t.s.DayMax = slices.Clone(t.s.DayMax)
	for i := range t.s.DayMax {
		t.s.DayMax[i].Temp = moved(t.s.DayMax[i].Temp, x, -90, 70)
	}
}

// rain is whether the rain that may fall on the day falls: dry to wet, unless its
// chance leaves less than one in ten for either.
func (b *bench) rain() input {
	from, to := b.date.Span(b.a.Garden.Place.Zone)
	most := 0.0
	for _, r := range b.a.Series.Blocks {
		if r.Start.Before(to) && r.End.After(from) {
			most = max(most, r.Prob.Or(0))
		}
	}
	ends := source.Interval{Low: 0, High: 1}
	if most < surelyDry {
		ends.High = 0
	}
	if most > surelyWet {
		ends.Low = 1
	}
	d := source.Param{Name: "weather.rain", Kind: source.Span, Range: &ends, Unit: "chance of rain", Key: "NWSpop",
		Where: "definition", Status: source.Derived, Note: "the day's rain does not fall or falls, as its own chance leaves open"}
	return input{d, CannotKnow, func(t *trial, x float64) {
		own := *t.s
		own.Blocks = slices.Clone(t.s.Blocks)
		for i := range own.Blocks {
			if r := &own.Blocks[i]; r.Start.Before(to) && r.End.After(from) && r.Prob.Or(0) > 0 {
				r.Prob = forecast.Known(x)
			}
		}
		t.s = &own
	}}
}
