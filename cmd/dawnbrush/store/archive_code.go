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

	"github.com/klauspost/compress/s2"

	"dawnbrush/forecast"
)

// How a series is kept: a header in JSON with its length before it; then each
// layer of the hours, one after another, because neighbours in time are alike
// and pack well; then rain blocks and highest temperatures. Numbers are 8 bytes,
// little-endian; not-a-number stands for unknown. All of it is packed as an S2 block
// after a byte that tells so. Until layout 3 it was deflated (RFC 1951) instead: that
// packs tighter, but its writer asks for a megabyte, two fifths of what a morning's
// run needed in all.

// bodyVersion is the first byte of a body before it is packed.
const bodyVersion = 1

// What an hour, a block and an extreme take in a body.
const (
	hourBytes    = 1 + 8*layerCount
	blockBytes   = 4 * 8
	extremeBytes = 3 * 8
	layerCount   = 10
)

// packed begins an S2 block. No deflated body begins so: the type of its first block
// would be the reserved one. [RFC 1951 section 3.2.3]
const packed = 0x07

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
func layers(h *forecast.Hour) [layerCount]*forecast.Value {
	return [layerCount]*forecast.Value{&h.Temp, &h.DewPoint, &h.RH, &h.Wind, &h.Gust, &h.Sky, &h.Radiation, &h.Rain, &h.RainProb, &h.Thunder}
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
	b := make([]byte, 0, 16+len(head)+len(s.Hours)*hourBytes+len(s.Blocks)*blockBytes+len(s.DayMax)*extremeBytes)
	b = binary.AppendUvarint(append(b, bodyVersion), uint64(len(head)))
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
	out := make([]byte, 1+s2.MaxEncodedLen(len(b)))
	out[0] = packed
	return out[:1+len(s2.Encode(out[1:], b))], nil
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

// unfold gives a body as it was before it was packed.
func unfold(body []byte) ([]byte, error) {
	if len(body) == 0 || body[0] != packed {
		return io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(body)), mostBody))
	}
	n, err := s2.DecodedLen(body[1:])
	if err != nil || n > mostBody {
		return nil, errors.Join(err, errBody)
	}
	return s2.Decode(make([]byte, n), body[1:])
}

// unpack reads what pack wrote.
func unpack(body []byte) (*forecast.Series, error) {
	b, err := unfold(body)
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
	if h.Hours < 0 || h.Blocks < 0 || h.DayMax < 0 || len(r.b) != h.Hours*hourBytes+h.Blocks*blockBytes+h.DayMax*extremeBytes {
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
