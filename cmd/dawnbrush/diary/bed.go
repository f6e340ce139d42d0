package diary

import (
	"slices"
	"strings"

	"dawnbrush/risk"
)

// beds tells whether a note of the form may be about all that grows in a bed: what is
// done to a bed, or seen in it, but not what is counted of a crop.
func (s *spec) beds() bool { return s.where != nowhere && s.where != inPlanting }

// bed gives the bed whose whole name the words are, and what grows in it, where that is
// not one planting: a bed with one goes by the planting. found is what else the words
// mean; plantings that are called so go first.
func (z gazetteer) bed(words []string, found []*risk.Planting) (name string, holds []*risk.Planting, ok bool) {
	if len(words) == 0 {
		return "", nil, false
	}
	same := func(bed string) bool { return bed != "" && slices.Equal(pieces(bed), words) }
	for i := range z.g.Beds {
		if b := &z.g.Beds[i]; name == "" && same(b.Name) {
			name = b.Name
		}
	}
	holds = z.those(func(p *risk.Planting) bool { return z.grows(p) && same(p.Bed) })
	if name == "" && len(holds) > 0 {
		name = holds[0].Bed
	}
	if name == "" || len(holds) == 1 || !slices.Equal(holds, found) {
		return "", nil, false
	}
	return name, holds, true
}

// ofBed refuses a bed for a note that is about one planting, and says which it holds.
func (z gazetteer) ofBed(bed string, holds []*risk.Planting, s *spec) *Error {
	return refuse("name one of them. "+s.write(), "a note of %s is about one planting; in %s grow %s", s.Kind, bed, and(names(holds)))
}

// and writes "a, b and c".
func and(words []string) string {
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// isBed tells whether the very name is a bed's of the garden, and no planting's.
func (z gazetteer) isBed(name string) bool {
	if _, planted := z.named(name); planted || name == "" {
		return false
	}
	return slices.ContainsFunc(z.g.Beds, func(b risk.Bed) bool { return b.Name == name }) ||
		slices.ContainsFunc(z.g.Plantings, func(p risk.Planting) bool { return p.Bed == name })
}
