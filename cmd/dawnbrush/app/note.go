package app

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

const noteLong = `Writes down what you saw or did in the garden. The plan learns from it at once:
how many bees come, how flowers set by bees and by hand, what was brushed,
watered, sprayed. Say what it is about, the numbers with their units, and the
planting, in any order after the first word. A planting goes by its name, a part
of it that no other has, its bed, or its crop when only one planting has it.
What is done to a bed with several, or seen in it, is noted of the bed.

One line is printed: what was understood. What can be read in two ways is
refused. dawnbrush note forms lists all forms.`

// noteTime says when a note is about.
type noteTime struct{ on, at string }

func (p *program) note() *cobra.Command {
	var when noteTime
	c := &cobra.Command{
		Use:   "note WORDS...",
		Short: "write down what you saw or did: bees, flowers, rain, water",
		Long:  noteLong,
		Example: `  dawnbrush note bees 5min 10 flowers 3 cucumber
  dawnbrush note set 7 of 10 by hand zucchini --on yesterday
  dawnbrush note picked 12 fruit 3 misshapen 2.5kg cucumber
  dawnbrush note undo`,
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: p.completeNote,
		RunE: func(c *cobra.Command, args []string) error {
			if near, ok := meantCommand(c, args); ok {
				return usage("did you mean "+c.CommandPath()+" "+near+"?", "a note does not begin with %q", args[0])
			}
			return p.addNote(args, when)
		},
	}
	when.flags(c)
	c.SetFlagErrorFunc(noteFlagFailure)
	c.AddCommand(p.noteList(), p.noteHistory(), p.noteAmend(), p.noteRemove(), p.noteUndo(), p.noteExport(), p.noteImport(), p.noteForms())
	return c
}

// meantCommand finds the command of note that a single word misspells; a note has
// more words than one, and a misspelt kind of note is the diary's to tell.
func meantCommand(c *cobra.Command, args []string) (string, bool) {
	if len(args) != 1 || strings.ContainsAny(args[0], " \t") {
		return "", false
	}
	return config.Nearest(args[0], commandsBelow(c))
}

// flags of the commands that write a note. --at is the time of the note here.
func (w *noteTime) flags(c *cobra.Command) {
	c.Flags().StringVar(&w.on, "on", "", "`DATE` it is about: 2026-07-12 or yesterday; today when not given")
	c.Flags().StringVar(&w.at, "at", "", "`TIME` of that day it is about: 07:35, or 2026-07-12T07:35; a count of bees is of now when not given")
}

// noteFlagFailure tells a negative number from an unknown flag.
func noteFlagFailure(c *cobra.Command, err error) error {
	if i := strings.LastIndex(err.Error(), " in -"); i >= 0 {
		if word := err.Error()[i+4:]; len(word) > 1 && strings.ContainsRune("0123456789.,", rune(word[1])) {
			return usage("dawnbrush note forms shows how it is written", "the number %s cannot be negative", word)
		}
	}
	return flagFailure(c, err)
}

// context gives what a note is read in; a day and time of the old entry stand
// where none is given.
func (p *program) noteContext(g *risk.Garden, w noteTime, old *memory.Entry) (diary.Context, error) {
	now, err := p.now(g.Place.Zone)
	c := diary.Context{Garden: g, Now: now}
	if err != nil {
		return c, err
	}
	if old != nil {
		c.Date = old.Date
		if !old.At.IsZero() && w.on == "" {
			c.Clock = old.At.In(g.Place.Zone).Format("15:04")
		}
	}
	if w.on != "" {
		if c.Date, err = diary.DayNamed(w.on, c.Today()); err != nil {
			return c, refused(err)
		}
	}
	if day, clock, ok := strings.Cut(strings.Replace(w.at, "T", " ", 1), " "); ok {
		d, err := forecast.ParseDate(day)
		if err != nil {
			return c, usage("write it as 07:35, or as 2026-07-12T07:35", "--at %s is not a time: %v", w.at, err)
		}
		if w.on != "" && c.Date != d {
			return c, usage("give the day once", "--on %s and --at %s are two days", w.on, w.at)
		}
		c.Date, c.Clock = d, clock
	} else if w.at != "" {
		c.Clock = w.at
	}
	return c, nil
}

// refused turns what the diary refuses into wrong usage. The diary knows notes and
// not the program: the line that it shows is made one that can be typed.
func refused(err error) error {
	var e *diary.Error
	if errors.As(err, &e) {
		return usage(strings.Replace(e.Remedy, "write: note ", "write: "+name+" note ", 1), "%s", e.Message)
	}
	return err
}

func (p *program) addNote(args []string, when noteTime) error {
	if len(args) == 0 {
		return usage("write: dawnbrush note bees 5min 10 flowers 3 cucumber; dawnbrush note forms lists all forms", "what is to be noted?")
	}
	file, _, err := p.readGarden()
	if err != nil {
		return err
	}
	g := &file.Garden
	c, err := p.noteContext(g, when, nil)
	if err != nil {
		return err
	}
	e, err := diary.Parse(args, c)
	if err != nil {
		return refused(err)
	}
	s, err := p.openMemory(g)
	if err != nil {
		return err
	}
	defer s.Close()
	if e, err = s.AddEntry(p.ctx, e); err != nil {
		return err
	}
	return p.understood(g, "noted", &e)
}

// understood says what was kept and how to take it back, on one line.
func (p *program) understood(g *risk.Garden, what string, e *memory.Entry) error {
	said, caution, err := p.sayEntry(g, e)
	if err != nil {
		return err
	}
	if p.options.json {
		return p.noteJSON(struct {
			Entry   *memory.Entry     `json:"entry"`
			Units   map[string]string `json:"units"`
			Said    string            `json:"said"`
			Caution *string           `json:"caution"`
		}{e, entryUnits(), said, orNull(caution)})
	}
	if caution != "" {
		fmt.Fprintf(p.err, "mind: %s\n", caution)
	}
	_, err = fmt.Fprintf(p.out, "%s as %s, %s: %s%s (dawnbrush note undo takes it back)\n", what, diary.ShortID(e.ID), entryDay(g, e), said, wholeBed(g, e))
	return err
}

func (p *program) sayEntry(g *risk.Garden, e *memory.Entry) (said, caution string, err error) {
	u, err := p.units(g)
	caution = diary.Caution(e)
	if caution == "" {
		caution = tooMuch(g, e, u)
	}
	return diary.Say(e, u), caution, err
}

// entryDay writes the day of an entry, and the time where it is known.
func entryDay(g *risk.Garden, e *memory.Entry) string {
	w := words.New(g.Units, g.Place.Zone)
	if e.At.IsZero() {
		return w.Day(e.Date)
	}
	return w.Day(e.Date) + " " + w.Clock(e.At)
}

// reading opens the garden's memory to look only; nil when there is none yet.
func (p *program) reading(g *risk.Garden) (*store.Store, error) {
	path := p.memoryPath(g.Name)
	if path == "" {
		return p.openMemory(g) // it says why there is none
	}
	s, err := store.Open(p.ctx, path, store.Options{ReadOnly: true, Zone: g.Place.Zone, Now: p.env.Now})
	var older *store.OlderError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case errors.As(err, &older):
		return p.openMemory(g) // it brings the file up to date
	}
	return s, err
}

// noteJSON writes a result for programs.
func (p *program) noteJSON(fields any) error {
	body, err := json.Marshal(fields)
	if err != nil {
		return err
	}
	head := fmt.Sprintf(`{"schema":%d,"report":"note",`, jsonout.Schema)
	var out bytes.Buffer
	if err := json.Indent(&out, append([]byte(head), body[1:]...), "", "  "); err != nil {
		return err
	}
	out.WriteByte('\n')
	_, err = p.out.Write(out.Bytes())
	return err
}

// orNull gives null where there is no text.
func orNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// entryUnits says what the numbers of an entry are in, beside it.
func entryUnits() map[string]string {
	return map[string]string{"amount": "mm of rain, L of water, g of feed", "weight": "kg", "minutes": "min", "interval": "days"}
}

// moment writes an instant for a list.
func moment(t time.Time, zone *time.Location) string { return t.In(zone).Format("2006-01-02 15:04") }
