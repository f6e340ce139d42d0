package app

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

func (p *program) noteAmend() *cobra.Command {
	var when noteTime
	c := &cobra.Command{
		Use:   "amend ID WORDS...",
		Short: "put another note in the place of one; both stay in its history",
		Long: `Puts another note in the place of one. Write the whole note anew; its day and
time stay unless --on or --at is given. dawnbrush note history shows what it
was.`,
		Example:           "  dawnbrush note amend k3v9q2 bees 5min 12 flowers 3 cucumber",
		Args:              between(2, 1000, "the id of a note and the words that replace it"),
		ValidArgsFunction: p.completeAmend,
		RunE: func(_ *cobra.Command, args []string) error {
			return p.amendNote(args[0], args[1:], when)
		},
	}
	when.flags(c)
	c.SetFlagErrorFunc(noteFlagFailure)
	return c
}

func (p *program) amendNote(typed string, args []string, when noteTime) error {
	file, _, err := p.readGarden()
	if err != nil {
		return err
	}
	g := &file.Garden
	s, old, id, err := p.noteNamed(g, typed, p.openMemory)
	if err != nil {
		return err
	}
	defer s.Close()
	c, err := p.noteContext(g, when, &old)
	if err != nil {
		return err
	}
	e, err := diary.Parse(args, c)
	if err != nil {
		return refused(err)
	}
	if e, err = s.Amend(p.ctx, id, e); err != nil {
		return superseded(err)
	}
	return p.understood(g, "amended", &e)
}

func (p *program) noteRemove() *cobra.Command {
	return &cobra.Command{
		Use:               "remove ID",
		Short:             "take a note back; it stays in its history",
		Example:           "  dawnbrush note remove k3v9q2",
		Args:              exactly(1, "the id of a note, as dawnbrush note list shows it"),
		ValidArgsFunction: p.completeID,
		RunE: func(_ *cobra.Command, args []string) error {
			file, _, err := p.readGarden()
			if err != nil {
				return err
			}
			s, old, id, err := p.noteNamed(&file.Garden, args[0], p.openMemory)
			if err != nil {
				return err
			}
			defer s.Close()
			if _, err := s.Remove(p.ctx, id); err != nil {
				return superseded(err)
			}
			return p.understood(&file.Garden, "removed", &old)
		},
	}
}

// superseded names the note that took the place of one, by the id that is typed.
func superseded(err error) error {
	var s *store.SupersededError
	if !errors.As(err, &s) || s.Removed {
		return err
	}
	now := diary.ShortID(s.By)
	return failed(err, "name "+now+" instead", "the note %s was amended already; it is %s now", diary.ShortID(s.ID), now)
}

func (p *program) noteUndo() *cobra.Command {
	return &cobra.Command{
		Use:   "undo",
		Short: "take back the last thing done to the diary; again, the one before",
		Args:  exactly(0, "nothing more"),
		RunE: func(*cobra.Command, []string) error {
			file, _, err := p.readGarden()
			if err != nil {
				return err
			}
			s, err := p.openMemory(&file.Garden)
			if err != nil {
				return err
			}
			defer s.Close()
			u, err := s.Undo(p.ctx)
			if errors.Is(err, store.ErrNothingToUndo) {
				return failed(err, "dawnbrush note list shows what stands", "there is nothing to take back")
			}
			if err != nil {
				return err
			}
			return p.tellUndone(&file.Garden, &u)
		},
	}
}

// undoneWords says what an action was.
var undoneWords = map[store.Action]string{store.Added: "the note", store.Amended: "the amendment", store.Removed: "the removal", store.Imported: "the import"}

func (p *program) tellUndone(g *risk.Garden, u *store.Undone) error {
	if p.options.json {
		return p.noteJSON(struct {
			Undone  string            `json:"undone"`
			Done    time.Time         `json:"done"`
			Entries []memory.Entry    `json:"entries"`
			Units   map[string]string `json:"units"`
		}{string(u.What), u.At.In(g.Place.Zone).Truncate(time.Second), u.Entries, entryUnits()})
	}
	what := fmt.Sprintf("of %d entries", len(u.Entries))
	if len(u.Entries) == 1 {
		e := &u.Entries[0]
		said, _, err := p.sayEntry(g, e)
		if err != nil {
			return err
		}
		if e.Removed { // the marker of a removal says nothing else
			said = strings.TrimSpace(string(e.Kind) + " " + e.Planting)
		}
		what = "of " + entryDay(g, e) + ": " + said
	}
	_, err := fmt.Fprintf(p.out, "took back %s %s\n", undoneWords[u.What], what)
	return err
}
