package config

import "strings"

// longestWord bounds the work of Nearest; no valid word is near that length.
const longestWord = 60

// Nearest gives the word among those offered that a person most likely meant:
// the one fewest slips away, where a slip is a letter too many, too few, wrong
// or swapped with its neighbour. Case does not count. ok is false where no word
// lies within one slip for each three letters. Of two equally near words the
// first one offered wins.
func Nearest(word string, among []string) (nearest string, ok bool) {
	w := []rune(strings.ToLower(strings.TrimSpace(word)))
	if len(w) == 0 || len(w) > longestWord {
		return "", false
	}
	best := max(1, len(w)/3) + 1
	for _, candidate := range among {
		c := []rune(strings.ToLower(candidate))
		if len(c)-len(w) >= best || len(w)-len(c) >= best {
			continue
		}
		if d := slips(w, c); d < best {
			best, nearest = d, candidate
		}
	}
	return nearest, nearest != ""
}

// slips is the optimal string alignment distance: insertions, deletions,
// substitutions and swaps of neighbours as Damerau 1964 counts a clerk's slips,
// but no part edited twice.
func slips(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
