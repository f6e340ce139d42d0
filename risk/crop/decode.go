package crop

import (
	"slices"

	"dawnbrush/risk/source"
)

// fields walks the members of a value object.
type fields struct {
	r    *reader
	name string
	n    *node
}

func (f fields) text(key string) string {
	m := f.n.find(key)
	if m == nil {
		return ""
	}
	m.used = true
	s, ok := m.node.text()
	if !ok {
		f.r.fault(m.line, "%s: %s must be in quotes", f.name, key)
	}
	return s
}

func (f fields) number(key string) *float64 {
	m := f.n.find(key)
	if m == nil {
		return nil
	}
	m.used = true
	v, ok := m.node.number()
	if !ok {
		f.r.fault(m.line, "%s: %s must be a number", f.name, key)
		return nil
	}
	return &v
}

func (f fields) interval() *source.Interval {
	low, high := f.number("low"), f.number("high")
	if (low == nil) != (high == nil) {
		f.r.fault(f.n.line, "%s: low and high go together", f.name)
	}
	if low == nil || high == nil {
		return nil
	}
	return &source.Interval{Low: *low, High: *high}
}

func (f fields) status() source.Status {
	word := f.text("status")
	if word == "" {
		return 0 // Validate reports it
	}
	s, err := source.ParseStatus(word)
	if err != nil {
		f.r.fault(f.n.find("status").line, "%s: %v", f.name, err)
	}
	return s
}

func (f fields) points() [][2]float64 {
	m := f.n.find("curve")
	if m == nil {
		return nil
	}
	m.used = true
	if m.node.kind != list {
		f.r.fault(m.line, "%s: curve must be a list of pairs", f.name)
	}
	var out [][2]float64
	for _, item := range m.node.items {
		x, y := 0.0, 0.0
		okX, okY := false, false
		if len(item.items) == 2 {
			x, okX = item.items[0].number()
			y, okY = item.items[1].number()
		}
		if !okX || !okY {
			f.r.fault(item.line, "%s: a point of a curve is a pair of numbers", f.name)
			continue
		}
		out = append(out, [2]float64{x, y})
	}
	slices.SortStableFunc(out, func(a, b [2]float64) int {
		if a[0] < b[0] {
			return -1
		}
		return 1
	})
	return out
}

func (f fields) others() []source.Alternative {
	m := f.n.find("others")
	if m == nil {
		return nil
	}
	m.used = true
	if m.node.kind != list {
		f.r.fault(m.line, "%s: others must be a list", f.name)
	}
	var out []source.Alternative
	for _, item := range m.node.items {
		o := fields{f.r, f.name + " others", item}
		out = append(out, source.Alternative{
			Value: o.number("value"), Range: o.interval(), Text: o.text("text"), Unit: o.text("unit"),
			Key: o.text("source"), Where: o.text("where"), Status: o.status(), Row: o.text("row"),
		})
		o.done()
	}
	return out
}

func (f fields) done() {
	for i := range f.n.members {
		m := &f.n.members[i]
		if !m.used {
			f.r.fault(m.line, "%s: %q is not a field of a value", f.name, m.key)
		}
	}
}

// decodeParam reads a value object whatever its kind.
func (r *reader) decodeParam(name string, n *node) source.Param {
	f := fields{r, name, n}
	value := f.number("value")
	p := source.Param{
		Name: name, Range: f.interval(), Curve: f.points(), X: f.text("x"), Text: f.text("text"),
		Unit: f.text("unit"), Key: f.text("source"), Where: f.text("where"), Status: f.status(),
		Note: f.text("note"), Row: f.text("row"), Others: f.others(),
	}
	kinds := 0
	if n.find("value") != nil {
		kinds++
	} else if p.Range != nil {
		p.Kind = source.Span
		kinds++
	}
	if value != nil {
		p.Value = *value
	}
	if n.find("curve") != nil {
		p.Kind = source.Points
		kinds++
	}
	if p.Text != "" {
		p.Kind = source.Words
		kinds++
	}
	if kinds != 1 {
		r.fault(n.line, "%s needs exactly one of value, low and high, curve, text", name)
	}
	f.done()
	return p
}
