package jsonout

import (
	"fmt"
	"io"
	"math"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/risk/published"
)

type publishedJSON struct {
	envelope
	Score    scoreJSON         `json:"score"`
	Subjects []subjectJSON     `json:"subjects"`
	Rows     []rowJSON         `json:"rows"`
	LeftOut  []leftOutJSON     `json:"left_out"`
	Sources  map[string]string `json:"sources"`
}

type scoreJSON struct {
	Hits int `json:"hits"`
	Rows int `json:"rows_held"`
}

type subjectJSON struct {
	Subject     string    `json:"subject"`
	Unforced    scoreJSON `json:"unforced"`
	Fitted      scoreJSON `json:"fitted"`
	Constructed scoreJSON `json:"by_construction"`
	Numbers     int       `json:"numbers"`
	Published   int       `json:"numbers_published"`
	Derived     int       `json:"numbers_derived"`
	Free        int       `json:"numbers_free"`
	Drawn       int       `json:"numbers_drawn"`
}

type rowJSON struct {
	ID       string       `json:"row"`
	Subject  string       `json:"subject"`
	Setting  *string      `json:"setting"`
	Says     string       `json:"published"`
	Low      *float64     `json:"low"`
	High     *float64     `json:"high"`
	Unit     *string      `json:"unit"`
	Rule     *string      `json:"rule"`
	RuleLow  *float64     `json:"rule_low"`
	RuleHigh *float64     `json:"rule_high"`
	Model    *float64     `json:"model"`
	Verdict  string       `json:"verdict"`
	Standing *string      `json:"standing"`
	Must     bool         `json:"must"`
	Reason   *string      `json:"reason"`
	Source   string       `json:"source"`
	Where    string       `json:"where"`
	Status   string       `json:"status"`
	Held     []holderJSON `json:"held_by"`
}

type holderJSON struct {
	Crop  string `json:"crop"`
	Param string `json:"param"`
	Taken bool   `json:"names_it"`
	Drawn bool   `json:"drawn_to_it"`
}

type leftOutJSON struct {
	Name    string       `json:"drawing"`
	Crops   []string     `json:"crops"`
	Params  []string     `json:"drawn_params"`
	Way     string       `json:"way"`
	Row     string       `json:"row"`
	Value   string       `json:"value_text"`
	Redrawn *string      `json:"redrawn_text"`
	Changes []changeJSON `json:"changes"`
	Note    *string      `json:"note"`
}

type changeJSON struct {
	Row string `json:"row"`
	To  string `json:"verdict"`
}

// Published writes the published results in focus, or all of them. The score and the
// counts of a subject are of the whole table.
func Published(w io.Writer, d *document.Document) error {
	if d.Published == nil {
		return fmt.Errorf("there is no table of published results")
	}
	m, t := newMaker(d), d.Published
	out := publishedJSON{envelope: envelope{Schema, "published"}, Score: score(t.Count(func(*published.Row) bool { return true })),
		Subjects: []subjectJSON{}, Rows: []rowJSON{}, LeftOut: []leftOutJSON{}}
	for _, f := range t.Freedoms(d.Crops, d.Constants) {
		out.Subjects = append(out.Subjects, subjectJSON{f.Subject, score(f.Unforced), score(f.Fitted), score(f.Constructed),
			f.Numbers, f.Published, f.Derived, f.Free, f.Drawn})
	}
	for _, r := range t.Rows() {
		if d.Focus.Keeps(&r) {
			m.cite(r.Source)
			out.Rows = append(out.Rows, m.row(&r))
		}
	}
	for _, f := range t.Fits() {
		if row, _ := t.Row(f.Row); d.Focus.Keeps(&row) {
			out.LeftOut = append(out.LeftOut, leftOut(&f))
		}
	}
	out.Sources = m.sources()
	return write(w, out)
}

func score(s published.Score) scoreJSON { return scoreJSON{s.Hits, s.Rows} }

func (m *maker) row(r *published.Row) rowJSON {
	out := rowJSON{ID: r.ID, Subject: r.Subject, Setting: some(r.Setting), Says: r.Says, Low: r.Low, High: r.High, Unit: some(r.Unit), Rule: some(r.Rule),
		Verdict: string(r.Verdict), Standing: some(string(r.Standing)), Must: r.Must, Reason: some(r.Reason),
		Source: r.Source, Where: r.Where, Status: r.Status.String(), Held: []holderJSON{}}
	out.RuleLow, out.RuleHigh, out.Model = finite(r.RuleLow), finite(r.RuleHigh), finite(r.Model)
	for _, h := range m.d.Published.Holders(m.d.Crops, r.ID) {
		out.Held = append(out.Held, holderJSON(h))
	}
	return out
}

// finite turns an open end and the absent number into null.
func finite(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

func leftOut(f *published.Fit) leftOutJSON {
	out := leftOutJSON{Name: f.Name, Crops: f.Crops, Params: f.Params, Way: f.Way, Row: f.Row, Value: f.Value, Redrawn: some(f.Redrawn),
		Changes: []changeJSON{}, Note: some(f.Note)}
	for _, c := range f.Changes {
		out.Changes = append(out.Changes, changeJSON{c.Row, string(c.To)})
	}
	return out
}
