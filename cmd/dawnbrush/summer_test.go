package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/fixtures"
	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/nws"
)

// summer is the invented garden with a memory of its own and a station whose
// readings are the invented ones.
type summer struct {
	t       *testing.T
	dir     string
	weather []byte // the forecast of the last morning
}

func newSummer(t *testing.T) *summer {
	t.Helper()
	s := &summer{t: t, dir: t.TempDir()}
	garden, err := fs.ReadFile(fixtures.Demo, fixtures.GardenFile)
	require.NoError(t, err)
	s.write("garden.toml", bytes.ReplaceAll(garden, []byte("logger = "), []byte("# logger = "))) // the tunnel is another test's
	s.weather, err = fs.ReadFile(fixtures.Demo, fixtures.ForecastFile)
	require.NoError(t, err)
	return s
}

func (s *summer) path(name string) string { return filepath.Join(s.dir, name) }

func (s *summer) write(name string, text []byte) {
	require.NoError(s.t, os.WriteFile(s.path(name), text, 0o600))
}

// say runs a command of the garden, with its memory.
func (s *summer) say(args ...string) string {
	return s.run(append(args, "--memory", s.path("memory.db"))...)
}

func (s *summer) run(args ...string) string {
	s.t.Helper()
	out, code := run(s.t, time.Date(2026, 7, 20, 13, 30, 0, 0, time.UTC), append(args, "-c", s.path("garden.toml"))...)
	require.Contains(s.t, []int{0, 10}, code, "%v: %s", args, out)
	return out
}

// plan is a morning's plan from the forecast of that morning, shifted from that of
// 20 July.
func (s *summer) plan(at string, args ...string) []string {
	return append([]string{"today", "--from", s.path("forecast-" + at[:10] + ".json"), "--at", at}, args...)
}

// issue writes the forecast of a day: that of 20 July, moved.
func (s *summer) issue(day string) {
	to, err := forecast.ParseDate(day)
	require.NoError(s.t, err)
	by := to.DaysSince(forecast.Date{Year: 2026, Month: 7, Day: 20})
	moment := regexp.MustCompile(`2026-0\d-\d\dT`)
	s.write("forecast-"+day+".json", moment.ReplaceAllFunc(s.weather, func(b []byte) []byte {
		d, err := forecast.ParseDate(string(b[:10]))
		require.NoError(s.t, err)
		return []byte(d.AddDays(by).String() + "T")
	}))
}

// station writes what the garden's own station read, as a table.
func (s *summer) station() string {
	doc, err := fs.ReadFile(fixtures.Demo, fixtures.ObservationsFile)
	require.NoError(s.t, err)
	past, err := nws.ParseObservations(doc)
	require.NoError(s.t, err)
	var b strings.Builder
	b.WriteString("time,temp_c,rh,wind_ms,rain_mm\n")
	cell := func(v forecast.Value) string {
		if x, ok := v.Get(); ok {
			return fmt.Sprintf("%.2f", x)
		}
		return ""
	}
	for _, h := range past.Hours {
		fmt.Fprintf(&b, "%s,%s,%s,%s,%s\n", h.Start.Add(time.Hour).UTC().Format(time.RFC3339), cell(h.Temp), cell(h.RH), cell(h.Wind), cell(h.Rain))
	}
	s.write("station.csv", []byte(b.String()))
	return s.path("station.csv")
}

// A summer of mornings: what was noted, measured and forecast changes the plan of
// 20 July in the ways stated, and leaving the memory out gives the plan without.
func TestASummer(t *testing.T) {
	s := newSummer(t)
	for _, day := range []string{"2026-07-13", "2026-07-14", "2026-07-15", "2026-07-16", "2026-07-17", "2026-07-18", "2026-07-19", "2026-07-20"} {
		s.issue(day)
		s.say(s.plan(day + "T04:30")...)
	}
	assert.Contains(t, s.say("memory"), "8, issued from 2026-07-13 to 2026-07-20", "a forecast a morning is kept")

	morning := s.plan("2026-07-20T04:30")
	bare := s.run(append(morning, "--no-memory")...)
	assert.NotContains(t, bare, "look at fruit")
	assert.Contains(t, bare, "the weather of the days before is not\n    known", "no verdict on tomatoes")

	// Forecasts alone: what the plan of Thursday had brushed is looked at, and what
	// was never measured is told.
	before := s.say(morning...)
	assert.Contains(t, strings.Join(strings.Fields(before), " "), "look at fruit fence cucumbers")
	assert.Contains(t, before, "of the last 48 hours, 48 have forecast rain, not measured")
	assert.Contains(t, before, "the weather of the days before is not\n    known")

	// Measured hours: the heat of the days before tells on tomatoes and squash.
	s.say("observe", s.station())
	measured := s.say(morning...)
	assert.Contains(t, measured, "hot days before:")
	assert.Contains(t, measured, "few females        winter squash")
	assert.NotContains(t, measured, "the weather of the days before is not\n    known")

	// The diary: seedless watermelons brushed on Thursday against the plan are looked at too.
	looked := func(text string) string {
		return regexp.MustCompile(`the same for [a-z, ]+`).FindString(strings.Join(strings.Fields(text), " "))
	}
	assert.NotContains(t, looked(measured), "seedless watermelons")
	s.say("note", "brushed", "3", "seedless watermelons", "--on", "2026-07-16")
	brushed := s.say(morning...)
	assert.Contains(t, looked(brushed), "seedless watermelons")

	// A count at 06:30 changes the same morning's verdict.
	assert.Contains(t, s.say(s.plan("2026-07-20T06:35", "--quiet")...), "hand-pollinate fence cucumbers")
	s.say("note", "bees", "5min", "10", "flowers", "40", "fence cucumbers", "--at", "2026-07-20T06:30")
	assert.NotContains(t, s.say(s.plan("2026-07-20T06:35", "--quiet")...), "hand-pollinate fence cucumbers")
	s.say("note", "undo")
	assert.Contains(t, s.say(s.plan("2026-07-20T06:35", "--quiet")...), "hand-pollinate fence cucumbers")

	// No visit in a week of counts: fewer bees than the book has, and the brush
	// pays where the bees were trusted.
	assert.Contains(t, brushed, "leave to the bees  winter squash (east patch): bees will fill about 9 in 10\n    fruits")
	for _, day := range []string{"13", "14", "15", "16", "17"} {
		s.say("note", "bees", "10min", "10", "flowers", "0", "winter squash", "--at", "2026-07-"+day+"T07:00")
	}
	counted := s.say(morning...)
	assert.Contains(t, counted, "05:30-06:00  hand-pollinate  winter squash (east patch)\n")
	assert.Contains(t, counted, "bees will fill hardly any fruits, a brush 9 in 10")
	workings := s.say("workings", "2026-07-20", "winter squash", "--from", s.path("forecast-2026-07-20.json"), "--at", "2026-07-20T04:30")
	assert.Contains(t, workings, "5 counts")

	assert.Equal(t, bare, s.run(append(morning, "--no-memory")...), "without the memory the plan is as it was")
}
