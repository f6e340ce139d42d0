package brightsky

import (
	stdjson "encoding/json"
	"testing"
	"time"

	"dawnbrush/forecast/feed/feedtest"
)

// peerDocument is the same selection for the standard decoder, the peer that the chosen one is
// measured against in the same run.
type peerDocument struct {
	Weather []record `json:"weather"`
	Sources []source `json:"sources"`
}

// BenchmarkParse measures the whole reading, the decoding alone, and the standard decoder on
// the same documents: a recorded one, and an answer to this program's own question.
func BenchmarkParse(b *testing.B) {
	b.Run("recording", func(b *testing.B) { measure(b, feedtest.Recording(b, recorded)) })
	b.Run("invented", func(b *testing.B) { measure(b, invented(asked).bytes(b)) })
}

func measure(b *testing.B, doc []byte) {
	for _, c := range []struct {
		name string
		run  func() error
	}{
		{"whole", func() error { _, err := Reader{}.Parse(doc, time.Time{}); return err }},
		{"decode", func() error { _, err := decodeDocument(doc); return err }},
		{"encoding-json", func() error { var d peerDocument; return stdjson.Unmarshal(doc, &d) }},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(doc)))
			b.ReportAllocs()
			for b.Loop() {
				if err := c.run(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
