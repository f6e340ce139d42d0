package diary_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// What is done to a bed or seen in it is noted of the bed; a bed with one planting goes
// by the planting, and one with none by itself where the garden file has it.
func TestNotesAboutABed(t *testing.T) {
	c := in(t)
	c.Garden.Beds = []risk.Bed{{Name: "Bed 5"}, {Name: "bed 8"}, {Name: "bed 9"}}
	for line, want := range map[string]string{
		"water 20L bed 5":                      "Bed 5",
		"water 20L in bed 5":                   "Bed 5",
		"water 45 min drip bed 5":              "Bed 5",
		`feed "fish emulsion" 30 g bed 5`:      "Bed 5",
		"feed fish emulsion 30 g bed 5":        "Bed 5",
		`spray "soap" 3 days bed 5`:            "Bed 5",
		"beetles 3 on 5 plants bed 5":          "Bed 5",
		"cover on bed 5":                       "Bed 5",
		`remark "weeded" bed 5`:                "Bed 5",
		"water 20L bed 8":                      "bed 8",
		"water 20L bed 9":                      "honeydews",
		"water 20L bed 2":                      "zucchini",
		"water 20L roma":                       "roma",
		`remark "the fox is back, near bed 5"`: "",
	} {
		got, err := diary.Parse(split(line), c)
		require.NoError(t, err, line)
		assert.Equal(t, want, got.Planting, line)
		again, err := diary.Parse(diary.Words(&got), c)
		require.NoError(t, err, line)
		assert.Equal(t, got, again, line)
	}
}

// Notes about a bed go out and come back; of a bed that is not there, or of a kind that is
// about one planting, they are refused.
func TestImportOfBedNotes(t *testing.T) {
	k := knownTo(t)
	water := entry(memory.Water, "bed 5", func(e *memory.Entry) { e.ID, e.Recorded, e.Amount = "a", now.UTC(), known(20) })
	var doc bytes.Buffer
	require.NoError(t, diary.WriteCSV(&doc, []memory.Entry{water}))
	got, faults := diary.Read(doc.Bytes(), k)
	require.Empty(t, faults)
	assert.Equal(t, []memory.Entry{water}, got)
	for _, e := range []memory.Entry{
		entry(memory.Water, "bed 77", func(e *memory.Entry) { e.ID, e.Recorded, e.Amount = "b", now.UTC(), known(20) }),
		entry(memory.Picked, "bed 5", func(e *memory.Entry) { e.ID, e.Recorded, e.Count = "c", now.UTC(), known(3) }),
	} {
		doc.Reset()
		require.NoError(t, diary.WriteJSONL(&doc, []memory.Entry{e}))
		_, faults := diary.Read(doc.Bytes(), k)
		require.Len(t, faults, 1)
		assert.Contains(t, faults[0].Message, "there is no bed")
	}
}
