package crop

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk/source"
)

// reader takes one crop file apart and gathers its faults and parameters.
type reader struct {
	file   string
	bib    *source.Bibliography
	plain  bool // no params are kept and no origins checked
	faults Faults
	params []placed
}

type placed struct {
	offset int64
	param  source.Param
}

func (r *reader) fault(line int, format string, args ...any) {
	r.faults = append(r.faults, Fault{File: r.file, Line: line, Text: fmt.Sprintf(format, args...)})
}

// inFileOrder gives the parameters as they stand in the file.
func (r *reader) inFileOrder() []source.Param {
	slices.SortStableFunc(r.params, func(a, b placed) int { return cmp.Compare(a.offset, b.offset) })
	out := make([]source.Param, len(r.params))
	for i, p := range r.params {
		out[i] = p.param
	}
	return out
}

// section is an object of the file with the dotted name of its members.
type section struct {
	r    *reader
	name string
	n    *node // nil when the section is absent or no object: reads then give zeros, silently
}

func (s section) dotted(key string) string {
	if s.name == "" {
		return key
	}
	return s.name + "." + key
}

// take gives the value of a key and marks it as known to the program.
func (s section) take(key string) *node {
	if s.n == nil {
		return nil
	}
	m := s.n.find(key)
	if m == nil {
		return nil
	}
	m.used = true
	return m.node
}

// need is take for a key that must be there.
func (s section) need(key string) *node {
	n := s.take(key)
	if n == nil && s.n != nil {
		s.r.fault(s.n.line, "%s is missing", s.dotted(key))
	}
	return n
}

// has tells whether the key is there, without marking it.
func (s section) has(key string) bool { return s.n != nil && s.n.find(key) != nil }

func (s section) open(key string, n *node) section {
	if n != nil && n.kind != object {
		s.r.fault(n.line, "%s must be an object", s.dotted(key))
		n = nil
	}
	return section{r: s.r, name: s.dotted(key), n: n}
}

// child opens a section that must be there; maybe opens one that need not.
func (s section) child(key string) section { return s.open(key, s.need(key)) }
func (s section) maybe(key string) section { return s.open(key, s.take(key)) }

// done reports the keys that nobody asked for.
func (s section) done() {
	if s.n == nil {
		return
	}
	for i := range s.n.members {
		m := &s.n.members[i]
		if !m.used {
			s.r.fault(m.line, "%s is not a field of a crop file", s.dotted(m.key))
		}
	}
}

// word reads a plain string that must be there.
func (s section) word(key string) string {
	n := s.need(key)
	if n == nil {
		return ""
	}
	return s.string(key, n)
}

func (s section) string(key string, n *node) string {
	text, ok := n.text()
	if !ok || strings.TrimSpace(text) == "" {
		s.r.fault(n.line, "%s must be a word in quotes", s.dotted(key))
	}
	return text
}

// items gives the members of a list that need not be there.
func (s section) items(key string) []*node {
	n := s.take(key)
	if n == nil {
		return nil
	}
	if n.kind != list || len(n.items) == 0 {
		s.r.fault(n.line, "%s must be a list and not empty", s.dotted(key))
	}
	return n.items
}

func (s section) strings(key string, n *node) []string {
	if n == nil {
		return nil
	}
	if n.kind != list {
		s.r.fault(n.line, "%s must be a list", s.dotted(key))
		return nil
	}
	var out []string
	for _, item := range n.items {
		out = append(out, s.string(key, item))
	}
	return out
}

// param reads a value object, checks kind, unit and origin, and records it.
func (s section) param(key string, n *node, want source.Kind, unit string) source.Param {
	if n == nil {
		return source.Param{}
	}
	if n.kind != object {
		s.r.fault(n.line, "%s is a bare value; it needs unit, source, where and status", s.dotted(key))
		return source.Param{}
	}
	p := s.r.decodeParam(s.dotted(key), n)
	if s.r.plain {
		return p
	}
	switch {
	case p.Kind != want:
		s.r.fault(n.line, "%s must be %s", p.Name, kindWords(want))
	case want != source.Words && p.Unit != "" && p.Unit != unit && unit != anyUnit:
		s.r.fault(n.line, "%s: unit %q must be %q", p.Name, p.Unit, unit)
	}
	if err := p.Validate(s.r.bib); err != nil {
		for line := range strings.SplitSeq(err.Error(), "\n") {
			if line == source.NoStatus && n.find("status") != nil {
				continue // the word was refused already
			}
			s.r.fault(n.line, "%s: %s", p.Name, line)
		}
	}
	s.r.checkSize(n, p)
	s.r.params = append(s.r.params, placed{n.offset, p})
	return p
}

func kindWords(k source.Kind) string {
	switch k {
	case source.Span:
		return "a range with low and high and no value"
	case source.Points:
		return "a curve"
	case source.Words:
		return "a text"
	}
	return "a single value"
}

func (s section) number(key, unit string) float64 {
	return s.param(key, s.need(key), source.Number, unit).Value
}

func (s section) optional(key, unit string) forecast.Value {
	n := s.take(key)
	if n == nil {
		return forecast.Value{}
	}
	return forecast.Known(s.param(key, n, source.Number, unit).Value)
}

func (s section) span(key, unit string) Range { return s.spanOf(key, s.need(key), unit) }

func (s section) optionalSpan(key, unit string) Range { return s.spanOf(key, s.take(key), unit) }

func (s section) spanOf(key string, n *node, unit string) Range {
	p := s.param(key, n, source.Span, unit)
	if p.Range == nil {
		return Range{}
	}
	return *p.Range
}

func (s section) curve(key, x, unit string) Curve { return s.curveOf(key, s.need(key), x, unit) }

func (s section) optionalCurve(key, x, unit string) Curve {
	return s.curveOf(key, s.take(key), x, unit)
}

func (s section) curveOf(key string, n *node, x, unit string) Curve {
	p := s.param(key, n, source.Points, unit)
	if p.X != "" && p.X != x {
		s.r.fault(n.line, "%s: x %q must be %q", p.Name, p.X, x)
	}
	return NewCurve(p.Curve...)
}

func (s section) fact(key string) Text { return s.factOf(key, s.need(key)) }

func (s section) optionalFact(key string) Text { return s.factOf(key, s.take(key)) }

func (s section) factOf(key string, n *node) Text {
	p := s.param(key, n, source.Words, "")
	return Text{Text: p.Text, Key: p.Key, Where: p.Where, Status: p.Status}
}

// anyUnit lets evidence carry the unit of its source.
const anyUnit = "*"

// checkSize refuses numbers that cannot be right in their unit: a Fahrenheit
// figure under degC, a percentage under share.
func (r *reader) checkSize(n *node, p source.Param) {
	limit, ok := sizes(p.Unit)
	if !ok {
		return
	}
	var all []float64
	if p.Kind == source.Number {
		all = append(all, p.Value)
	}
	if p.Range != nil {
		all = append(all, p.Range.Low, p.Range.High)
	}
	for _, point := range p.Curve {
		all = append(all, point[1])
	}
	for _, v := range all {
		if v < limit.Low || v > limit.High {
			r.fault(n.line, "%s: %g %s is not between %g and %g", p.Name, v, p.Unit, limit.Low, limit.High)
		}
	}
}

func sizes(unit string) (Range, bool) {
	switch unit {
	case "share":
		return Range{Low: 0, High: 1}, true
	case "%":
		return Range{Low: 0, High: 100}, true
	case "degC":
		return Range{Low: -10, High: 60}, true
	case "local hour":
		return Range{Low: 0, High: 24}, true
	case "h after sunrise":
		return Range{Low: -6, High: 24}, true
	case "days", "h", "min", "grains", "visits":
		return Range{Low: 0, High: math.MaxFloat64}, true
	}
	return Range{}, false
}
