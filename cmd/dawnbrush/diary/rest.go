package diary

import (
	"slices"
	"strings"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/risk"
)

// wholeGarden are the words for every planting at once.
var wholeGarden = []string{"whole garden", "garden", "everything", "everywhere", "all"}

// rest takes what is left for the text and the planting.
func (s *sentence) rest() *Error {
	left := s.left()
	if s.spec.text == noText {
		left = dropNoise(left, s.spec)
	}
	if s.spec.where == somewhere {
		var whole bool
		if left, whole = s.withoutGarden(left); whole && s.spec.text == noText {
			if len(left) > 0 {
				return refuse(s.spec.write(), "the note says both the whole garden and %s", said(typed(left)))
			}
			return nil
		} else if whole {
			return s.wholeText(left)
		}
	}
	if s.spec.text != noText {
		return s.split(left)
	}
	if s.spec.where == nowhere {
		if len(left) > 0 {
			return refuse("leave it out: rain falls on the whole garden. "+s.spec.write(), "%s is not understood", said(typed(left)))
		}
		return nil
	}
	name, err := s.resolve(left)
	if err != nil {
		return err
	}
	s.entry.Planting = name
	return nil
}

func (s *sentence) left() []token {
	var out []token
	for _, t := range s.tokens {
		if !t.used {
			out = append(out, t)
		}
	}
	return out
}

// typed writes tokens as they stood.
func typed(ts []token) string {
	var out []string
	for _, t := range ts {
		out = append(out, t.raw)
	}
	return strings.Join(out, " ")
}

// dropNoise leaves out words that mean nothing, unless they are part of a name.
func dropNoise(ts []token, s *spec) []token {
	return slices.DeleteFunc(slices.Clone(ts), func(t token) bool {
		return !t.locked && (slices.Contains(connectives, t.low) || slices.Contains(s.noise, t.low))
	})
}

// withoutGarden takes "whole garden" from the end of the words, unless a planting
// is called that.
func (s *sentence) withoutGarden(ts []token) (left []token, whole bool) {
	for _, phrase := range wholeGarden {
		n := len(strings.Fields(phrase))
		if _, planted := s.place.named(phrase); planted || len(ts) < n {
			continue
		}
		tail := ts[len(ts)-n:]
		if strings.ToLower(typed(tail)) != phrase || slices.ContainsFunc(tail, func(t token) bool { return t.locked }) {
			continue // part of a name, or in quotes
		}
		left = ts[:len(ts)-n]
		for len(left) > 0 && !left[len(left)-1].locked && slices.Contains(connectives, left[len(left)-1].low) {
			left = left[:len(left)-1]
		}
		return left, true
	}
	if n := len(ts); n > 0 && ts[n-1].quoted && ts[n-1].low == wholeGarden[0] {
		_, planted := s.place.named(wholeGarden[0])
		return ts[:n-1], !planted
	}
	return ts, false
}

// wholeText takes the text of a note about the whole garden.
func (s *sentence) wholeText(ts []token) *Error {
	t, ok := oneText(ts)
	switch {
	case !ok && len(ts) > 1:
		return refuse(s.spec.write(), "the note says both the whole garden and %s", said(ts[len(ts)-1].raw))
	case !ok:
		return s.noTextFound()
	}
	s.keepText(t)
	return nil
}

func (s *sentence) keepText(t string) {
	if s.spec.text == product {
		s.entry.Product = t
		return
	}
	s.entry.Text = t
}

func (s *sentence) noTextFound() *Error {
	what := "what it says"
	if s.spec.text == product {
		what = "the product"
	}
	return refuse("put it in quotes. "+s.spec.write(), "the note does not tell %s", what)
}

// oneText joins words to a text. A quoted one stands by itself.
func oneText(ts []token) (string, bool) {
	if len(ts) == 0 || len(ts) > 1 && slices.ContainsFunc(ts, func(t token) bool { return t.quoted }) {
		return "", false
	}
	return typed(ts), true
}

// resolve finds the name of the one planting that words mean; of a bed with several, or
// with none, the bed's where the note may be about one.
func (s *sentence) resolve(ts []token) (string, *Error) {
	if len(ts) == 0 {
		return "", refuse(s.place.offer()+". "+s.spec.write(), "which planting is it about?")
	}
	if len(ts) == 1 {
		if p, ok := s.place.named(ts[0].raw); ok {
			return p.Name, nil
		}
	}
	found := s.place.find(piecesOf(ts))
	if len(found) == 1 {
		return found[0].Name, nil
	}
	bed, holds, ok := s.place.bed(piecesOf(ts), found)
	switch {
	case ok && s.spec.beds():
		return bed, nil
	case ok && len(holds) > 0:
		return "", s.place.ofBed(bed, holds, s.spec)
	case len(found) > 1:
		return "", s.place.several(typed(ts), found)
	}
	if p, ok := s.wholeNameAmong(ts); ok {
		return p.Name, nil
	}
	return "", s.notUnderstood(ts)
}

func piecesOf(ts []token) []string {
	var out []string
	for _, t := range ts {
		out = append(out, pieces(t.low)...)
	}
	return out
}

// wholeNameAmong takes a planting's whole name when all other words fit it too:
// "12 cucumbers ... fence cucumbers".
func (s *sentence) wholeNameAmong(ts []token) (*risk.Planting, bool) {
	for i := range ts {
		for j := len(ts); j > i; j-- {
			found := s.place.exactly(piecesOf(ts[i:j]))
			if len(found) == 1 && fitsAll(found[0], piecesOf(ts)) {
				return found[0], true
			}
		}
	}
	return nil, false
}

// notUnderstood says which of the words is at fault.
func (s *sentence) notUnderstood(ts []token) *Error {
	if len(ts) > 1 && !slices.ContainsFunc(ts, func(t token) bool { return t.low == "bed" }) {
		for _, t := range ts {
			switch {
			case len(s.place.find(pieces(t.low))) > 0:
				continue
			case s.spec.knows(t.low):
				return refuse(s.spec.write(), "%s stands without its number", said(t.raw))
			}
			hint := s.spec.write()
			if near, ok := config.Nearest(t.low, s.words()); ok {
				hint = "did you mean " + near + "? " + hint
			}
			if len(dropped(ts, t)) > 0 && len(s.place.find(piecesOf(dropped(ts, t)))) > 0 {
				return refuse(hint, "%s is not understood", said(t.raw))
			}
		}
	}
	return s.place.unknown(typed(ts), s.spec.write())
}

func dropped(ts []token, out token) []token {
	return slices.DeleteFunc(slices.Clone(ts), func(t token) bool { return t.raw == out.raw })
}

// words lists what the form itself understands.
func (s *sentence) words() []string {
	out := slices.Clone(s.spec.noise)
	for _, c := range s.spec.choices {
		out = append(out, c.phrases...)
	}
	for _, x := range s.spec.slots {
		for _, w := range x.words {
			out = append(out, w.text)
		}
	}
	return out
}

// option is one way to part words into a text and a planting.
type option struct {
	text     string
	quoted   bool
	planting string
	exact    bool // the planting's whole name
}

// split parts words into a text and a planting. Unquoted words are parted only
// where there is a single way to do it.
func (s *sentence) split(ts []token) *Error {
	if len(ts) == 0 {
		return s.noTextFound()
	}
	options := s.options(ts)
	if quoted := keep(options, func(o option) bool { return o.quoted }); len(quoted) > 0 {
		options = quoted
	}
	whole := keep(options, func(o option) bool { return o.exact })
	if len(whole) > 0 && !slices.ContainsFunc(options, func(o option) bool { return o.planting == "" }) {
		options = whole
	}
	switch {
	case len(options) == 1, len(options) == 2 && options[0].quoted: // the text stands first where both are in quotes
		s.keepText(options[0].text)
		s.entry.Planting = options[0].planting
		return nil
	case len(options) > 1:
		return refuse("put the text in quotes. "+s.spec.write(), "where the text ends and the planting begins can be read two ways")
	case len(ts) == 1 && len(s.place.find(piecesOf(ts))) > 0:
		return s.noTextFound()
	}
	for k := 1; k < len(ts) && !s.spec.beds(); k++ {
		words := piecesOf(ts[k:])
		if bed, holds, ok := s.place.bed(words, s.place.find(words)); ok && len(holds) > 0 {
			return s.place.ofBed(bed, holds, s.spec)
		}
	}
	last := ts[len(ts)-1:]
	if len(ts) == 1 {
		last = nil
	}
	_, err := s.resolve(last)
	if err == nil {
		return s.noTextFound()
	}
	return err
}

func keep(all []option, want func(option) bool) []option {
	return slices.DeleteFunc(slices.Clone(all), func(o option) bool { return !want(o) })
}

// options gives every way to part the words, text first.
func (s *sentence) options(ts []token) []option {
	var out []option
	add := func(text, place []token) {
		o := option{quoted: len(text) == 1 && text[0].quoted}
		var ok bool
		if o.text, ok = oneText(trimmed(text, len(place) > 0)); !ok {
			return
		}
		if len(place) > 0 {
			if o.planting, o.exact = s.placeOf(place); o.planting == "" {
				return
			}
		} else if s.spec.where != anywhere {
			return
		}
		if !slices.Contains(out, o) {
			out = append(out, o)
		}
	}
	for k := 1; k < len(ts); k++ {
		add(ts[:k], ts[k:])
	}
	for k := 1; k < len(ts); k++ {
		add(ts[k:], ts[:k])
	}
	add(ts, nil)
	return out
}

// trimmed drops connectives between a text and a planting.
func trimmed(ts []token, followed bool) []token {
	for followed && len(ts) > 1 && !ts[len(ts)-1].quoted && slices.Contains(connectives, ts[len(ts)-1].low) {
		ts = ts[:len(ts)-1]
	}
	return ts
}

// placeOf finds the name of the planting, or of the bed, of words among a text; "" when
// there is not one.
func (s *sentence) placeOf(ts []token) (name string, exact bool) {
	if len(ts) > 1 && slices.ContainsFunc(ts, func(t token) bool { return t.quoted }) {
		return "", false
	}
	for len(ts) > 1 && slices.Contains(connectives, ts[0].low) {
		ts = ts[1:]
	}
	if len(ts) == 1 {
		if p, ok := s.place.named(ts[0].raw); ok {
			return p.Name, true
		}
	}
	words := piecesOf(ts)
	found := s.place.find(words)
	if len(found) == 1 {
		return found[0].Name, slices.Equal(pieces(found[0].Name), words)
	}
	if bed, _, ok := s.place.bed(words, found); ok && s.spec.beds() {
		return bed, true
	}
	return "", false
}
