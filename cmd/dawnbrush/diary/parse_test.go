package diary_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/forecast"
	"dawnbrush/risk/memory"
)

// split takes a line apart as a shell would, with double quotes only.
func split(line string) []string {
	var out []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			out = append(out, part+" ") // the blank marks what was quoted
			continue
		}
		out = append(out, strings.Fields(part)...)
	}
	return out
}

const (
	cucumber = "cucumber, north trellis"
	zucchini = "zucchini"
	squash   = "blue squash"
	corn     = "late corn"
)

func bees(planting string, minutes, flowers, visits float64, group string) memory.Entry {
	return entry(memory.Bees, planting, func(e *memory.Entry) {
		e.Minutes, e.Flowers, e.Visits, e.Group = known(minutes), known(flowers), known(visits), group
		e.At = now.Truncate(time.Minute).UTC()
	})
}

func rain(mm float64) memory.Entry {
	return entry(memory.Rain, "", func(e *memory.Entry) { e.Amount = known(mm) })
}

// What growers type and what is kept of it. Conversions are exact by definition:
// inch 25.4 mm, pound 0.453 592 37 kg (NIST SP 811 appendix B.8, memory), US
// gallon 3.785 411 784 L (the same).
func TestParse(t *testing.T) {
	july12 := forecast.Date{Year: 2026, Month: 7, Day: 12}
	for _, row := range []struct {
		line string
		want memory.Entry
	}{
		{`bees 5min 10 flowers 3 cucumber`, bees(cucumber, 5, 10, 3, "")},
		{`bees 5 min 10 flowers 3 visits honey zucchini`, bees(zucchini, 5, 10, 3, "honey_bee")},
		{`bees zucchini 3 honey bees on 10 flowers in 5 min`, bees(zucchini, 5, 10, 3, "honey_bee")},
		{`bees 10 flowers 90s 0 visits squash bees on the blue squash`, bees(squash, 1.5, 10, 0, "squash_bee")},
		{`note bee 1h 4 flowers 2 bumblebees cucumbers`, bees(cucumber, 60, 4, 2, "bumble_bee")},
		{`bees minutes 5 flowers 10 visits 3 zucchini`, bees(zucchini, 5, 10, 3, "")},
		{`buds 12 trellis cucumbers`, entry(memory.Buds, cucumber, func(e *memory.Entry) { e.Female = known(12) })},
		{`buds cucumber 0`, entry(memory.Buds, cucumber, func(e *memory.Entry) { e.Female = known(0) })},
		{`opened 20 male 3 female zucchini`, entry(memory.Opened, zucchini, func(e *memory.Entry) { e.Male, e.Female = known(20), known(3) })},
		{`opened zucchini female 3, male 20`, entry(memory.Opened, zucchini, func(e *memory.Entry) { e.Male, e.Female = known(20), known(3) })},
		{`opened 4 silks corn`, entry(memory.Opened, corn, func(e *memory.Entry) { e.Female = known(4) })},
		{`opened 30 tomatoes 2`, entry(memory.Opened, "tomatoes 2", func(e *memory.Entry) { e.Female = known(30) })},
		{`brushed 12 cucumber`, entry(memory.Brushed, cucumber, func(e *memory.Entry) { e.Count = known(12) })},
		{`pollinated 12 cucumber flowers`, entry(memory.Brushed, cucumber, func(e *memory.Entry) { e.Count = known(12) })},
		{`set 7 of 10 by hand zucchini`, entry(memory.Set, zucchini, func(e *memory.Entry) { e.Count, e.Of, e.By = known(7), known(10), "hand" })},
		{`set zucchini by bees 7/10 of 2026-07-12`, entry(memory.Set, zucchini, func(e *memory.Entry) {
			e.Count, e.Of, e.By, e.FlowersOn = known(7), known(10), "bees", july12
		})},
		{`set 0 out of 3 flowers hand from yesterday zucchini`, entry(memory.Set, zucchini, func(e *memory.Entry) {
			e.Count, e.Of, e.By, e.FlowersOn = known(0), known(3), "hand", forecast.Date{Year: 2026, Month: 7, Day: 15}
		})},
		{`rain 12mm`, rain(12)},
		{`rain 0.5in`, rain(12.7)},
		{`rain 1/2 inch`, rain(12.7)},
		{`rain 2,5 mm`, rain(2.5)},
		{`rain 0 mm`, rain(0)},
		{`water 20L bed 2`, entry(memory.Water, zucchini, func(e *memory.Entry) { e.Amount = known(20) })},
		{`water 20L bed 5`, entry(memory.Water, "bed 5", func(e *memory.Entry) { e.Amount = known(20) })}, // two grow there, the water is the bed's
		{`water 2 gal zucchini`, entry(memory.Water, zucchini, func(e *memory.Entry) { e.Amount = known(7.570823568) })},
		{`water 45min drip east patch`, entry(memory.Water, squash, func(e *memory.Entry) { e.Minutes = known(45) })},
		{`watered 1.5 h drip whole garden`, entry(memory.Water, "", func(e *memory.Entry) { e.Minutes = known(90) })},
		{`feed "fish emulsion" 30 g zucchini`, entry(memory.Feed, zucchini, func(e *memory.Entry) { e.Product, e.Amount = "fish emulsion", known(30) })},
		{`feed fish emulsion on the zucchini`, entry(memory.Feed, zucchini, func(e *memory.Entry) { e.Product = "fish emulsion" })},
		{`feed 10-10-10 1 lb everything`, entry(memory.Feed, "", func(e *memory.Entry) { e.Product, e.Amount = "10-10-10", known(453.59237) })},
		{`beetles 3 on 5 plants zucchini`, entry(memory.Beetles, zucchini, func(e *memory.Entry) { e.Count, e.Of = known(3), known(5) })},
		{`beetle on 5 plants 3 in bed 2`, entry(memory.Beetles, zucchini, func(e *memory.Entry) { e.Count, e.Of = known(3), known(5) })},
		{`slugs 14 on 20 plants garden`, entry(memory.Slugs, "", func(e *memory.Entry) { e.Count, e.Of = known(14), known(20) })},
		{`fruits 12 cucumber`, entry(memory.Fruits, cucumber, func(e *memory.Entry) { e.Count = known(12) })},
		{`fruits on 4 plants 12 cucumber`, entry(memory.Fruits, cucumber, func(e *memory.Entry) { e.Count, e.Of = known(12), known(4) })},
		{`fruit 12 growing on 4 cucumber plants`, entry(memory.Fruits, cucumber, func(e *memory.Entry) { e.Count, e.Of = known(12), known(4) })},
		{`fruits no fruit zucchini`, entry(memory.Fruits, zucchini, func(e *memory.Entry) { e.Count = known(0) })},
		{`symptom "yellow lower leaves" cucumber`, entry(memory.Symptom, cucumber, func(e *memory.Entry) { e.Text = "yellow lower leaves" })},
		{`symptom 3 wilted leaves cucumber`, entry(memory.Symptom, cucumber, func(e *memory.Entry) { e.Text = "3 wilted leaves" })},
		{`symptom cucumber "wilts at noon"`, entry(memory.Symptom, cucumber, func(e *memory.Entry) { e.Text = "wilts at noon" })},
		{`symptom "blue squash" zucchini`, entry(memory.Symptom, zucchini, func(e *memory.Entry) { e.Text = "blue squash" })},
		{`spray "soap" 3 days zucchini`, entry(memory.Spray, zucchini, func(e *memory.Entry) { e.Product, e.Interval = "soap", known(3) })},
		{`spray neem oil 1 week zucchini`, entry(memory.Spray, zucchini, func(e *memory.Entry) { e.Product, e.Interval = "neem oil", known(7) })},
		{`picked 12 fruit 3 misshapen 2.5kg cucumber`, entry(memory.Picked, cucumber, func(e *memory.Entry) {
			e.Count, e.Misshapen, e.Weight = known(12), known(3), known(2.5)
		})},
		{`picked 12 cucumbers 3 crooked`, entry(memory.Picked, cucumber, func(e *memory.Entry) { e.Count, e.Misshapen = known(12), known(3) })},
		{`harvested 2 lb ears corn`, entry(memory.Picked, corn, func(e *memory.Entry) { e.Weight = known(0.90718474) })},
		{`cover on blue`, entry(memory.Cover, squash, func(e *memory.Entry) { e.On = true })},
		{`cover off blue squash`, entry(memory.Cover, squash, nil)},
		{`first female zucchini`, entry(memory.First, zucchini, func(e *memory.Entry) { e.Sex = "female" })},
		{`first tassels corn`, entry(memory.First, corn, func(e *memory.Entry) { e.Sex = "male" })},
		{`first perfect honeydews`, entry(memory.First, "honeydews", func(e *memory.Entry) { e.Sex = "female" })},
		{`opened 20 male 3 perfect honeydews`, entry(memory.Opened, "honeydews", func(e *memory.Entry) { e.Male, e.Female = known(20), known(3) })},
		{`first flower tunnel`, entry(memory.First, "tunnel tomatoes", func(e *memory.Entry) { e.Sex = "female" })},
		{`remark "first hummingbird"`, entry(memory.Remark, "", func(e *memory.Entry) { e.Text = "first hummingbird" })},
		{`remark hail, 5 minutes`, entry(memory.Remark, "", func(e *memory.Entry) { e.Text = "hail, 5 minutes" })},
		{`remark "re-tied" cucumber`, entry(memory.Remark, cucumber, func(e *memory.Entry) { e.Text = "re-tied" })},
		{`buds 3 corn`, entry(memory.Buds, corn, func(e *memory.Entry) { e.Female = known(3) })}, // the early one is finished
		{`picked 1kg early corn`, entry(memory.Picked, "early corn", func(e *memory.Entry) { e.Weight = known(1) })},
		{`bees 3 in 5 min on 10 zucchini flowers`, bees(zucchini, 5, 10, 3, "")},
		{`bees five min 8 blossoms no visits zucchini`, bees(zucchini, 5, 8, 0, "")},
		{`beetles 3 on 5 zucchini plants`, entry(memory.Beetles, zucchini, func(e *memory.Entry) { e.Count, e.Of = known(3), known(5) })},
		{`water all 30 min drip`, entry(memory.Water, "", func(e *memory.Entry) { e.Minutes = known(30) })},
		{`pollinated 7 blue squash by hand`, entry(memory.Brushed, squash, func(e *memory.Entry) { e.Count = known(7) })},
		{`opened 12m 3f zucchini`, entry(memory.Opened, zucchini, func(e *memory.Entry) { e.Male, e.Female = known(12), known(3) })},
		{`buds 4 ZUC`, entry(memory.Buds, zucchini, func(e *memory.Entry) { e.Female = known(4) })},
	} {
		got, err := diary.Parse(split(row.line), in(t))
		require.NoError(t, err, row.line)
		assert.Equal(t, row.want, got, row.line)
	}
}

// How plantings are found by less than their name.
func TestPlantingByLess(t *testing.T) {
	g := garden(t)
	for typed, want := range map[string]string{
		"zucchinis": zucchini, "zuc": zucchini, "east": squash, "blue": squash, "trellis": cucumber, "cuke": cucumber, "north cucumbers": cucumber,
		"roma": "roma", "romas": "roma", "tunnel": "tunnel tomatoes", "tunnel tomato": "tunnel tomatoes", "maize": corn, "late": corn, "bed 1": "tomatoes 2",
		"early corn": "early corn", "ears": corn,
	} {
		got, err := diary.PlantingNamed(g, day, typed)
		require.NoError(t, err, typed)
		assert.Equal(t, want, got, typed)
	}
	// A crop's name means all its plantings, those that are not called so too.
	for typed, want := range map[string]string{
		"squash": `"squash" can be "zucchini" or "blue squash"`, "tomatoes": `"tomatoes" can be "tomatoes 2", "tunnel tomatoes" or "roma"`,
		"bed 5": `"bed 5" can be "late corn" or "roma"`, "early": `there is no planting "early" in the garden`, "cu": `there is no planting "cu" in the garden`,
	} {
		_, err := diary.PlantingNamed(g, day, typed)
		assert.EqualError(t, err, want)
	}
}
