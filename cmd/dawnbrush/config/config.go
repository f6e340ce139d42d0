package config

import (
	"bytes"
	"errors"
	"fmt"
	"unicode/utf8"

	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"

	"github.com/pelletier/go-toml/v2"
)

// Crops finds crops by the words a grower may write for them; *crop.Set is one.
type Crops interface {
	// Find looks a crop up by key, name or alias.
	Find(word string) (*crop.Crop, bool)
	// Crops gives all crops there are.
	Crops() []*crop.Crop
}

// Known is what a garden file may refer to.
type Known struct {
	Crops Crops         // needed
	Feeds []Feed        // the weather feeds there are
	Dates []string      // languages in which dates can be written; nil: any is taken
	Today forecast.Date // to find dates that have not come yet; zero: none is judged by it
}

// Feed is a weather feed that a garden file may name.
type Feed struct {
	Key           string
	NonCommercial bool // not for those who sell what they grow
}

// feeds lists the words that choose a feed.
func (k Known) feeds(others ...string) []string {
	out := others
	for _, f := range k.Feeds {
		out = append(out, f.Key)
	}
	return out
}

// File is a garden file that was understood.
type File struct {
	Name   string // as Parse was given it
	Garden risk.Garden
	Feed   string // key of the weather feed, or Auto
	Second string // key of the feed that is asked beside it, Auto or None
	Sells  Answer // whether produce is sold
	Mail   *Mail  // how letters are sent; nil when none are

	lines map[string]int // path of a setting ("place.lat", "planting[0].crop") -> its line
}

// Words that stand for a feed.
const (
	Auto = "auto" // chosen by place and by licence
	None = "none" // no second one
)

// Answer is yes, no, or not told.
type Answer uint8

// The answers.
const (
	NotTold Answer = iota
	Yes
	No
)

const (
	// mostBytes bounds a garden file. [chosen: the longest 500 plantings still fit]
	mostBytes = 1 << 20
	// mostPlantings keeps what Write makes of a file below mostBytes.
	// [chosen: a market garden with successions has about a tenth of it]
	mostPlantings = 500
)

// Parse reads a garden file; name is used in messages only. All faults come
// back at once in the order of their lines. The file is nil when one of them is
// more than a warning.
func Parse(name string, doc []byte, known Known) (*File, Faults) {
	doc = trimMark(doc)
	c := newCollector(name, doc)
	if !c.readable() {
		return nil, c.sorted()
	}
	in := &reader{collector: c, known: known, given: map[string]int{}, sound: map[string]bool{}}
	f := Defaults()
	f.Name = name
	in.file(parseTree(c), f)
	if c.errors == 0 {
		c.confirm()
	}
	if c.errors > 0 {
		return nil, c.sorted()
	}
	f.lines = map[string]int{}
	for path, offset := range in.given {
		f.lines[path] = c.line(offset)
	}
	return f, c.sorted()
}

// Glance is what can be told of a garden file before it is understood.
type Glance struct {
	Name  string   // as Parse would give it; "" when there is none to be had
	Crops []string // the words of its plantings, whether or not they mean a crop
}

// Look glances at a garden file, which need not be sound.
func Look(doc []byte) Glance {
	doc = trimMark(doc)
	c := newCollector("", doc)
	if !c.readable() {
		return Glance{}
	}
	root, out := parseTree(c), Glance{Name: Defaults().Garden.Name}
	if m := root.find("name"); m != nil {
		in := &reader{collector: c, given: map[string]int{}, sound: map[string]bool{}}
		out.Name, _ = in.text("name", m.value)
	}
	if m := root.find(plantingTable); m != nil {
		for _, item := range m.value.items {
			if crop := item.find("crop"); crop != nil {
				out.Crops = append(out.Crops, crop.value.text)
			}
		}
	}
	return out
}

// trimMark takes away the byte order mark that some editors put in front.
func trimMark(doc []byte) []byte { return bytes.TrimPrefix(doc, []byte("\ufeff")) }

// readable refuses what is no text file of ours at all.
func (c *collector) readable() bool {
	switch {
	case len(c.doc) > mostBytes:
		c.fault(0, "is it the right file? A garden file is a few kilobytes", "the file is larger than 1 MiB")
	case bytes.HasPrefix(c.doc, []byte("\xff\xfe")), bytes.HasPrefix(c.doc, []byte("\xfe\xff")):
		c.fault(0, "save it again as UTF-8", "the file is UTF-16, not UTF-8 text")
	case !utf8.Valid(c.doc):
		c.fault(firstInvalid(c.doc), "save the file again as UTF-8", "a byte here is not UTF-8 text")
	case len(bytes.TrimSpace(c.doc)) == 0:
		c.fault(0, hintInit, "the file is empty")
	}
	return c.errors == 0
}

const hintInit = "`dawnbrush init` writes one to start from"

func firstInvalid(doc []byte) int {
	at := 0
	for {
		r, size := utf8.DecodeRune(doc[at:])
		if r == utf8.RuneError && size <= 1 {
			return at
		}
		at += size
	}
}

// confirm lets the TOML library have the last word on what this package took
// for sound, so that nothing is accepted that another TOML reader refuses.
func (c *collector) confirm() {
	var discard map[string]any
	var de *toml.DecodeError
	if err := toml.Unmarshal(c.doc, &discard); errors.As(err, &de) {
		line, column := de.Position()
		message, hint := inPlainWords(de.Error(), "", "")
		c.fault(min(c.starts[max(1, min(line, len(c.starts)))-1]+column-1, len(c.doc)), hint, "%s", message)
	} else if err != nil {
		c.fault(0, "", "not understood: %s", err)
	}
}

// file reads a whole document into f.
func (in *reader) file(root *node, f *File) {
	if len(root.members) == 0 {
		if in.errors == 0 {
			in.fault(0, hintInit, "the file tells nothing: every line is a note")
		}
		return
	}
	in.table(root, gardenSettings(), scope{file: f}, tableNames()...)
	in.checkFeeds(f)
	if place := in.subtable(root, "place"); place != nil {
		in.table(place, placeSettings(), scope{file: f, path: "place."})
		in.checkPlace(f)
	} else if root.find("place") == nil {
		in.fault(0, "add [place] with lat, lon and zone", "the file does not tell where the garden is")
	}
	if work := in.subtable(root, "work"); work != nil {
		in.table(work, workSettings(), scope{file: f, path: "work."})
		in.checkWork(work)
	}
	if bees := in.subtable(root, "bees"); bees != nil {
		in.table(bees, beesSettings(), scope{file: f, path: "bees."})
		in.checkBees(f)
	}
	if mail := in.subtable(root, mailTable); mail != nil {
		in.mail(mail, f)
	}
	in.plantings(root, f)
	in.checkGarden(root, f)
}

// subtable finds a table; another kind of value under its name is a fault.
func (in *reader) subtable(root *node, name string) *node {
	m := root.find(name)
	if m == nil || m.value.kind == kindBroken {
		return nil
	}
	if m.value.kind != kindTable {
		in.fault(m.offset, "write ["+name+"] on a line of its own and its keys below", "%s must be a table, not %s", name, m.value.kind)
		return nil
	}
	return m.value
}

func (in *reader) plantings(root *node, f *File) {
	m := root.find(plantingTable)
	if m == nil || m.value.kind == kindBroken {
		return
	}
	hint := "write [[" + plantingTable + "]] on a line of its own and its keys below"
	if m.value.kind != kindList {
		in.fault(m.offset, hint, "%s must be a list of tables, not %s", plantingTable, m.value.kind)
		return
	}
	if n := len(m.value.items); n > mostPlantings {
		in.fault(m.offset, "split the garden into several files", "%d plantings are more than the %d one file can hold", n, mostPlantings)
		return
	}
	first := map[string]int{}
	for _, item := range m.value.items {
		if item.kind != kindTable {
			in.fault(item.offset, hint, "a planting must be a table, not %s", item.kind)
			continue
		}
		i := len(f.Garden.Plantings)
		f.Garden.Plantings = append(f.Garden.Plantings, risk.Planting{})
		p := &f.Garden.Plantings[i]
		s := scope{file: f, planting: p, path: fmt.Sprintf("%s[%d].", plantingTable, i)}
		in.planting(item, s)
		in.checkName(first, s)
		in.checkCorn(f, i, s)
	}
}
