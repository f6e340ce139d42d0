package app

import (
	"io/fs"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/fixtures"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
	"dawnbrush/risk/memory"
)

// mostShown bounds the past days of a bed's table. [chosen: as far as the past is read at most]
const mostShown = mostBack

func (p *program) waterCommand() *cobra.Command {
	days := 7
	c := &cobra.Command{
		Use:   "water [BED]",
		Short: "what each bed wants, its past days and its outlook",
		Long: `Keeps an account of the water in each bed of the garden file, after FAO
Irrigation and Drainage Paper 56: over the days that were, by measured weather,
your rain gauge and the waterings of the diary, and on over the forecast. It
says how much water a bed wants, how long that is, when, and what to wait for.

BED is the name of a bed, of a planting in it, or a crop. Note what you give and
what the gauge reads, or the account has to guess:
  dawnbrush note water 20 L bed 2
  dawnbrush note rain 6 mm`,
		Example: `  dawnbrush water
  dawnbrush water "bed 2" --days 30
  dawnbrush water --demo`,
		Args:              between(0, 1, "more than one bed"),
		ValidArgsFunction: p.completeBed,
		RunE: func(_ *cobra.Command, args []string) error {
			if days < 1 || days > mostShown {
				return usage("write a number from 1 to 300", "--days %d is not a past to show", days)
			}
			p.evidence = len(args) == 1 // it may name a crop
			d, err := p.document(mostDays)
			if err != nil {
				return err
			}
			d.Focus.Back = days
			if len(args) == 1 {
				if err := focusBed(d, args[0]); err != nil {
					return err
				}
			}
			if err := p.show("water", d); err != nil {
				return err
			}
			return p.verdict(d, false)
		},
	}
	c.Flags().IntVar(&days, "days", 7, "`NUMBER` of past days to show")
	return c
}

// focusBed finds the bed that is asked about: by its name, by a planting in it, or by a
// crop in it.
func focusBed(d *document.Document, word string) error {
	if bedNamed(d, word) {
		return nil
	}
	err := focus(d, word)
	if err == nil {
		return nil
	}
	var names []string
	for i := range d.Garden.Beds {
		names = append(names, d.Garden.Beds[i].Name)
	}
	switch near, ok := config.Nearest(word, names); {
	case len(names) == 0:
		return usage("add a [[bed]] for each bed to the garden file", "the garden file tells of no bed")
	case ok:
		return usage("did you mean "+near+"?", "there is no bed %q", word)
	}
	return err
}

// bedNamed takes a bed of that name into focus.
func bedNamed(d *document.Document, word string) bool {
	for i := range d.Garden.Beds {
		if strings.EqualFold(d.Garden.Beds[i].Name, word) {
			d.Focus.Bed = d.Garden.Beds[i].Name
			return true
		}
	}
	return false
}

// water keeps the account of the beds' water, nil where the garden file tells of none.
// The diary's entries come from the garden's memory, those of the demo from its own.
func (p *program) water(m *recall, g *risk.Garden, s *forecast.Series, now time.Time) (*ledger.Account, error) {
	if len(g.Beds) == 0 {
		return nil, nil
	}
	entries, err := p.waterEntries(g, m)
	if err != nil {
		return nil, err
	}
	today := forecast.DateOf(now, g.Place.Zone)
	return ledger.KeepTaught(m.remember(g, today), s, entries, m.firsts(g, s, today), now), nil
}

// waterEntries gives what the diary tells; nothing where there is none.
func (p *program) waterEntries(g *risk.Garden, m *recall) ([]memory.Entry, error) {
	switch {
	case m != nil:
		return m.entries, nil
	case p.options.demo && !p.withoutMemory():
		return demoDiary(g)
	}
	return nil, nil
}

// demoDiary reads the invented diary. That it does not read is a fault of ours.
func demoDiary(g *risk.Garden) ([]memory.Entry, error) {
	doc, err := fs.ReadFile(fixtures.Demo, fixtures.DiaryFile)
	if err != nil {
		return nil, err
	}
	now := fixtures.DemoNow()
	entries, faults := diary.Read(doc, diary.Known{Garden: g, Today: forecast.DateOf(now, now.Location())})
	if len(faults) > 0 {
		return nil, failed(nil, "", "the invented diary has a fault: line %d: %s", faults[0].Line, faults[0].Message)
	}
	return entries, nil
}
