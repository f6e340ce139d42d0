package nws

import (
	"fmt"
	"sort"
	"strings"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/assemble"
)

// reportDocument is the answer of /stations/{id}/observations.
type reportDocument struct {
	Features   []reportFeature `json:"features"`
	Pagination struct {
		Next string `json:"next"`
	} `json:"pagination"`
}

type reportFeature struct {
	Geometry   geometry `json:"geometry"`
	Properties report   `json:"properties"`
}

type report struct {
	Station     string       `json:"station"`
	StationName string       `json:"stationName"`
	Elevation   quantity     `json:"elevation"`
	Timestamp   string       `json:"timestamp"`
	Temperature quantity     `json:"temperature"`
	DewPoint    quantity     `json:"dewpoint"`
	Humidity    quantity     `json:"relativeHumidity"`
	WindSpeed   quantity     `json:"windSpeed"`
	WindFrom    quantity     `json:"windDirection"`
	WindGust    quantity     `json:"windGust"`
	RainHour    quantity     `json:"precipitationLastHour"`
	CloudLayers []cloudLayer `json:"cloudLayers"`
}

type cloudLayer struct {
	Amount string `json:"amount"`
}

// skyShare gives the share of the sky that a cloud group of a METAR covers: the
// middle of its eighths, few 1-2, scattered 3-4, broken 5-7, overcast 8; the sky
// is hidden under VV. An automatic station's CLR means no cloud below 3.7 km.
// [WMO-No. 306 FM 15 METAR 15.9, status memory]
var skyShare = map[string]float64{
	"SKC": 0, "CLR": 0, "NSC": 0, "FEW": 1.5 / 8, "SCT": 3.5 / 8, "BKN": 6.0 / 8, "OVC": 1, "VV": 1,
}

// rejected lists the marks of values that failed their check or were questioned
// or judged bad. [MADIS quality control: X failed, Q questioned, B subjective
// bad, status quoted]
const rejected = "XQB"

// rainMinute is the minute around the full hour within which a report's rain of
// the last hour stands for a clock hour. Special reports in between count from
// the last hourly one and would be counted twice. [chosen]
const rainMinute = 15

// maxPast bounds how far apart the reports of one document may lie. [chosen]
const maxPast = 400 * 24 * time.Hour

// value converts a measure; unknown when null, marked bad or impossible.
func (q quantity) value(f assemble.Field) forecast.Value {
	mark := strings.TrimPrefix(q.QC, "qc:")
	if !q.Value.known || mark != "" && strings.Contains(rejected, mark) {
		return forecast.Value{}
	}
	conv, err := f.Converter(q.UnitCode)
	if err != nil {
		return forecast.Value{}
	}
	return conv(q.Value.v)
}

// sky gives the share covered by the fullest layer; unknown without layers.
func (r *report) sky() forecast.Value {
	var best forecast.Value
	for _, l := range r.CloudLayers {
		if share, ok := skyShare[l.Amount]; ok && share >= best.Or(0) {
			best = forecast.Known(share)
		}
	}
	return best
}

// mean adds up values of one hour.
type mean struct {
	sum float64
	n   int
}

func (m *mean) add(v forecast.Value) {
	if x, ok := v.Get(); ok {
		m.sum += x
		m.n++
	}
}

func (m mean) value() forecast.Value {
	if m.n == 0 {
		return forecast.Value{}
	}
	return forecast.Known(m.sum / float64(m.n))
}

// hourReports gathers the reports of one hour.
type hourReports struct {
	temp, dew, rh, wind, sky mean
	from                     vane
	gust, rain               forecast.Value // the highest
}

func (h *hourReports) add(r *report) {
	air := forecast.Hour{Temp: r.Temperature.value(assemble.Temp), DewPoint: r.DewPoint.value(assemble.DewPoint), RH: r.Humidity.value(assemble.RH)}
	h.dew.add(air.DewPoint) // as reported: the hour's own is worked out from its means
	assemble.FillHumidity(&air)
	h.temp.add(air.Temp)
	h.rh.add(air.RH)
	h.wind.add(r.WindSpeed.value(assemble.Wind))
	h.from.add(r.WindFrom.value(assemble.WindFrom), r.WindSpeed.value(assemble.Wind))
	h.sky.add(r.sky())
	h.gust = higher(h.gust, r.WindGust.value(assemble.Gust))
}

func higher(a, b forecast.Value) forecast.Value {
	if !a.IsKnown() || b.IsKnown() && b.Or(0) > a.Or(0) {
		return b
	}
	return a
}

// hour gives the hour's weather.
func (h *hourReports) hour(start time.Time) forecast.Hour {
	out := forecast.Hour{Start: start, Temp: h.temp.value(), DewPoint: h.dew.value(), RH: h.rh.value(),
		Wind: h.wind.value(), WindFrom: h.from.value(), Gust: h.gust, Sky: h.sky.value(), Rain: h.rain}
	assemble.FillHumidity(&out)
	for _, v := range []forecast.Value{out.Temp, out.DewPoint, out.RH, out.Wind, out.WindFrom, out.Gust, out.Sky, out.Rain} {
		if v.IsKnown() {
			out.Origin = forecast.OriginObserved
		}
	}
	return out
}

// ParseObservations reads a saved collection of station reports, in any order,
// as observed hours in UTC.
//
// An hour's temperature, dew point, humidity, wind and cloud are the means of
// the reports within it that have the value, its gust is the highest; reports
// every five minutes often lack dew point and humidity and then count for the
// rest only. Rain is that of the last hour as stated by a report within a quarter
// of an hour of the full hour. What no report states is unknown, never nil.
// Values that the service marks as failed, questioned or bad are left out.
func ParseObservations(doc []byte) (*forecast.Series, error) {
	d, err := decodeReports(doc)
	if err != nil {
		return nil, err
	}
	return adaptReports(d.Features)
}

func reportFault(cause error, format string, args ...any) error {
	return &feed.DocumentError{What: "list of station reports of the " + service, Fault: fmt.Sprintf(format, args...), Err: cause}
}

func decodeReports(doc []byte) (*reportDocument, error) {
	var d reportDocument
	if err := decode(doc, &d); err != nil {
		return nil, reportFault(err, "it cannot be read, it may be cut short (%v)", err)
	}
	return &d, nil
}

type timedReport struct {
	at time.Time
	*reportFeature
}

// adaptReports turns reports into hours.
func adaptReports(features []reportFeature) (*forecast.Series, error) {
	var reports []timedReport
	bad := 0
	for i := range features {
		if t, err := parseTime(features[i].Properties.Timestamp); err == nil {
			reports = append(reports, timedReport{t, &features[i]})
		} else {
			bad++
		}
	}
	if len(reports) == 0 {
		return nil, reportFault(nil, "it holds no reports")
	}
	sort.SliceStable(reports, func(i, j int) bool { return reports[i].at.Before(reports[j].at) })
	last := reports[len(reports)-1]
	for last.at.Sub(reports[0].at) > maxPast {
		reports, bad = reports[1:], bad+1
	}
	// One hour more at the front: a report's rain belongs to the hour before.
	s := forecast.New(reports[0].at.Add(-rainMinute*time.Minute), last.at.Truncate(time.Hour).Add(time.Hour))
	s.Feed, s.Source, s.Attribution = Key, stationSource(&last.Properties), attributionObserved
	s.Point = stationPlace(last.reportFeature)
	gather := make([]hourReports, len(s.Hours))
	for _, r := range reports {
		if i, ok := s.Index(r.at); ok {
			gather[i].add(&r.Properties)
		}
		// Rain of the last hour is that of the hour around 30 minutes before.
		if m := r.at.Minute(); m < rainMinute || m >= 60-rainMinute {
			if i, ok := s.Index(r.at.Add(-30 * time.Minute)); ok {
				gather[i].rain = higher(gather[i].rain, r.Properties.RainHour.value(assemble.Rain))
			}
		}
	}
	for i := range gather {
		s.Hours[i] = gather[i].hour(s.Hours[i].Start)
	}
	if n := forecast.ClearSpikes(s.Hours); n > 0 {
		s.Notes = append(s.Notes, forecast.Note{Layer: "Temp", Text: fmt.Sprintf("temperature: hours far from both neighbours, taken as unknown: %d", n)})
	}
	if s.Hours[0].Origin == forecast.OriginNone && len(s.Hours) > 1 {
		s.Hours = s.Hours[1:]
	}
	if bad > 0 {
		s.Notes = append(s.Notes, forecast.Note{Text: fmt.Sprintf("reports without a usable time, left out: %d", bad)})
	}
	return s, nil
}

// stationSource names the station in words.
func stationSource(r *report) string {
	id := r.Station[strings.LastIndexByte(r.Station, '/')+1:]
	switch {
	case r.StationName != "":
		return service + ", station " + r.StationName
	case id != "":
		return service + ", station " + id
	}
	return service
}

func stationPlace(f *reportFeature) forecast.Place {
	var p forecast.Place
	p.Lat, p.Lon = f.Geometry.centre()
	p.Elevation = f.Properties.Elevation.elevation()
	return p
}
