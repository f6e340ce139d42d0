package config

import (
	"fmt"
	"slices"
)

// Row is one setting of a garden file as it was understood.
type Row struct {
	Table string // "", "place", "work", "bees", "mail", "mail to" an address, or the name of a planting
	Key   string
	Value string // without quotes, with its unit; "not told" where nothing is known
	From  string // "line 12", "default", or "" where nothing is known
	Line  int    // 0 for a default
}

// notTold stands for what nobody gave and nothing assumes.
const notTold = "not told"

// Explain lists every setting, its value and where it came from, in the order
// in which Write prints them. Of a planting those are left out that say nothing
// about its crop, unless they were given.
func Explain(f *File) []Row {
	rows := f.explain("", scope{file: f}, gardenSettings())
	rows = append(rows, f.explain("place", scope{file: f, path: "place."}, placeSettings())...)
	rows = append(rows, f.explain("work", scope{file: f, path: "work."}, workSettings())...)
	rows = append(rows, f.explain("bees", scope{file: f, path: "bees."}, beesSettings())...)
	rows = append(rows, f.explainMail()...)
	for i := range f.Garden.Plantings {
		p := &f.Garden.Plantings[i]
		s := scope{file: f, planting: p, path: fmt.Sprintf("%s[%d].", plantingTable, i)}
		rows = append(rows, f.explain(p.Name, s, plantingSettings())...)
	}
	return rows
}

func (f *File) explain(table string, s scope, settings []setting) []Row {
	var rows []Row
	for _, set := range settings {
		r := Row{Table: table, Key: set.key, Value: set.show(s), From: "default", Line: f.lines[s.path+set.key]}
		if r.Line == 0 && (set.when != nil && !set.when(s.planting.Crop) || set.inside && !inside(s.planting)) {
			continue
		}
		if r.Line == 0 && set.hooks != nil && !slices.Contains(set.hooks, f.Mail.Hook) {
			continue
		}
		switch {
		case r.Value == "":
			r.Value, r.From = notTold, ""
		case set.length:
			r.Value += " " + lengthWord(f.Garden.Units)
		}
		if r.Line > 0 {
			r.From = fmt.Sprintf("line %d", r.Line)
		}
		rows = append(rows, r)
	}
	return rows
}
