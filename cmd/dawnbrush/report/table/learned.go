package table

import (
	"fmt"
	"io"

	"github.com/fatih/color"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/risk"
	"dawnbrush/risk/growth"
)

// learned is the report of what the diary taught while it is written.
type learned struct {
	*paper
	words.Words
	d *document.Document
}

// Learned prints what the garden's file and diary teach: bees, the brush, first
// flowers, cultivars.
func Learned(w io.Writer, d *document.Document) error {
	k := learned{newPaper(d.Columns(), d.Colour), words.New(d.Units, d.Zone()), d}
	k.line(k.paint(d.Garden.Name+" - what the diary teaches", color.Bold))
	taught := d.Taught
	if taught == nil {
		taught = &risk.Taught{}
	}
	k.hanging("  bees   ", 9, k.BeesTaught(&taught.Learned))
	k.hanging("  brush  ", 9, k.HandTaught(&taught.Learned))
	if len(taught.Kinds) == 0 {
		k.hanging("  first flowers  ", 9, "none noted yet")
	}
	for i := range taught.Kinds {
		if err := k.kind(&taught.Kinds[i]); err != nil {
			return err
		}
	}
	k.blank()
	k.para("", "Ranges hold nine of ten. A difference between cultivars is told from a chance of "+k.Percent(taughtFrom(d))+" on.")
	return k.to(w)
}

func taughtFrom(d *document.Document) float64 {
	p, _ := d.Param(nil, "risk.tellable")
	return p.Value
}

// kind prints what was learned of one kind of crop.
func (k *learned) kind(kind *risk.Kind) error {
	k.heading(words.Kind(kind.Crop, kind.Species))
	for i := range kind.Firsts {
		f := &kind.Firsts[i]
		book, garden := k.Norms(&f.Norms)
		k.hanging("  ", 4, words.FirstFlower(kind.Crop, f.Sex))
		k.hanging("    book    ", 12, book)
		k.hanging("    garden  ", 12, garden)
	}
	for i := range kind.Seen {
		s := &kind.Seen[i]
		k.hanging("    - ", 6, s.Planting+": "+k.Sighting(kind.Crop, s))
	}
	if text := k.BrushAgainstBees(kind); text != "" {
		k.hanging("  ", 4, text)
	}
	if len(kind.Cultivars) == 0 {
		return nil
	}
	if err := k.cultivars(kind); err != nil {
		return err
	}
	if len(kind.Verdicts) > 0 {
		k.blank()
	}
	for i := range kind.Verdicts {
		k.hanging("  ", 4, k.Verdict(kind.Crop, &kind.Verdicts[i]))
	}
	return nil
}

// cultivars prints the evidence on each cultivar, a row each.
func (k *learned) cultivars(kind *risk.Kind) error {
	columns := []column{{"cultivar", 12, false}}
	for _, f := range kind.Firsts {
		columns = append(columns, column{words.FirstFlower(kind.Crop, f.Sex), 13, false})
	}
	columns = append(columns, column{"set by bees", 11, false}, column{"set by hand", 11, false})
	var rows [][]string
	for i := range kind.Cultivars {
		c := &kind.Cultivars[i]
		row := []string{k.split(c.Name, 18)}
		for j := range c.Firsts {
			row = append(row, k.first(&c.Firsts[j].Norms))
		}
		rows = append(rows, append(row, k.SetShare(c.Bees, c.BeesOf), k.SetShare(c.Hand, c.HandOf)))
	}
	k.blank()
	return k.grid(columns, rows)
}

// first writes what a cultivar takes to its first flower; empty when none of it was seen.
func (k *learned) first(n *growth.Norms) string {
	norm, write := &n.Days, words.DaysRange
	if n.Sum.Own > 0 {
		norm, write = &n.Sum, k.WarmthRange
	}
	if norm.Own == 0 {
		return ""
	}
	mid, r := norm.Cultivar()
	middle := k.Warmth(mid)
	if norm == &n.Days {
		middle = words.Count(int(mid+0.5), "day", "days")
	}
	return fmt.Sprintf("%s\n(%s)\nn %d", middle, write(r), norm.Own)
}
