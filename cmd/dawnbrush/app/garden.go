package app

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"time"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/fixtures"
	"dawnbrush/forecast"
	"dawnbrush/forecast/feed/all"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

// crops gives the crops built in with all their evidence; that they do not load
// is a fault of ours.
func crops() *crop.Set { return loaded(crop.Load()) }

// crops gives the crops with their evidence where the command shows any; most do not,
// and without it a run starts sooner.
func (p *program) crops() *crop.Set {
	if p.evidence || p.options.json {
		return crops()
	}
	return nil
}

// library gives the crops that a garden file may name.
func (p *program) library() config.Crops {
	if set := p.crops(); set != nil {
		return set
	}
	return loaded(crop.OpenShelf())
}

// fetchCrops reads the crops of a garden file while the rest of it is understood.
func (p *program) fetchCrops(words []string) {
	if p.crops() == nil {
		loaded(crop.OpenShelf()).Fetch(words)
	}
}

func loaded[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// feeds lists the weather feeds as a garden file may name them.
func feeds() []config.Feed {
	var out []config.Feed
	for _, r := range all.Readers() {
		i := r.Info()
		out = append(out, config.Feed{Key: i.Key, NonCommercial: i.NonCommercial})
	}
	return out
}

// readGarden finds and reads the garden file, with all its faults and warnings.
func (p *program) readGarden() (*config.File, config.Faults, error) {
	path, text, err := p.gardenFile()
	if err != nil {
		return nil, nil, err
	}
	p.fetchCrops(config.Look(text).Crops)
	return p.parseGarden(path, text)
}

// gardenFile finds the garden file.
func (p *program) gardenFile() (path string, text []byte, err error) {
	path = p.gardenPath()
	if p.options.demo {
		path = fixtures.GardenFile
		text, err = fs.ReadFile(fixtures.Demo, path)
	} else {
		text, err = os.ReadFile(path)
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		hint := "`dawnbrush init` writes one; `dawnbrush today --demo` shows an invented garden"
		switch {
		case p.options.config != "":
			hint = "is the name right? `dawnbrush init --config " + path + "` writes one there"
		case p.env.set("DAWNBRUSH_CONFIG"):
			hint = "DAWNBRUSH_CONFIG names it: is the name right? `dawnbrush init` writes one there"
		}
		return path, nil, &failure{code: exitGarden, message: fmt.Sprintf("there is no garden file %s", path), cause: err, hint: hint}
	case err != nil:
		message, hint := unreadable("the garden file", path, err)
		return path, nil, &failure{code: exitGarden, message: message, hint: hint, cause: err}
	}
	return path, text, nil
}

// parseGarden understands a garden file.
func (p *program) parseGarden(path string, text []byte) (*config.File, config.Faults, error) {
	today := forecast.DateOf(p.env.Now(), time.UTC).AddDays(1) // the garden's day is not known yet; one day of grace
	if p.options.demo || p.options.at != "" {
		today = forecast.Date{} // the clock is not this machine's
	}
	file, faults := config.Parse(path, text, config.Known{Crops: p.library(), Feeds: feeds(), Today: today, Dates: words.DateKeys()})
	if file == nil {
		n := len(faults.Errors())
		return nil, faults, &failure{code: exitGarden, message: fmt.Sprintf("the garden file has %s", faultCount(n)), faults: faults,
			hint: "mend the lines named; `dawnbrush check` looks again"}
	}
	return file, faults, nil
}

// gardenNow gives the garden and its time.
func (p *program) gardenNow() (*risk.Garden, time.Time, error) {
	file, _, err := p.readGarden()
	if err != nil {
		return nil, time.Time{}, err
	}
	now, err := p.now(file.Garden.Place.Zone)
	return &file.Garden, now, err
}

func faultCount(n int) string {
	if n == 1 {
		return "one fault"
	}
	return fmt.Sprintf("%d faults", n)
}

// units gives what --units asks for, else the garden's.
func (p *program) units(g *risk.Garden) (risk.Units, error) {
	switch u := risk.Units(strings.ToLower(p.options.units)); u {
	case "":
		return g.Units, nil
	case risk.Metric, risk.US:
		return u, nil
	}
	return "", usage("write --units metric or --units us", "there are no units %q", p.options.units)
}

// now gives the time to plan for: --at, the demo's clock, or the clock.
func (p *program) now(zone *time.Location) (time.Time, error) {
	switch {
	case p.options.at != "":
		return parseAt(p.options.at, zone)
	case p.options.demo:
		return fixtures.DemoNow(), nil
	}
	return p.env.Now(), nil
}

// atForms are the local forms of --at, in the garden's zone.
var atForms = [...]string{time.DateOnly, "2006-01-02T15:04", "2006-01-02 15:04", "2006-01-02T15:04:05", "2006-01-02 15:04:05"}

func parseAt(s string, zone *time.Location) (time.Time, error) {
	if t, err := time.Parse(time.RFC3339, s); err == nil {
		return t, nil
	}
	for _, form := range atForms {
		if t, err := time.ParseInLocation(form, s, zone); err == nil {
			return t, nil
		}
	}
	return time.Time{}, usage("write it as 2026-07-16, 2026-07-16T05:00 or 2026-07-16T05:00:00-04:00", "--at %s is not a time", s)
}

// mostDocument bounds a saved forecast. [chosen: documents seen reach 0.3 MB]
const mostDocument = 16 << 20

// unreadable says why a file cannot be read, in plain words, and what to do.
func unreadable(what, path string, err error) (message, hint string) {
	why, hint := err.Error(), ""
	info, statErr := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		why, hint = "there is no such file", "is the name right?"
	case errors.Is(err, fs.ErrPermission):
		why, hint = "this user may not read it", "give the right to read it, or copy it to where you may"
	case statErr == nil && info.IsDir():
		why, hint = "it is a folder", "name the file in it"
	}
	return fmt.Sprintf("cannot read %s %s: %s", what, path, why), hint
}

// readDocument reads a document, which what names; - is standard input.
func (p *program) readDocument(path, what string) ([]byte, error) {
	unread := func(err error) error {
		message, hint := unreadable(what, path, err)
		return failed(err, hint, "%s", message)
	}
	in, size := p.env.In, int64(0)
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return nil, unread(err)
		}
		defer f.Close()
		if info, err := f.Stat(); err == nil {
			size = min(info.Size(), mostDocument)
		}
		in = f
	}
	document := bytes.NewBuffer(make([]byte, 0, size+bytes.MinRead))
	_, err := document.ReadFrom(io.LimitReader(in, mostDocument+1))
	text := document.Bytes()
	switch {
	case err != nil:
		return nil, unread(err)
	case len(text) > mostDocument:
		return nil, failed(nil, "is it the right file?", "%s %s is larger than 16 MiB", what, path)
	}
	return text, nil
}
