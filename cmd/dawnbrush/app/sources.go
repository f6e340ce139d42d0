package app

import (
	"slices"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report"
	"dawnbrush/risk"
	"dawnbrush/risk/published"
	"dawnbrush/risk/water"
)

// modelWord asks for the numbers that belong to no crop.
const modelWord = "model"

// tablesWord asks for the printed tables behind the account of water.
const tablesWord = "tables"

func (p *program) sources() *cobra.Command {
	var asked struct{ published, misses bool }
	c := &cobra.Command{
		Use:   "sources [CROP | KEY | ROW | model | tables]",
		Short: "where every number comes from",
		Long: `Without a word: how many numbers each crop has and how well they are founded,
and all works. With a crop: each of its numbers, with what else was found. With
the key of a work: its citation and every number that rests on it. With "model":
the numbers that belong to no crop. With "tables": the printed tables of soils
and crops that the account of water reads.

With --published: the published results that the model is held against, hits and
misses, of all crops, of a CROP, of bees, of wet (wet air), of the work with a
KEY, or the one ROW that "sources CROP" names beside a number.`,
		Example: `  dawnbrush sources cucumber
  dawnbrush sources FAO56
  dawnbrush sources --published cucumber --misses
  dawnbrush sources --published visits/cuke_need`,
		Args: between(0, 1, "at most one word"),
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			if asked.published {
				return publishedWords(), cobra.ShellCompDirectiveNoFileComp
			}
			return append(append(cropKeys(), modelWord, tablesWord), crops().Bibliography().Keys()...), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(_ *cobra.Command, args []string) error {
			d := &report.Document{Crops: crops(), Constants: constants(), Width: p.env.width(), Colour: p.env.colour(p.env.Out, p.options.noColor)}
			if asked.published {
				d.Focus.Misses, d.Constants = asked.misses, risk.Params()
				return p.published(d, args)
			}
			if asked.misses {
				return usage("write --published --misses", "--misses belongs to --published")
			}
			tables, err := water.Tables()
			if err != nil {
				return err
			}
			d.Tables = tables
			if len(args) == 1 {
				if err := evidence(d, args[0]); err != nil {
					return err
				}
			}
			return p.show("sources", d)
		},
	}
	c.Flags().BoolVar(&asked.published, "published", false, "the model against published results")
	c.Flags().BoolVar(&asked.misses, "misses", false, "with --published: only the results that the model misses")
	return c
}

// cropKeys lists the crops by the word that commands take.
func cropKeys() []string {
	var out []string
	for _, c := range crops().Crops() {
		out = append(out, c.Key)
	}
	return out
}

// evidence finds what is asked about: the model, a crop or a work.
func evidence(d *report.Document, word string) error {
	keys := d.Crops.Bibliography().Keys()
	if word == modelWord {
		d.Focus.Model = true
		return nil
	}
	if word == tablesWord {
		d.Focus.Tables = true
		return nil
	}
	if c, ok := d.Crops.Find(word); ok {
		d.Focus.Crop = c.Key
		return nil
	}
	if slices.Contains(keys, word) {
		d.Focus.Key = word
		return nil
	}
	if table, err := published.Load(); err == nil {
		if _, ok := table.Row(word); ok {
			return usage("`dawnbrush sources --published "+word+"` tells of it", "%s is a published result", word)
		}
	}
	offered := append([]string{modelWord, tablesWord}, keys...)
	for _, c := range d.Crops.Crops() {
		offered = append(offered, c.Words()...)
	}
	if near, ok := config.Nearest(word, offered); ok {
		return usage("did you mean "+near+"?", "there is no crop or source %q", word)
	}
	return usage("`dawnbrush sources` lists them all", "there is no crop or source %q", word)
}
