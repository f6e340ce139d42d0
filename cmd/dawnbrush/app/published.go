package app

import (
	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/cmd/dawnbrush/report"
	"dawnbrush/risk/published"
)

// published shows the table of published results, or what of it is asked about.
func (p *program) published(d *report.Document, args []string) error {
	table, err := published.Load()
	if err != nil {
		return err
	}
	d.Published = table
	if len(args) == 1 {
		if err := resultsOf(d, args[0]); err != nil {
			return err
		}
	}
	return p.show("published", d)
}

// publishedWords are the words that --published takes: crops, bees, wet air, rows.
func publishedWords() []string {
	out := append(cropKeys(), published.Bees, published.Wet)
	if table, err := published.Load(); err == nil {
		for _, r := range table.Rows() {
			out = append(out, r.ID)
		}
	}
	return out
}

// resultsOf finds what is asked about: a row, a crop, bees or wet air, a work.
func resultsOf(d *report.Document, word string) error {
	offered := []string{published.Bees, published.Wet}
	for _, r := range d.Published.Rows() {
		if r.ID == word {
			d.Focus.Row = word
			return nil
		}
		offered = append(offered, r.ID, r.Source)
	}
	if c, ok := d.Crops.Find(word); ok {
		d.Focus.Crop = c.Key
		return nil
	}
	if word == published.Bees || word == published.Wet {
		d.Focus.Subject = word
		return nil
	}
	if _, ok := d.Crops.Bibliography().Get(word); ok {
		d.Focus.Key = word
		return nil
	}
	for _, c := range d.Crops.Crops() {
		offered = append(offered, c.Words()...)
	}
	hint := "`dawnbrush sources --published` lists them all"
	if near, ok := config.Nearest(word, offered); ok {
		hint = "did you mean " + near + "?"
	}
	return usage(hint, "there is no published result, crop or source %q", word)
}
