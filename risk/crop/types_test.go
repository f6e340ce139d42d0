package crop

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

func spanOf(low, high float64) Range { return Range{Low: low, High: high} }

// inch is exact by definition (ISO 80000-3).
const inch = 2.54 // cm

// What extension services print of the types of cucumber, in their own units; lengths
// in the files are rounded to whole cm.
func TestTypesOfCucumber(t *testing.T) {
	set, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	c, _ := set.Find("cucumber")
	for _, x := range []struct {
		word         string
		in           Range // length in inches
		sets         Setting
		harvestAfter Range
		param        string
	}{
		{"slicer", spanOf(6, 8), "", spanOf(8, 18), "types.slicing.harvest_after"},                   // Iowa State; North Carolina AG-552 8 to 10, Hawaii 15 to 18 days
		{"Gherkins", spanOf(2, 4), "", spanOf(5, 10), "types.pickling.harvest_after"},                // Iowa State; Hawaii 5 to 10 days
		{"English", spanOf(12, 14), Parthenocarpic, spanOf(5, 20), "phenology.harvest_after"},        // Florida HS790; Encyclopaedia Britannica 5 to 20 days
		{"Persian cucumber", spanOf(6, 7), Parthenocarpic, spanOf(5, 20), "phenology.harvest_after"}, // Acta Hort. 731:34: half the length of European ones
		{"Oriental Cucumbers", spanOf(7, 10), Monoecious, spanOf(5, 20), "phenology.harvest_after"},  // Hawaii, table 1
		{"", Range{}, "", spanOf(5, 20), "phenology.harvest_after"},                                  // not told: the crop's
		{"Kohlrabi", Range{}, "", spanOf(5, 20), "phenology.harvest_after"},                          // no type
		{"lemon cucumber", Range{}, "", spanOf(5, 20), "phenology.harvest_after"},                    // no length: round
	} {
		var got Type
		if found, ok := c.FindType(x.word); ok {
			got = *found
		}
		if got.Length.Low-x.in.Low*inch > 0.5 || x.in.Low*inch-got.Length.Low > 0.5 || got.Length.High-x.in.High*inch > 0.5 || x.in.High*inch-got.Length.High > 0.5 {
			t.Errorf("%q: length %v cm, published %v in", x.word, got.Length, x.in)
		}
		if got.Sets != x.sets {
			t.Errorf("%q sets %q", x.word, got.Sets)
		}
		span, param := c.HarvestAfter(got.Key)
		if span != x.harvestAfter || param != x.param {
			t.Errorf("%q: %v by %s", x.word, span, param)
		}
		known := false
		for i := range c.Params {
			known = known || c.Params[i].Name == param
		}
		if !known {
			t.Errorf("the number %s has no origin", param)
		}
	}
	// Michigan State counted visits on pickling cucumbers: 8 to 12 (MSU19).
	if p, _ := c.FindType("pickling"); p.VisitsNeeded != (spanOf(8, 12)) || p.PickEvery != (spanOf(2, 3)) {
		t.Errorf("pickling %+v", p)
	}
}

// A type that sets fruit as the crop never does, two types of one word and an unknown
// field are faults of the file.
func TestTypesAreStrict(t *testing.T) {
	data, err := os.ReadFile("data/cucumber.json")
	if err != nil {
		t.Fatal(err)
	}
	for spoil, says := range map[[2]string]string{
		{`"sets": {"text": "parthenocarpic", "source": "UFcuke"`, `"sets": {"text": "triploid", "source": "UFcuke"`}: `types.european.sets "triploid" is not one of the crop's settings`,
		{`"aliases": ["slicer", "slicers"]`, `"aliases": ["slicer", "gherkin"]`}:                                     `types: "gherkin" means two types`,
		{`"words": "round and yellow; apple"`, `"words": "round and yellow; apple", "colour": "yellow"`}:             "types.lemon.colour is not a field",
		{`"words": "round and yellow; apple",`, ``}:                                                                  "types.lemon.words is missing",
	} {
		text := strings.Replace(string(data), spoil[0], spoil[1], 1)
		if text == string(data) {
			t.Fatalf("%s is not in the file", spoil[0])
		}
		_, err := LoadFS(fstest.MapFS{"data/cucumber.json": {Data: []byte(text)}})
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%v: %v", spoil, err)
		}
	}
}
