package diary

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/forecast"
	"dawnbrush/risk"
)

// gazetteer finds plantings by the words a grower types for them.
type gazetteer struct {
	g   *risk.Garden
	day forecast.Date // plantings finished before it answer to their full name only
}

// shortestPart is how many letters of a word stand for it: "cuc".
const shortestPart = 3 // [chosen: two letters hit too many names]

// grows tells whether the planting was not finished before the day.
func (z gazetteer) grows(p *risk.Planting) bool {
	return p.Finished.IsZero() || !p.Finished.Before(z.day)
}

// named gives the planting of that very name; case makes no difference.
func (z gazetteer) named(name string) (*risk.Planting, bool) {
	for i := range z.g.Plantings {
		if p := &z.g.Plantings[i]; strings.EqualFold(p.Name, name) {
			return p, true
		}
	}
	return nil, false
}

// exactly gives the plantings whose whole name, else whose whole bed, has these
// words; one more or less s at their ends makes no difference unless it has to.
func (z gazetteer) exactly(words []string) []*risk.Planting {
	if len(words) == 0 {
		return nil
	}
	alike := func(known []string) bool { return slices.EqualFunc(words, known, sameNoun) }
	same := func(known []string) bool { return slices.Equal(words, known) }
	name := func(p *risk.Planting) string { return p.Name }
	bed := func(p *risk.Planting) string {
		if !z.grows(p) {
			return ""
		}
		return p.Bed
	}
	for _, try := range []struct {
		of  func(*risk.Planting) string
		fit func([]string) bool
	}{{name, same}, {name, alike}, {bed, same}} {
		if found := z.those(func(p *risk.Planting) bool { return try.fit(pieces(try.of(p))) }); len(found) > 0 {
			return found
		}
	}
	return nil
}

// those gives the plantings of a kind.
func (z gazetteer) those(want func(*risk.Planting) bool) []*risk.Planting {
	var out []*risk.Planting
	for i := range z.g.Plantings {
		if p := &z.g.Plantings[i]; want(p) {
			out = append(out, p)
		}
	}
	return out
}

// sameNoun tells whether two words differ in their number only.
func sameNoun(a, b string) bool {
	return a == b || a == b+"s" || b == a+"s" || a == b+"es" || b == a+"es"
}

// find gives the plantings that the words mean: the whole name; the whole bed; for
// the name of a crop all its plantings; words of the name; words of the name, bed,
// cultivar, crop and fruit. The beginning of a word stands for it. The first of
// these that any planting fits is taken.
func (z gazetteer) find(words []string) []*risk.Planting {
	if exact := z.exactly(words); len(exact) > 0 || len(words) == 0 {
		return exact
	}
	of := func(fits func(*risk.Planting) bool) []*risk.Planting {
		return z.those(func(p *risk.Planting) bool { return z.grows(p) && fits(p) })
	}
	anything := func(p *risk.Planting) bool { return fitsAll(p, words) }
	if slices.ContainsFunc(z.g.Plantings, func(p risk.Planting) bool { return isCrop(&p, words) }) {
		return of(anything) // "tomatoes" are also those that are not called so
	}
	if named := of(func(p *risk.Planting) bool { return fit(words, pieces(p.Name)) }); len(named) > 0 {
		return named
	}
	return of(anything)
}

// isCrop tells whether words are the name of a planting's crop or fruit.
func isCrop(p *risk.Planting, words []string) bool {
	return slices.ContainsFunc(append(p.Crop.Words(), p.Crop.Fruit, p.Crop.Fruits), func(name string) bool {
		return slices.EqualFunc(pieces(name), words, sameNoun)
	})
}

// fit tells whether every typed word stands for a known one.
func fit(typed, known []string) bool {
	return !slices.ContainsFunc(typed, func(w string) bool {
		return !slices.ContainsFunc(known, func(k string) bool { return stands(w, k) })
	})
}

// fitsAll tells whether words fit anything of a planting, or are one of its crop's
// names.
func fitsAll(p *risk.Planting, words []string) bool {
	return fit(words, vocabulary(p)) || isCrop(p, words)
}

// vocabulary gives the words of a planting.
func vocabulary(p *risk.Planting) []string {
	out := slices.Concat(pieces(p.Name), pieces(p.Bed), pieces(p.Cultivar))
	c := p.Crop
	for _, s := range []string{c.Name, c.Plural, c.Fruit, c.Fruits} {
		for _, w := range pieces(s) {
			if w != "or" && w != "and" {
				out = append(out, w)
			}
		}
	}
	for _, a := range c.Aliases {
		if w := pieces(a); len(w) == 1 {
			out = append(out, w[0])
		}
	}
	return out
}

// stands tells whether a typed word means a known one: the same, its beginning,
// or its plural.
func stands(typed, known string) bool {
	return sameNoun(typed, known) || len([]rune(typed)) >= shortestPart && strings.HasPrefix(known, typed)
}

// names lists plantings for a message.
func names(ps []*risk.Planting) []string {
	var out []string
	for _, p := range ps {
		out = append(out, strconv.Quote(p.Name))
	}
	return out
}

// mostOffered bounds a list in a message.
const mostOffered = 8 // [chosen: two lines of a terminal]

// offer lists the plantings that grow.
func (z gazetteer) offer() string {
	var out []string
	for i := range z.g.Plantings {
		if p := &z.g.Plantings[i]; z.grows(p) {
			out = append(out, strconv.Quote(p.Name))
		}
	}
	switch {
	case len(out) == 0:
		return "the garden file names no planting: add a [[planting]] first"
	case len(out) > mostOffered:
		return "planted are " + strings.Join(out[:mostOffered], ", ") + " and more (dawnbrush check lists all)"
	}
	return "planted are " + strings.Join(out, ", ")
}

// near gives the planting's name that was most likely meant.
func (z gazetteer) near(typed string) (string, bool) {
	var offered []string
	owner := map[string]string{}
	for i := range z.g.Plantings {
		p := &z.g.Plantings[i]
		for _, w := range append([]string{p.Name, p.Bed}, append(p.Crop.Words(), vocabulary(p)...)...) {
			if w != "" {
				offered = append(offered, w)
			}
			if _, taken := owner[w]; !taken {
				owner[w] = p.Name
			}
		}
	}
	w, ok := config.Nearest(typed, offered)
	return owner[w], ok
}

// unknown refuses words that name no planting, with the nearest one.
func (z gazetteer) unknown(typed, write string) *Error {
	hint := z.offer() + "."
	if name, ok := z.near(typed); ok {
		hint = "did you mean " + strconv.Quote(name) + "?"
	}
	what := "planting"
	if strings.HasPrefix(strings.ToLower(typed), "bed ") {
		what = "bed"
	}
	return refuse(strings.TrimSpace(hint+" "+write), "there is no %s %s in the garden", what, said(typed))
}

// several refuses words that fit more than one planting. The example of the form
// stays away: it may hold the very word that is refused.
func (z gazetteer) several(typed string, found []*risk.Planting) *Error {
	return refuse(fmt.Sprintf("name one of them: write %s in place of %s", found[0].Name, said(typed)), "%s can be %s", said(typed), list(names(found)))
}

// said quotes what was typed, escaped and cut short.
func said(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "..."
	}
	return strconv.Quote(s)
}
