package app

import (
	"math"
	"strings"

	"dawnbrush/cmd/dawnbrush/report/jsonout"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/cmd/dawnbrush/store"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
)

const learnedHelp = `What the garden's diary teaches the model: how many bees there are, how well the
brush sets, how much warmth plantings took from sowing to their first flower, and in
what cultivars of a crop differ. Plans and workings use all but the last at once.

Warmth needs the temperatures from sowing on: those of your plans and stations, or
dawnbrush observe --since. A difference is told when it is sure to nine in ten.`

// learned is what the diary teaches, with what it was learned from.
type learned struct {
	garden    *risk.Garden // as the diary tells it
	lessons   risk.Learned
	view      risk.SupplyView // of the first planting that bees pollinate
	cultivars []risk.CultivarView
}

// lessons works out what the memory teaches.
func (p *program) lessons(g *risk.Garden, s *store.Store) (*learned, error) {
	now, err := p.now(g.Place.Zone)
	if err != nil {
		return nil, err
	}
	from, today := lookFrom(g, now), forecast.DateOf(now, g.Place.Zone)
	entries, err := s.Entries(p.ctx, store.Filter{From: forecast.DateOf(from, g.Place.Zone), To: today})
	if err != nil {
		return nil, err
	}
	past, _, err := s.Past(p.ctx, from, now, nil)
	if err != nil {
		return nil, err
	}
	out := &learned{garden: risk.Remember(g, entries, today)}
	out.lessons = risk.Learn(out.garden, past, entries, now)
	out.cultivars = out.lessons.Cultivars(out.garden, entries)
	a := risk.NewModelWith(out.garden, out.lessons).Assess(past, today, 0)
	for i := range out.garden.Plantings {
		if pl := &out.garden.Plantings[i]; pl.Crop.Pollination == crop.Insect {
			out.view = a.SupplyOf(pl)
			break
		}
	}
	return out, nil
}

// tellLessons prints what the memory teaches.
func (p *program) tellLessons(g *risk.Garden, s *store.Store) error {
	l, err := p.lessons(g, s)
	if err != nil {
		return err
	}
	if p.options.json {
		return p.lessonsJSON(l)
	}
	units, err := p.units(g)
	if err != nil {
		return err
	}
	w := words.New(units, g.Place.Zone)
	var b strings.Builder
	line := func(lead, text string) {
		b.WriteString(lead + strings.Join(wrapAt(text, 78-len(lead)), "\n"+strings.Repeat(" ", len(lead)+2)) + "\n")
	}
	line("bees   ", w.LearnedBees(&l.lessons, l.view))
	line("brush  ", w.LearnedHand(&l.lessons, risk.HandBook()))
	b.WriteString("\nfirst flowers\n")
	for i := range l.lessons.First {
		line("  ", w.FirstFlower(&l.lessons.First[i]))
	}
	if len(l.lessons.First) == 0 {
		line("  ", "none seen yet: `dawnbrush note first female PLANTING`")
	}
	if len(l.cultivars) > 0 {
		b.WriteString("\ncultivars\n")
	}
	for i := range l.cultivars {
		v := &l.cultivars[i]
		line("  ", w.CultivarName(v)+": "+w.Cultivar(v))
		if v.Female.Known() {
			line("    ", w.Sum(v.Female))
		}
		for j := range l.cultivars[:i] {
			if o := &l.cultivars[j]; o.Crop == v.Crop && o.Species == v.Species {
				line("    ", w.Versus(o, v))
			}
		}
	}
	_, err = p.out.Write([]byte(b.String()))
	return err
}

// firstFlowerJSON is a first flower for programs.
type firstFlowerJSON struct {
	Planting string        `json:"planting"`
	Sex      string        `json:"sex"`
	Date     forecast.Date `json:"date"`
	Days     *int          `json:"days_from_sowing"`
	Sum      *float64      `json:"degree_days_c"`
	Why      string        `json:"unused_because,omitempty"`
}

// cultivarJSON is a cultivar for programs.
type cultivarJSON struct {
	Crop     string      `json:"crop"`
	Species  string      `json:"species,omitempty"`
	Cultivar string      `json:"cultivar"`
	Seen     int         `json:"first_female_flowers"`
	Own      *float64    `json:"own_degree_days_c"`
	Next     *[3]float64 `json:"next_degree_days_c"` // one in ten under, middle, one in ten over
	BeesOf   float64     `json:"bees_counted"`
	Bees     *[3]float64 `json:"bees_set"`
	HandOf   float64     `json:"hand_counted"`
	Hand     *[3]float64 `json:"hand_set"`
}

func (p *program) lessonsJSON(l *learned) error {
	first, cultivars := []firstFlowerJSON{}, []cultivarJSON{}
	for i := range l.lessons.First {
		f := &l.lessons.First[i]
		x := firstFlowerJSON{Planting: f.Planting.Name, Sex: "male", Date: f.Seen, Why: f.Why}
		if f.Female {
			x.Sex = "female"
		}
		if f.Sum > 0 {
			days := f.Seen.DaysSince(f.Planting.Sown)
			x.Days, x.Sum = &days, &f.Sum
		}
		first = append(first, x)
	}
	for i := range l.cultivars {
		v := &l.cultivars[i]
		x := cultivarJSON{Crop: v.Crop.Key, Species: v.Species, Cultivar: v.Cultivar, Seen: v.Seen, BeesOf: v.Shares.BeesOf, HandOf: v.Shares.HandOf}
		if v.Sum.Known() {
			own := math.Exp(v.Sum.Mean)
			x.Own = &own
		}
		if v.Female.Known() {
			x.Next = &[3]float64{v.Female.Low, v.Female.Middle, v.Female.High}
		}
		if b := v.Shares.Bees; x.BeesOf > 0 {
			x.Bees = &[3]float64{b.Quantile(0.05), b.Mean(), b.Quantile(0.95)}
		}
		if b := v.Shares.Hand; x.HandOf > 0 {
			x.Hand = &[3]float64{b.Quantile(0.05), b.Mean(), b.Quantile(0.95)}
		}
		cultivars = append(cultivars, x)
	}
	return p.writeJSON(map[string]any{"schema": jsonout.Schema, "report": "memory learned", "bee_counts": l.lessons.Counts, "bee_counts_unused": l.lessons.Unused,
		"visits_counted": l.lessons.Visits, "visits_expected": l.lessons.Expected, "hand_counted": l.lessons.HandOf, "first_flowers": first, "cultivars": cultivars})
}
