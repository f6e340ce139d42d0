package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/memory"
)

// fruitEntry is a note of the diary about fruit.
func fruitEntry(kind memory.Kind, on forecast.Date, count float64) memory.Entry {
	return memory.Entry{Kind: kind, Planting: "p", Date: on, Count: forecast.Known(count), By: memory.ByHand}
}

// loadAfter is the load of four plants of a crop by a diary.
func loadAfter(t testing.TB, key string, d forecast.Date, entries ...memory.Entry) Load {
	t.Helper()
	set, err := crop.Load()
	require.NoError(t, err)
	c, ok := set.Find(key)
	require.True(t, ok)
	g := Remember(&Garden{Plantings: []Planting{{Name: "p", Crop: c, Plants: 4}}}, entries, d)
	return g.Plantings[0].LoadOn(d)
}

// The load is what was noted, and no more: watermelons carry 2 to 4 and drop the
// others (UDel4431), fruit stays 40 to 50 days (Brit).
func TestLoadByTheDiary(t *testing.T) {
	d := forecast.Date{Year: 2026, Month: 7, Day: 20}
	set := func(k float64, opened int) memory.Entry {
		e := fruitEntry(memory.Set, d, k)
		e.Of, e.FlowersOn = forecast.Known(k), d.AddDays(-opened)
		return e
	}
	sample := fruitEntry(memory.Fruits, d, 6)
	sample.Of = forecast.Known(2)
	for _, row := range []struct {
		name    string
		entries []memory.Entry
		plant   float64 // fruits a plant, -1 for not known
		least   bool
		kept    float64
	}{
		{"no notes", nil, -1, false, 0},
		{"picking alone tells nothing of what is left", []memory.Entry{fruitEntry(memory.Picked, d, 3)}, -1, false, 0},
		{"a count of none", []memory.Entry{fruitEntry(memory.Fruits, d, 0)}, 0, false, 1},
		{"a count at the lower end", []memory.Entry{fruitEntry(memory.Fruits, d, 8)}, 2, false, 1},
		{"a count between", []memory.Entry{fruitEntry(memory.Fruits, d, 12)}, 3, false, 0.5},
		{"a count at the limit", []memory.Entry{fruitEntry(memory.Fruits, d, 16)}, 4, false, 0},
		{"far over", []memory.Entry{fruitEntry(memory.Fruits, d, 400)}, 100, false, 0},
		{"a count on two of the four plants", []memory.Entry{sample}, 3, false, 0.5},
		{"a count, then some picked", []memory.Entry{fruitEntry(memory.Fruits, d, 12), fruitEntry(memory.Picked, d, 4)}, 2, false, 1},
		{"more picked than counted", []memory.Entry{fruitEntry(memory.Fruits, d, 12), fruitEntry(memory.Picked, d, 40)}, 0, false, 1},
		{"the last count holds", []memory.Entry{fruitEntry(memory.Fruits, d, 40), fruitEntry(memory.Fruits, d, 12)}, 3, false, 0.5},
		{"flowers that took are the least there is", []memory.Entry{set(12, 5)}, 3, true, 0.5},
		{"two days' flowers", []memory.Entry{set(6, 9), set(6, 5)}, 3, true, 0.5},
		{"the same flowers looked at twice", []memory.Entry{set(12, 5), set(11, 5)}, 2.75, true, 0.625},
		{"flowers that took and were picked", []memory.Entry{set(12, 30), fruitEntry(memory.Picked, d, 12)}, -1, false, 0},
		{"flowers of two months ago are gone", []memory.Entry{set(12, 60)}, -1, false, 0},
		{"flowers within the count are not counted again", []memory.Entry{fruitEntry(memory.Fruits, d, 12), set(12, 5)}, 3, false, 0.5},
	} {
		got := loadAfter(t, "watermelon", d, row.entries...)
		if row.plant < 0 {
			assert.False(t, got.PerPlant.IsKnown(), row.name)
			assert.Equal(t, 1.0, got.kept(), row.name)
			continue
		}
		assert.InDelta(t, row.plant, got.PerPlant.Or(-1), 1e-9, row.name)
		assert.Equal(t, row.least, got.AtLeast, row.name)
		assert.InDelta(t, row.kept, got.Kept, 1e-9, row.name)
	}
	old := loadAfter(t, "watermelon", d.AddDays(25), fruitEntry(memory.Fruits, d, 16))
	assert.InDelta(t, 2, old.PerPlant.Or(-1), 1e-9, "half of a count of all ages has ripened in half the time that a fruit takes")
	assert.True(t, old.AtLeast)
	assert.False(t, loadAfter(t, "corn", d, fruitEntry(memory.Fruits, d, 16)).PerPlant.IsKnown(), "no limit is known of corn")
	weight := fruitEntry(memory.Picked, d, 0)
	weight.Count, weight.Weight = forecast.Value{}, forecast.Known(9)
	assert.Equal(t, 1.0, func() float64 {
		l := loadAfter(t, "watermelon", d, fruitEntry(memory.Fruits, d, 16), weight)
		return l.kept()
	}(),
		"how many a weight was is not known, so none is held against new fruit")
}

// Without the number of plants a count means nothing, but for one that names them.
func TestLoadWantsThePlants(t *testing.T) {
	l := newLab(t)
	d := heatField.date
	p := Planting{Name: "p", Crop: l.crop("watermelon"), Growing: []FruitNote{{On: d, Kind: memory.Fruits, Count: forecast.Known(16)}}}
	load := p.LoadOn(d)
	assert.False(t, load.PerPlant.IsKnown())
	p.Growing[0].Plants = 4
	load = p.LoadOn(d)
	assert.Equal(t, forecast.Known(4), load.PerPlant)
}

// drawGrowing draws notes of fruit in the order of their days.
func drawGrowing(r *rapid.T, first forecast.Date) (out []FruitNote) {
	on := first.AddDays(-rapid.IntRange(0, 60).Draw(r, "noted"))
	for range rapid.IntRange(0, 4).Draw(r, "notes of fruit") {
		on = on.AddDays(rapid.IntRange(0, 20).Draw(r, "days on"))
		kind := rapid.SampledFrom([]memory.Kind{memory.Fruits, memory.Set, memory.Picked}).Draw(r, "note")
		n := FruitNote{On: on, Kind: kind, Count: drawValue(r, "fruit", 0, 200), ByHand: rapid.Bool().Draw(r, "by hand")}
		switch kind {
		case memory.Fruits:
			n.Plants = float64(rapid.IntRange(0, 9).Draw(r, "of plants"))
		case memory.Set:
			n.Opened = on.AddDays(-rapid.IntRange(0, 20).Draw(r, "opened"))
		}
		out = append(out, n)
	}
	return out
}

// Picking never adds to the load, nor do days that pass without a note.
func TestLoadFallsByPickingAndWithTime(t *testing.T) {
	l := newLab(t)
	d := forecast.Date{Year: 2026, Month: 7, Day: 1}
	rapid.Check(t, func(r *rapid.T) {
		c := l.crop(rapid.SampledFrom([]string{"cucumber", "watermelon", "common-bean"}).Draw(r, "crop"))
		p := Planting{Crop: c, Plants: rapid.IntRange(0, 9).Draw(r, "plants"), Growing: drawGrowing(r, d)}
		last := d
		if n := len(p.Growing); n > 0 {
			last = p.Growing[n-1].On
		}
		on := func(p *Planting, day forecast.Date) float64 {
			load := p.LoadOn(day)
			n := load.PerPlant.Or(0)
			if n < 0 || load.kept() < 0 || load.kept() > 1 {
				r.Fatalf("load %+v", load)
			}
			return n
		}
		now := on(&p, last)
		picked := p
		picked.Growing = append(append([]FruitNote{}, p.Growing...), FruitNote{On: last, Kind: memory.Picked, Count: drawValue(r, "picked", 1, 50)})
		if after := on(&picked, last); after > now+1e-9 {
			r.Fatalf("%g a plant, %g after picking", now, after)
		}
		if later := on(&p, last.AddDays(rapid.IntRange(1, 60).Draw(r, "later"))); later > now+1e-9 {
			r.Fatalf("%g a plant, %g later", now, later)
		}
	})
}

// More growing fruit never means more set, whatever else was noted.
func TestMoreLoadNeverMoreSet(t *testing.T) {
	l := newLab(t)
	keys := []string{"cucumber", "summer-squash", "pumpkin-winter-squash", "muskmelon", "watermelon", "sweet-pepper", "common-bean"}
	rapid.Check(t, func(r *rapid.T) {
		key := rapid.SampledFrom(keys).Draw(r, "crop")
		less := rapid.Float64Range(0, 120).Draw(r, "fruits")
		more := less + rapid.Float64Range(0, 60).Draw(r, "more")
		few, many := l.besideFruit(key, nyField, tropicDay, less, 0), l.besideFruit(key, nyField, tropicDay, more, 0)
		if many > few+1e-12 || few < 0 || few > 1 {
			r.Fatalf("%s: set %g beside %g fruits, %g beside %g", key, few, less, many, more)
		}
		if none := l.besideFruit(key, nyField, tropicDay, 0, 0); few > none+1e-12 {
			r.Fatalf("%s: a load of %g sets more than none", key, less)
		}
	})
}

// Where a brush pays, a full planting ends that; picking brings it back. A
// cucumber is asked to be picked, but not before a spray's label allows; a melon
// is not.
func TestFullPlantsArePickedNotBrushed(t *testing.T) {
	l := newLab(t)
	m := l.brushed()
	m.plantings[0].Plants = 4
	d := m.at.date
	brush := func(m morning) bool {
		plan := m.plan(t)
		_, ok := plan.find(HandPollinate)
		return ok
	}
	require.True(t, brush(m))

	full := m
	full.plantings = []Planting{m.plantings[0]}
	full.plantings[0].Growing = []FruitNote{{On: d.AddDays(-1), Kind: memory.Fruits, Count: forecast.Known(32)}}
	plan := full.plan(t)
	assert.False(t, brush(full))
	assert.Equal(t, []Cause{CauseFullLoad}, plan.must(t, NothingToGain).Causes)
	plan.must(t, PickFruit)
	assert.True(t, plan.Day.Plantings[0].has(FullLoad))

	bees := full
	bees.bees = Bees{}
	withBees := bees.plan(t)
	assert.Greater(t, withBees.must(t, PickFruit).Gain, 0.0, "bees fill more on plants that are free")

	full.plantings[0].PickFrom = d.AddDays(1)
	plan = full.plan(t)
	_, ok := plan.find(PickFruit)
	assert.False(t, ok, "the label of a spray goes first")

	melon := full
	melon.plantings = []Planting{full.plantings[0]}
	melon.plantings[0].Crop, melon.plantings[0].PickFrom = l.crop("muskmelon"), forecast.Date{}
	plan = melon.plan(t)
	plan.must(t, NothingToGain)
	_, ok = plan.find(PickFruit)
	assert.False(t, ok, "a melon is picked ripe, whatever else the vine would set")

	full.plantings[0].PickFrom = d
	full.plantings[0].Growing = append(full.plantings[0].Growing, FruitNote{On: d, Kind: memory.Picked, Count: forecast.Known(26)})
	plan = full.plan(t)
	assert.True(t, brush(full))
	_, ok = plan.find(PickFruit)
	assert.False(t, ok)
}

// What a full plant dropped teaches nothing of the brush.
func TestFullPlantsTeachNothingOfTheBrush(t *testing.T) {
	g, s, date := learnGarden(t)
	g.Plantings[0].Plants = 4
	failed := memory.Entry{Kind: memory.Set, Planting: "cucumber", Date: date, FlowersOn: date.AddDays(-5), By: memory.ByHand, Count: forecast.Known(1), Of: forecast.Known(10)}
	full := memory.Entry{Kind: memory.Fruits, Planting: "cucumber", Date: date.AddDays(-5), Count: forecast.Known(30)}
	now := date.At(12, g.Place.Zone)
	alone := Learn(g, s, []memory.Entry{failed}, now)
	assert.Equal(t, 10.0, alone.HandOf)
	assert.Less(t, alone.handShare(), 1.0)
	loaded := Learn(g, s, []memory.Entry{full, failed}, now)
	assert.Zero(t, loaded.HandOf)
	assert.Equal(t, 1.0, loaded.handShare())
}

// A spray's days before picking hold for its planting, one of the whole garden for all.
func TestSpraysHoldPickingBack(t *testing.T) {
	d := forecast.Date{Year: 2026, Month: 7, Day: 20}
	spray := func(planting string, days float64) memory.Entry {
		return memory.Entry{Kind: memory.Spray, Planting: planting, Date: d, Interval: forecast.Known(days)}
	}
	g := &Garden{Plantings: []Planting{{Name: "a"}, {Name: "b"}}}
	got := Remember(g, []memory.Entry{spray("a", 7), spray("a", 3), spray("", 1)}, d)
	assert.Equal(t, d.AddDays(7), got.Plantings[0].PickFrom)
	assert.Equal(t, d.AddDays(1), got.Plantings[1].PickFrom)
}
