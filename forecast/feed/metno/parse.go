package metno

import (
	"bytes"
	"fmt"
	"slices"
	"time"

	"github.com/go-json-experiment/json"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
)

// Recognise tells whether a document looks like a point forecast of this service; not
// its nowcasts, seas, air and seasons, which have the same outer form. The whole
// document is searched: programs that save documents may sort their members.
func (Reader) Recognise(doc []byte) bool {
	doc = trim(doc)
	if len(doc) == 0 || doc[0] != '{' || bytes.Contains(doc, []byte(`"radar_coverage"`)) {
		return false
	}
	if bytes.Contains(doc[:min(len(doc), 64)], []byte(`"weatherdata"`)) {
		return true // of the former product, to be refused by name
	}
	for _, mark := range []string{`"timeseries"`, `"updated_at"`, `"air_temperature"`} {
		if !bytes.Contains(doc, []byte(mark)) {
			return false
		}
	}
	return true
}

// trim drops a byte order mark and white space.
func trim(doc []byte) []byte {
	return bytes.TrimSpace(bytes.TrimPrefix(doc, []byte("\xef\xbb\xbf")))
}

// Parse reads a saved document, however old it is. See feed.Reader.
func (Reader) Parse(doc []byte, now time.Time) (*forecast.Series, error) {
	d, err := decode(doc)
	if err != nil {
		return nil, err
	}
	return d.series(now)
}

// wanted says which document to save.
const wanted = "save the answer of " + DefaultBase + path + "?lat=...&lon=..."

// fault says what is wrong with a document; remedy may be "".
func fault(remedy string, cause error, format string, args ...any) error {
	return &feed.DocumentError{What: "forecast of the " + service, Fault: fmt.Sprintf(format, args...), Err: cause, Remedy: remedy}
}

// decode reads a document with steps.
func decode(doc []byte) (*document, error) {
	doc = trim(doc)
	switch {
	case len(doc) == 0:
		return nil, fault("", nil, "it is empty")
	case doc[0] == '<' && bytes.Contains(doc, []byte("<weatherdata")):
		return nil, fault(wanted, nil, "it is the service's XML, of the former Locationforecast 1.9 or in its form")
	case doc[0] == '<':
		return nil, fault("", nil, "it is a web page")
	}
	var d document
	if err := json.Unmarshal(doc, &d, options); err != nil {
		return nil, fault("", err, "it cannot be read, it may be cut short (%v)", err)
	}
	switch p := &d.Properties; {
	case d.Former != nil:
		return nil, fault(wanted, nil, "it is of the former Locationforecast 1.9, which the service has given up")
	case p.Meta.Radar != nil:
		return nil, fault(wanted, nil, "it is a nowcast of two hours")
	case len(p.TimeSeries) == 0:
		return nil, fault("", nil, "it holds no hours")
	}
	return &d, nil
}

// step is an instant of the forecast.
type step struct {
	at time.Time // UTC, on the full hour
	*timeStep
}

// steps gives the steps in order of time, and how many are left out because their
// time cannot be read, is no full hour or comes twice.
func (d *document) steps() (list []step, bad int) {
	for i := range d.Properties.TimeSeries {
		s := &d.Properties.TimeSeries[i]
		t, err := parseTime(s.Time)
		if err != nil || !t.Equal(t.Truncate(time.Hour)) {
			bad++
			continue
		}
		list = append(list, step{t, s})
	}
	all := len(list)
	slices.SortStableFunc(list, func(a, b step) int { return a.at.Compare(b.at) })
	list = slices.CompactFunc(list, func(a, b step) bool { return a.at.Equal(b.at) })
	return list, bad + all - len(list)
}

// parseTime reads a time as the service writes it.
func parseTime(s string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, s)
	if err != nil {
		return time.Time{}, fmt.Errorf("%.40q is not a time like 2026-07-15T12:00:00Z", s)
	}
	if y := t.Year(); y < 1900 || y > 2200 { // outside, differences overflow
		return time.Time{}, fmt.Errorf("%.40q is a time in another age", s)
	}
	return t.UTC(), nil
}
