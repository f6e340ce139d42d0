package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"dawnbrush/risk/crop"
)

func namesOf(list []*Planting) (out []string) {
	for _, p := range list {
		out = append(out, p.Name)
	}
	return out
}

// Zucchini, pie pumpkin and acorn are all Cucurbita pepo, so their pollen serves
// one another; butternut is C. moschata and hubbard C. maxima (the species in the
// crop file). A species not told serves nothing, for nothing is known of it.
func TestMalesServeWithinTheSpecies(t *testing.T) {
	l := newLab(t)
	squash, pumpkin := l.crop("summer-squash"), l.crop("pumpkin-winter-squash")
	m := l.brushed()
	late := heatField.date.AddDays(30)
	m.plantings = []Planting{
		{Name: "zucchini", Crop: squash, Species: "pepo"},
		{Name: "acorn", Crop: pumpkin, Species: "pepo"},
		{Name: "late pie pumpkin", Crop: pumpkin, Species: "pepo", FirstMale: late, FirstFemale: late.AddDays(7)},
		{Name: "butternut", Crop: pumpkin, Species: "moschata"},
		{Name: "hubbard", Crop: pumpkin, Species: "maxima"},
		{Name: "volunteer", Crop: pumpkin},
		{Name: "cucumbers", Crop: l.crop("cucumber")},
	}
	d := m.plan(t).Day
	males := d.MalesFor(d.Plantings[0].Planting)
	assert.Equal(t, []string{"acorn"}, namesOf(males.Open))
	assert.Equal(t, []string{"late pie pumpkin"}, namesOf(males.Shut))
	assert.Empty(t, males.Maybe)
	for i := 3; i < len(d.Plantings); i++ {
		males := d.MalesFor(d.Plantings[i].Planting)
		assert.False(t, males.Told(), d.Plantings[i].Planting.Name)
	}
}

// A seedless watermelon sets with pollen of a seeded one only (Walters 2005), a
// gynoecious cucumber with that of a monoecious one (VT426406). The parent has to
// be in flower, and the plan says so where the garden file dates it.
func TestPollenParentHasToFlower(t *testing.T) {
	l := newLab(t)
	day := heatField.date
	for _, c := range []struct {
		child, parent string
		setting       crop.Setting
	}{
		{"seedless-watermelon", "watermelon", crop.Triploid},
		{"cucumber", "cucumber", crop.Gynoecious},
	} {
		child := Planting{Name: "child", Crop: l.crop(c.child), Setting: c.setting, Pollenizer: true}
		parent := Planting{Name: "parent", Crop: l.crop(c.parent), Setting: crop.Monoecious}
		task := func(list ...Planting) Task {
			m := l.brushed()
			m.plantings = list
			for _, task := range m.plan(t).Tasks {
				if task.Planting.Name == "child" && task.Kind == HandPollinate {
					return task
				}
			}
			t.Fatalf("%s: no brush", c.child)
			return Task{}
		}
		alone := task(child)
		assert.NotContains(t, alone.Causes, CauseParentShut, "a parent over the fence: the grower's word holds")
		with := task(child, parent)
		assert.Equal(t, []string{"parent"}, namesOf(with.Males.Open))
		assert.Equal(t, alone.Sure, with.Sure)

		parent.FirstMale, parent.FirstFemale = day.AddDays(20), day.AddDays(27)
		shut := task(child, parent)
		assert.Equal(t, CauseParentShut, shut.Causes[0])
		assert.Equal(t, Unsure, shut.Sure)

		parent.FirstMale, parent.FirstFemale = day.AddDays(-1), day.AddDays(6)
		assert.NotContains(t, task(child, parent).Causes, CauseParentShut, "males alone are enough")

		twin := child
		twin.Name = "twin"
		both := task(child, twin)
		assert.False(t, both.Males.Told(), "its own kind has no live pollen")
	}
}

// Long seedless cucumbers are kept from bees where other cucumbers flower
// (common practice): said where nothing keeps bees out, and only then.
func TestPollenSpoilsSeedlessCucumbers(t *testing.T) {
	l := newLab(t)
	cuke := l.crop("cucumber")
	for _, c := range []struct {
		cover Cover
		other *crop.Crop
		want  []Cause
	}{
		{Open, cuke, []Cause{CauseNeedsNoPollen, CausePollenSpoils}},
		{RowCover, cuke, []Cause{CauseNeedsNoPollen}},
		{Open, l.crop("muskmelon"), []Cause{CauseNeedsNoPollen}},
	} {
		m := l.brushed()
		m.plantings = []Planting{{Name: "long", Crop: cuke, Setting: crop.Parthenocarpic, Cover: c.cover}, {Name: "other", Crop: c.other}}
		for _, task := range m.plan(t).Rest {
			if task.Planting.Name == "long" {
				assert.Equal(t, c.want, task.Causes)
			}
		}
	}
}
