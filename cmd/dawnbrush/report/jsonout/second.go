package jsonout

import (
	"time"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/cmd/dawnbrush/report/words"
)

// secondJSON is another forecast and where it parts from the plan's.
type secondJSON struct {
	Forecast    forecastJSON     `json:"forecast"`
	Differences []differenceJSON `json:"differences"`
	Partings    []partingJSON    `json:"plantings"`
}

type differenceJSON struct {
	From  time.Time `json:"from"`
	Until time.Time `json:"until"`
	Layer string    `json:"layer"`
	Here  float64   `json:"here"`
	There float64   `json:"there"`
}

type partingJSON struct {
	Date     string   `json:"date"`
	Planting string   `json:"planting"`
	Here     []string `json:"here"`
	There    []string `json:"there"`
}

// layerNames are the quantities that forecasts are compared in, with their units.
var layerNames = map[string]string{"Temp": "temperature_c", "RainProb": "rain_chance", "Rain": "rain_mm", "Wind": "wind_10m_ms", "Sky": "cloud_share"}

// second gives the other forecast; nil when none was asked for. Here and there are
// all's: both forecasts tell of today and tomorrow whatever is shown.
func (m *maker) second(all *document.Document) *secondJSON {
	s := all.Second
	if s == nil {
		return nil
	}
	out := &secondJSON{Forecast: m.provenance(s.Forecast), Differences: []differenceJSON{}, Partings: []partingJSON{}}
	for _, d := range s.Differences {
		out.Differences = append(out.Differences, differenceJSON{d.Start.In(m.zone), d.End.In(m.zone), layerNames[d.Layer], d.A, d.B})
	}
	say := words.New(all.Units, all.Zone())
	for _, p := range all.Partings(say.Cell, words.Verb) {
		out.Partings = append(out.Partings, partingJSON{p.Date.String(), p.Planting.Name, p.Here, p.There})
	}
	return out
}
