package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A season of a garden with two cultivars of summer squash: the first flower of the
// early one, typed, moves the late one's flowers; `memory learned` tells what was
// learned and compares them. All numbers are invented.
func TestLearnedFromASeason(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	garden := write("garden.toml", `contact = "grower@garden.example"
[place]
lat = 41.0
lon = -93.0
zone = "America/Chicago"
[[planting]]
name = "early yellow"
crop = "summer squash"
cultivar = "Sand Yellow"
sown = 2026-05-01
[[planting]]
name = "early grey"
crop = "summer squash"
cultivar = "Grey Hill"
sown = 2026-05-01
[[planting]]
name = "late yellow"
crop = "summer squash"
cultivar = "Sand Yellow"
sown = 2026-06-10
`)
	zone, err := time.LoadLocation("America/Chicago")
	require.NoError(t, err)
	var csv strings.Builder
	csv.WriteString("time,temp_c,rh,wind_2m_ms,rain_mm\n")
	start, now := time.Date(2026, 5, 1, 0, 0, 0, 0, zone), time.Date(2026, 7, 1, 5, 0, 0, 0, zone)
	for at := start.Add(time.Hour); !at.After(now); at = at.Add(time.Hour) {
		temp := 21 + 7*math.Sin(2*math.Pi*(float64(at.Hour())-9)/24) // 14 to 28: 11 degree days above 10
		fmt.Fprintf(&csv, "%s,%.2f,60,1,0\n", at.Format(time.RFC3339), temp)
	}
	station := write("station.csv", csv.String())
	memory := filepath.Join(dir, "m.db")
	say := func(args ...string) string {
		out, code := run(t, now, append(args, "-c", garden, "--memory", memory)...)
		require.Zero(t, code, "%v: %s", args, out)
		return out
	}
	forecast := write("forecast.json", string(func() []byte {
		doc, err := json.Marshal(shapes["nws"](now.UTC().Truncate(time.Hour)))
		require.NoError(t, err)
		return doc
	}()))
	basis := func() string {
		out, code := run(t, now, "workings", "2026-07-02", "late yellow", "-c", garden, "--memory", memory, "--from", forecast)
		require.Contains(t, []int{0, 10}, code, out)
		return strings.Join(strings.Fields(out), " ")
	}
	say("observe", station)
	before := basis()
	assert.NotContains(t, before, "learned here")

	say("note", "first", "female", "early yellow", "--on", "2026-06-09") // the 40th day: 440 degree days
	say("note", "first", "female", "early grey", "--on", "2026-06-16")   // the 47th: 517
	for range 3 {
		say("note", "set", "9", "of", "10", "by", "bees", "early yellow", "--on", "2026-06-20")
		say("note", "set", "3", "of", "10", "by", "bees", "early grey", "--on", "2026-06-20")
	}
	say("note", "set", "10", "of", "10", "by", "hand", "early grey", "--on", "2026-06-20")

	after := basis()
	assert.Contains(t, after, "learned here from 2 first flowers, the book has no sum")
	learned := strings.Join(strings.Fields(say("memory", "learned")), " ")
	for _, want := range []string{
		"early yellow: first female flower on Tue 9 June, 39 days and 4", // 440 but for the hours' missing extremes
		"early grey: first female flower on Tue 16 June, 46 days and 5",
		"summer squash, Sand Yellow: 1 first female flower, about 4",
		"the next sowing is expected to take",
		"by bees 8.0 in 10 set", // 27 of 30 and the book's half of ten
		"by hand",
		"on 1 day with both, the brush set more",
		"Sand Yellow sets better by bees",
		"Sand Yellow flowers earlier, by about",
	} {
		assert.Contains(t, learned, want)
	}
	us := say("memory", "learned", "--units", "us")
	assert.Contains(t, us, "degree days F")
	assert.NotContains(t, us, "degree days C")
	for line := range strings.Lines(say("memory", "learned")) {
		assert.LessOrEqual(t, len([]rune(strings.TrimRight(line, "\n"))), 80, line)
	}
	var got struct {
		First     []map[string]any `json:"first_flowers"`
		Cultivars []map[string]any `json:"cultivars"`
	}
	require.NoError(t, json.Unmarshal([]byte(say("memory", "learned", "--json")), &got))
	require.Len(t, got.First, 2)
	assert.InDelta(t, 440, got.First[0]["degree_days_c"], 4)
	assert.InDelta(t, 517, got.First[1]["degree_days_c"], 5)
	assert.Len(t, got.Cultivars, 2)
}
