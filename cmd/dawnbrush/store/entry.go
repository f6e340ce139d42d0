package store

import (
	"bytes"
	"crypto/rand"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	fastjson "github.com/go-json-experiment/json"

	"dawnbrush/risk/memory"
)

// newID gives an identity for an entry recorded at t that sorts after last where
// both were recorded in the same millisecond.
func newID(t time.Time, last string) string {
	if id, ok := memory.IDAfter(last, t); ok {
		return id
	}
	var random [8]byte
	if _, err := rand.Read(random[:]); err != nil {
		panic(err) // crypto/rand never gives one
	}
	return memory.ID(t, binary.LittleEndian.Uint64(random[:])&(memory.MostRest>>1)) // the upper half is room to count on
}

// mostText bounds each text of an entry. [chosen: more than a page of writing]
const mostText = 10_000

// check refuses what could not be kept exactly. Whether an entry makes sense in
// the garden is settled before it comes here.
func check(e *memory.Entry) error {
	switch {
	case !slices.Contains(memory.Kinds(), e.Kind):
		return &EntryError{ID: e.ID, Fault: fmt.Sprintf("there is no kind of entry %q", e.Kind)}
	case e.Date.IsZero():
		return &EntryError{ID: e.ID, Fault: "it has no date"}
	case !e.Date.Exists(), !e.FlowersOn.IsZero() && !e.FlowersOn.Exists():
		return &EntryError{ID: e.ID, Fault: "its date does not exist"}
	case e.Removed && e.Replaces == "":
		return &EntryError{ID: e.ID, Fault: "it takes back an entry but does not say which"}
	case e.ID != "" && e.ID == e.Replaces:
		return &EntryError{ID: e.ID, Fault: "it replaces itself"}
	}
	for _, s := range []string{e.ID, e.Planting, e.Replaces, e.Group, e.By, e.Sex, e.Product, e.Text} {
		switch {
		case !utf8.ValidString(s) || strings.ContainsRune(s, 0):
			return &EntryError{ID: e.ID, Fault: "it holds signs that are no text"}
		case len(s) > mostText:
			return &EntryError{ID: e.ID, Fault: "its text is longer than a page (10,000 bytes)"}
		}
	}
	for _, t := range []time.Time{e.Recorded, e.At} {
		if y := t.UTC().Year(); y < 1 || y > 9999 {
			return &EntryError{ID: e.ID, Fault: "its time does not exist"}
		}
	}
	return nil
}

// encode writes an entry for keeping; times are in UTC so that the same entry
// always gives the same bytes.
func encode(e *memory.Entry) (string, error) {
	c := *e
	c.Recorded, c.At = c.Recorded.UTC(), c.At.UTC()
	var b bytes.Buffer
	w := json.NewEncoder(&b)
	w.SetEscapeHTML(false)
	if err := w.Encode(&c); err != nil {
		return "", err
	}
	return strings.TrimSuffix(b.String(), "\n"), nil
}

func decode(payload []byte) (e memory.Entry, err error) {
	err = fastjson.Unmarshal(payload, &e)
	return e, err
}

// EntryError tells why an entry cannot be kept.
type EntryError struct {
	ID    string // "" for a new one
	Fault string
}

func (e *EntryError) Error() string {
	if e.ID == "" {
		return "the entry cannot be kept: " + e.Fault
	}
	return fmt.Sprintf("the entry %s cannot be kept: %s", e.ID, e.Fault)
}

// Hint tells the remedy.
func (e *EntryError) Hint() string { return "correct it and give the command again; nothing was kept" }

// UnknownEntryError tells that the diary has no such entry.
type UnknownEntryError struct{ ID string }

func (e *UnknownEntryError) Error() string { return fmt.Sprintf("the diary has no entry %q", e.ID) }

// Hint tells the remedy.
func (e *UnknownEntryError) Hint() string { return "list the entries to see their identities" }

// SupersededError tells that an entry is not the current version any more.
type SupersededError struct {
	ID      string
	By      string // the entry that took its place
	Removed bool   // it was taken back
}

func (e *SupersededError) Error() string {
	if e.Removed {
		return fmt.Sprintf("the entry %s was removed already", e.ID)
	}
	return fmt.Sprintf("the entry %s was amended already, by %s", e.ID, e.By)
}

// Hint tells the remedy.
func (e *SupersededError) Hint() string {
	if e.Removed {
		return "write it anew"
	}
	return "amend " + e.By + " instead"
}
