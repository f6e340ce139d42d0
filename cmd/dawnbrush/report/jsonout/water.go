package jsonout

import (
	"io"
	"time"

	"dawnbrush/cmd/dawnbrush/report/document"
	"dawnbrush/forecast"
	"dawnbrush/risk"
	"dawnbrush/risk/ledger"
)

type waterJSON struct {
	envelope
	Garden   gardenJSON   `json:"garden"`
	Made     *time.Time   `json:"made"`
	Demo     bool         `json:"demo"`
	Forecast forecastJSON `json:"forecast"`
	Complete bool         `json:"complete"`
	Gaps     []gapJSON    `json:"gaps"`
	Notes    []string     `json:"notes"`
	Credits  []string     `json:"credits"`
	Beds     []bedJSON    `json:"beds"`
	Cautions []string     `json:"cautions"`

	Sources map[string]string `json:"sources"`
}

type bedJSON struct {
	Name      string         `json:"name"`
	Kind      string         `json:"kind"`
	Area      *float64       `json:"area_m2"`
	Plantings []string       `json:"plantings"`
	Lead      *string        `json:"goes_by"`
	Why       *string        `json:"not_reckoned"`
	Crop      *string        `json:"table_crop"`
	Borrowed  *string        `json:"borrowed"`
	Assumed   []string       `json:"assumed"`
	Start     string         `json:"start"`
	Cover     *string        `json:"cover"`
	Share     *rangeJSON     `json:"share_of_outdoor"`
	Days      []waterDayJSON `json:"days"`
	Swing     *swingJSON     `json:"swing"`
	Season    *seasonJSON    `json:"season"`
}

type waterDayJSON struct {
	Date          string      `json:"date"`
	Past          bool        `json:"past"`
	ET0           *float64    `json:"reference_mm"`
	Way           string      `json:"reference_by"`
	Outside       *float64    `json:"reference_outdoors_mm"`
	Draws         *rangeJSON  `json:"reference_range_mm"`
	Logged        bool        `json:"by_logger"`
	Own           bool        `json:"by_share_of_logged_days"`
	Rain          *rangeJSON  `json:"rain_mm"`
	By            string      `json:"rain_by"`
	Chance        *float64    `json:"rain_chance"`
	Given         float64     `json:"given_mm"`
	Litres        float64     `json:"given_l"`
	Taken         float64     `json:"taken_mm"`
	Caught        float64     `json:"rain_on_soil_mm"`
	Evaporation   float64     `json:"evaporation_mm"`
	Transpiration float64     `json:"transpiration_mm"`
	Intercepted   float64     `json:"intercepted_mm"`
	Drainage      float64     `json:"drainage_mm"`
	Kcb           float64     `json:"kcb"`
	Ke            float64     `json:"ke"`
	Kr            float64     `json:"kr"`
	Few           float64     `json:"few"`
	Ks            float64     `json:"ks"`
	TAW           float64     `json:"taw_mm"`
	RAW           float64     `json:"raw_mm"`
	Lacks         *rangeJSON  `json:"lacks_mm"`
	Left          *rangeJSON  `json:"left"`
	Night         *rangeJSON  `json:"left_at_night"`
	HeededLeft    *rangeJSON  `json:"left_if_heeded"`
	HeededUsed    float64     `json:"used_mm_if_heeded"`
	Gap           bool        `json:"gap"`
	Advice        *adviceJSON `json:"advice"`
}

type adviceJSON struct {
	Verdict  string     `json:"verdict"`
	MM       float64    `json:"water_mm"`
	Less     float64    `json:"less_for_rain_mm"`
	Litres   float64    `json:"water_l"`
	Span     *rangeJSON `json:"water_range_l"`
	EachPot  *float64   `json:"each_pot_l"`
	PerPlant *float64   `json:"per_plant_l"`
	Run      *float64   `json:"run_min"`
	Cans     *float64   `json:"cans"`
	Times    int        `json:"times"`
	From     *time.Time `json:"from"`
	To       *time.Time `json:"to"`
	Depth    *float64   `json:"depth_m"`
	Causes   []string   `json:"causes"`
	Chance   *float64   `json:"rain_chance"`
	IfDry    *float64   `json:"left_if_no_rain"`
	Days     *int       `json:"days_until_short"`
	Sure     string     `json:"sure"`
	Gauge    bool       `json:"gauge_would_settle"`
	NoLeaves bool       `json:"keep_leaves_dry"`
	Text     string     `json:"text"`
}

type swingJSON struct {
	Share  float64 `json:"share"`
	Uneven bool    `json:"uneven"`
}

type seasonJSON struct {
	Days   int     `json:"days"`
	Given  float64 `json:"given_l"`
	Rule   float64 `json:"inch_a_week_l"`
	Wanted float64 `json:"wanted_l"`
	Noted  bool    `json:"watering_noted"`
}

// Words of the account for programs, by its numbers.
var (
	notWords     = [...]string{"", "nothing_grows", "no_date", "no_table", "no_weather"}
	startWords   = [...]string{"unknown", "sown", "soaked"}
	tellerWords  = [...]string{"", "gauge", "station", "forecast_not_measured", "ahead", "unknown", "none_can_fall"}
	verdictWords = [...]string{"none", "enough", "water", "wait_for_rain", "look_first"}
	whyWords     = [...]string{"", "dry", "hot", "flower", "small_pot", "soilless", "rain_came", "given", "rain_ahead", "young", "uneven"}
)

// Water writes the beds in focus with all their days.
func Water(w io.Writer, d *document.Document) error {
	m := newMaker(d)
	out := waterJSON{envelope: envelope{Schema, "water"}, Made: m.at(d.Now), Demo: d.Demo, Forecast: m.forecast(), Complete: d.Complete(), Gaps: gaps(d), Notes: append([]string{}, d.Notes...),
		Credits: append([]string{}, d.Credits()...), Beds: []bedJSON{}, Cautions: m.words.WaterCautions()}
	if g := d.Garden; g != nil {
		out.Garden = gardenJSON{g.Name, g.Place.Lat, g.Place.Lon, m.zone.String()}
	}
	if d.Water != nil {
		for i := range d.Water.Beds {
			if b := &d.Water.Beds[i]; d.Focus.InFocus(b) {
				out.Beds = append(out.Beds, m.bed(b))
			}
		}
	}
	m.cite("FAO56")
	out.Sources = m.sources()
	return write(w, out)
}

// text turns "" into null.
func text(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// told turns nought into null, for amounts that are nought where nobody told them.
func told(x float64) *float64 {
	if x == 0 {
		return nil
	}
	x = round(x)
	return &x
}

func (m *maker) bed(b *ledger.Bed) bedJSON {
	out := bedJSON{Name: b.Bed.Name, Kind: string(b.Bed.Kind), Area: told(b.Bed.Area), Plantings: []string{}, Why: text(notWords[b.Why]), Crop: text(b.Crop),
		Borrowed: text(b.Borrowed), Assumed: append([]string{}, b.Assumed...), Start: startWords[b.Start], Days: []waterDayJSON{}}
	for _, p := range b.Plantings {
		out.Plantings = append(out.Plantings, p.Name)
	}
	if b.Cover != "" {
		share := plainRange(b.Share)
		out.Cover, out.Share = text(string(b.Cover)), &share
	}
	if b.Lead != nil {
		out.Lead = &b.Lead.Name
	}
	if b.Why != ledger.Reckoned {
		return out
	}
	for i := range b.Days {
		out.Days = append(out.Days, m.waterDay(b, &b.Days[i]))
	}
	if b.Swing.Known {
		out.Swing = &swingJSON{round(b.Swing.Share), b.Swing.Uneven}
	}
	if s := &b.Season; s.Days > 0 {
		out.Season = &seasonJSON{s.Days, round(s.Given), round(s.Rule), round(s.Wanted), s.Noted}
	}
	return out
}

func plainRange(r risk.Range) rangeJSON { return rangeJSON{round(r.Lo), round(r.Mid), round(r.Hi)} }

// stored is nil for a bed that stores no water worth reckoning.
func (m *maker) stored(b *ledger.Bed, r risk.Range) *rangeJSON {
	if b.NoStore {
		return nil
	}
	out := plainRange(r)
	return &out
}

func (m *maker) waterDay(b *ledger.Bed, d *ledger.Day) waterDayJSON {
	f := &d.Flux
	out := waterDayJSON{Date: d.Date.String(), Past: d.Past, ET0: number(d.ET0), Way: d.Way.String(), By: tellerWords[d.By], Chance: number(d.Chance),
		Given: round(d.Given), Litres: round(d.Litres), Evaporation: round(f.Evaporation), Transpiration: round(f.Transpiration), Intercepted: round(f.Intercepted),
		Drainage: round(f.Drainage), Kcb: round(f.Kcb), Ke: round(f.Ke), Kr: round(f.Kr), Few: round(f.Exposed), Ks: round(f.Ks), TAW: round(d.TAW), RAW: round(d.RAW),
		Left: m.stored(b, d.Left), Night: m.stored(b, d.Night), HeededLeft: m.stored(b, d.Heeded.Left), HeededUsed: round(d.Heeded.Used), Gap: d.Gap, Taken: round(d.Taken), Caught: round(d.Caught)}
	// lacks_mm runs from the smaller to the greater number, as every range here does.
	out.Lacks = m.stored(b, risk.Range{Lo: min(d.Lacks.Lo, d.Lacks.Hi), Mid: d.Lacks.Mid, Hi: max(d.Lacks.Lo, d.Lacks.Hi)})
	if b.Cover != "" {
		draws := plainRange(d.Under.Draws)
		out.Outside, out.Draws, out.Logged, out.Own = number(d.Under.Outside), &draws, d.Under.Logged, d.Under.Own
	}
	if d.By != ledger.RainUnknown {
		r := plainRange(d.Rain)
		out.Rain = &r
	}
	if d.Advice.Verdict != ledger.NoVerdict {
		out.Advice = m.advice(b, d)
	}
	return out
}

func (m *maker) advice(b *ledger.Bed, d *ledger.Day) *adviceJSON {
	a := &d.Advice
	out := &adviceJSON{Verdict: verdictWords[a.Verdict], MM: round(a.MM), Less: round(a.Less), Litres: round(a.Litres), EachPot: told(a.EachPot), PerPlant: told(a.PerPlant),
		Run: told(a.Run.Minutes()), Cans: told(a.Cans), Times: max(1, a.Times), From: m.at(a.From), To: m.at(a.To), Depth: told(a.Depth), Causes: []string{},
		Chance: number(a.Chance), Sure: a.Sure.String(), Gauge: a.Gauge, NoLeaves: a.NoLeaves, Text: m.words.WaterLine(b, d)}
	for _, c := range a.Causes {
		out.Causes = append(out.Causes, whyWords[c])
	}
	if a.Span != (risk.Range{}) {
		span := plainRange(a.Span)
		out.Span = &span
	}
	if a.Verdict == ledger.WaitForRain {
		x := round(a.IfDry)
		out.IfDry = &x
	}
	if a.Days >= 0 {
		out.Days = &a.Days
	}
	return out
}

// bedDayJSON is what a bed wants on a day of the plan.
type bedDayJSON struct {
	Bed  string     `json:"bed"`
	Left *rangeJSON `json:"left"`
	adviceJSON
}

// beds gives what each reckoned bed wants on a date.
func (m *maker) beds(date forecast.Date) []bedDayJSON {
	out := []bedDayJSON{}
	for _, x := range m.d.Beds(date) {
		if x.Advice().Verdict != ledger.NoVerdict {
			out = append(out, bedDayJSON{x.Bed.Bed.Name, m.stored(x.Bed, x.Day.Left), *m.advice(x.Bed, x.Day)})
		}
	}
	return out
}

// bedsOn gives the account of the beds in focus on a date, for workings.
func (m *maker) bedsOn(date forecast.Date) []bedJSON {
	out := []bedJSON{}
	if m.d.Water == nil {
		return out
	}
	for i := range m.d.Water.Beds {
		b := &m.d.Water.Beds[i]
		if !m.d.Focus.InFocus(b) {
			continue
		}
		one := m.bed(b)
		one.Days = []waterDayJSON{}
		if day, ok := b.Day(date); ok && b.Why == ledger.Reckoned {
			one.Days = append(one.Days, m.waterDay(b, day))
		}
		out = append(out, one)
	}
	return out
}
