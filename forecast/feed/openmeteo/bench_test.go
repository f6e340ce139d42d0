package openmeteo

import (
	"testing"

	"dawnbrush/forecast/feed/feedtest"
)

// peerDocument is the same selection for the standard decoder, the peer that the chosen one
// is measured against in the same run.
type peerDocument struct {
	Latitude  float64           `json:"latitude"`
	Longitude float64           `json:"longitude"`
	Elevation *float64          `json:"elevation"`
	UTCOffset *int64            `json:"utc_offset_seconds"`
	Timezone  string            `json:"timezone"`
	Units     map[string]string `json:"hourly_units"`
	Hourly    struct {
		Time      []any      `json:"time"`
		Temp      []*float64 `json:"temperature_2m"`
		DewPoint  []*float64 `json:"dew_point_2m"`
		RH        []*float64 `json:"relative_humidity_2m"`
		RHOld     []*float64 `json:"relativehumidity_2m"`
		Wind      []*float64 `json:"wind_speed_10m"`
		WindOld   []*float64 `json:"windspeed_10m"`
		Gust      []*float64 `json:"wind_gusts_10m"`
		Sky       []*float64 `json:"cloud_cover"`
		Radiation []*float64 `json:"shortwave_radiation"`
		RainProb  []*float64 `json:"precipitation_probability"`
		Rain      []*float64 `json:"precipitation"`
	} `json:"hourly"`
}

// BenchmarkParse measures the whole reading, the decoding alone, and the standard decoder on
// the same documents: a recorded one, and an answer to this program's own question.
func BenchmarkParse(b *testing.B) {
	b.Run("recording", func(b *testing.B) { measure(b, feedtest.Recording(b, recorded[2])) })
	b.Run("invented", func(b *testing.B) { measure(b, invented(asked).bytes(b)) })
}

func measure(b *testing.B, doc []byte) {
	feedtest.Measure(b, Reader{}, doc, func(doc []byte) error { _, err := decodeDocument(doc); return err }, func() any { return new(peerDocument) })
}
