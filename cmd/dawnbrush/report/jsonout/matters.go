package jsonout

import (
	"io"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/risk"
)

type mattersJSON struct {
	envelope
	Garden   gardenJSON        `json:"garden"`
	Forecast forecastJSON      `json:"forecast"`
	Date     string            `json:"date"`
	Matters  []matterJSON      `json:"what_matters"`
	Sources  map[string]string `json:"sources"`
}

type matterJSON struct {
	Planting string         `json:"planting"`
	Crop     string         `json:"crop"`
	State    string         `json:"state"`
	Bloom    string         `json:"bloom"`
	Judged   bool           `json:"judged"`
	Now      *outcomeJSON   `json:"as_planned"`
	Inputs   []movementJSON `json:"inputs"`
}

type outcomeJSON struct {
	Set   *float64 `json:"set"`
	Fill  *float64 `json:"fill"`
	Brush *float64 `json:"fill_with_brush"`
	Ears  bool     `json:"of_kernels"`
	Task  *string  `json:"task"`
}

type movementJSON struct {
	Input  string       `json:"input"`
	Handle string       `json:"one_can"`
	Doubt  paramJSON    `json:"doubt"`
	From   *outcomeJSON `json:"at_low"`
	To     *outcomeJSON `json:"at_high"`
	Moves  float64      `json:"moves"`
	Flips  bool         `json:"task_changes"`
	Text   string       `json:"text"`
	Narrow *string      `json:"to_narrow"`
}

// Matters writes what moves the verdict most, for the plantings and the day in focus.
func Matters(w io.Writer, d *document.Document) error {
	m := newMaker(d)
	g := d.Garden
	out := mattersJSON{envelope: envelope{Schema, "what-matters"}, Garden: gardenJSON{g.Name, g.Place.Lat, g.Place.Lon, m.zone.String()},
		Forecast: m.forecast(), Date: d.Focus.Date.String(), Matters: []matterJSON{}}
	for i := range d.Matters {
		out.Matters = append(out.Matters, m.matter(&d.Matters[i]))
	}
	out.Sources = m.sources()
	return write(w, out)
}

func (m *maker) matter(x *risk.Matters) matterJSON {
	out := matterJSON{x.Planting.Name, x.Planting.Crop.Key, x.State.String(), x.Bloom.String(), x.Judged, nil, []movementJSON{}}
	if !x.Judged {
		return out
	}
	out.Now = outcome(&x.Now)
	for i := range x.Inputs {
		in := &x.Inputs[i]
		m.cite(in.Doubt.Key)
		for _, o := range in.Doubt.Others {
			m.cite(o.Key)
		}
		out.Inputs = append(out.Inputs, movementJSON{in.Input, in.Handle.String(), param(x.Planting.Crop.Key, &in.Doubt), outcome(&in.From), outcome(&in.To),
			round(in.Moves), in.Flips, m.words.Input(in) + ", " + m.words.Doubt(in), some(m.words.Narrow(in, x))})
	}
	return out
}

func outcome(o *risk.Outcome) *outcomeJSON {
	out := outcomeJSON{Ears: o.Ears}
	if o.Known {
		set, fill, brush := round(o.Set), round(o.Bees), round(o.Brush)
		out.Set, out.Fill, out.Brush = &set, &fill, &brush
	}
	if o.Tasked {
		s := o.Task.String()
		out.Task = &s
	}
	return &out
}
