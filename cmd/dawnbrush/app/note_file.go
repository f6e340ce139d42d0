package app

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// noteForm is the form of a file of notes.
type noteForm struct{ csv, jsonl, force bool }

func (p *program) noteExport() *cobra.Command {
	var form noteForm
	c := &cobra.Command{
		Use:   "export [FILE]",
		Short: "write all notes, with their history, as JSON lines or CSV",
		Long: `Writes all notes, amended and removed ones too, so that dawnbrush note import
makes the same diary of them. Without FILE, or with -, it goes to standard
output. The form is JSON lines unless --csv is given or FILE ends in .csv.
dawnbrush note forms tells the columns.`,
		Example: "  dawnbrush note export diary.jsonl\n  dawnbrush note export --csv > diary.csv",
		Args:    between(0, 1, "at most one file"),
		RunE: func(_ *cobra.Command, args []string) error {
			path := "-"
			if len(args) == 1 {
				path = args[0]
			}
			return p.exportNotes(path, form)
		},
	}
	c.Flags().BoolVar(&form.csv, "csv", false, "a table for a spreadsheet")
	c.Flags().BoolVar(&form.jsonl, "jsonl", false, "one JSON object a line")
	c.Flags().BoolVar(&form.force, "force", false, "overwrite an existing file")
	return c
}

func (p *program) exportNotes(path string, form noteForm) error {
	if form.csv && form.jsonl {
		return usage("give one of --csv and --jsonl", "a file cannot be CSV and JSON lines")
	}
	file, _, err := p.readGarden()
	if err != nil {
		return err
	}
	s, err := p.reading(&file.Garden)
	if err != nil {
		return err
	}
	var all []memory.Entry
	if s != nil {
		defer s.Close()
		if all, err = s.All(p.ctx); err != nil {
			return err
		}
	}
	write := diary.WriteJSONL
	if form.csv || !form.jsonl && strings.HasSuffix(strings.ToLower(path), ".csv") {
		write = diary.WriteCSV
	}
	if path == "-" {
		return write(p.out, all)
	}
	if _, err := os.Stat(path); err == nil && !form.force {
		return failed(nil, "name another file, or give --force", "there is a file already: %s", path)
	}
	var b bytes.Buffer
	if err := write(&b, all); err != nil {
		return err
	}
	if err := writeWhole(path, b.Bytes()); err != nil {
		return failed(err, "is the disk full, or the folder not yours?", "cannot write %s: %v", path, err)
	}
	if p.options.json {
		return p.noteJSON(struct {
			File    string `json:"file"`
			Entries int    `json:"entry_count"`
		}{path, len(all)})
	}
	_, err = fmt.Fprintf(p.out, "wrote %s with %s\n", path, words.Count(len(all), "entry", "entries"))
	return err
}

func (p *program) noteImport() *cobra.Command {
	var former bool
	c := &cobra.Command{
		Use:   "import FILE",
		Short: "add the notes of a file; what is there already stays",
		Long: `Adds the notes of a file that dawnbrush note export wrote, here or for a
partner's copy of the garden, or of a table written by hand. Notes that are here
already are left alone, so that the same file twice changes nothing. All faults
are told with their lines; with any, nothing is added. - reads standard input.`,
		Example: "  dawnbrush note import partner.jsonl\n  dawnbrush note import --former summers.csv",
		Args:    exactly(1, "a file"),
		RunE:    func(_ *cobra.Command, args []string) error { return p.importNotes(args[0], former) },
	}
	c.Flags().BoolVar(&former, "former", false, "let through plantings that the garden file does not name any more")
	return c
}

func (p *program) importNotes(path string, former bool) error {
	g, now, err := p.gardenNow()
	if err != nil {
		return err
	}
	text, err := p.readNotes(path)
	if err != nil {
		return err
	}
	entries, faults := diary.Read(text, diary.Known{Garden: g, Today: forecast.DateOf(now, g.Place.Zone), Former: former})
	if len(faults) > 0 {
		return &failure{code: exitFailed, message: fmt.Sprintf("%s has %s; nothing was added", path, faultCount(len(faults))), faults: faultsOf(path, faults),
			hint: "mend the lines named, then import again; dawnbrush note forms tells the columns"}
	}
	s, err := p.openMemory(g)
	if err != nil {
		return err
	}
	defer s.Close()
	done, err := s.Import(p.ctx, entries)
	var fault *store.EntryError
	switch {
	case errors.As(err, &fault):
		return failed(err, "the file and the diary differ in an entry that never changes: was an id typed twice?", "%s; nothing was added", strings.ReplaceAll(err.Error(), "\n", "; "))
	case err != nil:
		return err
	}
	return p.tellImport(g, &done)
}

// readNotes reads a file of notes; - is standard input.
func (p *program) readNotes(path string) ([]byte, error) {
	in := p.env.In
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			message, hint := unreadable("the notes", path, err)
			return nil, failed(err, hint, "%s", message)
		}
		defer f.Close()
		in = f
	}
	text, err := io.ReadAll(io.LimitReader(in, diary.MostBytes+1)) // one byte more than it may have
	if err != nil {
		message, hint := unreadable("the notes", path, err)
		return nil, failed(err, hint, "%s", message)
	}
	return text, nil
}

// faultsOf gives faults of notes the shape in which faults of a file are told.
func faultsOf(path string, faults diary.Faults) config.Faults {
	var out config.Faults
	for _, f := range faults {
		message := f.Message
		if f.Column != "" {
			message = f.Column + ": " + message
		}
		hint, _, _ := strings.Cut(f.Hint, "write: note ") // how it is typed is no help in a table
		out = append(out, config.Fault{File: path, Line: f.Line, Column: 1, Message: message, Hint: strings.TrimSpace(hint)})
	}
	return out
}

// tellImport says what came in, and what two people amended in two ways.
func (p *program) tellImport(g *risk.Garden, done *store.Merge) error {
	if p.options.json {
		conflicts := []memory.Entry{}
		for i := range done.Conflicts {
			conflicts = append(conflicts, done.Conflicts[i].Versions...)
		}
		missing := append([]string{}, done.Missing...)
		return p.noteJSON(struct {
			Added     int            `json:"added_count"`
			Known     int            `json:"known_count"`
			Conflicts []memory.Entry `json:"conflicts"`
			Missing   []string       `json:"missing"`
		}{done.Added, done.Known, conflicts, missing})
	}
	for i := range done.Conflicts {
		fmt.Fprintf(p.err, "%s: one note was changed in two ways; both stand until you remove one:\n", name)
		for k := range done.Conflicts[i].Versions {
			e := &done.Conflicts[i].Versions[k]
			said, _, err := p.sayEntry(g, e)
			if err != nil {
				return err
			}
			fmt.Fprintf(p.err, "  %s  %s  %s\n", diary.ShortID(e.ID), e.Date, said)
		}
	}
	for _, id := range done.Missing {
		fmt.Fprintf(p.err, "%s: what the note %s replaces is in neither diary\n", name, id)
	}
	_, err := fmt.Fprintf(p.out, "added %s; %s here already\n", words.Count(done.Added, "entry", "entries"), words.Count(done.Known, "was", "were"))
	return err
}
