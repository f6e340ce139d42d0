package published

import (
	"slices"
	"strings"

	"dawnbrush/risk/crop"
	"dawnbrush/risk/source"
)

// Score counts hits among rows held against the model.
type Score struct{ Hits, Rows int }

// Share is the share of hits, 0 where there are no rows.
func (s Score) Share() float64 { return float64(s.Hits) / float64(max(1, s.Rows)) }

// Count scores the rows for which keep is true.
func (t *Table) Count(keep func(*Row) bool) (s Score) {
	for i := range t.rows {
		r := &t.rows[i]
		if !r.Tested() || !keep(r) {
			continue
		}
		s.Rows++
		if r.Verdict == Hit {
			s.Hits++
		}
	}
	return s
}

// Subjects lists the subjects of the rows held against the model, in order.
func (t *Table) Subjects() []string {
	var out []string
	for i := range t.rows {
		if r := &t.rows[i]; r.Tested() && !slices.Contains(out, r.Subject) {
			out = append(out, r.Subject)
		}
	}
	slices.Sort(out)
	return out
}

// Steady parts the subjects of rows held against the model: those of which no verdict
// changed when any other row was left out of a drawing; those of which nothing changed
// either, but some number could not be drawn without its row; and those of which a
// verdict changed.
func (t *Table) Steady() (steady, open, moved []string) {
	changed, undrawn := map[string]bool{}, map[string]bool{}
	for i := range t.fits {
		for _, c := range t.fits[i].Changes {
			row, _ := t.Row(c.Row)
			changed[row.Subject] = true
		}
		for _, key := range t.fits[i].Crops {
			undrawn[key] = undrawn[key] || t.fits[i].Redrawn == ""
		}
	}
	for _, s := range t.Subjects() {
		switch {
		case changed[s]:
			moved = append(moved, s)
		case undrawn[s]:
			open = append(open, s)
		default:
			steady = append(steady, s)
		}
	}
	return steady, open, moved
}

// RowName gives the name in the table of a row that a crop file names: a bare
// "visits_needed" is a row of the crop itself, "hand:x/y" one of the table of practice.
// cropKey is empty for a number of the model.
func RowName(cropKey, row string) string {
	if table, rest, ok := strings.Cut(row, ":"); ok && !strings.Contains(table, "/") {
		return table + "/" + rest
	}
	if row == "" || cropKey == "" && !strings.Contains(row, "/") {
		return ""
	}
	if !strings.Contains(row, "/") {
		row = strings.ReplaceAll(cropKey, "-", "_") + "/" + row
	}
	return "crops/" + row
}

// Holder is a number of ours that has to do with a row.
type Holder struct {
	Crop  string // key
	Param string // dotted name
	Taken bool   // the number is the row's; else the row stands beside it
	Drawn bool   // the number was drawn to it
}

// Holders gives the numbers of the crop files that name a row or were drawn to it.
func (t *Table) Holders(set *crop.Set, id string) []Holder {
	var out []Holder
	add := func(h Holder) {
		for i := range out {
			if out[i].Crop == h.Crop && out[i].Param == h.Param {
				out[i].Taken, out[i].Drawn = out[i].Taken || h.Taken, out[i].Drawn || h.Drawn
				return
			}
		}
		out = append(out, h)
	}
	for _, c := range set.Crops() {
		for i := range c.Params {
			p := &c.Params[i]
			if RowName(c.Key, p.Row) == id {
				add(Holder{Crop: c.Key, Param: p.Name, Taken: true})
			}
			for _, o := range p.Others {
				if RowName(c.Key, o.Row) == id {
					add(Holder{Crop: c.Key, Param: p.Name})
				}
			}
		}
	}
	for _, f := range t.fits {
		if f.Row != id {
			continue
		}
		for _, key := range f.Crops {
			for _, name := range f.Params {
				add(Holder{Crop: key, Param: name, Drawn: true})
			}
		}
	}
	return out
}

// FreedomWords says what is counted in a Freedom.
const FreedomWords = "Counted are the numbers that a share of set can move with: those of a crop file without its types, its calendar, its practice but for what sets by hand, " +
	"limits of flags, and evidence kept beside; for bees and wet flowers the constants that belong to no crop. A curve counts once for each point, a range for its two ends. " +
	"Published: read or quoted. Derived: computed from a publication. Free: our choice, common practice, memory, or drawn to rows; " +
	"an upper bound, for some of them are units or forms and several crops share one number. " +
	"A row that is true by construction holds no number down; an unforced one holds best."

// Freedom sets the numbers that a subject's verdicts come from against the rows that
// hold them; FreedomWords says what counts.
type Freedom struct {
	Subject     string
	Numbers     int // all that are counted
	Published   int // read or quoted
	Derived     int // computed from a publication, and not drawn to rows
	Free        int
	Drawn       int // of the free ones, those drawn to rows
	Unforced    Score
	Fitted      Score
	Constructed Score
}

// aside are sections of a crop file whose numbers no share of set moves with, but for
// what sets by hand.
var aside = []string{"types", "phenology", "hand", "limits", "look", "evidence"}

// Freedoms gives a line for each crop, for bees and for wet air. constants are
// the model's numbers that belong to no crop.
func (t *Table) Freedoms(set *crop.Set, constants []source.Param) []Freedom {
	var out []Freedom
	for _, c := range set.Crops() {
		out = append(out, t.freedom(c.Key, c.Params))
	}
	for subject, prefix := range map[string]string{Bees: "bee.", Wet: "pollen."} {
		var own []source.Param
		for _, p := range constants {
			if strings.HasPrefix(p.Name, prefix) {
				own = append(own, p)
			}
		}
		out = append(out, t.freedom(subject, own))
	}
	slices.SortFunc(out, func(a, b Freedom) int { return strings.Compare(a.Subject, b.Subject) })
	return out
}

func (t *Table) freedom(subject string, params []source.Param) Freedom {
	f := Freedom{Subject: subject}
	for i := range params {
		p := &params[i]
		section, _, _ := strings.Cut(p.Name, ".")
		if p.Kind == source.Words || slices.Contains(aside, section) && p.Name != "hand.set" || p.Name == "need.visits_needed" || strings.HasPrefix(p.Name, "corn.isolation") {
			continue
		}
		n := max(1, len(p.Curve))
		if p.Kind == source.Span {
			n = 2
		}
		f.Numbers += n
		drawn := t.drawn(subject, p.Name)
		switch {
		case drawn:
			f.Drawn, f.Free = f.Drawn+n, f.Free+n
		case p.Status == source.Read || p.Status == source.Quoted:
			f.Published += n
		case p.Status == source.Derived:
			f.Derived += n
		default:
			f.Free += n
		}
	}
	for standing, s := range map[Standing]*Score{Unforced: &f.Unforced, Fitted: &f.Fitted, Constructed: &f.Constructed} {
		*s = t.Count(func(r *Row) bool { return r.Subject == subject && r.Standing == standing })
	}
	return f
}

// drawn tells whether a number was drawn to rows.
func (t *Table) drawn(subject, param string) bool {
	for i := range t.fits {
		if slices.Contains(t.fits[i].Crops, subject) && slices.Contains(t.fits[i].Params, param) {
			return true
		}
	}
	return false
}
