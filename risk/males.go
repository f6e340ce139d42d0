package risk

import (
	"slices"

	"dawnbrush/risk/crop"
)

// Males are the other plantings of the garden whose male flowers a planting can
// take pollen from, by what is known of them on a day.
type Males struct {
	Open  []*Planting // in flower
	Maybe []*Planting // may be in flower, or nothing dates them
	Shut  []*Planting // not in flower, or too cold to open
}

// Told tells whether the garden has any such planting.
func (m *Males) Told() bool { return len(m.Open)+len(m.Maybe)+len(m.Shut) > 0 }

// MalesFor looks through the day's plantings for pollen that sets fruit on p.
func (d *Day) MalesFor(p *Planting) (m Males) {
	for i := range d.Plantings {
		other := &d.Plantings[i]
		if other.Planting == p || !other.Planting.serves(p) {
			continue
		}
		list := &m.Maybe
		switch {
		case other.Bloom == NoBloom || other.State == StaysShut:
			list = &m.Shut
		case other.Bloom == InBloom || other.Bloom == MalesOnly:
			list = &m.Open
		}
		*list = append(*list, other.Planting)
	}
	return m
}

// serves tells whether p has pollen that sets fruit on another planting. Squash
// and pumpkin of one species do, under whatever name; of a species not told
// nothing is known.
func (p *Planting) serves(other *Planting) bool {
	if p.Crop.Pollination != crop.Insect || other.Crop.Pollination != crop.Insect {
		return false
	}
	switch p.Setting {
	case crop.Gynoecious, crop.Triploid: // no males; males whose pollen is dead
		return false
	case crop.Parthenocarpic:
		if p.needsNoPollen() { // mostly all-female kinds
			return false
		}
	}
	switch c := other.Crop; {
	case len(c.PollenFrom) > 0:
		return slices.Contains(c.PollenFrom, p.Crop.Key)
	case len(c.Species) > 0:
		return len(p.Crop.Species) > 0 && p.Species != "" && p.Species == other.Species
	default:
		return p.Crop == c
	}
}

// clock is the daily life of the planting's flowers: its species' where one was
// published, else the crop's.
func (p *Planting) clock() *crop.Window { return p.Crop.WindowOf(p.Species) }

// pollenParent looks whether a pollen parent that the garden file tells of is in
// flower for a planting that has no pollen of its own. A parent that no planting of
// the file can be may stand over the fence: then the grower's word holds.
func (t *Task) pollenParent() {
	if t.Planting.Setting != crop.Gynoecious && t.Planting.Setting != crop.Triploid {
		return
	}
	switch m := &t.Males; {
	case !m.Told() || len(m.Open) > 0:
	case len(m.Maybe) > 0:
		t.Causes, t.Sure = append([]Cause{CauseParentMaybe}, t.Causes...), Unsure
	default:
		t.Causes, t.Sure = append([]Cause{CauseParentShut}, t.Causes...), Unsure
	}
}

// spoilt adds that bees may bring pollen to a kind whose fruit is better without,
// where nothing keeps them out and such pollen is in the garden.
func (t *Task) spoilt() {
	p := t.Planting
	if p.Crop.Need.PollenSpoils.Text != "" && p.Cover == Open && len(t.Males.Open) > 0 {
		t.Causes = append(t.Causes, CausePollenSpoils)
	}
}
