package diary

import (
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
// words.
func (z gazetteer) exactly(words []string) []*risk.Planting {
	if len(words) == 0 {
		return nil
	}
	var names, beds []*risk.Planting
	for i := range z.g.Plantings {
		p := &z.g.Plantings[i]
		if slices.Equal(pieces(p.Name), words) {
			names = append(names, p)
		}
		if slices.Equal(pieces(p.Bed), words) && z.grows(p) {
			beds = append(beds, p)
		}
	}
	if len(names) > 0 {
		return names
	}
	return beds
}

// find gives the plantings that all words fit: words of the name, the bed, the
// cultivar, the crop or its fruit, or a part of one from its beginning; or the
// crop's whole name in any of its forms. A whole name or bed goes before parts.
func (z gazetteer) find(words []string) []*risk.Planting {
	if exact := z.exactly(words); len(exact) > 0 {
		return exact
	}
	var out []*risk.Planting
	for i := range z.g.Plantings {
		p := &z.g.Plantings[i]
		if z.grows(p) && len(words) > 0 && fitsAll(p, words) {
			out = append(out, p)
		}
	}
	return out
}

func fitsAll(p *risk.Planting, words []string) bool {
	known := vocabulary(p)
	all := true
	for _, w := range words {
		all = all && slices.ContainsFunc(known, func(k string) bool { return stands(w, k) })
	}
	if all {
		return true
	}
	return slices.ContainsFunc(p.Crop.Words(), func(alias string) bool { return slices.Equal(pieces(alias), words) })
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
	return typed == known || len([]rune(typed)) >= shortestPart && strings.HasPrefix(known, typed) ||
		typed == known+"s" || typed == known+"es"
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
	hint := z.offer()
	if name, ok := z.near(typed); ok {
		hint = "did you mean " + strconv.Quote(name) + "?"
	}
	what := "planting"
	if strings.HasPrefix(strings.ToLower(typed), "bed ") {
		what = "bed"
	}
	return refuse(hint+" "+write, "there is no %s %s in the garden", what, said(typed))
}

// several refuses words that fit more than one planting.
func (z gazetteer) several(typed string, found []*risk.Planting, write string) *Error {
	return refuse("name one of them. "+write, "%s can be %s", said(typed), list(names(found)))
}

// said quotes what was typed, escaped and cut short.
func said(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "..."
	}
	return strconv.Quote(s)
}
