package jsonout

import (
	"fmt"
	"io"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/risk/crop"
	"dawnbrush/risk/source"
)

type workingsJSON struct {
	envelope
	Garden   gardenJSON             `json:"garden"`
	Forecast forecastJSON           `json:"forecast"`
	Date     string                 `json:"date"`
	Weather  weatherJSON            `json:"weather"`
	Hours    []hourJSON             `json:"hours"`
	Blocks   []blockJSON            `json:"rain_blocks"`
	Flags    []flagJSON             `json:"flags"`
	Planting []plantingJSON         `json:"plantings"`
	Firsts   []plantingFirstJSON    `json:"first_flowers"`
	Water    []bedJSON              `json:"water"`
	Params   map[string][]paramJSON `json:"params"`
	Sources  map[string]string      `json:"sources"`
}

type hourJSON struct {
	Start      any      `json:"start"`
	Temp       *float64 `json:"temp_c"`
	DewPoint   *float64 `json:"dew_point_c"`
	RH         *float64 `json:"humidity_percent"`
	Wind       *float64 `json:"wind_10m_ms"`
	WindFrom   *float64 `json:"wind_from_deg"`
	Sky        *float64 `json:"cloud_share"`
	Radiation  *float64 `json:"radiation_w_m2"`
	Rain       *float64 `json:"rain_mm"`
	RainChance *float64 `json:"rain_chance"`
	Thunder    *float64 `json:"thunder_chance"`
	Origin     string   `json:"origin"`
}

type blockJSON struct {
	From   any      `json:"from"`
	To     any      `json:"to"`
	Amount *float64 `json:"rain_mm"`
	Chance *float64 `json:"rain_chance"`
}

// Workings writes the day and plantings in focus, hour by hour.
func Workings(w io.Writer, d *document.Document) error {
	day, ok := d.Assessment.Day(d.Focus.Date)
	if !ok {
		return fmt.Errorf("there is no weather for %s", d.Focus.Date)
	}
	m := newMaker(d)
	g := d.Garden
	out := workingsJSON{envelope: envelope{Schema, "workings"}, Garden: gardenJSON{g.Name, g.Place.Lat, g.Place.Lon, m.zone.String()},
		Forecast: m.forecast(), Date: day.Date.String(), Weather: m.weather(&day.Weather), Hours: []hourJSON{}, Blocks: []blockJSON{},
		Flags: m.flags(day.Flags, nil), Planting: []plantingJSON{}, Firsts: []plantingFirstJSON{}, Water: m.bedsOn(day.Date), Params: map[string][]paramJSON{"model": m.params("", d.Constants)}}
	s := d.Assessment.Series
	lo, hi := s.Day(day.Date, m.zone)
	for i := lo; i < hi; i++ {
		h := &s.Hours[i]
		out.Hours = append(out.Hours, hourJSON{m.at(h.Start), number(h.Temp), number(h.DewPoint), number(h.RH), number(h.Wind), number(h.WindFrom), number(h.Sky),
			number(h.Radiation), number(h.Rain), number(h.RainProb), number(h.Thunder), h.Origin.String()})
	}
	from, to := day.Date.Span(m.zone)
	for _, b := range s.Blocks {
		if b.Start.Before(to) && b.End.After(from) {
			out.Blocks = append(out.Blocks, blockJSON{m.at(b.Start), m.at(b.End), number(b.Amount), number(b.Prob)})
		}
	}
	for i := range day.Plantings {
		p := &day.Plantings[i]
		if d.Focus.Matches(p.Planting) {
			one := m.planting(p)
			one.Inside = m.inside(p, true, day)
			out.Planting = append(out.Planting, one)
			out.Firsts = append(out.Firsts, m.firsts(p.Planting)...)
			out.Params[p.Planting.Crop.Key] = m.params(p.Planting.Crop.Key, p.Planting.Crop.Params)
		}
	}
	out.Sources = m.sources()
	return write(w, out)
}

// params names the sources of the parameters and gives them on.
func (m *maker) params(key string, list []source.Param) []paramJSON {
	out := []paramJSON{}
	for i := range list {
		m.cite(list[i].Key)
		for _, o := range list[i].Others {
			m.cite(o.Key)
		}
		out = append(out, param(key, &list[i]))
	}
	return out
}

type sourcesJSON struct {
	envelope
	Params  map[string][]paramJSON `json:"params"`
	Sources map[string]string      `json:"sources"`
}

// Sources writes the evidence in focus, or all of it.
func Sources(w io.Writer, d *document.Document) error {
	m := newMaker(d)
	out := sourcesJSON{envelope{Schema, "sources"}, map[string][]paramJSON{}, nil}
	all := d.Focus.Crop == "" && !d.Focus.Model && !d.Focus.Tables
	keep := func(key string, list []source.Param) []paramJSON {
		if d.Focus.Key == "" {
			return m.params(key, list)
		}
		m.cite(d.Focus.Key)
		return resting(key, list, d.Focus.Key)
	}
	if all || d.Focus.Model {
		out.Params["model"] = keep("", d.Constants)
	}
	if all || d.Focus.Tables {
		out.Params["tables"] = keep("", d.Tables)
	}
	for _, c := range d.Crops.Crops() {
		if all || isCrop(d.Crops, d.Focus.Crop, c) {
			out.Params[c.Key] = keep(c.Key, c.Params)
		}
	}
	out.Sources = m.sources()
	if all && d.Focus.Key == "" {
		for _, k := range d.Crops.Bibliography().Keys() {
			out.Sources[k] = d.Citation(k)
		}
	}
	return write(w, out)
}

func isCrop(set *crop.Set, word string, c *crop.Crop) bool {
	found, ok := set.Find(word)
	return ok && found == c
}

// resting gives the parameters of a crop that take or mention a source.
func resting(crop string, list []source.Param, key string) []paramJSON {
	out := []paramJSON{}
	for i := range list {
		mentioned := list[i].Key == key
		for _, o := range list[i].Others {
			mentioned = mentioned || o.Key == key
		}
		if mentioned {
			out = append(out, param(crop, &list[i]))
		}
	}
	return out
}
