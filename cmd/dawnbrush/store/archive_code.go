package store

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"time"

	"dawnbrush/forecast"
)

// How a series is kept: a header in JSON with its length before it; then each
// layer of the hours, one after another, because neighbours in time are alike
// and pack well; then rain blocks and highest temperatures. Numbers are 8 bytes,
// little-endian; not-a-number stands for unknown. All of it is deflated (RFC 1951).

// bodyVersion is the first byte of a body before it is deflated.
const bodyVersion = 1

// mostBody bounds what a body may unpack to, so that a damaged file cannot ask
// for all memory. [chosen: ten days of hours take 30 kB]
const mostBody = 8 << 20

type header struct {
	Feed, Source, Attribution string
	Issued                    time.Time
	Lat, Lon                  float64
	Elevation                 forecast.Value
	Zone                      string `json:",omitempty"`
	Start                     int64  // hours since 1970
	Hours, Blocks, DayMax     int
	Notes                     []forecast.Note `json:",omitempty"`
}

// layers gives the values of an hour in the order in which they are kept.
func layers(h *forecast.Hour) [10]*forecast.Value {
	return [10]*forecast.Value{&h.Temp, &h.DewPoint, &h.RH, &h.Wind, &h.Gust, &h.Sky, &h.Radiation, &h.Rain, &h.RainProb, &h.Thunder}
}

// pack writes a series for keeping.
func pack(s *forecast.Series) ([]byte, error) {
	h := header{Feed: s.Feed, Source: s.Source, Attribution: s.Attribution, Issued: s.Issued.UTC(), Lat: s.Point.Lat, Lon: s.Point.Lon, Elevation: s.Point.Elevation,
		Start: hourOf(s.Start()), Hours: len(s.Hours), Blocks: len(s.Blocks), DayMax: len(s.DayMax), Notes: s.Notes}
	if s.Point.Zone != nil {
		h.Zone = s.Point.Zone.String()
	}
	head, err := json.Marshal(h)
	if err != nil {
		return nil, err
	}
	b := binary.AppendUvarint([]byte{bodyVersion}, uint64(len(head)))
	b = append(b, head...)
	for i := range s.Hours {
		if hourOf(s.Hours[i].Start) != h.Start+int64(i) {
			return nil, errors.New("a series with holes cannot be kept")
		}
		b = append(b, byte(s.Hours[i].Origin))
	}
	for k := range layers(&forecast.Hour{}) {
		for i := range s.Hours {
			b = appendValue(b, *layers(&s.Hours[i])[k])
		}
	}
	for _, x := range s.Blocks {
		b = appendValue(appendValue(appendSpan(b, x.Start, x.End), x.Amount), x.Prob)
	}
	for _, x := range s.DayMax {
		b = appendValue(appendSpan(b, x.Start, x.End), x.Temp)
	}
	var out bytes.Buffer
	w, err := flate.NewWriter(&out, flate.DefaultCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(b); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func appendValue(b []byte, v forecast.Value) []byte {
	return binary.LittleEndian.AppendUint64(b, math.Float64bits(v.Or(math.NaN())))
}

// appendSpan writes two times to the second; feeds tell no finer.
func appendSpan(b []byte, from, to time.Time) []byte {
	b = binary.LittleEndian.AppendUint64(b, uint64(from.Unix()))
	return binary.LittleEndian.AppendUint64(b, uint64(to.Unix()))
}

var errBody = errors.New("a forecast that was kept cannot be read")

// unpack reads what pack wrote.
func unpack(body []byte) (*forecast.Series, error) {
	b, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(body)), mostBody))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", errBody, err)
	}
	if len(b) == 0 || b[0] != bodyVersion {
		return nil, errBody
	}
	n, size := binary.Uvarint(b[1:])
	if size <= 0 || n > uint64(len(b)-1-size) {
		return nil, errBody
	}
	var h header
	if err := json.Unmarshal(b[1+size:1+size+int(n)], &h); err != nil {
		return nil, fmt.Errorf("%w: %w", errBody, err)
	}
	r := &numbers{b: b[1+size+int(n):]}
	if h.Hours < 0 || h.Blocks < 0 || h.DayMax < 0 || len(r.b) != h.Hours*(1+8*len(layers(&forecast.Hour{})))+h.Blocks*32+h.DayMax*24 {
		return nil, errBody
	}
	return h.series(r)
}

func (h *header) series(r *numbers) (*forecast.Series, error) {
	start := time.Unix(h.Start*3600, 0).UTC()
	s := forecast.New(start, start.Add(time.Duration(h.Hours)*time.Hour))
	s.Feed, s.Source, s.Attribution, s.Issued, s.Notes = h.Feed, h.Source, h.Attribution, h.Issued, h.Notes
	s.Point = forecast.Place{Lat: h.Lat, Lon: h.Lon, Elevation: h.Elevation}
	if h.Zone != "" {
		zone, err := time.LoadLocation(h.Zone)
		if err != nil {
			return nil, fmt.Errorf("%w: %w", errBody, err)
		}
		s.Point.Zone = zone
	}
	for i := range s.Hours {
		o := forecast.Origin(r.byte())
		if o > forecast.OriginReanalysis {
			return nil, errBody
		}
		s.Hours[i].Origin = o
	}
	for k := range layers(&forecast.Hour{}) {
		for i := range s.Hours {
			*layers(&s.Hours[i])[k] = r.value()
		}
	}
	for range h.Blocks {
		s.Blocks = append(s.Blocks, forecast.RainBlock{Start: r.time(), End: r.time(), Amount: r.value(), Prob: r.value()})
	}
	for range h.DayMax {
		s.DayMax = append(s.DayMax, forecast.Extreme{Start: r.time(), End: r.time(), Temp: r.value()})
	}
	return s, nil
}

// numbers reads from bytes whose length was checked.
type numbers struct{ b []byte }

func (r *numbers) byte() byte {
	c := r.b[0]
	r.b = r.b[1:]
	return c
}

func (r *numbers) word() uint64 {
	n := binary.LittleEndian.Uint64(r.b)
	r.b = r.b[8:]
	return n
}

func (r *numbers) value() forecast.Value { return forecast.Known(math.Float64frombits(r.word())) }

func (r *numbers) time() time.Time { return time.Unix(int64(r.word()), 0).UTC() }

// hourOf counts full hours since 1970.
func hourOf(t time.Time) int64 { return floorDiv(t.Unix(), 3600) }

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

func hourStart(n int64) time.Time { return time.Unix(n*3600, 0).UTC() }
