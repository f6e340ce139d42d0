package risk

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/risk/bee"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/published"
)

// drawing is one or more numbers of ours that were drawn to published rows, and the
// way it was done, so that it can be done again without one of them.
type drawing struct {
	name   string
	way    string
	crops  []string // whose files hold the numbers
	params []string // dotted names there
	rows   []string // what they were drawn to
	take   func(c *crop.Crop) []float64
	put    func(c *crop.Crop, v []float64) // c is a copy
	// Crops that borrow the numbers, and how they do; c is a copy.
	borrowers []string
	lend      func(c *crop.Crop, v []float64)
	// Of numbers that belong to no crop but to the flight of bees, in place of take and put.
	flown func(f *bee.Flyers) []float64
	fly   func(f *bee.Flyers, v []float64) *bee.Flyers
	// draw gives the numbers from the rows that are left, NaN for a number that falls away.
	draw func(l *lab, left func(row string) bool) []float64
	// eye: drawn by eye near what the way gives. Without a row the numbers move in
	// the proportion in which the way's own result moves.
	eye   bool
	words func(v []float64) string // nil writes the numbers
}

func (d *drawing) text(v []float64) string {
	if d.words != nil {
		return d.words(v)
	}
	var out []string
	for _, x := range v {
		if math.IsNaN(x) {
			out = append(out, "none")
			continue
		}
		out = append(out, published.Number(x))
	}
	return strings.Join(out, ", ")
}

// oneFigure are rows that are one published figure in two shapes: neither is evidence
// without the other, so they are left out together.
var oneFigure = [][]string{
	{"visits/walters_open", "visits/walters_linear"}, // 80 % at 24 visits, and 80/24 % a visit [Walt05, status derived]
}

// sameFigure gives a row and those that are the same figure.
func sameFigure(row string) []string {
	for _, rows := range oneFigure {
		if slices.Contains(rows, row) {
			return rows
		}
	}
	return []string{row}
}

// copyOf gives a crop of its own to change.
func copyOf(c *crop.Crop) *crop.Crop {
	out := *c
	for _, g := range []**crop.Group{&out.Bees.Honey, &out.Bees.Bumble, &out.Bees.Squash} {
		if *g != nil {
			own := **g
			*g = &own
		}
	}
	if c.Self != nil {
		own := *c.Self
		out.Self = &own
	}
	if c.Corn != nil {
		own := *c.Corn
		out.Corn = &own
	}
	return &out
}

// paidShare is what all groups together pay of the need in an hour of full flight.
func paidShare(c *crop.Crop) (sum float64) {
	for _, g := range []*crop.Group{c.Bees.Honey, c.Bees.Bumble, c.Bees.Squash} {
		if g != nil {
			sum += g.GrainsPerVisit * g.VisitRate / c.Need.Set
		}
	}
	return sum
}

// with puts numbers into the crops of a drawing. The rates of visits are calibrated to
// what sets on a clear day, so they follow a change of need or grains.
func (l *lab) with(d *drawing, v []float64) *lab {
	out := *l
	if d.fly != nil {
		out.flyers = d.fly(l.bees(), v)
		return &out
	}
	out.changed = map[string]*crop.Crop{}
	for i, key := range slices.Concat(d.crops, d.borrowers) {
		old := l.crop(key)
		own := copyOf(old) // by its own key: the name of a drawing may be an alias
		if i < len(d.crops) {
			d.put(own, v)
		} else {
			d.lend(own, v)
		}
		if k := paidShare(old) / paidShare(own); old.Pollination == crop.Insect && math.Abs(k-1) > 1e-12 {
			for _, g := range []*crop.Group{own.Bees.Honey, own.Bees.Bumble, own.Bees.Squash} {
				if g != nil {
					g.VisitRate *= k
				}
			}
		}
		out.changed[old.Key] = own
	}
	return &out
}

// run gives what the model makes of some rows.
func (l *lab) run(rows []string) map[string]rowTrial {
	out := map[string]rowTrial{}
	for _, f := range l.trials(func(f *finding) bool { return slices.Contains(rows, f.id) }) {
		out[f.id] = f
	}
	return out
}

// now gives the numbers as they stand.
func (d *drawing) now(l *lab) []float64 {
	if d.fly != nil {
		return d.flown(bee.Usual())
	}
	return d.take(l.crop(d.crops[0]))
}

// keys are those of the crop files named.
func (d *drawing) keys(l *lab, crops []string) (keys []string) {
	if d.fly != nil {
		return crops
	}
	for _, key := range crops {
		keys = append(keys, l.crop(key).Key)
	}
	return keys
}

// touched are the rows that numbers of the crops can move; those of the bees any.
func touched(all []rowTrial, l *lab, crops []string) (rows []string) {
	for _, f := range all {
		hit := slices.Contains(crops, published.Bees) || slices.Contains(crops, l.subject(f.id, f.crop, f.used))
		for key := range f.used {
			hit = hit || slices.Contains(crops, key)
		}
		if hit {
			rows = append(rows, f.id)
		}
	}
	return rows
}

// leaveOut draws the numbers without a row and gives whose verdict changes then.
func (l *lab) leaveOut(d *drawing, row string, all []rowTrial) published.Fit {
	l.t.Helper()
	now, crops := d.now(l), d.keys(l, d.crops)
	fit := published.Fit{Name: d.name, Crops: crops, Params: d.params, Way: d.way, Row: row, Value: d.text(now)}
	out := sameFigure(row)
	left := func(id string) bool { return !slices.Contains(out, id) }
	v := d.draw(l, left)
	whole := d.draw(l, func(string) bool { return true })
	for i := range v {
		switch {
		case v[i] == whole[i]: // the row had no part in it: the number of the file, rounded as it is
			v[i] = now[i]
		case d.eye && whole[i] != now[i]: // equal zeros too
			v[i] *= now[i] / whole[i]
		}
	}
	fit.Redrawn = d.text(v)
	rows := touched(all, l, append(crops, d.keys(l, d.borrowers)...))
	other := l.with(d, v).run(rows)
	for _, f := range all {
		got, ran := other[f.id]
		if !ran || !left(f.id) || got.hit == f.hit {
			continue
		}
		to := published.Miss
		if got.hit {
			to = published.Hit
		}
		fit.Changes = append(fit.Changes, published.Change{Row: f.id, To: to})
	}
	return fit
}

// leaveOutAll leaves each row out of each drawing.
func (l *lab) leaveOutAll() (out []published.Fit) {
	all := l.trials(everyRow)
	for _, d := range l.drawings() {
		for _, row := range d.rows {
			out = append(out, l.leaveOut(&d, row, all))
		}
	}
	return out
}

// Leaving one row out of what our numbers were drawn to: the file tells for every
// such row what the numbers become and whose verdict changes. A change that the file
// does not tell is a failure.
func TestPublishedLeaveOneOut(t *testing.T) {
	l := newLab(t)
	fits := l.leaveOutAll()
	text, err := published.EncodeFits(fits)
	require.NoError(t, err)
	if *update {
		require.NoError(t, os.WriteFile(fitsFile, text, 0o666))
		return
	}
	table, err := published.Load()
	require.NoError(t, err, renew)
	old := map[string]published.Fit{}
	for _, f := range table.Fits() {
		old[f.Name+" without "+f.Row] = f
	}
	for _, f := range fits {
		name := f.Name + " without " + f.Row
		was, ok := old[name]
		delete(old, name)
		switch {
		case !ok:
			t.Errorf("%s is missing in risk/%s; %s", name, fitsFile, renew)
		case !slices.Equal(was.Changes, f.Changes):
			t.Errorf("%s: other rows change to %v, the file tells %v; %s", name, f.Changes, was.Changes, renew)
		case was.Redrawn != f.Redrawn || was.Value != f.Value:
			t.Errorf("%s: %s becomes %q, the file tells %s and %q; %s", name, f.Value, f.Redrawn, was.Value, was.Redrawn, renew)
		case !assert.ObjectsAreEqual(was, f):
			t.Errorf("%s: its words, crops or numbers changed; %s", name, renew)
		}
		t.Logf("%s: %s -> %s, changes %v", name, f.Value, f.Redrawn, f.Changes)
	}
	for name := range old {
		t.Errorf("%s stands in risk/%s and is drawn no more; %s", name, fitsFile, renew)
	}
}

// The way told for a drawing gives the number of the crop file, and every crop of a
// drawing has that number.
func TestPublishedDrawingsGiveOurNumbers(t *testing.T) {
	l := newLab(t)
	for _, d := range l.drawings() {
		now := d.now(l)
		if d.fly != nil {
			for _, name := range d.params {
				assert.True(t, slices.ContainsFunc(bee.Params(), func(p paramOf) bool { return p.Name == name }), "%s: bees have no number %s", d.name, name)
			}
			assert.Equal(t, d.text(now), d.text(d.flown(d.fly(bee.Usual(), now))), "%s: what is put is not what is taken", d.name)
		} else {
			l.holdsTogether(&d, now)
		}
		whole := d.draw(l, func(string) bool { return true })
		require.Len(t, whole, len(now), d.name)
		for i := range now {
			if !d.eye && math.Abs(whole[i]-now[i]) > 0.01*math.Abs(now[i]) {
				t.Errorf("%s: the way told gives %s, the crop file has %s: redraw the one or tell the other anew in published_drawings_test.go", d.name, d.text(whole), d.text(now))
			}
		}
	}
}

// holdsTogether: every crop of a drawing has its numbers, and takes what is put.
func (l *lab) holdsTogether(d *drawing, now []float64) {
	for _, key := range d.crops {
		c := l.crop(key)
		assert.Equal(l.t, d.text(now), d.text(d.take(c)), "%s: %s", d.name, key)
		for _, name := range d.params {
			assert.True(l.t, slices.ContainsFunc(c.Params, func(p paramOf) bool { return p.Name == name }), "%s: %s has no number %s", d.name, key, name)
		}
		own := copyOf(c)
		d.put(own, now)
		assert.Equal(l.t, d.text(now), d.text(d.take(own)), "%s: what is put is not what is taken", d.name)
	}
	for _, key := range d.borrowers {
		own := copyOf(l.crop(key))
		before := *own
		d.lend(own, now)
		assert.Equal(l.t, before.Pollen, own.Pollen, "%s: %s does not borrow the numbers", d.name, key)
	}
}

// Every row that is said to be fitted stands in a drawing, and no drawing takes an
// unforced row.
func TestPublishedFittedRowsAreDrawn(t *testing.T) {
	l := newLab(t)
	as := map[string]standing{}
	for _, f := range l.findings() {
		as[f.id] = f.as
	}
	drawn := map[string]bool{}
	put := func(what string, rows []string) {
		for _, row := range rows {
			drawn[row] = true
			if s, ok := as[row]; !ok || s == unforced {
				t.Errorf("%s is drawn to %s, which is not held against the model or said to be unforced", what, row)
			}
		}
	}
	for _, d := range l.drawings() {
		put(d.name, d.rows)
	}
	for id, s := range as {
		if s == fitted && !drawn[id] {
			t.Errorf("%s is said to be fitted, but no drawing in published_drawings_test.go names it: tell what was drawn to it", id)
		}
	}
}

// best gives the value of a grid with the least squares, or an empty result's NaN.
func best(from, to, step float64, cost func(v float64) float64) float64 {
	least, at := math.Inf(1), math.NaN()
	for i := 0; ; i++ {
		v := from + float64(i)*step
		if v > to+step/2 {
			return at
		}
		if c := cost(v); c < least {
			least, at = c, v
		}
	}
}

// rowEnds writes the ends of a fall.
func rowEnds(unit string) func(v []float64) string {
	return func(v []float64) string {
		return fmt.Sprintf("%s to %s %s", published.Number(v[0]), published.Number(v[1]), unit)
	}
}
