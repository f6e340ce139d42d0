package nws

import (
	"fmt"
	"strings"
	"time"
)

// maxDuration bounds one interval. The longest seen in any document is about
// eight days. [chosen]
const maxDuration = 366 * 24 * time.Hour

// parseDuration reads the part of ISO 8601 durations that the service uses:
// whole days, hours, minutes and seconds, in that order, each at most once.
// Years and months have no fixed length and are refused, and so are the empty
// forms "P", "PT" and "P1DT". [ISO 8601-1:2019 5.5.2.2, status memory]
func parseDuration(s string) (time.Duration, error) {
	rest, ok := strings.CutPrefix(s, "P")
	if !ok || rest == "" {
		return 0, fmt.Errorf("%q is not a duration like PT6H", s)
	}
	days, clock, hasClock := strings.Cut(rest, "T")
	if hasClock && clock == "" {
		return 0, fmt.Errorf("%q is not a duration like PT6H", s)
	}
	d, ok1 := sumUnits(days, "D", []time.Duration{24 * time.Hour})
	t, ok2 := sumUnits(clock, "HMS", []time.Duration{time.Hour, time.Minute, time.Second})
	if !ok1 || !ok2 || d+t > maxDuration {
		return 0, fmt.Errorf("%q is not a duration in days, hours, minutes and seconds", s)
	}
	return d + t, nil
}

// sumUnits adds up number-letter pairs whose letters come in the given order.
func sumUnits(s, letters string, size []time.Duration) (time.Duration, bool) {
	var sum time.Duration
	for s != "" {
		n, i := time.Duration(0), 0
		for i < len(s) && s[i] >= '0' && s[i] <= '9' {
			n = n*10 + time.Duration(s[i]-'0')
			if i++; n > maxDuration/time.Second {
				return 0, false
			}
		}
		if i == 0 || i == len(s) {
			return 0, false
		}
		k := strings.IndexByte(letters, s[i])
		if k < 0 || n > maxDuration/size[k] {
			return 0, false
		}
		sum += n * size[k]
		s, letters, size = s[i+1:], letters[k+1:], size[k+1:]
	}
	return sum, true
}

// parseInterval reads start/duration, start/end and duration/end. The schema's
// word NOW is refused: a stored document has no now.
// [api.weather.gov OpenAPI, ISO8601Interval, status quoted]
func parseInterval(s string) (start, end time.Time, err error) {
	a, b, ok := strings.Cut(s, "/")
	if !ok {
		return start, end, fmt.Errorf("%q is not a time interval", s)
	}
	switch {
	case strings.HasPrefix(b, "P"):
		var d time.Duration
		if start, err = parseTime(a); err == nil {
			d, err = parseDuration(b)
		}
		end = start.Add(d)
	case strings.HasPrefix(a, "P"):
		var d time.Duration
		if end, err = parseTime(b); err == nil {
			d, err = parseDuration(a)
		}
		start = end.Add(-d)
	default:
		if start, err = parseTime(a); err == nil {
			end, err = parseTime(b)
		}
	}
	if err != nil {
		return time.Time{}, time.Time{}, err
	}
	if span := end.Sub(start); span <= 0 || span > maxDuration {
		return time.Time{}, time.Time{}, fmt.Errorf("%q is an empty or endless time interval", s)
	}
	return start, end, nil
}

// parseTime reads RFC 3339, also with the offset written +0000.
func parseTime(s string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, s)
	if err != nil {
		t, err = time.Parse("2006-01-02T15:04:05Z0700", s)
	}
	if err != nil {
		return time.Time{}, fmt.Errorf("%q is not a time like 2026-07-15T12:00:00+00:00", s)
	}
	if y := t.Year(); y < 1900 || y > 2200 { // outside, differences overflow
		return time.Time{}, fmt.Errorf("%q is a time in another age", s)
	}
	return t.UTC(), nil
}
