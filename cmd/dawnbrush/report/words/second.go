package words

import (
	"fmt"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// Difference tells in which quantity two forecasts part: "rain 0.2 in here, none
// there".
func (w Words) Difference(d forecast.Difference) string {
	pair := func(what string, say func(float64) string) string {
		return what + " " + say(d.A) + " here, " + say(d.B) + " there"
	}
	switch d.Layer {
	case "Temp":
		return pair("on average", w.Temp)
	case "RainProb":
		return pair("chance of rain", w.Percent)
	case "Rain":
		return pair("rain", w.Depth)
	case "Wind":
		return pair("wind", w.Wind)
	}
	return pair("cloud", w.Percent)
}

// Stretch names a run of hours: "Thu 16 05:00-12:00", and a night that ends on the
// next day by its first one.
func (w Words) Stretch(s forecast.Stretch) string {
	first, last := forecast.DateOf(s.Start, w.location()), forecast.DateOf(s.End.Add(-time.Minute), w.location())
	if first != last {
		return "night of " + w.ShortDay(first)
	}
	return w.ShortDay(first) + " " + w.Hours(s.Start, s.End)
}

// Differences gives a line a stretch of hours.
func (w Words) Differences(list []forecast.Difference) []string {
	var out []string
	for i := 0; i < len(list); {
		var parts []string
		stretch := list[i].Stretch
		for ; i < len(list) && list[i].Stretch == stretch; i++ {
			parts = append(parts, w.Difference(list[i]))
		}
		out = append(out, w.Stretch(stretch)+": "+strings.Join(parts, "; "))
	}
	return out
}

// Parting says how a planting's day goes by the one forecast and the other.
func (w Words) Parting(date forecast.Date, p *risk.Planting, here, there []string) string {
	return fmt.Sprintf("%s, %s: %s here, %s there", w.ShortDay(date), p.Name, strings.Join(here, " and "), strings.Join(there, " and "))
}
