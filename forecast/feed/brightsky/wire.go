package brightsky

import (
	"time"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// The types here mirror https://api.brightsky.dev/openapi.json, schemas WeatherResponse,
// WeatherRecord and Source; only what is used is named, everything else is skipped while
// reading. The "condition" in words is left out: it can say rain where none is measured.

// document is the answer of /weather, or an error.
type document struct {
	Weather weather        `json:"weather"`
	Sources []source       `json:"sources"`
	Detail  jsontext.Value `json:"detail"` // of an error: words, or a list of what is wrong with the question

	left int // records without a usable time
}

// weather is the list of hours. The service's weather of now is one record in its place.
type weather struct {
	records []record
	single  bool
}

// UnmarshalJSONFrom reads the list.
func (w *weather) UnmarshalJSONFrom(dec *jsontext.Decoder) error {
	switch dec.PeekKind() {
	case '[':
		return json.UnmarshalDecode(dec, &w.records)
	case '{':
		w.single = true
	}
	return dec.SkipValue()
}

// record is the weather at a time stamp and in the hour before it. Anything may be null.
type record struct {
	Timestamp string `json:"timestamp"` // with its offset from UTC
	SourceID  int64  `json:"source_id"` // the main source

	Temp      *float64 `json:"temperature"`
	DewPoint  *float64 `json:"dew_point"`
	RH        *float64 `json:"relative_humidity"` // %; forecasts have none of their own
	Sky       *float64 `json:"cloud_cover"`       // %
	Wind      *float64 `json:"wind_speed"`        // mean of the hour
	WindFrom  *float64 `json:"wind_direction"`    // mean of the hour, degrees
	Gust      *float64 `json:"wind_gust_speed"`   // highest of the hour
	Solar     *float64 `json:"solar"`             // energy of the hour
	Rain      *float64 `json:"precipitation"`     // mm of the hour
	Chance    *float64 `json:"precipitation_probability"`
	ChanceSix *float64 `json:"precipitation_probability_6h"`

	Fallback fallback `json:"fallback_source_ids"`

	TenMinutes jsontext.Value `json:"wind_speed_10"` // only reports every ten minutes have it

	at       time.Time // the time stamp, UTC
	measured bool      // by its main source
}

// fallback names the other sources of values that the main one lacks; 0 for none.
type fallback struct {
	Temp     int64 `json:"temperature"`
	DewPoint int64 `json:"dew_point"`
	RH       int64 `json:"relative_humidity"`
	Sky      int64 `json:"cloud_cover"`
	Wind     int64 `json:"wind_speed"`
	WindFrom int64 `json:"wind_direction"`
	Gust     int64 `json:"wind_gust_speed"`
	Solar    int64 `json:"solar"`
	Rain     int64 `json:"precipitation"`
}

// source is a station, or a point of the forecasts.
type source struct {
	ID       int64    `json:"id"`
	Kind     string   `json:"observation_type"`
	Name     string   `json:"station_name"`
	Lat      float64  `json:"lat"`
	Lon      float64  `json:"lon"`
	Height   *float64 `json:"height"`      // m
	Distance *float64 `json:"distance"`    // m from the place asked for
	Last     string   `json:"last_record"` // time of its latest record
}

// Kinds of a source. [BrightSky]
const (
	kindForecast   = "forecast"
	kindHistorical = "historical" // checked
	kindCurrent    = "current"    // of the last days
	kindSynop      = "synop"      // reports as they come
)

// measured tells whether a station measured it. A source of a kind not known here counts as a
// forecast, which never passes for a measurement.
func (s *source) measured() bool {
	return s != nil && (s.Kind == kindHistorical || s.Kind == kindCurrent || s.Kind == kindSynop)
}

// decode reads a document. Text in a wrong encoding harms nothing that is used.
func decode(doc []byte, into any) error {
	return json.Unmarshal(doc, into, jsontext.AllowInvalidUTF8(true))
}
