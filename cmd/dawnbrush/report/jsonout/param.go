package jsonout

import (
	"dawnbrush/risk/published"
	"dawnbrush/risk/source"
)

// paramJSON is a number, range, curve or fact with its origin. Which of value,
// low and high, curve and text hold it follows from kind.
type paramJSON struct {
	Name   string       `json:"name"`
	Kind   string       `json:"kind"`
	Value  *float64     `json:"value"`
	Low    *float64     `json:"low"`
	High   *float64     `json:"high"`
	Curve  [][2]float64 `json:"curve"`
	X      *string      `json:"curve_x_unit"`
	Text   *string      `json:"text"`
	Unit   *string      `json:"unit"`
	Source string       `json:"source"`
	Where  *string      `json:"where"`
	Status string       `json:"status"`
	Note   *string      `json:"note"`
	Row    *string      `json:"row"`
	Others []otherJSON  `json:"others"`
}

// otherJSON is evidence that was found and not taken.
type otherJSON struct {
	Value  *float64 `json:"value"`
	Low    *float64 `json:"low"`
	High   *float64 `json:"high"`
	Text   *string  `json:"text"`
	Unit   *string  `json:"unit"`
	Source string   `json:"source"`
	Where  *string  `json:"where"`
	Status string   `json:"status"`
	Row    *string  `json:"row"`
}

var kindNames = map[source.Kind]string{source.Number: "number", source.Span: "range", source.Points: "curve", source.Words: "fact"}

// param gives a number of a crop, of the model where key is empty, with the names of
// its rows in the table of published results.
func param(key string, p *source.Param) paramJSON {
	out := paramJSON{Name: p.Name, Kind: kindNames[p.Kind], Curve: p.Curve, X: some(p.X), Text: some(p.Text), Unit: some(p.Unit), Source: p.Key,
		Where: some(p.Where), Status: p.Status.String(), Note: some(p.Note), Row: some(published.RowName(key, p.Row)), Others: []otherJSON{}}
	if p.Kind == source.Number {
		out.Value = &p.Value
	}
	out.Low, out.High = ends(p.Range)
	for i := range p.Others {
		o := &p.Others[i]
		other := otherJSON{Value: o.Value, Text: some(o.Text), Unit: some(o.Unit), Source: o.Key, Where: some(o.Where), Status: o.Status.String(), Row: some(published.RowName(key, o.Row))}
		other.Low, other.High = ends(o.Range)
		out.Others = append(out.Others, other)
	}
	return out
}

func ends(r *source.Interval) (low, high *float64) {
	if r == nil {
		return nil, nil
	}
	return &r.Low, &r.High
}

// some gives nil for an empty text.
func some(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}
