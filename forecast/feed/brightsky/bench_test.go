package brightsky

import (
	"testing"

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
	feedtest.Measure(b, Reader{}, doc, func(doc []byte) error { _, err := decodeDocument(doc); return err }, func() any { return new(peerDocument) })
}
