package crop

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

// Of the squashes only moschata was measured to open hours before the others
// (Agbagwa 2007: 3.5 to 4 h local time in Nigeria); pepo, maxima and a species not
// told share the crop's hours, so that they share its day's work too.
func TestWindowOfSpecies(t *testing.T) {
	set, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	c, _ := set.Find("butternut")
	for _, species := range []string{"", "pepo", "maxima"} {
		if c.WindowOf(species) != &c.Window || c.WindowParam(species, "opens") != "window.opens" {
			t.Errorf("%q keeps its own hours", species)
		}
	}
	w := c.WindowOf("moschata")
	if early := c.Window.Opens - w.Opens; early < 2 || early > 3 {
		t.Errorf("moschata opens %g h before the others", early)
	}
	if open := w.Closes - w.Opens; open < 6.5 || open > 7 { // Agbagwa 2007: female flowers
		t.Errorf("moschata stays open %g h", open)
	}
	if w.OpensAtTemp != c.Window.OpensAtTemp || w.Offer.Empty() {
		t.Error("what was not measured in moschata is not shared")
	}
	found := false
	for _, p := range c.Params {
		found = found || p.Name == c.WindowParam("moschata", "opens")
	}
	if !found {
		t.Error("the number behind moschata's opening has no name in Params")
	}
}

// A species that the crop has not, and a flower that shuts before it opens, are
// faults of the file.
func TestSpeciesWindowIsStrict(t *testing.T) {
	data, err := os.ReadFile("data/pumpkin-winter-squash.json")
	if err != nil {
		t.Fatal(err)
	}
	for spoil, says := range map[[2]string]string{
		{`"moschata": {`, `"mixta": {`}: "species_window.mixta is not a field",
		{`"closes": {"value": 4.05, "low": 3.5`, `"closes": {"value": -2.9, "low": -3`}: "species_window.moschata: the flower closes before it opens",
	} {
		text := strings.Replace(string(data), spoil[0], spoil[1], 1)
		if text == string(data) {
			t.Fatalf("%s is not in the file", spoil[0])
		}
		_, err := LoadFS(fstest.MapFS{"data/pumpkin-winter-squash.json": {Data: []byte(text)}})
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%v: %v", spoil, err)
		}
	}
}
