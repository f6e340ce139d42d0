package nws

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"
)

// The types here mirror https://api.weather.gov/openapi.json, schemas
// GridpointGeoJson and ObservationCollectionGeoJson; only what is used is
// named, everything else is skipped while reading.

// gridDocument is the answer of /gridpoints/{office}/{x},{y}.
type gridDocument struct {
	Geometry   geometry       `json:"geometry"`
	Properties gridProperties `json:"properties"`
}

type gridProperties struct {
	Kind       string          `json:"@type"`
	UpdateTime string          `json:"updateTime"`
	ValidTimes string          `json:"validTimes"`
	Elevation  quantity        `json:"elevation"`
	GridID     string          `json:"gridId"`
	GridX      text            `json:"gridX"`
	GridY      text            `json:"gridY"`
	Periods    json.RawMessage `json:"periods"` // only the text forecasts have it

	Temperature    layer `json:"temperature"`
	DewPoint       layer `json:"dewpoint"`
	Humidity       layer `json:"relativeHumidity"`
	WindSpeed      layer `json:"windSpeed"`
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

// UnmarshalJSON reads a number, null or a number in quotes.
func (n *number) UnmarshalJSON(b []byte) error {
	if bytes.Equal(b, []byte("null")) {
		*n = number{}
		return nil
	}
	v, err := strconv.ParseFloat(string(bytes.Trim(b, `"`)), 64)
	if err != nil {
		return fmt.Errorf("%.20q is not a number", b)
	}
	*n = number{v, true}
	return nil
}

// text is a word that some documents write as a number: gridX was a string
// until 2024 and is a number since.
type text string

// UnmarshalJSON reads a string or a number as written.
func (t *text) UnmarshalJSON(b []byte) error {
	*t = text(bytes.Trim(b, `"`))
	return nil
}

// geometry keeps the corners of the first ring of a polygon, or the one point.
type geometry struct {
	corners [][2]float64 // longitude, latitude
}

// UnmarshalJSON takes the polygon or the point and leaves any other shape
// empty: a document is usable without its outline.
func (g *geometry) UnmarshalJSON(b []byte) error {
	var p struct {
		Coordinates [][][2]float64 `json:"coordinates"`
	}
	if json.Unmarshal(b, &p) == nil && len(p.Coordinates) > 0 {
		g.corners = p.Coordinates[0]
		return nil
	}
	var q struct {
		Coordinates [2]float64 `json:"coordinates"`
	}
	if json.Unmarshal(b, &q) == nil {
		g.corners = [][2]float64{q.Coordinates}
	}
	return nil
}
