package nws

import (
	stdjson "encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"dawnbrush/forecast/feed/feedtest"
)

// peerDocument is the same selection of layers for the standard decoder, the
// peer that the chosen one is measured against in the same run.
type peerDocument struct {
	Properties struct {
		UpdateTime     string    `json:"updateTime"`
		Temperature    peerLayer `json:"temperature"`
		DewPoint       peerLayer `json:"dewpoint"`
		Humidity       peerLayer `json:"relativeHumidity"`
		WindSpeed      peerLayer `json:"windSpeed"`
		WindGust       peerLayer `json:"windGust"`
		SkyCover       peerLayer `json:"skyCover"`
		RainChance     peerLayer `json:"probabilityOfPrecipitation"`
		RainAmount     peerLayer `json:"quantitativePrecipitation"`
		ThunderChance  peerLayer `json:"probabilityOfThunder"`
		MaxTemperature peerLayer `json:"maxTemperature"`
	} `json:"properties"`
}

type peerLayer struct {
	UOM    string `json:"uom"`
	Values []struct {
		ValidTime string   `json:"validTime"`
		Value     *float64 `json:"value"`
	} `json:"values"`
}

// large is an invented document of about 300 KB, laid out as the service does,
// with fifty layers that are not used.
func large(b *testing.B) []byte {
	p := invented(issued)
	start := issued.Truncate(time.Hour)
	for i := range 50 {
		p[fmt.Sprintf("layer%02d", i)] = layerOf("wmoUnit:degC", start, hourly(45, func(k int) any { return float64(k*i) / 9 })...)
	}
	var doc map[string]any
	require.NoError(b, stdjson.Unmarshal(document(b, p), &doc))
	out, err := stdjson.MarshalIndent(doc, "", " ")
	require.NoError(b, err)
	return out
}

// BenchmarkParse measures the whole reading, the decoding alone, and the
// standard decoder on the same documents.
func BenchmarkParse(b *testing.B) {
	b.Run("recording", func(b *testing.B) {
		measure(b, feedtest.Recording(b, "nws/restored/wg2026jul_raw_ALY_71_67.json"))
	})
	b.Run("invented", func(b *testing.B) { measure(b, large(b)) })
}

func measure(b *testing.B, doc []byte) {
	feedtest.Measure(b, Reader{}, doc, func(doc []byte) error { _, err := decodeGrid(doc); return err }, func() any { return new(peerDocument) })
}
