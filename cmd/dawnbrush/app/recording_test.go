package app

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/mattn/go-runewidth"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/forecast/feed/feedtest"
	"dawnbrush/forecast/feed/nws"
)

// zones of the recorded cells, by the office in the file's name.
var zones = map[string]string{"ALY": "America/New_York", "OKX": "America/New_York", "GUM": "Pacific/Guam", "AFG": "America/Anchorage",
	"OAX": "America/Chicago", "FWD": "America/Chicago"}

// Real forecasts make whole reports: every line fits, nothing unknown turns into
// a number, and the exit code is one of a plan.
func TestRecordedForecasts(t *testing.T) {
	odd := regexp.MustCompile(`NaN|Inf\b|%!|<nil>|-999|\b0001\b`)
	for _, name := range feedtest.Recordings(t, "nws/restored/*_raw_*.json") {
		doc := feedtest.Recording(t, name)
		series, err := nws.Reader{}.Parse(doc, time.Time{})
		require.NoError(t, err, name)
		zone := ""
		for office, z := range zones {
			if strings.Contains(name, "_"+office+"_") {
				zone = z
			}
		}
		require.NotEmpty(t, zone, name)
		dir := t.TempDir()
		garden, saved := filepath.Join(dir, "garden.toml"), filepath.Join(dir, "saved.json")
		require.NoError(t, os.WriteFile(saved, doc, 0o600))
		require.NoError(t, os.WriteFile(garden, []byte(gardenAt(series.Point.Lat, series.Point.Lon, zone, series.Issued)), 0o600))
		at := series.Issued.Add(2 * time.Hour).Format(time.RFC3339)
		for _, args := range [][]string{{"today"}, {"today", "--quiet"}, {"week"}, {"today", "--json"}, {"week", "--units", "us"}, {"workings", "tomorrow", "cucumber"}} {
			env, out, errs := around(map[string]string{"HOME": dir})
			code := Main(append(args, "-c", garden, "--from", saved, "--at", at), env)
			assert.Contains(t, []int{exitDone, exitIncomplete}, code, "%s %v: %s", name, args, errs)
			assert.NotRegexp(t, odd, out.String(), "%s %v", name, args)
			for line := range strings.Lines(out.String()) {
				if args[0] != "workings" && len(args) == 1 {
					assert.LessOrEqual(t, runewidth.StringWidth(strings.TrimRight(line, "\n")), 80, "%s %v: %s", name, args, line)
				}
			}
		}
	}
}

// gardenAt plants every crop where the forecast stands, in flower since ten days.
func gardenAt(lat, lon float64, zone string, issued time.Time) string {
	var b strings.Builder
	writeln := func(parts ...string) { b.WriteString(strings.Join(parts, "") + "\n") }
	writeln("[place]")
	writeln("lat = ", decimal(lat))
	writeln("lon = ", decimal(lon))
	writeln("zone = \"", zone, "\"")
	for _, c := range crops().Crops() {
		writeln("[[planting]]")
		writeln("name = \"", c.Key, "\"")
		writeln("crop = \"", c.Key, "\"")
		writeln("first_female = ", issued.AddDate(0, 0, -10).Format(time.DateOnly))
		if c.Corn != nil {
			writeln("rows = 3")
		}
	}
	return b.String()
}

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', 4, 64) }
