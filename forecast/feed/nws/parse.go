package nws

import (
	"bytes"
	"fmt"
	"time"

	"dawnbrush/forecast"
	"dawnbrush/forecast/feed"
)

// glance is how much of a document is looked at to recognise it: its head with
// context, identity and outline. [chosen]
const glance = 4096

// Recognise tells whether a document looks like one of this service.
func (Reader) Recognise(doc []byte) bool {
	doc = bytes.TrimLeft(bytes.TrimPrefix(doc, []byte("\xef\xbb\xbf")), " \t\r\n")
	if len(doc) == 0 || doc[0] != '{' {
		return false
	}
	head := doc[:min(len(doc), glance)]
	if bytes.Contains(head, []byte("api.weather.gov")) {
		return true
	}
	return bytes.Contains(head, []byte(`"updateTime"`)) && bytes.Contains(head, []byte(`"validTimes"`))
}

// Parse reads a raw gridpoint document, however old it is. See feed.Reader.
func (Reader) Parse(doc []byte, now time.Time) (*forecast.Series, error) {
	d, err := decodeGrid(doc)
	if err != nil {
		return nil, err
	}
	return adaptGrid(d, now)
}

func gridFault(cause error, format string, args ...any) error {
	return &feed.DocumentError{What: "grid forecast of the " + service, Fault: fmt.Sprintf(format, args...), Err: cause}
}

func decodeGrid(doc []byte) (*gridDocument, error) {
	var d gridDocument
	if len(bytes.TrimSpace(doc)) == 0 {
		return nil, gridFault(nil, "it is empty")
	}
	if err := decode(doc, &d); err != nil {
		return nil, gridFault(err, "it cannot be read, it may be cut short (%v)", err)
	}
	p := &d.Properties
	switch {
	case bool(d.Features):
		return nil, gridFault(nil, "it is a list, of station reports perhaps")
	case bool(p.Periods):
		return nil, &feed.DocumentError{What: "grid forecast of the " + service,
			Fault:  "it is the forecast in words, without amounts of rain and cloud cover",
			Remedy: "save the document at the address that the points document calls forecastGridData"}
	case len(p.Temperature.Values) == 0:
		return nil, gridFault(nil, "it holds no temperatures")
	}
	return &d, nil
}
