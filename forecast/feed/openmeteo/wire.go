package openmeteo

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"dawnbrush/forecast"
)

// The types here mirror https://open-meteo.com/en/docs, "JSON Return Object"; only what is
// used is named, everything else is skipped while reading.

// document is the answer of /v1/forecast and /v1/archive, or an error.
type document struct {
	Latitude  float64           `json:"latitude"` // of the grid cell, not of the place that was asked for
	Longitude float64           `json:"longitude"`
	Elevation *float64          `json:"elevation"` // that the temperatures are meant for, m
	UTCOffset *int64            `json:"utc_offset_seconds"`
	Timezone  string            `json:"timezone"`
	Units     map[string]string `json:"hourly_units"`
	Hourly    columns           `json:"hourly"`
	Daily     jsontext.Value    `json:"daily"`

	Error  bool   `json:"error"`
	Reason string `json:"reason"`

	first time.Time // of the hours, UTC, in full hours
	count int
}

// columns holds the hours: times, and beside them a list of equal length for each variable.
type columns struct {
	times  []int64 // seconds
	local  bool    // counted from 1970 in the document's own time, not in UTC
	values map[string][]forecast.Value

	// What else there is beside the temperature.
	members, previous, models bool
}

// UnmarshalJSONFrom reads the times and the variables that are used.
func (c *columns) UnmarshalJSONFrom(dec *jsontext.Decoder) error {
	if dec.PeekKind() != '{' {
		return dec.SkipValue()
	}
	if _, err := dec.ReadToken(); err != nil {
		return err
	}
	c.values = map[string][]forecast.Value{}
	for dec.PeekKind() != '}' {
		tok, err := dec.ReadToken()
		if err != nil {
			return err
		}
		if err := c.member(dec, tok.String()); err != nil {
			return err
		}
	}
	_, err := dec.ReadToken()
	return err
}

// member reads one list.
func (c *columns) member(dec *jsontext.Decoder, name string) (err error) {
	base, day := splitLead(name)
	c.previous = c.previous || day > 0
	switch {
	case dec.PeekKind() != '[':
		return dec.SkipValue()
	case name == "time":
		return c.readTimes(dec)
	case known(base):
		// The next variable is about as long as the times.
		c.values[name], err = readNumbers(dec, len(c.times))
		return err
	case strings.Contains(name, "_member"):
		c.members = true
	case strings.HasPrefix(name, temperature+"_"):
		c.models = true
	}
	return dec.SkipValue()
}

// isoLocal is how the service writes local times, without an offset. [OpenMeteo]
const isoLocal = "2006-01-02T15:04"

// maxSeconds bounds what can be a time at all, so that no sum of times runs over.
const maxSeconds = 1e11 // [chosen: three thousand years]

// readTimes reads unix seconds or local times.
func (c *columns) readTimes(dec *jsontext.Decoder) error {
	return readList(dec, func(tok jsontext.Token) error {
		var seconds int64
		switch tok.Kind() {
		case '0':
			f, err := tok.Float()
			if err != nil || math.Abs(f) > maxSeconds || f != math.Trunc(f) {
				return fmt.Errorf("%.30s is not a time", tok.String())
			}
			seconds = int64(f)
		case '"':
			t, err := time.Parse(isoLocal, tok.String())
			if err != nil {
				return fmt.Errorf("%.30q is not a time", tok.String())
			}
			seconds = t.Unix()
		default:
			return fmt.Errorf("%s stands where a time should be", tok.Kind())
		}
		local := tok.Kind() == '"'
		if len(c.times) > 0 && local != c.local {
			return fmt.Errorf("its times are of two kinds")
		}
		c.local = local
		c.times = append(c.times, seconds)
		return nil
	})
}

// readNumbers reads a list of numbers and nulls.
func readNumbers(dec *jsontext.Decoder, about int) ([]forecast.Value, error) {
	out := make([]forecast.Value, 0, about)
	err := readList(dec, func(tok jsontext.Token) error {
		switch tok.Kind() {
		case 'n':
			out = append(out, forecast.Value{})
		case '0':
			v, err := tok.Float()
			if err != nil {
				return err
			}
			out = append(out, forecast.Known(v))
		default:
			return fmt.Errorf("%s stands where a number should be", tok.Kind())
		}
		return nil
	})
	return out, err
}

// readList gives the elements of a flat list one by one.
func readList(dec *jsontext.Decoder, each func(jsontext.Token) error) error {
	if _, err := dec.ReadToken(); err != nil {
		return err
	}
	for dec.PeekKind() != ']' {
		tok, err := dec.ReadToken()
		if err != nil {
			return err
		}
		if err := each(tok); err != nil {
			return err
		}
	}
	_, err := dec.ReadToken()
	return err
}

// decode reads a document. Text in a wrong encoding harms nothing that is used.
func decode(doc []byte, into any) error {
	return json.Unmarshal(doc, into, jsontext.AllowInvalidUTF8(true))
}
