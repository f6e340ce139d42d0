package config

import (
	"fmt"
	"strings"

	"dawnbrush/forecast"
	"dawnbrush/risk/crop"
)

// checkGarden warns of what the whole file lacks.
func (in *reader) checkGarden(root *node, f *File) {
	if root.find("contact") == nil {
		in.warn(0, `add contact = "you@example.org" above the first [table]`, "no contact: weather services ask for one and may refuse requests without")
	}
	if m := root.find(plantingTable); m == nil || m.value.kind == kindList && len(m.value.items) == 0 {
		in.warn(0, "add a [["+plantingTable+"]] with name and crop", "nothing is planted yet, so no plan can be made")
	}
}

// checkCorn warns of corn that an earlier planting's pollen may spoil.
func (in *reader) checkCorn(f *File, i int, s scope) {
	for k := range f.Garden.Plantings[:i] {
		other := &f.Garden.Plantings[k]
		if !s.planting.MayCross(other) {
			continue
		}
		d := s.planting.Crop.Corn
		in.warn(in.given[s.path+"sweetness"], fmt.Sprintf("keep them %.0f %s apart, or %.0f days between their silks", lengths().out(d.Isolation, f.Garden.Units), lengths().word(f.Garden.Units), d.IsolationDays),
			"%s corn may be in flower with the %s corn %s: each makes the other's kernels tough and starchy", s.planting.Sweetness, other.Sweetness, said(other.Name))
	}
}

// checkName finds two of one name; the diary could not tell plantings apart, nor
// plantings their beds.
func (in *reader) checkName(what, name string, first map[string]int, s scope) {
	path := s.path + "name"
	if !in.sound[path] {
		return
	}
	at := in.given[path]
	if line, taken := first[strings.ToLower(name)]; taken {
		in.fault(at, "give each "+what+" a name of its own", "the name %s is taken, on line %d", said(name), line)
		return
	}
	first[strings.ToLower(name)] = in.line(at)
}

// checkFlowering looks at what hangs on the crop.
func (in *reader) checkFlowering(s scope) {
	p := s.planting
	c := p.Crop
	if c == nil {
		return
	}
	at := in.given[s.path+"crop"]
	_, rows := in.given[s.path+"rows"]
	_, rowLength := in.given[s.path+"row_length"]
	_, species := in.given[s.path+"species"]
	if c.Pollination == crop.Wind && !rows {
		in.fault(at, "add rows = 4, the number of rows side by side", "%s without rows: the wind fills ears in a block, hardly in a single row", c.Name)
	}
	if c.Pollination != crop.Wind && (rows || rowLength) {
		in.warn(at, "leave them out", "rows and row_length are read for corn only")
	}
	if _, told := in.given[s.path+"plants"]; c.Pollination == crop.Insect && p.Setting != crop.Parthenocarpic && p.Finished.IsZero() && !told {
		in.warn(at, "add plants = 6, or how many there are", "no number of plants: one is taken, and for the flowers of one plant a brush seldom seems worth the work")
	}
	sweetness, sweet := in.given[s.path+"sweetness"]
	if c.Pollination != crop.Wind && sweet {
		in.warn(sweetness, "leave it out", "sweetness is read for corn only")
	}
	if run, told := in.given[s.path+"rows_run"]; c.Pollination != crop.Wind && told {
		in.warn(run, "leave it out", "rows_run is read for corn only")
	}
	if len(c.Species) > 1 && !species {
		in.warn(at, "add species = "+quote(c.Species[0].Key)+"; it can be "+list(speciesWords(c)),
			"%s without species: only pollen of the same species sets fruit", c.Name)
	}
	if (p.Setting == crop.Triploid || p.Setting == crop.Gynoecious) && !p.Pollenizer {
		if sets, told := in.given[s.path+"sets"]; told {
			at = sets
		}
		hint := "plant a pollen parent beside it and write pollenizer = true"
		if p.Setting == crop.Gynoecious {
			hint += "; many packets hold some seed of one, often dyed: if you sowed both, it stands there"
		}
		in.warn(at, hint,
			"a %s %s sets no fruit without a pollen parent", p.Setting, c.Name)
	}
}

// Days that make a date look like a slip of the pen.
const (
	farAhead = 366 // [chosen: nobody plans a planting further than next season]
	longAgo  = 400 // [chosen: these crops are annuals]
)

// dated is one date of a planting with what it is called.
type dated struct {
	key  string
	day  forecast.Date
	seen bool // an observation, which cannot lie ahead
}

// checkDates looks at a planting's dates against today and at their order.
func (in *reader) checkDates(item *node, s scope) {
	p := s.planting
	sown, out := dated{key: "sown", day: p.Sown}, dated{key: "transplanted", day: p.Transplanted}
	male, female := dated{"first_male", p.FirstMale, true}, dated{"first_female", p.FirstFemale, true}
	finished, buds := dated{key: "finished", day: p.Finished}, dated{"buds_on", p.BudsOn, true}
	doubted := map[string]bool{}
	for _, d := range []dated{sown, out, male, female, finished, buds} {
		doubted[d.key] = d.day.IsZero() || in.checkAgainstToday(d, s)
	}
	for _, pair := range [][2]dated{
		{sown, out}, {sown, male}, {sown, female}, {sown, buds}, {sown, finished},
		{out, finished}, {male, finished}, {female, finished}, {buds, finished},
	} {
		before, after := pair[0], pair[1]
		if doubted[before.key] || doubted[after.key] || !after.day.Before(before.day) {
			continue
		}
		in.fault(in.given[s.path+after.key], "check the year and the month of both",
			"%s %s is earlier than %s %s", after.key, after.day, before.key, before.day)
		doubted[after.key] = true // one slip, one fault
	}
	for _, key := range []string{"sown", "transplanted", "first_male", "first_female"} {
		if item.find(key) != nil {
			return
		}
	}
	in.warn(item.offset, "add sown, transplanted or first_female", "no date told: when it flowers cannot be foretold")
}

// checkAgainstToday tells whether a date is out of the question. The day that is
// known may be one of grace, before the zone is read: no hint names it.
func (in *reader) checkAgainstToday(d dated, s scope) bool {
	today := in.known.Today
	if today.IsZero() {
		return false
	}
	at, ahead := in.given[s.path+d.key], d.day.DaysSince(today)
	switch {
	case ahead > 0 && d.seen:
		in.fault(at, "write it down when you have seen it", "%s %s has not come yet", d.key, d.day)
		return true
	case ahead > farAhead:
		in.fault(at, "check the year", "%s %s is more than a year ahead", d.key, d.day)
		return true
	case -ahead > longAgo && s.planting.Finished.IsZero():
		in.warn(at, "check the year, or add finished", "%s %s is more than a year ago and the planting is not finished", d.key, d.day)
	}
	return false
}

// checkBuds wants the count and its evening together.
func (in *reader) checkBuds(s scope) {
	count, counted := in.given[s.path+"buds"]
	day, dated := in.given[s.path+"buds_on"]
	switch {
	case counted && !dated:
		in.fault(count, "add buds_on with the day of the count: it holds for the next morning only", "buds without buds_on")
	case dated && !counted:
		in.fault(day, "add buds with the number you counted", "buds_on without buds")
	}
}
