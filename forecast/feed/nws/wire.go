package nws

import (
	"bytes"
	"fmt"
	"math"
	"strconv"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// The types here mirror https://api.weather.gov/openapi.json, schemas
// GridpointGeoJson and ObservationCollectionGeoJson; only what is used is
// named, everything else is skipped while reading. validTimes is not among it:
// the layers themselves say what they cover, and some go on after it.

// gridDocument is the answer of /gridpoints/{office}/{x},{y}.
type gridDocument struct {
	Features   present        `json:"features"` // only collections have it
	Geometry   geometry       `json:"geometry"`
	Properties gridProperties `json:"properties"`
}

type gridProperties struct {
	UpdateTime string   `json:"updateTime"`
	Elevation  quantity `json:"elevation"`
	GridID     string   `json:"gridId"`
	Periods    present  `json:"periods"` // only the forecasts in words have it

	Temperature    layer `json:"temperature"`
	DewPoint       layer `json:"dewpoint"`
	Humidity       layer `json:"relativeHumidity"`
	WindSpeed      layer `json:"windSpeed"`
	WindDirection  layer `json:"windDirection"`
	WindGust       layer `json:"windGust"`
	SkyCover       layer `json:"skyCover"`
	RainChance     layer `json:"probabilityOfPrecipitation"`
	RainAmount     layer `json:"quantitativePrecipitation"`
	ThunderChance  layer `json:"probabilityOfThunder"`
	MaxTemperature layer `json:"maxTemperature"`
}

// layer is one quantity over time. An empty layer carries no unit.
type layer struct {
	UOM    string   `json:"uom"`
	Values []sample `json:"values"`
}

type sample struct {
	ValidTime string `json:"validTime"`
	Value     number `json:"value"`
}

// quantity is a single value with its unit.
type quantity struct {
	UnitCode string `json:"unitCode"`
	Value    number `json:"value"`
	QC       string `json:"qualityControl"`
}

// number is a value that may be null. Some documents write numbers as strings.
type number struct {
	v     float64
	known bool
}

// UnmarshalJSONFrom reads a number, null or a number in quotes.
func (n *number) UnmarshalJSONFrom(dec *jsontext.Decoder) error {
	raw, err := dec.ReadValue()
	if err != nil {
		return err
	}
	if raw.Kind() == 'n' {
		*n = number{}
		return nil
	}
	v, err := strconv.ParseFloat(string(bytes.Trim(raw, `"`)), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Errorf("%.20q is not a number", []byte(raw))
	}
	*n = number{v, true}
	return nil
}

// text is a word that some documents write as a number: gridX was a string
// until 2024 and is a number since.
type text string

// UnmarshalJSONFrom reads a string or a number as written.
func (t *text) UnmarshalJSONFrom(dec *jsontext.Decoder) error {
	raw, err := dec.ReadValue()
	if err != nil {
		return err
	}
	*t = text(bytes.Trim(raw, `"`))
	return nil
}

// present tells whether a member is there, whatever it holds.
type present bool

// UnmarshalJSONFrom skips the value.
func (p *present) UnmarshalJSONFrom(dec *jsontext.Decoder) error {
	*p = true
	return dec.SkipValue()
}

// geometry is a GeoJSON outline or point.
type geometry struct {
	Corners ring `json:"coordinates"`
}

// ring holds the corners of the first ring of a polygon, or the one point, as
// longitude and latitude.
type ring [][2]float64

// UnmarshalJSONFrom takes the first run of positions, however deep it lies.
// [RFC 7946 section 3.1]
func (r *ring) UnmarshalJSONFrom(dec *jsontext.Decoder) error {
	*r = nil
	if dec.PeekKind() != '[' {
		return dec.SkipValue()
	}
	outside, closed := dec.StackDepth(), false // closed: the first run has ended
	var position []float64
	for {
		tok, err := dec.ReadToken()
		if err != nil {
			return err
		}
		switch kind := tok.Kind(); {
		case kind == '0' && !closed:
			v, err := tok.Float()
			if err != nil {
				return err
			}
			position = append(position, v)
		case kind == ']' && len(position) >= 2 && !closed:
			*r, position = append(*r, [2]float64{position[0], position[1]}), position[:0]
		case kind == ']':
			closed = true
		}
		if dec.StackDepth() == outside {
			return nil
		}
	}
}

// decode reads a document. Text in a wrong encoding harms nothing that is used.
func decode(doc []byte, into any) error {
	return json.Unmarshal(doc, into, jsontext.AllowInvalidUTF8(true))
}
