// Package jsonout writes the reports for programs. The fields are a promise:
// they are documented in docs/json.md, a test spells them out, and they are only
// ever added. Units stand in the names; times are RFC 3339 with the garden's
// offset; what is not known is null.
package jsonout

import (
	"encoding/json"
	"io"
	"math"
	"slices"
	"time"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/air"
	"dawnbrush/risk/bee"
)

// Schema is the version of the fields. It grows only when a field changes its
// meaning, which is announced a release before.
const Schema = 1

// envelope is what every report begins with.
type envelope struct {
	Schema int    `json:"schema"`
	Report string `json:"report"`
}

// write prints one object on lines of its own.
func write(w io.Writer, v any) error {
	text, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return err
	}
	_, err = w.Write(append(text, '\n'))
	return err
}

// maker turns the model's results into wire values for one document.
type maker struct {
	d     *document.Document
	zone  *time.Location
	words words.Words
	keys  []string // sources named so far
}

func newMaker(d *document.Document) *maker {
	return &maker{d: d, zone: d.Zone(), words: words.New(d.Units, d.Zone())}
}

// at gives a time with the garden's offset, nil for none.
func (m *maker) at(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	t = t.In(m.zone).Truncate(time.Second)
	return &t
}

// number rounds to what the model can answer for, and turns the unknown into nil.
func number(v forecast.Value) *float64 {
	x, ok := v.Get()
	if !ok {
		return nil
	}
	x = round(x)
	return &x
}

// round keeps three decimals: finer digits would be noise.
func round(x float64) float64 { return math.Round(x*1000) / 1000 }

func date(d forecast.Date) *string {
	if d.IsZero() {
		return nil
	}
	s := d.String()
	return &s
}

type rangeJSON struct {
	P10 float64 `json:"p10"`
	P50 float64 `json:"p50"`
	P90 float64 `json:"p90"`
}

// rangeOf gives a range, or null where the state leaves nothing known.
func rangeOf(r risk.Range, s risk.State) *rangeJSON {
	if !s.Known() {
		return nil
	}
	return &rangeJSON{round(r.Lo), round(r.Mid), round(r.Hi)}
}

func groups(v [bee.Groups]float64) map[string]float64 {
	out := map[string]float64{}
	for g := range bee.Groups {
		out[bee.Group(g).Key()] = round(v[g])
	}
	return out
}

// layers names unknown layers; an empty list for none.
func layers(l air.Layers) []string {
	out := []string{}
	for _, n := range [...]struct {
		layer air.Layers
		name  string
	}{{air.Temp, "temperature"}, {air.Humidity, "humidity"}, {air.Wind, "wind"}, {air.Light, "light"}, {air.Rain, "rain"}} {
		if l.Has(n.layer) {
			out = append(out, n.name)
		}
	}
	return out
}

// cite notes a source as named.
func (m *maker) cite(key string) *string {
	if key == "" {
		return nil
	}
	if !slices.Contains(m.keys, key) {
		m.keys = append(m.keys, key)
	}
	return &key
}

// sources gives the citations of all sources named.
func (m *maker) sources() map[string]string {
	out := map[string]string{}
	for _, k := range m.keys {
		out[k] = m.d.Citation(k)
	}
	return out
}
