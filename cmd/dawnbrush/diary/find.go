package diary

import (
	"slices"
	"strings"

	"dawnbrush/cmd/dawnbrush/config"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// KindNamed finds a kind by its name or another word for it. The error is an
// *Error.
func KindNamed(word string) (memory.Kind, error) {
	low := strings.ToLower(strings.TrimSpace(word))
	for _, k := range memory.Kinds() {
		if low == string(k) || slices.Contains(specOf(k).also, low) {
			return k, nil
		}
	}
	hint := "the kinds are " + list(kinds())
	if near, ok := config.Nearest(low, kinds()); ok {
		hint = "did you mean " + near + "?"
	}
	return "", refuse(hint, "there is no kind of note %s", said(word))
}

// PlantingNamed finds a planting's name by what a grower types for it: the name, a
// part of it that no other has, the bed, or the crop when only one planting has
// it. The error is an *Error.
func PlantingNamed(g *risk.Garden, day forecast.Date, typed string) (string, error) {
	z := gazetteer{g, day}
	if p, ok := z.named(strings.TrimSpace(typed)); ok {
		return p.Name, nil
	}
	switch found := z.find(pieces(typed)); {
	case len(found) == 1:
		return found[0].Name, nil
	case len(found) > 1:
		return "", z.several(typed, found)
	}
	return "", z.unknown(typed, "")
}

// shortID is how many signs of an identity's end are shown. [chosen: six are
// drawn at random, a billion to choose from]
const shortID = 6

// ShortID gives the end of an identity that is shown and typed for it.
func ShortID(id string) string { return id[max(0, len(id)-shortID):] }

// leastTyped is the fewest signs that stand for an identity.
const leastTyped = 3 // [chosen: fewer are hit by chance]

// FindID finds the entry that an identity or the end of one stands for. The error
// is an *Error.
func FindID(entries []memory.Entry, typed string) (string, error) {
	low := strings.ToLower(strings.TrimSpace(typed))
	var found []string
	for i := range entries {
		switch id := entries[i].ID; {
		case id == typed:
			return id, nil
		case len(low) >= leastTyped && strings.HasSuffix(id, low):
			found = append(found, id)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return "", refuse("dawnbrush note list shows the notes with their ids", "the diary has no note %s", said(typed))
	}
	return "", refuse("type the whole id", "%s can be %s", said(typed), list(found))
}

// Complete offers words to follow those typed so far: first the kinds, then what
// the form takes, and the plantings.
func Complete(words []string, g *risk.Garden) []string {
	if len(words) == 0 {
		return kinds()
	}
	k, err := KindNamed(words[0])
	if err != nil {
		return nil
	}
	s := specOf(k)
	var out []string
	for _, x := range s.slots {
		if !x.plain {
			out = append(out, x.words[0].text)
		}
	}
	for _, c := range s.choices {
		out = append(out, strings.Fields(c.phrases[0])...)
	}
	if s.where != nowhere && g != nil {
		for i := range g.Plantings {
			out = append(out, g.Plantings[i].Name)
		}
	}
	if s.beds() && g != nil {
		for i := range g.Beds {
			out = append(out, g.Beds[i].Name)
		}
	}
	if s.where == somewhere {
		out = append(out, wholeGarden[0])
	}
	slices.Sort(out)
	return slices.DeleteFunc(slices.Compact(out), func(w string) bool { return slices.Contains(words, w) })
}
