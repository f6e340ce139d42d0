package fetch

import (
	"net/http"
	"strconv"
	"strings"
	"time"
)

// lifetime gives how long an answer may be used without asking again: max-age
// less the Age it already had, else Expires less Date. A private cache does not
// heed s-maxage. [RFC 9111 sections 4.2.1 and 5.2.2]
func lifetime(h http.Header, now time.Time) time.Duration {
	directives := cacheControl(h)
	if _, ok := directives["no-cache"]; ok {
		return 0
	}
	if s, ok := directives["max-age"]; ok {
		n, err := strconv.ParseUint(s, 10, 31)
		if err != nil {
			return 0
		}
		age, _ := strconv.ParseUint(h.Get("Age"), 10, 31)
		return max(0, time.Duration(n)*time.Second-time.Duration(age)*time.Second)
	}
	expires, err := http.ParseTime(h.Get("Expires"))
	if err != nil {
		return 0
	}
	if date, err := http.ParseTime(h.Get("Date")); err == nil {
		now = date // the difference is free of a wrong clock here
	}
	return max(0, expires.Sub(now))
}

// mayStore tells whether the answer may be kept. [RFC 9111 section 5.2.2.5]
func mayStore(h http.Header) bool {
	_, no := cacheControl(h)["no-store"]
	return !no
}

func cacheControl(h http.Header) map[string]string {
	out := map[string]string{}
	for _, part := range strings.Split(strings.Join(h.Values("Cache-Control"), ","), ",") {
		name, value, _ := strings.Cut(strings.TrimSpace(part), "=")
		if name != "" {
			out[strings.ToLower(name)] = strings.Trim(value, `"`)
		}
	}
	return out
}

// retryAfter reads seconds or a date; 0 when there is neither.
// [RFC 9110 section 10.2.3]
func retryAfter(h http.Header, now time.Time) time.Duration {
	s := strings.TrimSpace(h.Get("Retry-After"))
	if n, err := strconv.ParseUint(s, 10, 31); err == nil {
		return time.Duration(n) * time.Second
	}
	if t, err := http.ParseTime(s); err == nil {
		return max(0, t.Sub(now))
	}
	return 0
}
