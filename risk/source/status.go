package source

import (
	"fmt"
	"strings"
)

// Status says how a number came to us. A larger Status is a stronger one. The
// zero Status is "not given" and never valid.
type Status uint8

// The statuses, weakest first.
const (
	Chosen         Status = iota + 1 // our own choice; a rationale is compulsory
	CommonPractice                   // growers go by it, no publication found
	Memory                           // recalled, the place was not looked up
	Derived                          // computed from a number that was read; the note says how
	Quoted                           // relayed by another work
	Read                             // seen in the publication or its abstract
)

var statusWords = [...]string{
	Chosen: "chosen", CommonPractice: "common-practice", Memory: "memory",
	Derived: "derived", Quoted: "quoted", Read: "read",
}

// Statuses lists all statuses, strongest first.
func Statuses() []Status {
	return []Status{Read, Quoted, Derived, Memory, CommonPractice, Chosen}
}

// ParseStatus reads the word of a status. Any other word is an error.
func ParseStatus(word string) (Status, error) {
	for _, s := range Statuses() {
		if word == statusWords[s] {
			return s, nil
		}
	}
	return 0, fmt.Errorf("status %q is not one of %s", word, statusList())
}

func statusList() string {
	var words []string
	for _, s := range Statuses() {
		words = append(words, s.String())
	}
	return strings.Join(words, ", ")
}

// Valid tells whether s is one of the six statuses.
func (s Status) Valid() bool { return s >= Chosen && s <= Read }

// String gives the word used in files and on the screen.
func (s Status) String() string {
	if !s.Valid() {
		return "not given"
	}
	return statusWords[s]
}

// MarshalText writes the word of a valid status.
func (s Status) MarshalText() ([]byte, error) {
	if !s.Valid() {
		return nil, fmt.Errorf("status %d has no word", uint8(s))
	}
	return []byte(s.String()), nil
}

// UnmarshalText reads the word of a status.
func (s *Status) UnmarshalText(text []byte) error {
	v, err := ParseStatus(string(text))
	if err != nil {
		return err
	}
	*s = v
	return nil
}
