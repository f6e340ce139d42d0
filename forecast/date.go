package forecast

import (
	"fmt"
	"time"
)

// Date is a civil date without a zone. The zero Date means "not given".
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// DateOf gives the civil date of t in loc.
func DateOf(t time.Time, loc *time.Location) Date {
	y, m, d := t.In(loc).Date()
	return Date{y, m, d}
}

// ParseDate reads YYYY-MM-DD and refuses dates that do not exist.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return Date{}, fmt.Errorf("%q is not a date like 2026-07-15", s)
	}
	return DateOf(t, time.UTC), nil
}

// IsZero tells whether no date was given.
func (d Date) IsZero() bool { return d == Date{} }

// Exists tells whether the calendar has the date: 30 February does not.
func (d Date) Exists() bool {
	read, err := ParseDate(d.String())
	return err == nil && read == d
}

// String writes YYYY-MM-DD.
func (d Date) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// MarshalText writes YYYY-MM-DD, or nothing for the zero Date.
func (d Date) MarshalText() ([]byte, error) {
	if d.IsZero() {
		return nil, nil
	}
	return []byte(d.String()), nil
}

// UnmarshalText reads YYYY-MM-DD, or nothing as the zero Date.
func (d *Date) UnmarshalText(b []byte) error {
	if len(b) == 0 {
		*d = Date{}
		return nil
	}
	v, err := ParseDate(string(b))
	if err == nil {
		*d = v
	}
	return err
}

func (d Date) utc() time.Time { return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC) }

// AddDays moves by n civil days.
func (d Date) AddDays(n int) Date { return DateOf(d.utc().AddDate(0, 0, n), time.UTC) }

// DaysSince counts civil days from o to d; negative when d is earlier.
func (d Date) DaysSince(o Date) int { return int(d.utc().Sub(o.utc()) / (24 * time.Hour)) }

// Before tells whether d is earlier than o.
func (d Date) Before(o Date) bool {
	if d.Year != o.Year {
		return d.Year < o.Year
	}
	if d.Month != o.Month {
		return d.Month < o.Month
	}
	return d.Day < o.Day
}

// After tells whether d is later than o.
func (d Date) After(o Date) bool { return o.Before(d) }

// Weekday gives the day of the week.
func (d Date) Weekday() time.Weekday { return d.utc().Weekday() }

// YearDay gives 1 to 366.
func (d Date) YearDay() int { return d.utc().YearDay() }

// Start gives the first instant of the civil day in loc. Where a zone skips
// midnight the first instant that exists is returned.
func (d Date) Start(loc *time.Location) time.Time {
	t := time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, loc)
	for DateOf(t, loc).Before(d) {
		t = t.Add(30 * time.Minute)
	}
	return t
}

// At gives the instant of a clock time (hours, may be fractional) on that day.
func (d Date) At(hours float64, loc *time.Location) time.Time {
	m := int(hours*60 + 0.5)
	return time.Date(d.Year, d.Month, d.Day, 0, m, 0, 0, loc)
}

// Span gives the first instant of the day and of the next one: 23, 24 or 25
// hours apart.
func (d Date) Span(loc *time.Location) (from, to time.Time) {
	return d.Start(loc), d.AddDays(1).Start(loc)
}
