package store_test

import (
	"time"

	"dawnbrush/forecast"
)

// issued makes a forecast of some hours from its issue on.
func issued(at time.Time, hours int) *forecast.Series {
	f := forecast.New(at, at.Add(time.Duration(hours)*time.Hour))
	f.Feed, f.Source, f.Issued = "nws", "National Weather Service", at
	for i := range f.Hours {
		h := &f.Hours[i]
		h.Temp, h.RH, h.Wind = forecast.Known(20+float64(i%24)/3), forecast.Known(60), forecast.Known(2.5)
		h.Rain, h.RainProb, h.Origin = forecast.Known(0.5), forecast.Known(0.4), forecast.OriginForecast
	}
	for lo := 0; lo+6 <= hours; lo += 6 {
		f.Blocks = append(f.Blocks, forecast.RainBlock{Start: f.Hours[lo].Start, End: f.Hours[lo].Start.Add(6 * time.Hour), Amount: forecast.Known(3), Prob: forecast.Known(0.4)})
	}
	f.DayMax = []forecast.Extreme{{Start: f.Start(), End: f.Start().Add(12 * time.Hour), Temp: forecast.Known(29)}}
	f.Notes = []forecast.Note{{Layer: "Rain", Text: "amounts end on Sunday"}}
	return f
}
