package jsonout

import (
	"io"
	"time"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/risk"
	"dawnbrush/risk/bee"
)

type planJSON struct {
	envelope
	Garden   gardenJSON        `json:"garden"`
	Made     *time.Time        `json:"made"`
	Demo     bool              `json:"demo"`
	Forecast forecastJSON      `json:"forecast"`
	Complete bool              `json:"complete"`
	Gaps     []gapJSON         `json:"gaps"`
	Notes    []string          `json:"notes"`
	Second   *secondJSON       `json:"second_forecast"`
	Credits  []string          `json:"credits"`
	Days     []dayJSON         `json:"days"`
	Sources  map[string]string `json:"sources"`
}

type gardenJSON struct {
	Name      string  `json:"name"`
	Latitude  float64 `json:"latitude_deg"`
	Longitude float64 `json:"longitude_deg"`
	Zone      string  `json:"zone"`
}

type forecastJSON struct {
	Feed        string     `json:"feed"`
	Source      string     `json:"source"`
	Attribution string     `json:"attribution"`
	Issued      *time.Time `json:"issued"`
	Fetched     *time.Time `json:"fetched"`
	AgeMinutes  *int       `json:"age_min"`
	Stale       bool       `json:"stale"`
	Why         *string    `json:"stale_why"`
	Instead     *string    `json:"instead_of"`
}

type gapJSON struct {
	Date      string   `json:"date"`
	Plantings []string `json:"plantings"`
	Beds      []string `json:"beds"`
	Layers    []string `json:"unknown_layers"`
}

type dayJSON struct {
	Date      string         `json:"date"`
	Sunrise   *time.Time     `json:"sunrise"`
	Sunset    *time.Time     `json:"sunset"`
	Forecast  bool           `json:"is_forecast"`
	Whole     bool           `json:"is_whole"`
	Weather   weatherJSON    `json:"weather"`
	Layers    []string       `json:"unknown_layers"`
	Flags     []flagJSON     `json:"flags"`
	Heat      *heatJSON      `json:"work_heat"`
	Tasks     []taskJSON     `json:"tasks"`
	Rest      []taskJSON     `json:"rest"`
	More      []taskJSON     `json:"more"`
	Plantings []plantingJSON `json:"plantings"`
	Water     []bedDayJSON   `json:"water"`
}

// heatJSON is how hot the hours of work feel.
type heatJSON struct {
	Index float64   `json:"index_c"`
	Band  string    `json:"band"`
	At    time.Time `json:"at"`
}

func (m *maker) heat(x *risk.WorkHeat) *heatJSON {
	index, ok := x.Index.Get()
	if !ok {
		return nil
	}
	return &heatJSON{round(index), x.Band.String(), *m.at(x.At)}
}

type weatherJSON struct {
	High         *float64           `json:"high_c"`
	HighAt       *time.Time         `json:"high_at"`
	Low          *float64           `json:"low_c"`
	NightLow     *float64           `json:"night_low_c"`
	Wind         *float64           `json:"morning_wind_10m_ms"`
	RainChance   *float64           `json:"rain_chance"`
	Rain         *float64           `json:"rain_mm"`
	RainFrom     *time.Time         `json:"rain_from"`
	Cloud        *float64           `json:"cloud_share"`
	Over105      bool               `json:"over_105f"`
	BeeHours     map[string]float64 `json:"bees_out_h"`
	MorningHours float64            `json:"sunrise_to_noon_h"`
	MissingTemp  int                `json:"hours_without_temperature"`
}

// Today writes the plan of the first day.
func Today(w io.Writer, d *document.Document) error {
	one := *d
	one.Plans = d.Plans[:min(1, len(d.Plans))]
	return plan(w, &one, d, "today")
}

// Week writes the plan of all days.
func Week(w io.Writer, d *document.Document) error { return plan(w, d, d, "week") }

// plan writes the days of shown; what is complete is judged by all.
func plan(w io.Writer, shown, all *document.Document, report string) error {
	m := newMaker(shown)
	out := planJSON{envelope: envelope{Schema, report}, Made: m.at(all.Now), Demo: all.Demo, Complete: all.Complete(),
		Gaps: gaps(all), Notes: append([]string{}, all.Notes...), Days: []dayJSON{}}
	if g := all.Garden; g != nil {
		out.Garden = gardenJSON{g.Name, g.Place.Lat, g.Place.Lon, m.zone.String()}
	}
	out.Forecast, out.Second, out.Credits = m.forecast(), m.second(all), append([]string{}, all.Credits()...)
	for i := range shown.Plans {
		out.Days = append(out.Days, m.day(&shown.Plans[i]))
	}
	out.Sources = m.sources()
	return write(w, out)
}

// gaps lists what today's and tomorrow's tasks need and is not known.
func gaps(d *document.Document) []gapJSON {
	out := []gapJSON{}
	for _, g := range d.Gaps() {
		out = append(out, gapJSON{g.Date.String(), append([]string{}, g.Plantings...), append([]string{}, g.Beds...), layers(g.Layers)})
	}
	return out
}

func (m *maker) forecast() forecastJSON { return m.provenance(m.d.Forecast) }

func (m *maker) provenance(f document.Provenance) forecastJSON {
	out := forecastJSON{Feed: f.Feed, Source: f.Source, Attribution: f.Attribution, Issued: m.at(f.Issued), Fetched: m.at(f.Fetched), Stale: f.Stale}
	if age, ok := f.Age(m.d.Now); ok {
		minutes := int(age.Minutes())
		out.AgeMinutes = &minutes
	}
	if f.Why != "" {
		out.Why = &f.Why
	}
	if f.Instead != "" {
		out.Instead = &f.Instead
	}
	return out
}

func (m *maker) day(p *risk.DayPlan) dayJSON {
	out := dayJSON{Date: p.Date.String(), Layers: []string{}, Flags: []flagJSON{}, Tasks: m.tasks(p.Tasks), Rest: m.tasks(p.Rest), More: m.tasks(p.More),
		Plantings: []plantingJSON{}, Heat: m.heat(&p.Heat), Water: m.beds(p.Date)}
	d := p.Day
	if d == nil {
		return out
	}
	out.Sunrise, out.Sunset, out.Forecast, out.Whole = m.at(d.Sunrise), m.at(d.Sunset), d.Forecast, d.Whole
	out.Weather, out.Layers, out.Flags = m.weather(&d.Weather), layers(d.Missing), m.flags(d.Flags, nil)
	for i := range d.Plantings {
		out.Plantings = append(out.Plantings, m.planting(&d.Plantings[i]))
	}
	return out
}

func (m *maker) weather(w *risk.Weather) weatherJSON {
	return weatherJSON{High: number(w.Max), HighAt: m.at(w.MaxAt), Low: number(w.Min), NightLow: number(w.NightMin), Wind: number(w.Wind),
		RainChance: number(w.RainProb), Rain: number(w.Rain), RainFrom: m.at(w.RainFrom), Cloud: number(w.Sky), Over105: w.Over105,
		BeeHours: groups(w.BeeHours), MorningHours: round(w.MorningHours), MissingTemp: w.MissingTempHrs}
}

type taskJSON struct {
	Kind          string     `json:"kind"`
	Planting      string     `json:"planting"`
	Crop          string     `json:"crop"`
	From          *time.Time `json:"from"`
	To            *time.Time `json:"to"`
	Causes        []string   `json:"causes"`
	Flowers       *int       `json:"flowers"`
	Fits          *int       `json:"flowers_in_time"`
	Counted       bool       `json:"flowers_counted"`
	Minutes       *int       `json:"work_min"`
	Bees          *rangeJSON `json:"fill_without"`
	Hand          *rangeJSON `json:"fill_with"`
	Gain          float64    `json:"gain"`
	Sure          string     `json:"sure"`
	Look          *lookJSON  `json:"look"`
	Also          []string   `json:"also"`
	Tagged        *string    `json:"tagged_date"`
	SecondBest    bool       `json:"second_best_hours"`
	RainChance    *float64   `json:"rain_chance"`
	StoreForHours *float64   `json:"store_h"`
	Text          string     `json:"text"`
}

type lookJSON struct {
	At      *time.Time `json:"at"`
	Minutes int        `json:"watch_min"`
	Flowers int        `json:"flowers"`
	Fewer   int        `json:"brush_if_fewer_visits"`
	Groups  []string   `json:"bees"`
}

func (m *maker) tasks(list []risk.Task) []taskJSON {
	out := []taskJSON{}
	for i := range list {
		out = append(out, m.task(&list[i]))
	}
	return out
}

func (m *maker) task(t *risk.Task) taskJSON {
	out := taskJSON{Kind: t.Kind.String(), From: m.at(t.From), To: m.at(t.To), Causes: []string{}, Also: []string{}, Flowers: positive(t.Flowers), Fits: positive(t.Fits), Counted: t.Counted,
		Minutes: positive(t.Minutes), Bees: rangeOf(t.Bees, stateOf(t)), Hand: rangeOf(t.Hand, stateOf(t)), Gain: round(t.Gain), Sure: t.Sure.String(), Tagged: date(t.Tagged),
		SecondBest: t.Second, RainChance: number(t.Rain), Text: m.words.Line(t)}
	if t.Planting != nil {
		out.Planting = t.Planting.Name
		if t.Planting.Crop != nil {
			out.Crop = t.Planting.Crop.Key
		}
	}
	for _, p := range t.Also {
		out.Also = append(out.Also, p.Name)
	}
	for _, c := range t.Causes {
		out.Causes = append(out.Causes, c.String())
	}
	if t.StoreFor > 0 {
		out.StoreForHours = &t.StoreFor
	}
	if t.Kind == risk.LookFirst {
		out.Look = m.look(&t.Look)
	}
	return out
}

func (m *maker) look(l *risk.Look) *lookJSON {
	out := &lookJSON{At: m.at(l.At), Minutes: l.Minutes, Flowers: l.Flowers, Fewer: l.Fewer, Groups: []string{}}
	for g, in := range l.Groups {
		if in {
			out.Groups = append(out.Groups, bee.Group(g).Key())
		}
	}
	return out
}

// positive gives nil for a number that does not matter.
func positive(n int) *int {
	if n <= 0 {
		return nil
	}
	return &n
}

// stateOf gives the state of the day a task stands for.
func stateOf(t *risk.Task) risk.State {
	if t.Day == nil {
		return risk.Judged
	}
	return t.Day.State
}
