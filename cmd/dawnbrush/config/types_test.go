package config

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

const typePlot = "contact = \"g@example.org\"\n[place]\nlat = 40.71\nlon = -74.01\nzone = \"America/New_York\"\n[[planting]]\nname = \"a\"\nsown = 2026-05-20\n"

// A type brings how its flowers usually set, until the grower tells that; European
// cucumbers set without pollen (Florida HS790).
func TestTypeOfAPlanting(t *testing.T) {
	for _, x := range []struct {
		lines, kind string
		sets        crop.Setting
		from        string // where the type stands
	}{
		{"crop = \"cucumber\"\n", "", crop.Monoecious, ""},
		{"crop = \"cucumber\"\ntype = \"European\"\n", "european", crop.Parthenocarpic, "line 10"},
		{"sets = \"monoecious\"\ntype = \"english\"\ncrop = \"cucumber\"\n", "european", crop.Monoecious, "line 10"},
		{"crop = \"pickling cucumber\"\n", "pickling", crop.Monoecious, "line 9"},
		{"crop = \"English cucumber\"\n", "european", crop.Parthenocarpic, "line 9"},
		{"crop = \"English cucumber\"\ntype = \"slicing\"\n", "slicing", crop.Monoecious, "line 10"},
		{"crop = \"Persian cucumber\"\n", "beit-alpha", crop.Parthenocarpic, "line 9"},
		{"crop = \"lemon cucumber\"\n", "lemon", crop.Monoecious, "line 9"},
		{"crop = \"Armenian cucumber\"\n", "", "", ""}, // a melon
	} {
		f, faults := Parse("g", []byte(typePlot+x.lines), known(t))
		require.NotNil(t, f, screen(faults))
		p := f.Garden.Plantings[0]
		assert.Equal(t, x.kind, p.Type, x.lines)
		if x.sets != "" {
			assert.Equal(t, x.sets, p.Setting, x.lines)
		}
		for _, r := range Explain(f) {
			if r.Table == "a" && r.Key == "type" && x.from != "" {
				assert.Equal(t, x.from, r.From, x.lines)
			}
		}
	}
}

func TestTypeFaults(t *testing.T) {
	for lines, says := range map[string]string{
		"crop = \"cucumber\"\ntype = \"picklign\"\n": `did you mean "pickling"?`,
		"crop = \"cucumber\"\ntype = \"blue\"\n":     "it can be slicing, pickling, european, beit-alpha, asian or lemon",
		"crop = \"cucumber\"\ntype = 4\n":            "type must be",
	} {
		f, faults := Parse("g", []byte(typePlot+lines), known(t))
		assert.Nil(t, f, lines)
		assert.Contains(t, screen(faults), says)
	}
	f, faults := Parse("g", []byte(typePlot+"crop = \"tomato\"\ntype = \"slicing\"\n"), known(t))
	require.NotNil(t, f, "a type of another crop is only said")
	assert.Contains(t, screen(faults), "no types of tomato are known here")
	assert.Empty(t, f.Garden.Plantings[0].Type)
}

// The line that explains the key names every type there is.
func TestTypeIsExplained(t *testing.T) {
	for _, set := range plantingSettings() {
		if set.key != "type" {
			continue
		}
		for _, c := range known(t).Crops.Crops() {
			for i := range c.Types {
				assert.True(t, strings.Contains(set.doc, c.Types[i].Key), c.Types[i].Key)
			}
		}
	}
}

// The run of the rows is read for corn, and a slip of it is met with the word meant.
func TestRowsRun(t *testing.T) {
	f, faults := Parse("g", []byte(typePlot+"crop = \"sweet corn\"\nrows = 1\nrows_run = \"East-West\"\n"), known(t))
	require.NotNil(t, f, screen(faults))
	assert.Equal(t, risk.EastWest, f.Garden.Plantings[0].RowsRun)
	_, faults = Parse("g", []byte(typePlot+"crop = \"sweet corn\"\nrows = 1\nrows_run = \"nort-south\"\n"), known(t))
	assert.Contains(t, screen(faults), `did you mean "north-south"?`)
	_, faults = Parse("g", []byte(typePlot+"crop = \"cucumber\"\nrows_run = \"north-south\"\n"), known(t))
	assert.Contains(t, screen(faults), "rows_run is read for corn only")
}
