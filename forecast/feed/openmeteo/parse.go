package openmeteo

import (
	"bytes"
	"fmt"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
)

// Recognise tells whether a document looks like a forecast or past hours of this service,
// for one place or several; not its ensembles, earlier runs, seas, rivers and air. The whole
// document is searched: programs that save documents may sort their members.
func (Reader) Recognise(doc []byte) bool {
	doc = trim(doc)
	if len(doc) == 0 || doc[0] != '{' && doc[0] != '[' {
		return false
	}
	for _, mark := range []string{`"generationtime_ms"`, `"utc_offset_seconds"`, `"temperature_2m`} {
		if !bytes.Contains(doc, []byte(mark)) {
			return false
		}
	}
	return !bytes.Contains(doc, []byte("_member0")) && !bytes.Contains(doc, []byte(leadMark))
}

// trim drops a byte order mark and white space.
func trim(doc []byte) []byte {
	return bytes.TrimSpace(bytes.TrimPrefix(doc, []byte("\xef\xbb\xbf")))
}

// Parse reads a saved forecast document, however old it is. A saved document of the archive
// looks the same and is read the same. See feed.Reader.
func (Reader) Parse(doc []byte, now time.Time) (*forecast.Series, error) {
	d, err := decodeDocument(doc)
	if err != nil {
		return nil, err
	}
	return d.forecast(now)
}

// forecast gives the series of a forecast document.
func (d *document) forecast(now time.Time) (*forecast.Series, error) {
	h := &d.Hourly
	switch {
	case h.members:
		return nil, fault("a single forecast is needed", nil, "it is an ensemble of forecasts")
	case h.previous:
		return nil, fault("a single forecast is needed", nil, "it sets earlier forecasts side by side")
	}
	s, err := d.series(part{hosts: onForecast, origin: forecast.OriginForecast, now: now})
	if err != nil {
		return nil, err
	}
	s.Notes = append(s.Notes, forecast.Note{Layer: "Thunder", Text: "chance of thunder is never in forecasts of this service"})
	return s, nil
}

// wanted says which document to save.
const wanted = "save the answer of " + DefaultBase + "/v1/forecast for one place, with hourly="

// fault says what is wrong with a document; need, where it is not "", begins the remedy.
func fault(need string, cause error, format string, args ...any) error {
	e := &feed.DocumentError{What: "forecast of the " + service, Fault: fmt.Sprintf(format, args...), Err: cause}
	if need != "" {
		e.Remedy = need + ": " + wanted + names(onForecast, "")
	}
	return e
}

// streamFailure begins the text that the service writes into an answer, or in its place,
// when it fails after it has begun to send. [OpenMeteo]
var streamFailure = []byte("Unexpected error while streaming data")

// decodeDocument reads a document with hours.
func decodeDocument(doc []byte) (*document, error) {
	doc = trim(doc)
	switch {
	case len(doc) == 0:
		return nil, fault("", nil, "it is empty")
	case doc[0] == '[':
		return nil, fault("one place is needed", nil, "it is a list, of several places perhaps")
	}
	var d document
	if err := decode(doc, &d); err != nil {
		if bytes.Contains(doc, streamFailure) {
			return nil, fault("", err, "the service failed while it was sending it")
		}
		return nil, fault("", err, "it cannot be read, it may be cut short (%v)", err)
	}
	h := &d.Hourly
	switch {
	case d.Error:
		return nil, fault("", &Refusal{d.Reason}, "it is an error, %v", &Refusal{d.Reason})
	case h.values == nil && len(d.Daily) > 0:
		return nil, fault("hours are needed", nil, "it holds days, not hours")
	case len(h.times) == 0:
		return nil, fault("hours are needed", nil, "it holds no hours")
	case h.models && h.values[temperature] == nil:
		return nil, fault("a single forecast is needed", nil, "it sets several models side by side")
	}
	return &d, d.settleTimes()
}

// Years that documents may lie in: the archive begins in 1940. [OpenMeteo]
var earliest, latest = time.Date(1940, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(2200, 1, 1, 0, 0, 0, 0, time.UTC)

// settleTimes works out the first hour and refuses times that do not go on by the hour.
//
// The whole document has one offset from UTC. Where that is no full hour (India,
// Newfoundland), the service reads the models at full UTC hours and writes the times as
// though the offset were cut to full hours; the rest is put back here. [OpenMeteo]
func (d *document) settleTimes() error {
	times, offset := d.Hourly.times, int64(0)
	if d.UTCOffset != nil {
		offset = *d.UTCOffset
	}
	first := times[0]
	switch {
	case d.Hourly.local && d.UTCOffset == nil:
		return fault("", nil, "its times are local and it does not say how far from UTC")
	case d.Hourly.local:
		first -= offset
	}
	first += offset % 3600
	d.first, d.count = time.Unix(first, 0).UTC(), len(times)
	if first%3600 != 0 || d.first.Before(earliest) || d.first.After(latest) || offset < -24*3600 || offset > 24*3600 {
		return fault("", nil, "its times cannot be right: it begins at %s", d.first.Format(time.RFC3339))
	}
	for i := 1; i < len(times); i++ {
		if times[i]-times[i-1] != 3600 {
			return fault("hours are needed", nil, "its times do not go on by the hour")
		}
	}
	return nil
}

// ParsePreviousRuns reads a document of earlier runs, which holds for each hour what was
// forecast of it up to seven days before. Documents with none of them give an error.
func ParsePreviousRuns(doc []byte) ([]Run, error) {
	d, err := decodeDocument(doc)
	if err != nil {
		return nil, err
	}
	h := &d.Hourly
	if !h.previous {
		return nil, fault("", nil, "it holds no earlier runs")
	}
	var out []Run
	for days := 0; days <= maxLead; days++ {
		p := part{hosts: onPrevious, lead: days, origin: forecast.OriginForecast}
		if h.values[temperature+p.suffix()] == nil {
			continue
		}
		s, err := d.series(p)
		if err != nil {
			continue // as far back as this model goes: its lists are there and hold nothing
		}
		out = append(out, Run{days, s})
	}
	if len(out) == 0 {
		return nil, fault("", nil, "all its values are unknown")
	}
	return out, nil
}
