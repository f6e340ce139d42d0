// Package diary reads what a grower types about the garden, says it back, and
// writes and reads diaries as files.
//
// A note is a line of words: what it is about (a memory.Kind), numbers with the
// word or unit that says what they count, and the planting. The order of the
// numbers is free, their meaning is not: what can be read in two ways, or not at
// all, is refused with the form to write. Nothing is guessed.
//
// The package does no input or output and reads no clock: the time is an
// argument. Amounts are kept in metric units whatever was typed.
package diary

import (
	"fmt"
	"strings"
)

// Error says in the grower's words why a note is refused.
type Error struct {
	Message string // what is wrong
	Remedy  string // what to write instead
}

func (e *Error) Error() string { return e.Message }

// Hint gives the remedy.
func (e *Error) Hint() string { return e.Remedy }

func refuse(remedy, format string, args ...any) *Error {
	return &Error{Message: fmt.Sprintf(format, args...), Remedy: remedy}
}

// list writes "a, b or c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
