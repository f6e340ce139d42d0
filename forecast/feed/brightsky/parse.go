package brightsky

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
	"dawnbrush/forecast/feed/assemble"
)

// hours is how a list of hours begins; the weather of now has no list.
var hours = regexp.MustCompile(`"weather"\s*:\s*\[`)

// Recognise tells whether a document looks like hours of this service. The whole of it is
// searched: programs that save documents may sort their members.
func (Reader) Recognise(doc []byte) bool {
	doc = trim(doc)
	if len(doc) == 0 || doc[0] != '{' {
		return false
	}
	for _, mark := range []string{`"sources"`, `"source_id"`, `"timestamp"`, `"precipitation"`} {
		if !bytes.Contains(doc, []byte(mark)) {
			return false
		}
	}
	return hours.Match(doc) && !bytes.Contains(doc, []byte(`"wind_speed_10"`))
}

// trim drops a byte order mark and white space.
func trim(doc []byte) []byte {
	return bytes.TrimSpace(bytes.TrimPrefix(doc, []byte("\xef\xbb\xbf")))
}

// Parse reads a saved document of hours, however old it is: measured, forecast or both. See
// feed.Reader.
func (Reader) Parse(doc []byte, now time.Time) (*forecast.Series, error) {
	d, err := decodeDocument(doc)
	if err != nil {
		return nil, err
	}
	return d.series(d.mainSource(!d.forecasts()), now)
}

// remedy says which document to save.
const remedy = "save the answer of " + DefaultBase + "/weather, with lat=, lon=, date= and last_date="

func fault(cause error, format string, args ...any) error {
	return &feed.DocumentError{What: "forecast of the " + service, Fault: fmt.Sprintf(format, args...), Err: cause}
}

// wrongKind refuses what is another product of the service.
func wrongKind(what string) error {
	return &feed.DocumentError{What: "forecast of the " + service, Fault: what, Err: errNoHours, Remedy: remedy}
}

var errNoHours = errors.New("no hours")

// decodeDocument reads a document with hours.
func decodeDocument(doc []byte) (*document, error) {
	doc = trim(doc)
	if len(doc) == 0 {
		return nil, fault(nil, "it is empty")
	}
	var d document
	if err := decode(doc, &d); err != nil {
		return nil, fault(err, "it cannot be read, it may be cut short (%v)", err)
	}
	refusal, w := d.refusal(), &d.Weather
	switch {
	case w.single:
		return nil, wrongKind("it is the weather of one moment")
	case len(w.records) == 0 && refusal != nil:
		return nil, fault(refusal, "it is an error, %v", refusal)
	case len(w.records) == 0:
		return nil, wrongKind("it holds no hours")
	case slices.ContainsFunc(w.records, func(r record) bool { return r.TenMinutes != nil }):
		return nil, wrongKind("it holds reports every ten minutes")
	}
	if d.settle(); len(w.records) == 0 {
		return nil, fault(nil, "none of its hours has a time that can be read")
	}
	return &d, nil
}

// Years that documents may lie in; outside, differences run over.
const firstYear, lastYear = 1900, 2200 // [chosen: wider than any archive and any life]

// settle works out the records' times and leaves out those whose time cannot be read, is no
// full hour, was there before, or lies far from all others.
func (d *document) settle() {
	all := d.Weather.records
	keep := all[:0]
	for _, r := range all {
		t, err := time.Parse(time.RFC3339, r.Timestamp)
		if err != nil || !t.Equal(t.Truncate(time.Hour)) || t.Year() < firstYear || t.Year() > lastYear {
			continue
		}
		r.at = t.UTC()
		r.measured = d.source(r.SourceID).measured()
		keep = append(keep, r)
	}
	d.Weather.records = keep
	d.order()
	if keep = d.Weather.records; len(keep) > 0 {
		middle := keep[len(keep)/2].at
		d.Weather.records = slices.DeleteFunc(keep, func(r record) bool { return r.at.Sub(middle).Abs() > d.most() })
	}
	d.left = len(all) - len(d.Weather.records)
}

// order puts the records in order of time, each time once: the first one told.
func (d *document) order() {
	list := d.Weather.records
	slices.SortStableFunc(list, func(a, b record) int { return a.at.Compare(b.at) })
	d.Weather.records = slices.CompactFunc(list, func(a, b record) bool { return a.at.Equal(b.at) })
}

// most bounds how far apart records may lie: a damaged date must not ask for years of hours,
// and a document of a year has that many records.
func (d *document) most() time.Duration {
	return max(assemble.UsualSpan, 2*time.Duration(len(d.Weather.records))*time.Hour)
}

// span gives the time from the first record to the last, with the hours before and after.
func (d *document) span() time.Duration {
	list := d.Weather.records
	return list[len(list)-1].at.Sub(list[0].at) + 2*time.Hour
}

// source gives a source by its number; nil when the document does not tell of it.
func (d *document) source(id int64) *source {
	for i := range d.Sources {
		if d.Sources[i].ID == id {
			return &d.Sources[i]
		}
	}
	return nil
}

// record gives the record of a time; nil when there is none.
func (d *document) record(at time.Time) *record {
	i, ok := slices.BinarySearchFunc(d.Weather.records, at, func(r record, at time.Time) int { return r.at.Compare(at) })
	if !ok {
		return nil
	}
	return &d.Weather.records[i]
}
