package diary_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"dawnbrush/cmd/dawnbrush/diary"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/memory"
)

// odd are names that could be taken for numbers, nouns or words of a form.
var odd = []string{"flowers", "5", "male", "hand", "garden", "on", "12mm", "2026-07-12", "yesterday", "kg", "min,", "a \"b\" c", "Beet & $HOME", "=1+2", "note", "honey bees", "7/10", "größe"}

// mixed is the test garden with odd names.
func mixed(t testing.TB) *risk.Garden {
	g := garden(t)
	for _, n := range odd {
		p := g.Plantings[1]
		p.Name, p.Bed = n, ""
		g.Plantings = append(g.Plantings, p)
	}
	return g
}

// anyText draws a text that may stand in a diary.
func anyText(label string) *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		s := rapid.OneOf(rapid.String(), rapid.StringMatching(`[=+@'"\-a-z ,;0-9]{1,20}`), rapid.SampledFrom(append(odd, "zucchini", "whole garden"))).Draw(t, label)
		s = strings.Map(func(r rune) rune {
			if unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp, unicode.Bidi_Control) || strings.ContainsRune("\u200b\u2060\ufeff\ufffd", r) {
				return ' '
			}
			return r
		}, s)
		s = strings.Join(strings.Fields(s), " ")
		if r := []rune(s); len(r) > 300 {
			s = strings.TrimSpace(string(r[:300]))
		}
		if s == "" {
			return "x"
		}
		return s
	})
}

// anyEntry draws an entry that Check lets through, of a planting of the garden.
func anyEntry(t *rapid.T, g *risk.Garden) memory.Entry {
	whole := func(lo, hi int, label string) forecast.Value {
		return known(float64(rapid.IntRange(lo, hi).Draw(t, label)))
	}
	amount := func(hi float64) forecast.Value { return known(rapid.Float64Range(1e-6, hi).Draw(t, "amount")) }
	planting := func() string { return rapid.SampledFrom(g.Plantings).Draw(t, "planting").Name }
	date := day.AddDays(-rapid.IntRange(0, 500).Draw(t, "days ago"))
	e := memory.Entry{Date: date, Kind: rapid.SampledFrom(memory.Kinds()).Draw(t, "kind"), Planting: planting()}
	switch e.Kind {
	case memory.Buds:
		e.Female = whole(0, 1000, "buds")
	case memory.Opened:
		e.Male, e.Female = whole(0, 1000, "male"), whole(0, 1000, "female")
	case memory.Brushed:
		e.Count = whole(1, 1000, "count")
	case memory.Bees:
		e.Minutes, e.Flowers, e.Visits = known(rapid.Float64Range(0.5, 240).Draw(t, "minutes")), whole(1, 50, "flowers"), whole(0, 30, "visits")
		e.Group = rapid.SampledFrom([]string{"", "honey_bee", "bumble_bee", "squash_bee"}).Draw(t, "group")
		e.At = date.At(12, time.UTC)
	case memory.Set:
		e.Count, e.Of, e.By = whole(0, 20, "set"), whole(20, 40, "of"), rapid.SampledFrom([]string{"hand", "bees"}).Draw(t, "by")
		if rapid.Bool().Draw(t, "dated") {
			e.FlowersOn = date.AddDays(-rapid.IntRange(0, 60).Draw(t, "before"))
		}
	case memory.Rain:
		e.Planting, e.Amount = "", known(rapid.Float64Range(0, 2000).Draw(t, "rain"))
	case memory.Water:
		if rapid.Bool().Draw(t, "drip") {
			e.Minutes = amount(2880)
		} else {
			e.Amount = amount(100_000)
		}
	case memory.Feed:
		e.Product = anyText("product").Draw(t, "product")
		if rapid.Bool().Draw(t, "weighed") {
			e.Amount = amount(500_000)
		}
	case memory.Spray:
		e.Product, e.Interval = anyText("product").Draw(t, "product"), whole(0, 365, "days")
	case memory.Beetles, memory.Slugs:
		e.Count, e.Of = whole(0, 500, "count"), whole(1, 500, "plants")
	case memory.Fruits:
		e.Count = whole(0, 500, "fruits")
		if rapid.Bool().Draw(t, "sample") {
			e.Of = whole(1, 500, "plants")
		}
	case memory.Symptom, memory.Remark:
		e.Text = anyText("text").Draw(t, "text")
	case memory.Picked:
		e.Count, e.Weight, e.Misshapen = whole(10, 100, "fruit"), amount(1000), whole(0, 10, "misshapen")
	case memory.Cover:
		e.On = rapid.Bool().Draw(t, "on")
	case memory.First:
		e.Sex = rapid.SampledFrom([]string{"male", "female"}).Draw(t, "sex")
	}
	switch e.Kind {
	case memory.Water, memory.Feed, memory.Spray, memory.Beetles, memory.Slugs, memory.Remark:
		if rapid.IntRange(0, 3).Draw(t, "whole garden") == 0 {
			e.Planting = ""
		}
	}
	return e
}

// What an entry is said as is understood as the same entry, whatever its
// planting is called and its text says.
func TestWordsRoundTrip(t *testing.T) {
	g := mixed(t)
	rapid.Check(t, func(t *rapid.T) {
		want := anyEntry(t, g)
		c := diary.Context{Garden: g, Now: now, Date: want.Date}
		if !want.At.IsZero() {
			c.Clock = want.At.In(zone).Format("15:04")
		}
		words := diary.Words(&want)
		got, err := diary.Parse(words, c)
		require.NoError(t, err, "%q", words)
		require.Equal(t, want, got, "%q", words)
		require.Empty(t, diary.Check(&want, day))
	})
}

// kept gives an entry what the store gives it.
func kept(t *rapid.T, e memory.Entry, n int) memory.Entry {
	e.ID = fmt.Sprintf("%09d%06d", n, rapid.IntRange(0, 999_999).Draw(t, "id"))
	e.Recorded = now.UTC().Add(-time.Duration(rapid.Int64Range(0, int64(9000*time.Hour)).Draw(t, "recorded")))
	if rapid.IntRange(0, 9).Draw(t, "removed") == 0 {
		return memory.Entry{ID: e.ID, Recorded: e.Recorded, Date: e.Date, Kind: e.Kind, Planting: e.Planting, Replaces: "other", Removed: true}
	}
	if rapid.IntRange(0, 5).Draw(t, "amends") == 0 {
		e.Replaces = "another"
	}
	return e
}

// Both file forms give back exactly what went in: 100 files of 100 entries each,
// whatever number of checks rapid is asked for.
func TestFilesRoundTrip(t *testing.T) {
	g := mixed(t)
	total := 0
	rapid.Check(t, func(t *rapid.T) {
		var entries []memory.Entry
		for n := range 100 {
			entries = append(entries, kept(t, anyEntry(t, g), n))
		}
		total += len(entries)
		for name, write := range writers {
			var b bytes.Buffer
			require.NoError(t, write(&b, entries))
			back, faults := diary.Read(b.Bytes(), diary.Known{Garden: g, Today: day})
			require.Empty(t, faults, name)
			require.Equal(t, entries, back, name)
			var again bytes.Buffer
			require.NoError(t, write(&again, back))
			require.Equal(t, b.String(), again.String(), name)
		}
	})
	assert.GreaterOrEqual(t, total, 1000)
	t.Logf("%d entries", total)
}

var writers = map[string]func(b *bytes.Buffer, entries []memory.Entry) error{
	"csv":   func(b *bytes.Buffer, entries []memory.Entry) error { return diary.WriteCSV(b, entries) },
	"jsonl": func(b *bytes.Buffer, entries []memory.Entry) error { return diary.WriteJSONL(b, entries) },
}
