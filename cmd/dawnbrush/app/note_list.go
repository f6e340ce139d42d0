package app

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// noteChoice is what note list is asked for.
type noteChoice struct {
	from, to, planting string
	kinds              []string
}

func (p *program) noteList() *cobra.Command {
	var want noteChoice
	c := &cobra.Command{
		Use:   "list",
		Short: "list the notes as they stand",
		Long: `Lists the notes as they stand, one a line: the id that amend and history take,
the day, the time where it is known, and the words.`,
		Example: `  dawnbrush note list --from 2026-07-01
  dawnbrush note list --kind bees --planting cucumber`,
		Args: exactly(0, "nothing more"),
		RunE: func(*cobra.Command, []string) error { return p.listNotes(want) },
	}
	f := c.Flags()
	f.StringVar(&want.from, "from", "", "first `DATE`") // a saved forecast has no place here
	f.StringVar(&want.to, "to", "", "last `DATE`")
	f.StringArrayVar(&want.kinds, "kind", nil, "`KIND` of note; may be given again")
	f.StringVar(&want.planting, "planting", "", "`PLANTING` by its name, a part of it or its crop")
	must(c.RegisterFlagCompletionFunc("kind", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return diary.Complete(nil, nil), cobra.ShellCompDirectiveNoFileComp
	}))
	must(c.RegisterFlagCompletionFunc("planting", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return p.plantingNames(), cobra.ShellCompDirectiveNoFileComp
	}))
	return c
}

// must is for what only a fault of ours can break.
func must(err error) {
	if err != nil {
		panic(err)
	}
}

func (p *program) listNotes(want noteChoice) error {
	file, _, err := p.readGarden()
	if err != nil {
		return err
	}
	g := &file.Garden
	filter, err := p.noteFilter(g, want)
	if err != nil {
		return err
	}
	s, err := p.reading(g)
	if err != nil {
		return err
	}
	var entries []memory.Entry
	if s != nil {
		defer s.Close()
		if filter.Planting, err = p.plantingAmong(s, g, filter, want.planting); err != nil {
			return err
		}
		for i := range g.Plantings {
			if p := &g.Plantings[i]; p.Name == filter.Planting {
				filter.Bed = p.Bed
			}
		}
		if entries, err = s.Entries(p.ctx, filter); err != nil {
			return err
		}
	}
	return p.showNotes(g, entries, false)
}

// noteFilter reads the choice; the planting is looked for later, among the notes
// too.
func (p *program) noteFilter(g *risk.Garden, want noteChoice) (store.Filter, error) {
	var filter store.Filter
	now, err := p.now(g.Place.Zone)
	if err != nil {
		return filter, err
	}
	today := forecast.DateOf(now, g.Place.Zone)
	for _, bound := range []struct {
		flag, word string
		into       *forecast.Date
	}{{"--from", want.from, &filter.From}, {"--to", want.to, &filter.To}} {
		if bound.word == "" {
			continue
		}
		d, err := diary.DayNamed(bound.word, today)
		if err != nil {
			return filter, refused(err)
		}
		*bound.into = d
	}
	if !filter.From.IsZero() && !filter.To.IsZero() && filter.To.Before(filter.From) {
		return filter, usage("give the earlier day as --from", "--to %s is before --from %s", filter.To, filter.From)
	}
	for _, word := range want.kinds {
		k, err := diary.KindNamed(word)
		if err != nil {
			return filter, refused(err)
		}
		filter.Kinds = append(filter.Kinds, k)
	}
	return filter, nil
}

// plantingAmong finds a planting by the garden file, else by the very name it had
// in earlier notes.
func (p *program) plantingAmong(s *store.Store, g *risk.Garden, filter store.Filter, typed string) (string, error) {
	if typed == "" {
		return "", nil
	}
	name, err := diary.PlantingNamed(g, forecast.Date{}, typed)
	if err == nil {
		return name, nil
	}
	entries, err2 := s.Entries(p.ctx, filter)
	if err2 != nil {
		return "", err2
	}
	for i := range entries {
		if strings.EqualFold(entries[i].Planting, typed) {
			return entries[i].Planting, nil
		}
	}
	return "", refused(err)
}

// showNotes lists entries; with history when each was typed stands before it.
func (p *program) showNotes(g *risk.Garden, entries []memory.Entry, history bool) error {
	u, err := p.units(g)
	if err != nil {
		return err
	}
	if p.options.json {
		if entries == nil {
			entries = []memory.Entry{}
		}
		return p.noteJSON(struct {
			Entries []memory.Entry    `json:"entries"`
			Units   map[string]string `json:"units"`
		}{entries, entryUnits()})
	}
	var b strings.Builder
	for i := range entries {
		e := &entries[i]
		at := "     "
		if !e.At.IsZero() {
			at = e.At.In(g.Place.Zone).Format("15:04")
		}
		if history {
			fmt.Fprintf(&b, "typed %s  ", moment(e.Recorded, g.Place.Zone))
		}
		fmt.Fprintf(&b, "%-6s  %s %s  %s\n", diary.ShortID(e.ID), e.Date, at, diary.Say(e, u))
	}
	if len(entries) == 0 {
		fmt.Fprintf(p.err, "%s: no notes\n", name)
	}
	_, err = p.out.Write([]byte(b.String()))
	return err
}

func (p *program) noteHistory() *cobra.Command {
	return &cobra.Command{
		Use:               "history ID",
		Short:             "show a note and everything it was before",
		Example:           "  dawnbrush note history k3v9q2",
		Args:              exactly(1, "the id of a note, as dawnbrush note list shows it"),
		ValidArgsFunction: p.completeID,
		RunE: func(_ *cobra.Command, args []string) error {
			file, _, err := p.readGarden()
			if err != nil {
				return err
			}
			s, _, id, err := p.noteNamed(&file.Garden, args[0], p.reading)
			if err != nil {
				return err
			}
			defer s.Close()
			versions, err := s.History(p.ctx, id)
			if err != nil {
				return err
			}
			return p.showNotes(&file.Garden, versions, true)
		},
	}
}

// noteNamed opens the memory and finds a note by the end of its id.
func (p *program) noteNamed(g *risk.Garden, typed string, open func(*risk.Garden) (*store.Store, error)) (s *store.Store, e memory.Entry, id string, err error) {
	if s, err = open(g); err != nil {
		return nil, e, "", err
	}
	var all []memory.Entry
	if s != nil {
		if all, err = s.All(p.ctx); err != nil {
			s.Close()
			return nil, e, "", err
		}
	}
	if id, err = diary.FindID(all, typed); err != nil {
		if s != nil {
			s.Close()
		}
		return nil, e, "", refused(err)
	}
	i := slices.IndexFunc(all, func(x memory.Entry) bool { return x.ID == id })
	return s, all[i], id, nil
}
