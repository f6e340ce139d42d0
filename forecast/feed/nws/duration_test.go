package nws

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

func TestDurations(t *testing.T) {
	// Forms seen in documents of the service, and of ISO 8601-1:2019 5.5.2.
	for s, want := range map[string]time.Duration{
		"PT1H": time.Hour, "PT23H": 23 * time.Hour, "P1D": 24 * time.Hour, "P6DT15H": 159 * time.Hour,
		"P7DT21H": 189 * time.Hour, "PT30M": 30 * time.Minute, "PT1H30M5S": 90*time.Minute + 5*time.Second, "PT0S": 0,
	} {
		got, err := parseDuration(s)
		assert.NoError(t, err, s)
		assert.Equal(t, want, got, s)
	}
	for _, s := range []string{"", "P", "PT", "P1DT", "1H", "P1Y", "P1M", "P1W", "PT1D", "P1H", "PT1M1H", "PT1H1H", "PT-1H",
		"PT1.5H", "PTH", "P1", "PT1", "pt1h", "P99999999999999999999D", "P9999D", "PT1H ", " PT1H", "P1DT1HT1H"} {
		_, err := parseDuration(s)
		assert.Error(t, err, s)
	}
}

func TestIntervals(t *testing.T) {
	start := time.Date(2024, 5, 6, 12, 0, 0, 0, time.UTC)
	for _, s := range []string{"2024-05-06T12:00:00+00:00/PT6H", "2024-05-06T12:00:00Z/PT6H", "2024-05-06T12:00:00+0000/PT6H",
		"2024-05-06T08:00:00-04:00/PT6H", "2024-05-06T12:00:00Z/2024-05-06T18:00:00Z", "PT6H/2024-05-06T18:00:00Z"} {
		a, b, err := parseInterval(s)
		assert.NoError(t, err, s)
		assert.Equal(t, start, a, s)
		assert.Equal(t, start.Add(6*time.Hour), b, s)
	}
	for _, s := range []string{"", "2024-05-06T12:00:00Z", "2024-05-06T12:00:00Z/", "NOW/PT1H", "2024-05-06T12:00:00Z/PT0S",
		"2024-05-06T12:00:00Z/2024-05-06T11:00:00Z", "2024-05-06/PT1H", "0001-01-01T00:00:00Z/PT1H", "PT1H/PT1H"} {
		_, _, err := parseInterval(s)
		assert.Error(t, err, s)
	}
}
