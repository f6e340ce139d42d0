package table

import (
	"fmt"

	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// inside prints what is known of the air in a tunnel or house, hour by hour where a
// logger tells of it.
func (k *workings) inside(p *risk.PlantingDay) error {
	for _, s := range k.Inside(p) {
		k.hanging("  ", 4, s)
	}
	in := p.Inside
	if in == nil {
		return nil
	}
	columns := []column{{"hour", 5, false}, {"inside C", 6, true}, {"+-", 4, true}, {"outside C", 7, true}, {"RH %", 4, true}, {"light W/m2", 5, true}, {"inside is", 8, false}}
	lo, hi := in.Series.Day(k.day.Date, k.d.Zone())
	var rows [][]string
	for i := lo; i < hi; i++ {
		h, out := &in.Series.Hours[i], forecast.Value{}
		if at, ok := k.d.Assessment.Series.Index(h.Start); ok {
			out = k.d.Assessment.Series.Hours[at].Temp
		}
		spread := ""
		if h.Origin == forecast.OriginForecast {
			spread = fmt.Sprintf("%.1f", in.Spread(i))
		}
		rows = append(rows, []string{k.Clock(h.Start), digits(h.Temp, 1), spread, digits(out, 1), digits(h.RH, 0), digits(h.Radiation, 0), words.InsideHour(h)})
	}
	k.blank()
	if err := k.grid(columns, rows); err != nil {
		return err
	}
	k.hanging("  ", 4, "+-: the error of hours foretold, one standard deviation; the verdict is worked out at the middle and at 1.28 times that to both sides, and its range holds all three. "+
		"Light: "+k.cited(nil, "inside.cover_light")+" of the outside's; wind "+k.cited(nil, "inside.wind")+"; foretold from "+k.cited(nil, "inside.least_days")+" on.")
	return nil
}
