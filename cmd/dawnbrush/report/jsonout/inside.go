package jsonout

import (
	"time"

	"dawnbrush/risk"
)

// insideJSON tells of the air in a tunnel or house with a logger.
type insideJSON struct {
	Logger   string           `json:"logger"`
	Measured int              `json:"hours_measured"`
	Until    *time.Time       `json:"measured_until"`
	Humidity bool             `json:"humidity_measured"`
	Days     int              `json:"days_learned_from"`
	Way      *string          `json:"foretold_by"`
	Error    *float64         `json:"error_c"`
	ByHour   *float64         `json:"error_by_hour_c"`
	Same     *float64         `json:"error_same_as_outside_c"`
	Not      *string          `json:"not_used"`
	Hours    []insideHourJSON `json:"hours"`
}

type insideHourJSON struct {
	Start  *time.Time `json:"start"`
	Temp   *float64   `json:"temp_c"`
	Error  float64    `json:"error_c"`
	RH     *float64   `json:"humidity_percent"`
	Light  *float64   `json:"radiation_w_m2"`
	Origin string     `json:"origin"`
}

// inside writes what a verdict under cover rests on, nil in the open; withHours adds
// the day's hours.
func (m *maker) inside(p *risk.PlantingDay, withHours bool, day *risk.Day) *insideJSON {
	in := p.Inside
	if in == nil {
		return nil
	}
	d := &in.Difference
	out := &insideJSON{Logger: in.Logger, Measured: in.Measured, Until: m.at(in.Last), Humidity: in.Humidity, Days: d.Days, Hours: []insideHourJSON{}}
	if d.Fault != "" {
		out.Not = &d.Fault
	}
	if d.Known {
		way := d.Way.String()
		e, h, s := round(d.Errors[d.Way]), round(d.Errors[risk.ByHour]), round(d.Errors[risk.SameAsOutside])
		out.Way, out.Error, out.ByHour, out.Same = &way, &e, &h, &s
	}
	if !withHours {
		return out
	}
	lo, hi := in.Series.Day(day.Date, m.zone)
	for i := lo; i < hi; i++ {
		h := &in.Series.Hours[i]
		out.Hours = append(out.Hours, insideHourJSON{m.at(h.Start), number(h.Temp), round(in.Spread(i)), number(h.RH), number(h.Radiation), h.Origin.String()})
	}
	return out
}
