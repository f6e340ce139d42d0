package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"
	"time"
	"unicode"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// dataDir finds the folder for what must not be lost; "" when nothing names one.
func (p *program) dataDir() string {
	if dir := firstDir(p.env.Getenv("STATE_DIRECTORY")); dir != "" {
		return dir
	}
	dir := p.base("XDG_DATA_HOME", filepath.Join(".local", "share"))
	if dir == "" {
		return ""
	}
	return filepath.Join(dir, name)
}

// withoutMemory tells whether the garden's memory is to be left out.
func (p *program) withoutMemory() bool { return p.options.noMemory || p.env.set("DAWNBRUSH_NO_MEMORY") }

// memoryPath finds the garden's memory: --memory, else a file named after the
// garden in the data folder. It is "" when it is left out, for the demo, and when
// nothing names a folder.
func (p *program) memoryPath(garden string) string {
	switch dir := p.dataDir(); {
	case p.options.memory != "":
		return p.options.memory
	case p.withoutMemory(), p.options.demo, dir == "":
		return ""
	default:
		return filepath.Join(dir, slug(garden)+".db")
	}
}

// namedMemory is memoryPath for commands that cannot do without.
func (p *program) namedMemory(g *risk.Garden) (string, error) {
	path := p.memoryPath(g.Name)
	switch {
	case path != "":
		return path, nil
	case p.withoutMemory():
		return "", usage("leave out --no-memory and DAWNBRUSH_NO_MEMORY", "this command works on the garden's memory, which is to be left out")
	case p.options.demo:
		return "", usage("name a file for it: --memory FILE", "the invented garden has no memory")
	}
	return "", usage("set HOME or XDG_DATA_HOME, or name a file: --memory FILE", "no folder is known for the garden's memory")
}

// openMemory opens the garden's memory for writing, making it where there is
// none. Its clock is that of the run: --at, the demo's, or this machine's.
func (p *program) openMemory(g *risk.Garden) (*store.Store, error) {
	path, err := p.namedMemory(g)
	if err != nil {
		return nil, err
	}
	now, err := p.now(g.Place.Zone)
	if err != nil {
		return nil, err
	}
	clock := p.env.Now
	if p.options.at != "" || p.options.demo {
		clock = func() time.Time { return now }
	}
	return store.Open(p.ctx, path, store.Options{Now: clock, Zone: g.Place.Zone})
}

// mostSlug keeps file names short of every file system's limit of 255 bytes.
const mostSlug = 80 // [chosen: room for signs of up to three bytes]

// slug makes a file name of a garden's: letters and digits in lower case, one
// dash for everything between.
func slug(garden string) string {
	var b strings.Builder
	dash := false
	for _, r := range strings.ToLower(garden) {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			dash = b.Len() > 0
			continue
		}
		if b.Len() > mostSlug {
			break
		}
		if dash {
			b.WriteByte('-')
			dash = false
		}
		b.WriteRune(r)
	}
	if b.Len() == 0 {
		return "garden"
	}
	return b.String()
}

func (p *program) memory() *cobra.Command {
	c := &cobra.Command{
		Use:   "memory",
		Short: "where the garden's memory is and what it holds",
		Long: `The garden's memory is one file: what you wrote down, the forecasts as they were
issued, the hours that were measured. Without a word it is counted; nothing is
written. ` + "`help environment`" + ` tells where it is looked for.

Forecasts are kept for 30 days, then one a day, the last before 06:00, for 400
days. What you wrote down and what was measured is never thrown away.`,
		Example: `  dawnbrush memory
  dawnbrush memory learned
  dawnbrush memory check
  dawnbrush memory backup garden-2026-07-16.db`,
		Args: exactly(0, "nothing more"),
		RunE: func(*cobra.Command, []string) error {
			return p.withMemory(true, func(g *risk.Garden, s *store.Store) error {
				info, err := s.Info(p.ctx)
				if err != nil {
					return err
				}
				return p.printInfo(info, g.Place.Zone)
			})
		},
	}
	c.AddCommand(
		&cobra.Command{Use: "learned", Short: "what your notes teach: bees, brush, first flowers, cultivars", Args: exactly(0, "nothing more"),
			RunE: func(*cobra.Command, []string) error { return p.withMemory(true, p.learned) }},
		&cobra.Command{Use: "check", Short: "read all of it and tell whether it is sound", Args: exactly(0, "nothing more"),
			RunE: func(*cobra.Command, []string) error { return p.withMemory(true, p.checkMemory) }},
		&cobra.Command{Use: "backup FILE", Short: "write a copy to a new file, also while others write", Args: exactly(1, "the name of the copy"),
			RunE: func(_ *cobra.Command, args []string) error {
				return p.withMemory(true, func(_ *risk.Garden, s *store.Store) error { return p.backupMemory(s, args[0]) })
			}},
		&cobra.Command{Use: "prune", Short: "let go of old forecasts now and give the room back", Args: exactly(0, "nothing more"),
			RunE: func(*cobra.Command, []string) error { return p.withMemory(false, p.pruneMemory) }})
	return c
}

// withMemory runs f on the garden's memory, which must exist.
func (p *program) withMemory(readOnly bool, f func(*risk.Garden, *store.Store) error) (err error) {
	file, _, err := p.readGarden()
	if err != nil {
		return err
	}
	g := &file.Garden
	path, err := p.namedMemory(g)
	if err != nil {
		return err
	}
	s, err := p.reading(g)
	if s != nil && !readOnly {
		_ = s.Close()
		s, err = p.openMemory(g)
	}
	if s == nil && err == nil {
		return failed(fs.ErrNotExist, "it begins with the first `dawnbrush today` or `dawnbrush note`", "there is no memory of this garden yet; it would be %s", path)
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	return f(g, s)
}

// printInfo says what the memory holds.
func (p *program) printInfo(i store.Info, zone *time.Location) error {
	day := func(t time.Time) forecast.Date { return forecast.DateOf(t, zone) }
	if p.options.json {
		out := memoryJSON{Schema: jsonout.Schema, Report: "memory", File: i.Path, Bytes: i.Size, Layout: i.Version, Entries: i.Entries, Versions: i.Versions,
			Forecasts: i.Forecasts, Hours: i.Hours, Amended: i.Amended, WorkedOut: i.WorkedOut, FirstDay: text(i.FirstDay), LastDay: text(i.LastDay)}
		if i.Forecasts > 0 {
			out.Issued, out.LastIssue = &i.Issued, &i.LastIssue
		}
		if i.Hours > 0 {
			out.Since, out.Until = &i.Since, &i.Until
		}
		return p.writeJSON(out)
	}
	diary, forecasts, hours := "no entry", "none", "none"
	if i.Entries > 0 {
		diary = fmt.Sprintf("%s from %s to %s", words.Count(i.Entries, "entry", "entries"), i.FirstDay, i.LastDay)
	}
	if i.Versions > i.Entries {
		diary += fmt.Sprintf("; %d with amended and removed ones", i.Versions)
	}
	if i.Forecasts > 0 {
		forecasts = fmt.Sprintf("%d, issued from %s to %s", i.Forecasts, day(i.Issued), day(i.LastIssue))
	}
	if i.Hours > 0 {
		hours = fmt.Sprintf("%d from %s to %s, %d amended later", i.Hours, day(i.Since), day(i.Until.Add(-1)), i.Amended)
	}
	text := fmt.Sprintf("%s\n  size            %.1f MB, layout %d\n  diary           %s\n  forecasts       %s\n  measured hours  %s\n",
		i.Path, float64(i.Size)/1e6, i.Version, diary, forecasts, hours)
	if i.WorkedOut > 0 {
		text += fmt.Sprintf("  worked out      %s, by a weather model afterwards\n", words.Count(i.WorkedOut, "hour", "hours"))
	}
	_, err := p.out.Write([]byte(text))
	return err
}

type memoryJSON struct {
	Schema    int        `json:"schema"`
	Report    string     `json:"report"`
	File      string     `json:"file"`
	Bytes     int64      `json:"bytes"`
	Layout    int        `json:"layout"`
	Entries   int        `json:"entries"`
	Versions  int        `json:"versions"`
	FirstDay  *string    `json:"first_day"`
	LastDay   *string    `json:"last_day"`
	Forecasts int        `json:"forecasts"`
	Issued    *time.Time `json:"oldest_issue"`
	LastIssue *time.Time `json:"latest_issue"`
	Hours     int        `json:"measured_hours"`
	Amended   int        `json:"amended_hours"`
	Since     *time.Time `json:"measured_since"`
	Until     *time.Time `json:"measured_until"`
	WorkedOut int        `json:"worked_out_hours"`
}

// text gives a date for programs, nil for none.
func text(d forecast.Date) *string {
	if d.IsZero() {
		return nil
	}
	s := d.String()
	return &s
}

// writeJSON prints one object on lines of its own.
func (p *program) writeJSON(v any) error {
	b, err := json.MarshalIndent(v, "", "  ")
	if err == nil {
		_, err = p.out.Write(append(b, '\n'))
	}
	return err
}

func (p *program) checkMemory(_ *risk.Garden, s *store.Store) error {
	faults, err := s.Check(p.ctx)
	if err != nil {
		return err
	}
	if len(faults) > 0 {
		return failed(nil, "put a copy made with `dawnbrush memory backup` in its place; keep the damaged file, for much of it may be saved",
			"the garden's memory %s is damaged: %s", s.Path(), strings.Join(faults, "; "))
	}
	if p.options.json {
		return p.writeJSON(map[string]any{"schema": jsonout.Schema, "report": "memory check", "file": s.Path(), "sound": true})
	}
	_, err = fmt.Fprintf(p.out, "%s is sound\n", s.Path())
	return err
}

func (p *program) backupMemory(s *store.Store, to string) error {
	err := s.Backup(p.ctx, to)
	switch {
	case errors.Is(err, fs.ErrExist):
		return failed(err, "choose another name; a copy replaces nothing", "there is a file %s already", to)
	case err != nil:
		return err
	case p.options.json:
		return jsonout.Written(p.out, "memory backup", to)
	}
	_, err = fmt.Fprintf(p.out, "wrote %s\n", to)
	return err
}

func (p *program) pruneMemory(_ *risk.Garden, s *store.Store) error {
	gone, err := s.Prune(p.ctx)
	switch {
	case err != nil:
		return err
	case p.options.json:
		return p.writeJSON(map[string]any{"schema": jsonout.Schema, "report": "memory prune", "file": s.Path(), "forecasts_removed": gone})
	}
	_, err = fmt.Fprintf(p.out, "let go of %s\n", words.Count(gone, "forecast", "forecasts"))
	return err
}
