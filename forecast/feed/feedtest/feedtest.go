// Package feedtest holds the tests that every feed reader has to pass, and finds
// recorded documents for tests.
package feedtest

import (
	"fmt"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
)

// Doc is a forecast document that the reader under test has to read.
type Doc struct {
	Name string
	Body []byte
	Now  time.Time // the zero time for a document read long after

	// NoIssue marks a document that does not say when it was issued; its series
	// has no issue either, and its age is counted from when it was fetched.
	NoIssue bool
}

// Run checks a reader against the promises of feed.Reader, with documents of
// its own.
func Run(t *testing.T, r feed.Reader, docs ...Doc) {
	t.Helper()
	require.NotEmpty(t, docs, "a reader is tested with documents")
	t.Run("info", func(t *testing.T) { checkInfo(t, r.Info()) })
	t.Run("foreign", func(t *testing.T) { checkForeign(t, r) })
	for _, d := range docs {
		t.Run(d.Name, func(t *testing.T) {
			require.True(t, r.Recognise(d.Body), "a reader recognises its own document")
			s, err := r.Parse(d.Body, d.Now)
			require.NoError(t, err)
			require.NoError(t, Check(s))
			require.Equal(t, r.Info().Key, s.Feed)
			require.NotEmpty(t, s.Source)
			require.Equal(t, d.NoIssue, s.Issued.IsZero(), "a forecast says when it was issued, unless its service never does")
			checkBound(t, s)
			again, err := r.Parse(d.Body, d.Now)
			require.NoError(t, err)
			require.Equal(t, s, again, "reading twice gives the same")
			checkCut(t, r, d)
			checkTruncated(t, r, d)
		})
	}
}

var keyForm = regexp.MustCompile(`^[a-z][a-z0-9]*$`)

func checkInfo(t *testing.T, i feed.Info) {
	assert.Regexp(t, keyForm, i.Key)
	for name, s := range map[string]string{"name": i.Name, "coverage": i.Coverage, "terms": i.Terms, "licence": i.Licence} {
		assert.NotEmpty(t, s, name)
	}
	assert.Regexp(t, `^https://`, i.TermsURL)
	assert.NotEmpty(t, i.Hosts)
	_, err := time.Parse("2006-01", i.TermsRead)
	assert.NoError(t, err, "the month in which the terms were read")
}

// foreign holds the beginnings of documents that no reader may take for its
// own, except the one under the key.
var foreign = map[string]string{
	"empty":     "",
	"web page":  "<!DOCTYPE html><html><body>503 Service Unavailable</body></html>",
	"xml":       `<?xml version="1.0"?><weatherdata></weatherdata>`,
	"list":      `[1,2,3]`,
	"object":    `{"error":true,"reason":"no"}`,
	"nws":       `{"id":"https://api.weather.gov/gridpoints/ABC/1,2","properties":{"updateTime":"2026-07-15T18:36:45+00:00","validTimes":"x"}}`,
	"metno":     `{"type":"Feature","geometry":{"type":"Point","coordinates":[9.58,60.1,496]},"properties":{"meta":{"updated_at":"2021-10-12T10:54:25Z","units":{"air_temperature":"celsius"}},"timeseries":[]}}`,
	"openmeteo": `{"latitude":52.52,"longitude":13.42,"generationtime_ms":0.1,"utc_offset_seconds":0,"hourly_units":{"time":"unixtime"},"hourly":{"time":[]}}`,
	"brightsky": `{"weather":[{"timestamp":"2024-10-26T00:00:00+02:00","source_id":1,"precipitation":0.0}],"sources":[]}`,
}

func checkForeign(t *testing.T, r feed.Reader) {
	for name, doc := range foreign {
		if name != r.Info().Key {
			assert.False(t, r.Recognise([]byte(doc)), "recognises %s", name)
		}
		if s, err := r.Parse([]byte(doc), time.Time{}); err == nil {
			assert.NoError(t, Check(s), "reads %s", name)
		}
	}
}

// checkBound makes sure that the hours outside every layer stay unknown: a
// series neither begins nor ends with hours of nothing, and no hour without an
// origin has a value.
func checkBound(t *testing.T, s *forecast.Series) {
	require.NotEmpty(t, s.Hours)
	first, last := s.Hours[0], s.Hours[len(s.Hours)-1]
	assert.NotEqual(t, forecast.OriginNone, first.Origin, "the series begins with nothing")
	assert.NotEqual(t, forecast.OriginNone, last.Origin, "the series ends with nothing")
}

// checkCut makes sure that a clock inside a rain block divides it and changes
// no amount.
func checkCut(t *testing.T, r feed.Reader, d Doc) {
	whole, err := r.Parse(d.Body, time.Time{})
	require.NoError(t, err)
	for _, b := range whole.Blocks {
		if b.End.Sub(b.Start) < 2*time.Hour {
			continue
		}
		now := b.Start.Add(90 * time.Minute)
		cut, err := r.Parse(d.Body, now)
		require.NoError(t, err)
		require.NoError(t, Check(cut))
		require.InDelta(t, blockTotal(whole), blockTotal(cut), rainTolerance)
		for _, c := range cut.Blocks {
			full := now.Truncate(time.Hour)
			require.False(t, c.Start.Before(full) && c.End.After(full), "block %v to %v spans the clock", c.Start, c.End)
		}
		return
	}
}

// truncations is the number of places at which each document is cut. [chosen]
const truncations = 200

func checkTruncated(t *testing.T, r feed.Reader, d Doc) {
	step := max(1, len(d.Body)/truncations)
	for n := 0; n < len(d.Body); n += step {
		s, err := r.Parse(d.Body[:n], d.Now)
		if err == nil {
			require.NoError(t, Check(s), "cut at byte %d", n)
			continue
		}
		require.NotEmpty(t, err.Error())
		hint, ok := err.(interface{ Hint() string })
		require.True(t, ok, "cut at byte %d: no hint in %T", n, err)
		require.NotEmpty(t, hint.Hint())
	}
}

// rainTolerance is the difference in mm that rounding may make in a week.
// [chosen: the smallest step of rain that services publish]
const rainTolerance = 0.01

func blockTotal(s *forecast.Series) float64 {
	sum := 0.0
	for _, b := range s.Blocks {
		sum += b.Amount.Or(0)
	}
	return sum
}

// Check tells whether a series keeps the promises of package forecast: full UTC
// hours without holes, values of this world, rain of the forecast hours equal to
// that of the blocks where there are blocks.
func Check(s *forecast.Series) error {
	total := 0.0
	for i, h := range s.Hours {
		if h.Start.Location() != time.UTC || !h.Start.Equal(h.Start.Truncate(time.Hour)) {
			return fmt.Errorf("hour %d begins at %v", i, h.Start)
		}
		if i > 0 && h.Start.Sub(s.Hours[i-1].Start) != time.Hour {
			return fmt.Errorf("hour %d begins at %v, the one before at %v", i, h.Start, s.Hours[i-1].Start)
		}
		if err := checkHour(h); err != nil {
			return err
		}
		if h.Origin == forecast.OriginForecast {
			total += h.Rain.Or(0)
		}
	}
	for i, b := range s.Blocks {
		if !b.End.After(b.Start) || i > 0 && b.Start.Before(s.Blocks[i-1].End) {
			return fmt.Errorf("block %d from %v to %v is empty or overlaps the one before", i, b.Start, b.End)
		}
		if err := within("chance of a block", b.Prob, 0, 1); err != nil {
			return err
		}
		if err := within("rain of a block", b.Amount, 0, 300*24); err != nil {
			return err
		}
	}
	if len(s.Blocks) > 0 {
		if d := total - blockTotal(s); d > rainTolerance || d < -rainTolerance {
			return fmt.Errorf("the hours hold %.3f mm, the blocks %.3f", total, blockTotal(s))
		}
	}
	return nil
}

func checkHour(h forecast.Hour) error {
	known := false
	for _, c := range []struct {
		name   string
		v      forecast.Value
		lo, hi float64
	}{
		{"temperature", h.Temp, -60, 60}, {"dew point", h.DewPoint, -60, 60}, {"humidity", h.RH, 0, 100},
		{"wind", h.Wind, 0, 75}, {"wind direction", h.WindFrom, 0, 360}, {"gust", h.Gust, 0, 75}, {"sky", h.Sky, 0, 1}, {"radiation", h.Radiation, 0, 1400},
		{"rain", h.Rain, 0, 300}, {"chance of rain", h.RainProb, 0, 1}, {"thunder", h.Thunder, 0, 1},
	} {
		if err := within(c.name, c.v, c.lo, c.hi); err != nil {
			return fmt.Errorf("%v: %w", h.Start, err)
		}
		known = known || c.v.IsKnown()
	}
	if known != (h.Origin != forecast.OriginNone) {
		return fmt.Errorf("%v: origin %v, values known: %v", h.Start, h.Origin, known)
	}
	return nil
}

func within(name string, v forecast.Value, lo, hi float64) error {
	if x, ok := v.Get(); ok && !(x >= lo && x <= hi) { // also catches NaN
		return fmt.Errorf("%s is %v", name, x)
	}
	return nil
}
