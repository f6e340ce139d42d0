package config

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Distances worked out by hand from the definition of the optimal string
// alignment distance; kitten/sitting and CA/ABC are the textbook pairs. [memory]
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"", "pepo", 4}, {"kitten", "sitting", 3}, {"CA", "ABC", 3}, {"ab", "ba", 1},
		{"cucmber", "cucumber", 1}, {"cucubmer", "cucumber", 1}, {"tomatoe", "tomato", 1}, {"honig", "honey", 2},
	} {
		assert.Equal(t, c.want, slips([]rune(c.a), []rune(c.b)), "%s to %s", c.a, c.b)
	}
}

// byDefinition is the recursion the table of slips stands for.
func byDefinition(a, b []rune) int {
	if len(a) == 0 || len(b) == 0 {
		return len(a) + len(b)
	}
	n, m := len(a), len(b)
	cost := 1
	if a[n-1] == b[m-1] {
		cost = 0
	}
	d := min(byDefinition(a[:n-1], b)+1, byDefinition(a, b[:m-1])+1, byDefinition(a[:n-1], b[:m-1])+cost)
	if n > 1 && m > 1 && a[n-1] == b[m-2] && a[n-2] == b[m-1] {
		d = min(d, byDefinition(a[:n-2], b[:m-2])+1)
	}
	return d
}

func TestSlipsByDefinition(t *testing.T) {
	word := rapid.StringOfN(rapid.RuneFrom([]rune("abc")), 0, 6, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := []rune(word.Draw(t, "a")), []rune(word.Draw(t, "b"))
		if got, want := slips(a, b), byDefinition(a, b); got != want {
			t.Fatalf("%q to %q: %d, by definition %d", string(a), string(b), got, want)
		}
	})
}

func TestNearest(t *testing.T) {
	words := []string{"monday", "tuesday", "wednesday", "thursday", "few", "Row Cover"}
	for word, want := range map[string]string{
		"mondya": "monday", "TUESDAY": "tuesday", "thusday": "thursday", "fwe": "few", "row cover": "Row Cover",
		"yesterday": "", "": "", "x": "", "dragonfruit": "",
	} {
		got, ok := Nearest(word, words)
		assert.Equal(t, want, got, word)
		assert.Equal(t, want != "", ok, word)
	}
}
