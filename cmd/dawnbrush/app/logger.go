package app

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"time"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/cmd/dawnbrush/store/station"
	"dawnbrush/fixtures"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// loggerFault is why the file of a logger in a tunnel or house cannot be used.
type loggerFault struct {
	logger  string // as the garden file names it
	message string
	hint    string
	faults  config.Faults
}

// readLoggers reads the loggers that a garden file names into the garden. A file
// with a fault is left out; the plan is made without it.
func (p *program) readLoggers(gardenPath string, g *risk.Garden, now time.Time) (lacking []loggerFault) {
	tried := map[string]bool{}
	today := forecast.DateOf(now, g.Place.Zone)
	for i := range g.Plantings {
		pl := &g.Plantings[i]
		over := !pl.Finished.IsZero() && pl.Finished.Before(today)
		if pl.Logger == "" || tried[pl.Logger] || over || pl.Cover != risk.Tunnel && pl.Cover != risk.House {
			continue
		}
		tried[pl.Logger] = true
		s, f := p.readLogger(gardenPath, pl.Logger, g.Place.Zone, now)
		if f != nil {
			lacking = append(lacking, *f)
			continue
		}
		if g.Inside == nil {
			g.Inside = map[string]*forecast.Series{}
		}
		g.Inside[pl.Logger] = s
	}
	return lacking
}

// readLogger reads one file; its name is relative to the garden file.
func (p *program) readLogger(gardenPath, logger string, zone *time.Location, now time.Time) (*forecast.Series, *loggerFault) {
	text, err := p.loggerText(gardenPath, logger)
	var at *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, &loggerFault{logger: logger, message: "there is no such file", hint: "its name is relative to the garden file; copy the logger's readings there"}
	case errors.As(err, &at):
		return nil, &loggerFault{logger: logger, message: at.Err.Error()}
	case err != nil:
		return nil, &loggerFault{logger: logger, message: err.Error()}
	case len(text) > mostDocument:
		return nil, &loggerFault{logger: logger, message: "it is larger than 16 MiB", hint: "is it the right file?"}
	}
	limit := now
	if at := p.env.Now(); p.options.at != "" && at.After(now) {
		limit = at // planned as of an earlier time: later rows are no fault, and not known then
	}
	got, faults := station.Parse(text, zone, limit)
	if len(faults) > 0 {
		f := &loggerFault{logger: logger, message: "it has " + faultCount(len(faults)), hint: "mend the lines named"}
		for _, x := range faults {
			f.faults = append(f.faults, config.Fault{File: logger, Line: x.Line, Column: x.Column, Message: x.Message, Hint: x.Hint})
		}
		return nil, f
	}
	_, hi := got.Series.Slice(got.Series.Start(), now.UTC().Truncate(time.Hour))
	got.Series.Hours = got.Series.Hours[:hi]
	for i := range got.Series.Hours {
		if got.Series.Hours[i].Temp.IsKnown() {
			return got.Series, nil
		}
	}
	return nil, &loggerFault{logger: logger, message: "it tells no temperature", hint: "name the column of the temperature temp_c or temp_f"}
}

func (p *program) loggerText(gardenPath, logger string) ([]byte, error) {
	if p.options.demo {
		return fs.ReadFile(fixtures.Demo, path.Join(path.Dir(fixtures.GardenFile), logger))
	}
	if !filepath.IsAbs(logger) {
		logger = filepath.Join(filepath.Dir(gardenPath), logger)
	}
	f, err := os.Open(logger)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, mostDocument+1))
}

// loggerWarnings gives the same as warnings of the garden file, which can be used
// without.
func loggerWarnings(lacking []loggerFault) (out config.Faults) {
	for _, f := range lacking {
		for _, x := range f.faults {
			x.Warning = true
			out = append(out, x)
		}
		out = append(out, config.Fault{File: f.logger, Line: 1, Column: 1, Message: "the logger's file cannot be used: " + f.message, Hint: f.hint, Warning: true})
	}
	return out
}

// tellLoggers says on stderr what is wrong with loggers' files.
func (p *program) tellLoggers(lacking []loggerFault) {
	if p.options.json {
		return // it stands in the notes
	}
	for _, f := range lacking {
		p.tellFaults(f.faults)
		fmt.Fprintf(p.err, "%s: the logger's file %s cannot be used: %s\n", name, f.logger, f.message)
		if f.hint != "" {
			fmt.Fprintf(p.err, "hint: %s\n", f.hint)
		}
	}
}

// loggerNotes says what the loggers leave unknown in a plan. needed tells whether
// work of today or tomorrow hangs on one that cannot be used or has fallen behind.
func loggerNotes(w words.Words, a *risk.Assessment, plans []risk.DayPlan, lacking []loggerFault, now time.Time) (notes []string, needed bool) {
	blooms, airless := map[string]bool{}, []string{}
	for i := range plans[:min(len(plans), comparedDays)] {
		day := plans[i].Day
		if day == nil {
			continue
		}
		for j := range day.Plantings {
			pd := &day.Plantings[j]
			if pd.Bloom == risk.NoBloom || pd.State == risk.NeedsNoPollen {
				continue
			}
			blooms[pd.Planting.Logger] = true
			if name := pd.Planting.Name; pd.State == risk.OtherAir && pd.Planting.Logger == "" && !slices.Contains(airless, name) {
				airless = append(airless, name)
			}
		}
	}
	for _, f := range lacking {
		notes = append(notes, "the logger's file "+f.logger+" cannot be used: "+f.message+"; the air in there is not known")
		needed = needed || blooms[f.logger]
	}
	if len(airless) > 0 {
		notes = append(notes, w.WithoutLogger(airless))
	}
	told := map[string]bool{}
	for i := range a.Days {
		for j := range a.Days[i].Plantings {
			in := a.Days[i].Plantings[j].Inside
			if in == nil || told[in.Logger] {
				continue
			}
			told[in.Logger] = true
			lines, bad := w.LoggerNotes(in, now)
			notes, needed = append(notes, lines...), needed || bad && blooms[in.Logger]
		}
	}
	return notes, needed
}
