package risk

import (
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/sun"
	"dawnbrush/risk/air"
	"dawnbrush/risk/source"
)

// Numbers of the air in a tunnel or house.
const (
	// coverLight is the share of the sun's radiation that gets in: six-year-old
	// plastic kept 40 % out, newer plastic 20 to 25 %.
	coverLight = 0.7 // [PurdLight, status derived]

	// WarmerHigh and WarmerLow are how far the highest and the lowest temperature in a
	// plastic tunnel stood above the outside's, degC, in the mean. They serve words, no sum.
	WarmerHigh, WarmerLow = 4.2, 1.3 // [Savage80, status read]

	// insideWind is the wind inside at 10 m's equivalent, m/s: too little to shake a
	// flower. [SDSUtun, status read] says so; the number is chosen.
	insideWind = 0.2 // [chosen, status chosen]

	// tenth is the distance of the tenth percentile from the middle in standard
	// deviations of a normal law. [AS64 table 26.1]
	tenth = 1.2816
)

// Inside is the air in a tunnel or house, hour by hour: as its logger measured it,
// else as it was foretold from the outside.
type Inside struct {
	Logger     string           // the name that Garden.Inside knows it by
	Series     *forecast.Series // as long as the outside's; OriginLogger measured, OriginForecast foretold, else unknown
	Last       time.Time        // end of the last hour measured
	Measured   int              // hours with a temperature measured
	Holes      int              // hours between the first and the last measured that lack
	Humidity   bool             // the logger measures humidity
	Difference Difference       // inside against outside
	spread     []float64        // degC, by hour of Series
	outer      [2]*forecast.Series
}

// Spread gives how far the temperature of an hour of Series may lie off, degC, one
// standard deviation; 0 where it was measured or is not known.
func (in *Inside) Spread(i int) float64 {
	if i < 0 || i >= len(in.spread) {
		return 0
	}
	return in.spread[i]
}

// insideOf works out the air inside over the hours of the outside's series s, whose
// light is in sky.
func insideOf(name string, log, s *forecast.Series, sky []air.Hour, p forecast.Place) *Inside {
	in := &Inside{Logger: name, Series: forecast.New(s.Start(), s.End()), spread: make([]float64, len(s.Hours))}
	lacking := 0
	for i := range log.Hours {
		h := &log.Hours[i]
		switch {
		case h.Temp.IsKnown():
			in.Measured, in.Last = in.Measured+1, h.Start.Add(time.Hour)
			in.Holes, lacking = in.Holes+lacking, 0
		case in.Measured > 0:
			lacking++
		}
		in.Humidity = in.Humidity || h.RH.IsKnown() || h.DewPoint.IsKnown()
	}
	in.Difference = learnDifference(log, s, sky, p)
	d := &in.Difference
	for i := range in.Series.Hours {
		out, h := &s.Hours[i], &in.Series.Hours[i]
		if k, ok := log.Index(h.Start); ok && log.Hours[k].Temp.IsKnown() && d.Fault == "" {
			*h = forecast.Hour{Start: h.Start, Temp: log.Hours[k].Temp, RH: humidityOf(&log.Hours[k]), Origin: forecast.OriginLogger}
		} else {
			in.spread[i] = d.foretell(h, out, sky, i, p)
		}
		underCover(h, out, &sky[i])
	}
	for k, sign := range [2]float64{-tenth, tenth} {
		in.outer[k] = forecast.New(s.Start(), s.End())
		for i := range in.Series.Hours {
			h := in.Series.Hours[i]
			if t, ok := h.Temp.Get(); ok {
				h.Temp = forecast.Known(t + sign*in.spread[i])
			}
			in.outer[k].Hours[i] = h
		}
	}
	return in
}

// underCover gives what a cover leaves of wind, rain and light. Under it no rain
// wets a flower.
func underCover(h, out *forecast.Hour, sky *air.Hour) {
	if h.Origin == forecast.OriginNone {
		return
	}
	h.WindFrom = forecast.Value{} // draughts go by doors
	h.Wind, h.Gust, h.Rain, h.RainProb = forecast.Known(insideWind), forecast.Known(insideWind), forecast.Known(0), forecast.Known(0)
	h.Sky, h.Thunder = out.Sky, out.Thunder
	if sky.Missing&air.Light == 0 {
		h.Radiation = forecast.Known(coverLight * sky.Light)
	} else {
		h.Sky = forecast.Value{}
	}
}

// humidityOf gives an hour's relative humidity, %, from the dew point where that
// alone is told.
func humidityOf(h *forecast.Hour) forecast.Value {
	if h.RH.IsKnown() {
		return h.RH
	}
	dew, ok1 := h.DewPoint.Get()
	t, ok2 := h.Temp.Get()
	if !ok1 || !ok2 {
		return forecast.Value{}
	}
	return forecast.Known(min(100, air.RelativeHumidity(t, dew)))
}

// vapour gives an hour's vapour pressure, kPa.
func vapour(h *forecast.Hour) (float64, bool) {
	if dew, ok := h.DewPoint.Get(); ok {
		return air.SaturationPressure(dew), true // [FAO56 eq 14]
	}
	t, ok1 := h.Temp.Get()
	rh, ok2 := h.RH.Get()
	return air.SaturationPressure(t) * rh / 100, ok1 && ok2 // [FAO56 eq 10]
}

// LearnDifference learns what a tunnel or house makes of the outside's air from
// hours in which both were measured. log is the logger's series, s the outside's.
func LearnDifference(log, s *forecast.Series, p forecast.Place) Difference {
	sky := make([]air.Hour, len(s.Hours))
	var track sun.Track
	air.Fill(sky, s.Hours, p, 1, air.Kind, &track)
	return learnDifference(log, s, sky, p)
}

// insideParams lists the numbers of the air in tunnels and houses.
func insideParams() []source.Param {
	chosen := source.Choice
	return []source.Param{
		{Name: "inside.cover_light", Value: coverLight, Unit: "share", Key: "PurdLight", Where: "page text", Status: source.Derived,
			Note: "light that a tunnel's cover lets in: plastic of six years kept about 40 % out, newer 20 to 25 %"},
		{Name: "inside.warmer_high", Value: WarmerHigh, Unit: "degC", Key: "Savage80", Where: "abstract", Status: source.Read,
			Note: "highest temperature in a plastic tunnel above the outside's, mean; serves words and the bound for heat, no sum"},
		{Name: "inside.warmer_low", Value: WarmerLow, Unit: "degC", Key: "Savage80", Where: "abstract", Status: source.Read,
			Note: "lowest temperature in a plastic tunnel above the outside's, mean; for a while after sunset it was colder inside"},
		chosen("inside.wind", insideWind, "m/s at 10 m", "too little to shake a flower: the wind in a high tunnel does not suffice (SDSUtun)"),
		chosen("inside.bees", levelFactor(Few), "times the book's visits", "bees that find the open sides; more is not assumed, and the spread stays that of an untold garden"),
		chosen("inside.bumble_hive", levelFactor(Many), "times the book's visits", "a hive of bumble bees works one tunnel or house"),
		chosen("inside.night_light", nightLight, "W/m2", "clear-sky light under which an hour's error counts as one of the night"),
		chosen("inside.follow", leastFollow, "correlation", "with the sun's height, under which nothing is said of a logger's clock"),
		chosen("inside.lag", usualLag, "h", "that a tunnel's warmth lags behind the sun's height, to tell by how much a clock is wrong"),
		{Name: "inside.tenth", Value: tenth, Unit: "standard deviations", Key: "AS64", Where: "table 26.1", Status: source.Memory,
			Note: "from the middle to one in ten: a foretold temperature is taken at the middle and this far to both sides"},
		chosen("inside.least_days", LeastLearn, "days", "with both measured, before the inside is foretold; a week holds dull days and clear ones"),
		chosen("inside.most_days", mostLearn, "days", "learned from, the last ones: vents, shade and the sun's height change with the season"),
		chosen("inside.least_hours", leastPairs, "h", "of a day with both measured that make it count"),
		chosen("inside.shrink", shrink, "h", "worth of no effect put to each term, so that few days make no wild slope"),
		chosen("inside.wild", wildDifference, "degC", "mean difference from which a logger is taken to tell degrees Fahrenheit"),
		chosen("inside.most_lag", mostLag, "h", "the warmth of a tunnel lags behind the sun's height by no more; one that leads it by over an hour is a clock set wrong too"),
		chosen("inside.least_humidity", leastRH, "%", "air among leaves is never drier"),
	}
}
