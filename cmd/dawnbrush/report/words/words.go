// Package words turns what the model works out into a grower's sentences, in
// metric or US units. It knows no layout: every report takes its sentences from
// here, so that a mail, a table and a page say the same thing in the same words.
//
// The sentences are plain ASCII, for a job of cron writes into a mail whose
// letters nobody declared. Degrees are therefore written "41 C" and "106 F".
//
// A value that is not known is said to be unknown; no function here puts a
// number in its place.
package words

import (
	"fmt"
	"math"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/unit"
	"dawnbrush/risk"
)

// Unknown stands in a table for what is not known.
const Unknown = "?"

// Words writes for one system of units and one time zone. The zero Words writes
// metric and UTC.
type Words struct {
	units risk.Units
	zone  *time.Location
	dates Dates
}

// New makes Words for a system of units and the garden's zone; a nil zone is UTC.
func New(u risk.Units, zone *time.Location) Words {
	if zone == nil {
		zone = time.UTC
	}
	return Words{units: u, zone: zone}
}

// In gives the same words with dates in another language.
func (w Words) In(d Dates) Words {
	w.dates = d
	return w
}

// us tells whether Fahrenheit, miles and inches are read here.
func (w Words) us() bool { return w.units == risk.US }

func (w Words) location() *time.Location {
	if w.zone == nil {
		return time.UTC
	}
	return w.zone
}

// Temp writes a temperature given in degC: "41 C" or "106 F".
func (w Words) Temp(c float64) string {
	if w.us() {
		return whole(unit.CtoF(c)) + " F"
	}
	return whole(c) + " C"
}

// Degrees writes a temperature without its unit, for a column that names it;
// Unknown where it is not known.
func (w Words) Degrees(v forecast.Value) string {
	c, ok := v.Get()
	switch {
	case !ok:
		return Unknown
	case w.us():
		return whole(unit.CtoF(c))
	}
	return whole(c)
}

// TempUnit is the unit that Degrees leaves out.
func (w Words) TempUnit() string {
	if w.us() {
		return "F"
	}
	return "C"
}

// Wind writes a wind given in m/s: "22 km/h" or "14 mph".
func (w Words) Wind(ms float64) string {
	if w.us() {
		return whole(unit.MsToMph(ms)) + " mph"
	}
	return whole(unit.MsToKmh(ms)) + " km/h"
}

// WindNumber writes a wind without its unit; Unknown where it is not known.
func (w Words) WindNumber(v forecast.Value) string {
	ms, ok := v.Get()
	switch {
	case !ok:
		return Unknown
	case w.us():
		return whole(unit.MsToMph(ms))
	}
	return whole(unit.MsToKmh(ms))
}

// WindUnit is the unit that WindNumber leaves out.
func (w Words) WindUnit() string {
	if w.us() {
		return "mph"
	}
	return "km/h"
}

// Depth writes an amount of rain given in mm: "6 mm", "0.4 mm", "0.24 in".
func (w Words) Depth(mm float64) string { return w.depthNumber(mm) + " " + w.DepthUnit() }

// DepthNumber writes an amount of rain without its unit; Unknown where it is
// not known.
func (w Words) DepthNumber(v forecast.Value) string {
	mm, ok := v.Get()
	if !ok {
		return Unknown
	}
	return w.depthNumber(mm)
}

// RainNumber writes a day's rain without its unit: "0.39+" where only some hours
// have an amount, Unknown where none has or it is nothing so far.
func (w Words) RainNumber(d *risk.Weather) string {
	if mm, ok := d.RainAtLeast.Get(); ok && !d.Rain.IsKnown() && mm > 0 {
		return w.depthNumber(mm) + "+"
	}
	return w.DepthNumber(d.Rain)
}

// DepthUnit is the unit that DepthNumber leaves out.
func (w Words) DepthUnit() string {
	if w.us() {
		return "in"
	}
	return "mm"
}

func (w Words) depthNumber(mm float64) string {
	switch {
	case w.us():
		return strings.TrimSuffix(fmt.Sprintf("%.2f", unit.MmToIn(mm)), ".00")
	case mm > 0 && mm < 9.95:
		return strings.TrimSuffix(fmt.Sprintf("%.1f", mm), ".0")
	}
	return whole(mm)
}

// Percent writes a chance of 0..1: "80 %". A chance that is not nil is never
// written as nil, nor an uncertain one as certain.
func (w Words) Percent(share float64) string { return percentNumber(share) + " %" }

// PercentNumber writes a chance without its sign; Unknown where it is not known.
func (w Words) PercentNumber(v forecast.Value) string {
	p, ok := v.Get()
	if !ok {
		return Unknown
	}
	return percentNumber(p)
}

func percentNumber(share float64) string {
	p := math.Round(100 * share)
	switch {
	case share > 0 && p < 1:
		p = 1
	case share < 1 && p > 99:
		p = 99
	}
	return whole(p)
}

// Clock writes the time of day in the garden's zone, 24 hours: "06:30".
func (w Words) Clock(t time.Time) string {
	return t.In(w.location()).Round(time.Minute).Format("15:04")
}

// Hours writes a stretch of the day: "06:30-08:30", "by 21:00" without a
// beginning, "from 06:30" without an end, "" without either. The end of a day is
// written 24:00.
func (w Words) Hours(from, to time.Time) string {
	switch {
	case from.IsZero() && to.IsZero():
		return ""
	case from.IsZero():
		return "by " + w.ending(to)
	case to.IsZero():
		return "from " + w.Clock(from)
	}
	return w.Clock(from) + "-" + w.ending(to)
}

func (w Words) ending(t time.Time) string {
	if c := w.Clock(t); c != "00:00" {
		return c
	}
	return "24:00"
}

// Day writes a date: "Thu 16 July".
func (w Words) Day(d forecast.Date) string {
	return w.dates.day(d)
}

// ShortDay writes a date for a narrow column: "Thu 16".
func (w Words) ShortDay(d forecast.Date) string {
	return fmt.Sprintf("%s %d", w.dates.weekday(d), d.Day)
}

// Days writes a spell of days: "Wed 1 to Fri 10 July", "Sun 28 June to Fri 3 July".
func (w Words) Days(from, to forecast.Date) string {
	switch {
	case from == to:
		return w.Day(from)
	case from.Month == to.Month && from.Year == to.Year && allDates[w.dates].form != monthDay:
		return w.ShortDay(from) + " to " + w.Day(to)
	}
	return w.Day(from) + " to " + w.Day(to)
}

// Moment writes a day and a time of it: "Thu 16 July 04:20".
func (w Words) Moment(t time.Time) string {
	return w.Day(forecast.DateOf(t, w.location())) + " " + w.Clock(t)
}

// Age writes how old something is: "35 min", "5 h", "3 days".
func (w Words) Age(d time.Duration) string {
	switch {
	case d < time.Minute:
		return "under a minute"
	case d < time.Hour:
		return fmt.Sprintf("%d min", int(d.Minutes()))
	case d < 48*time.Hour:
		return fmt.Sprintf("%d h", int(math.Round(d.Hours())))
	}
	return fmt.Sprintf("%d days", int(math.Round(d.Hours()/24)))
}

// whole writes a rounded number and never "-0".
func whole(v float64) string {
	s := fmt.Sprintf("%.0f", v)
	if s == "-0" {
		return "0"
	}
	return s
}

// Count writes a number of things: "1 flower", "12 flowers".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// List joins names: "a", "a and b", "a, b and c".
func List(names []string) string {
	switch n := len(names); n {
	case 0:
		return ""
	case 1:
		return names[0]
	default:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}
