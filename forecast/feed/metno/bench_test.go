package metno

import (
	"testing"

	"dawnbrush/forecast/feed/feedtest"
)

// peerDocument is the same selection for the standard decoder, the peer that the chosen
// one is measured against in the same run.
type peerDocument struct {
	Geometry struct {
		Coordinates []*float64 `json:"coordinates"`
	} `json:"geometry"`
	Properties struct {
		Meta struct {
			UpdatedAt string             `json:"updated_at"`
			Units     parameters[string] `json:"units"`
		} `json:"meta"`
		TimeSeries []struct {
			Time string `json:"time"`
			Data struct {
				Instant  peerPeriod `json:"instant"`
				NextHour peerPeriod `json:"next_1_hours"`
				NextSix  peerPeriod `json:"next_6_hours"`
			} `json:"data"`
		} `json:"timeseries"`
	} `json:"properties"`
}

type peerPeriod struct {
	Details parameters[*float64] `json:"details"`
}

// BenchmarkParse measures the whole reading, the decoding alone, and the standard decoder
// on the same documents: a recorded one, and an invented one of the usual size.
func BenchmarkParse(b *testing.B) {
	b.Run("recording", func(b *testing.B) { measure(b, feedtest.Recording(b, recorded[1].name)) })
	b.Run("invented", func(b *testing.B) { measure(b, invented(issued).bytes(b)) })
}

func measure(b *testing.B, doc []byte) {
	feedtest.Measure(b, Reader{}, doc, func(doc []byte) error { _, err := decode(doc); return err }, func() any { return new(peerDocument) })
}
