package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"dawnbrush/fixtures"
	"dawnbrush/forecast/feed/all"
)

var update = flag.Bool("update", false, "renew the golden files")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"dawnbrush": main})
}

// TestScript runs the program as a shell would: testdata/script holds one
// behaviour a file.
func TestScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: *update,
		Setup:         setup,
		Cmds:          map[string]func(ts *testscript.TestScript, neg bool, args []string){"serve": serve, "code": code, "gridpoint": gridpoint, "shaped": shaped, "readings": readings},
	})
}

// setup gives every script a home of its own and the invented garden and weather
// as files.
func setup(e *testscript.Env) error {
	e.Setenv("HOME", e.WorkDir)
	for _, name := range []string{"XDG_CONFIG_HOME", "XDG_CACHE_HOME", "TZ", "NO_COLOR", "CLICOLOR_FORCE", "COLUMNS", "CONFIGURATION_DIRECTORY", "CACHE_DIRECTORY"} {
		e.Setenv(name, "")
	}
	for _, r := range all.Readers() { // nothing listens: no script reaches the network
		e.Setenv("DAWNBRUSH_"+strings.ToUpper(r.Info().Key)+"_URL", "http://127.0.0.1:1")
	}
	for from, to := range map[string]string{fixtures.GardenFile: "garden.toml", fixtures.ForecastFile: "forecast.json", fixtures.ObservationsFile: "observations.json",
		fixtures.LoggerFile: "tunnel.csv"} {
		text, err := fs.ReadFile(fixtures.Demo, from)
		if err != nil {
			return err
		}
		if to == "garden.toml" { // two.toml leaves the feeds to be chosen; most scripts ask one
			if err := os.WriteFile(filepath.Join(e.WorkDir, "two.toml"), text, 0o644); err != nil {
				return err
			}
			text = bytes.Replace(text, []byte("units ="), []byte("second_feed = \"none\"\nunits ="), 1)
		}
		if err := os.WriteFile(filepath.Join(e.WorkDir, to), text, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// serve starts the service on loopback: "serve" answers with the invented
// documents, "serve 403" refuses everything, "serve nws403" all of the National
// Weather Service, "serve nopast" has no reports, "serve hang" never answers.
func serve(ts *testscript.TestScript, neg bool, args []string) {
	mode := ts.MkAbs(".service")
	ts.Check(os.WriteFile(mode, []byte(strings.Join(args, " ")), 0o644))
	if ts.Getenv("SERVED") != "" {
		return // it stands, at the same address, and looks at the mode
	}
	ts.Setenv("SERVED", "yes")
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		text, err := os.ReadFile(mode)
		if err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		how := string(text)
		switch path := r.URL.Path; {
		case how == "403", how == "nopast" && strings.Contains(path, "/stations"):
			http.Error(w, "refused", http.StatusForbidden)
		case how == "nws403" && !strings.HasPrefix(path, "/weatherapi/"):
			http.Error(w, "refused", http.StatusForbidden)
		case how == "hang":
			<-r.Context().Done()
		case strings.HasPrefix(path, "/points/"):
			fmt.Fprint(w, `{"properties":{"gridId":"XDM","gridX":41,"gridY":27,"timeZone":"America/Denver"}}`)
		case strings.HasSuffix(path, "/stations"):
			fmt.Fprint(w, `{"features":[{"geometry":{"type":"Point","coordinates":[-102.4,37.9]},"properties":{"stationIdentifier":"XDMX","name":"Invented"}}]}`)
		case strings.HasSuffix(path, "/observations"):
			http.ServeFile(w, r, ts.MkAbs("observations.json"))
		case strings.HasPrefix(path, "/weatherapi/locationforecast/2.0/"):
			http.ServeFile(w, r, ts.MkAbs("metno.json")) // 404 where a script has made none
		case strings.HasPrefix(path, "/v1/"):
			http.ServeFile(w, r, ts.MkAbs("openmeteo.json"))
		case strings.HasPrefix(path, "/gridpoints/"):
			http.ServeFile(w, r, ts.MkAbs("forecast.json"))
		default:
			http.NotFound(w, r)
		}
	}))
	ts.Defer(server.Close)
	ts.Setenv("DAWNBRUSH_NWS_URL", server.URL)
	ts.Setenv("DAWNBRUSH_METNO_URL", server.URL)
	ts.Setenv("DAWNBRUSH_OPENMETEO_URL", server.URL)
}

// gridpoint writes a saved forecast whose every layer holds one value, without those
// named after it: "gridpoint FILE 2026-11-01T04:00:00+00:00 P3D windSpeed".
func gridpoint(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 3 {
		ts.Fatalf("usage: gridpoint FILE START DURATION [WITHOUT...]")
	}
	var layers []string
	for _, l := range [][3]string{{"temperature", "wmoUnit:degC", "24"}, {"dewpoint", "wmoUnit:degC", "14"}, {"relativeHumidity", "wmoUnit:percent", "55"},
		{"windSpeed", "wmoUnit:km_h-1", "8"}, {"skyCover", "wmoUnit:percent", "20"}, {"probabilityOfPrecipitation", "wmoUnit:percent", "0"},
		{"quantitativePrecipitation", "wmoUnit:mm", "0"}} {
		if slices.Contains(args[3:], l[0]) {
			continue
		}
		layers = append(layers, fmt.Sprintf(`"%s":{"uom":"%s","values":[{"validTime":"%s/%s","value":%s}]}`, l[0], l[1], args[1], args[2], l[2]))
	}
	doc := fmt.Sprintf(`{"properties":{"updateTime":"%s","validTimes":"%s/%s",%s}}`, args[1], args[1], args[2], strings.Join(layers, ","))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(doc), 0o644))
}

// shaped writes an invented forecast in a service's shape: "shaped metno FILE START".
func shaped(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 3 || shapes[args[0]] == nil {
		ts.Fatalf("usage: shaped FEED FILE START")
	}
	start, err := time.Parse(time.RFC3339, args[2])
	ts.Check(err)
	doc, err := json.Marshal(shapes[args[0]](start))
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), doc, 0o644))
}

// code runs the program and wants an exit code: "code 78 dawnbrush check".
func code(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 2 {
		ts.Fatalf("usage: code NUMBER COMMAND ...")
	}
	err := ts.Exec(args[1], args[2:]...)
	got := "0"
	if exit, ok := err.(interface{ ExitCode() int }); ok {
		got = fmt.Sprint(exit.ExitCode())
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if got != args[0] {
		ts.Fatalf("exit code %s, want %s\n%s%s", got, args[0], ts.ReadFile("stdout"), ts.ReadFile("stderr"))
	}
}
