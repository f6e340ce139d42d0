package jsonout

import (
	"io"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/risk"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/growth"
	"dawnbrush/risk/memory"
)

// firstJSON is a first flower by the book and by the garden.
type firstJSON struct {
	Sex    string    `json:"sex"`
	Warmth *normJSON `json:"degree_days_c"`
	Days   *normJSON `json:"days"`
}

// normJSON is one number of the book and what the garden makes of it; bounds hold
// nine of ten.
type normJSON struct {
	BookLow    *float64 `json:"book_low"`
	BookHigh   *float64 `json:"book_high"`
	GardenLow  *float64 `json:"garden_low"`
	GardenMid  *float64 `json:"garden_middle"`
	GardenHigh *float64 `json:"garden_high"`
	N          int      `json:"n"`
	Own        int      `json:"n_own_cultivar"`
}

func bounds(r crop.Range, told bool) (low, high *float64) {
	if !told {
		return nil, nil
	}
	l, h := round(r.Low), round(r.High)
	return &l, &h
}

func norm(n *growth.Norm) *normJSON {
	out := &normJSON{N: n.N, Own: n.Own}
	out.BookLow, out.BookHigh = bounds(n.Book, n.Book != crop.Range{})
	out.GardenLow, out.GardenHigh = bounds(n.Garden, n.Learned())
	if n.Learned() {
		mid := round(n.Mid)
		out.GardenMid = &mid
	}
	return out
}

func first(sex growth.Sex, n *growth.Norms) firstJSON {
	return firstJSON{sex.String(), norm(&n.Sum), norm(&n.Days)}
}

func firsts(list []risk.FirstTaught) []firstJSON {
	out := []firstJSON{}
	for i := range list {
		out = append(out, first(list[i].Sex, &list[i].Norms))
	}
	return out
}

// plantingFirstJSON is a first flower of a planting, for the workings.
type plantingFirstJSON struct {
	Planting string `json:"planting"`
	firstJSON
	Seen   *string `json:"seen"`
	Unused int     `json:"not_used"`
}

func (m *maker) firsts(p *risk.Planting) (out []plantingFirstJSON) {
	for _, f := range m.d.Assessment.FirstFlowersOf(p) {
		out = append(out, plantingFirstJSON{p.Name, first(f.Sex, &f.Norms), date(f.Seen), f.Unused})
	}
	return out
}

type learnedJSON struct {
	envelope
	Bees  beesTaughtJSON `json:"bees"`
	Hand  *setJSON       `json:"set_by_hand"`
	Kinds []kindJSON     `json:"kinds"`
}

type beesTaughtJSON struct {
	Counts   int     `json:"counts"`
	Unused   int     `json:"not_used"`
	Visits   float64 `json:"visits"`
	Expected float64 `json:"visits_expected"`
	Latest   *string `json:"latest"`
}

// setJSON is a share of flowers that set, as believed after the counts.
type setJSON struct {
	Flowers float64 `json:"flowers"`
	Mean    float64 `json:"mean"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
}

func setOf(b memory.Beta, of float64) *setJSON {
	if of <= 0 {
		return nil
	}
	return &setJSON{round(of), round(b.Mean()), round(b.Quantile(0.05)), round(b.Quantile(0.95))}
}

type kindJSON struct {
	Crop      string         `json:"crop"`
	Species   *string        `json:"species"`
	Firsts    []firstJSON    `json:"first_flowers"`
	Seen      []sightingJSON `json:"seen"`
	Brush     *brushJSON     `json:"brush_against_bees"`
	Cultivars []cultivarJSON `json:"cultivars"`
	Verdicts  []verdictJSON  `json:"compared"`
}

// brushJSON holds the brush against bees on days on which both were counted.
type brushJSON struct {
	Days   int      `json:"days_both_counted"`
	Chance float64  `json:"chance"`
	Told   bool     `json:"told"`
	Hand   *setJSON `json:"set_by_hand"`
	Bees   *setJSON `json:"set_by_bees"`
}

func brush(k *risk.Kind) *brushJSON {
	chance, ok := k.BrushBeats()
	if !ok {
		return nil
	}
	s := &k.Sets
	flowers := func(b memory.Beta) float64 { return b.A + b.B - 2 } // the prior is flat
	return &brushJSON{s.Days, round(chance), k.BrushTold(), setOf(s.PairHand, flowers(s.PairHand)), setOf(s.PairBees, flowers(s.PairBees))}
}

type sightingJSON struct {
	Planting string   `json:"planting"`
	Cultivar *string  `json:"cultivar"`
	Sex      string   `json:"sex"`
	Date     *string  `json:"date"`
	Days     *float64 `json:"days"`
	Warmth   *float64 `json:"degree_days_c"`
	Used     bool     `json:"used"`
	Text     string   `json:"text"`
}

type cultivarJSON struct {
	Name   string      `json:"name"`
	Firsts []firstJSON `json:"first_flowers"`
	Bees   *setJSON    `json:"set_by_bees"`
	Hand   *setJSON    `json:"set_by_hand"`
}

type verdictJSON struct {
	Topic  string   `json:"topic"`
	Better string   `json:"better"`
	Other  string   `json:"other"`
	Chance float64  `json:"chance"`
	Told   bool     `json:"told"`
	Warmth *float64 `json:"degree_days_c"`
	Days   *float64 `json:"days"`
	N      [2]int   `json:"n"`
	Paired int      `json:"days_both_counted"`
	Text   string   `json:"text"`
}

// Learned writes what the diary teaches.
func Learned(w io.Writer, d *document.Document) error {
	m := newMaker(d)
	taught := d.Taught
	if taught == nil {
		taught = &risk.Taught{}
	}
	l := &taught.Learned
	out := learnedJSON{envelope: envelope{Schema, "memory learned"}, Kinds: []kindJSON{}, Hand: setOf(l.Hand, l.HandOf),
		Bees: beesTaughtJSON{l.Counts, l.Unused, round(l.Visits), round(l.Expected), date(l.Latest)}}
	for i := range taught.Kinds {
		out.Kinds = append(out.Kinds, m.kind(&taught.Kinds[i]))
	}
	return write(w, out)
}

func (m *maker) kind(k *risk.Kind) kindJSON {
	out := kindJSON{Crop: k.Crop.Key, Species: orNull(k.Species), Firsts: firsts(k.Firsts), Seen: []sightingJSON{}, Brush: brush(k), Cultivars: []cultivarJSON{}, Verdicts: []verdictJSON{}}
	for i := range k.Seen {
		s := &k.Seen[i]
		one := sightingJSON{Planting: s.Planting, Cultivar: orNull(s.Cultivar), Sex: s.Sex.String(), Date: date(s.Seen), Warmth: number(s.Sum),
			Used: s.Fault.Teaches(), Text: m.words.Sighting(k.Crop, s)}
		if one.Used {
			one.Days = &s.Days
		}
		out.Seen = append(out.Seen, one)
	}
	for i := range k.Cultivars {
		c := &k.Cultivars[i]
		out.Cultivars = append(out.Cultivars, cultivarJSON{c.Name, firsts(c.Firsts), setOf(c.Bees, c.BeesOf), setOf(c.Hand, c.HandOf)})
	}
	for i := range k.Verdicts {
		v := &k.Verdicts[i]
		out.Verdicts = append(out.Verdicts, verdictJSON{v.Topic.String(), v.Better, v.Other, round(v.Chance), v.Told(), unlessZero(v.Sum), unlessZero(v.Days),
			v.N, v.Paired, m.words.Verdict(k.Crop, v)})
	}
	return out
}

func orNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

func unlessZero(x float64) *float64 {
	if x == 0 {
		return nil
	}
	x = round(x)
	return &x
}
